package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.Finding;
import org.tonewedge.standards.densitometer.verdict.Severity;
import org.tonewedge.standards.densitometer.verdict.StepOutcome;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;

/** Writes a verdict in the form of a test report: one test for each step and one for each fault that was found. */
final class JUnitFile {

    private JUnitFile() {}

    static void write(DensitometerVerdict verdict, Path file) throws IOException {
        List<Finding> faults = verdict.findings().stream()
                .filter(found -> found.severity() == Severity.FAULT)
                .toList();
        long failed = verdict.steps().stream()
                .filter(step -> step.outcome() != StepOutcome.PASS)
                .count();
        try (OutputStream bytes = Files.newOutputStream(file)) {
            XMLStreamWriter xml =
                    XMLOutputFactory.newInstance().createXMLStreamWriter(bytes, StandardCharsets.UTF_8.name());
            xml.writeStartDocument(StandardCharsets.UTF_8.name(), "1.0");
            xml.writeCharacters("\n");
            xml.writeStartElement("testsuite");
            xml.writeAttribute("name", "densitometer");
            xml.writeAttribute("tests", Integer.toString(verdict.steps().size() + faults.size()));
            xml.writeAttribute("failures", Long.toString(failed + faults.size()));
            xml.writeAttribute("errors", "0");
            xml.writeAttribute("skipped", "0");
            xml.writeCharacters("\n");
            for (StepVerdict step : verdict.steps()) {
                testCase(
                        xml,
                        "densitometer.steps",
                        "step " + step.step().number() + ", " + step.step().density(),
                        step.outcome() == StepOutcome.PASS ? "" : step.toString());
            }
            for (Finding fault : faults) {
                testCase(
                        xml,
                        "densitometer.findings",
                        fault.kind().name()
                                + (fault.step().isPresent()
                                        ? " at step " + fault.step().getAsInt()
                                        : ""),
                        fault.words() + "; " + fault.remedy());
            }
            xml.writeStartElement("system-out");
            xml.writeCharacters(
                    verdict.findings().stream().map(Finding::toString).collect(Collectors.joining("\n")));
            xml.writeEndElement();
            xml.writeCharacters("\n");
            xml.writeEndElement();
            xml.writeEndDocument();
            xml.close();
        } catch (XMLStreamException e) {
            throw new IOException("could not write " + file, e);
        }
    }

    private static void testCase(XMLStreamWriter xml, String group, String name, String failure)
            throws XMLStreamException {
        xml.writeStartElement("testcase");
        xml.writeAttribute("classname", group);
        xml.writeAttribute("name", name);
        if (!failure.isEmpty()) {
            xml.writeStartElement("failure");
            xml.writeAttribute("message", failure);
            xml.writeEndElement();
        }
        xml.writeEndElement();
        xml.writeCharacters("\n");
    }
}
