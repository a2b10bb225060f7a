// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.StringWriter;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.Finding;
import org.tonewedge.standards.densitometer.verdict.Severity;
import org.tonewedge.standards.densitometer.verdict.StepOutcome;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;

/**
 * A verdict in the form of a test report: one test for each step, and one for each finding that is a fault (failed) or a
 * warning (skipped, so that it shows without failing a build).
 */
final class JUnitFile {

    private static final DateTimeFormatter SECONDS = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss");

    private static final double MILLISECONDS = 1000;

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;

    private JUnitFile() throws XMLStreamException {
        xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
    }

    private interface Body {

        void write(JUnitFile file) throws XMLStreamException;
    }

    private static String written(Body body) {
        try {
            JUnitFile file = new JUnitFile();
            body.write(file);
            file.xml.close();
            return file.text.toString();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("a text could not be written", e);
        }
    }

    static String of(DensitometerVerdict verdict, Instant begun, Duration taken) {
        List<Finding> told = verdict.findings().stream()
                .filter(found -> found.severity() != Severity.NOTE)
                .toList();
        long faults = told.stream()
                .filter(found -> found.severity() == Severity.FAULT)
                .count();
        long failed = verdict.steps().stream()
                .filter(step -> step.outcome() != StepOutcome.PASS)
                .count();
        return written(file -> {
            file.begin(verdict.steps().size() + told.size(), failed + faults, 0, told.size() - faults, begun, taken);
            for (StepVerdict step : verdict.steps()) {
                file.test(
                        "densitometer.steps",
                        "step " + step.step().number() + ", " + step.step().density(),
                        step.outcome() == StepOutcome.PASS ? "" : "failure",
                        step.outcome().name(),
                        step.toString());
            }
            for (Finding found : told) {
                file.test(
                        "densitometer.findings",
                        found.kind().name()
                                + (found.step().isPresent()
                                        ? " at step " + found.step().getAsInt()
                                        : ""),
                        found.severity() == Severity.FAULT ? "failure" : "skipped",
                        found.kind().name(),
                        found.message() + "; " + found.remedy());
            }
            file.end(verdict.findings().stream().map(Finding::toString).collect(Collectors.joining("\n")));
        });
    }

    static String ofError(String message, Instant begun, Duration taken) {
        return written(file -> {
            file.begin(1, 0, 1, 0, begun, taken);
            file.test("densitometer", "the check", "error", "CHECK_NOT_MADE", message);
            file.end(message);
        });
    }

    private void begin(long tests, long failures, long errors, long skipped, Instant begun, Duration taken)
            throws XMLStreamException {
        xml.writeStartDocument("UTF-8", "1.0");
        xml.writeCharacters("\n");
        xml.writeStartElement("testsuite");
        xml.writeAttribute("name", "densitometer");
        xml.writeAttribute("timestamp", SECONDS.format(begun.atOffset(ZoneOffset.UTC)));
        xml.writeAttribute("hostname", "localhost");
        xml.writeAttribute("tests", Long.toString(tests));
        xml.writeAttribute("failures", Long.toString(failures));
        xml.writeAttribute("errors", Long.toString(errors));
        xml.writeAttribute("skipped", Long.toString(skipped));
        xml.writeAttribute("time", String.format(Locale.ROOT, "%.3f", taken.toMillis() / MILLISECONDS));
        xml.writeCharacters("\n");
        xml.writeEmptyElement("properties");
        xml.writeCharacters("\n");
    }

    /** The result is the element of one that is not a success; empty for a success. */
    private void test(String group, String name, String result, String type, String message) throws XMLStreamException {
        xml.writeStartElement("testcase");
        xml.writeAttribute("classname", group);
        xml.writeAttribute("name", name);
        xml.writeAttribute("time", "0");
        if (!result.isEmpty()) {
            xml.writeEmptyElement(result);
            if (!result.equals("skipped")) {
                xml.writeAttribute("type", type);
            }
            xml.writeAttribute("message", printable(message));
        }
        xml.writeEndElement();
        xml.writeCharacters("\n");
    }

    private void end(String said) throws XMLStreamException {
        xml.writeStartElement("system-out");
        xml.writeCharacters(printable(said));
        xml.writeEndElement();
        xml.writeCharacters("\n");
        xml.writeEmptyElement("system-err");
        xml.writeCharacters("\n");
        xml.writeEndElement();
        xml.writeEndDocument();
    }

    /** XML has no place for control characters. */
    private static String printable(String text) {
        return text.replaceAll("[\\p{Cntrl}&&[^\n\t]]", "?");
    }
}
