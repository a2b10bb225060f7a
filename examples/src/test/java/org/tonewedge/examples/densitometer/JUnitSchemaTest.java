// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import javax.xml.xpath.XPathFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** The reports of tests are valid and count themselves right. */
class JUnitSchemaTest {

    private static final Path DEMO = Path.of("demo", "densitometer");

    @TempDir
    private Path directory;

    private static void validate(String xml) throws Exception {
        Schema schema = SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
                .newSchema(JUnitSchemaTest.class.getResource("junit.xsd"));
        schema.newValidator().validate(new StreamSource(new StringReader(xml)));
    }

    private String report(String log, String text) throws Exception {
        Path input = text.isEmpty() ? DEMO.resolve(log) : Files.writeString(directory.resolve(log), text);
        Path out = directory.resolve("out");
        PrintWriter nowhere = new PrintWriter(new StringWriter());
        DensitometerCheckProgram.run(
                new String[] {
                    input.toString(),
                    "--tablet",
                    DEMO.resolve("tablet.csv").toString(),
                    "--out",
                    out.toString(),
                    "--no-plots"
                },
                InputStream.nullInputStream(),
                nowhere,
                nowhere);
        return Files.readString(out.resolve("junit.xml"));
    }

    private static double number(String path, String xml) throws Exception {
        return Double.parseDouble(
                XPathFactory.newInstance().newXPath().evaluate(path, new InputSource(new StringReader(xml))));
    }

    @ParameterizedTest
    @CsvSource({
        "healthy.log, ''",
        "stray-light.csv, ''",
        "firmware-fault.tsv, ''",
        "unreadable.log, 'hello <world> & \"you\" \u0001'",
        "short.log, 'step=1 D=0.05'",
    })
    void isValidAndCountsItself(String log, String text) throws Exception {
        String xml = report(log, text);

        assertDoesNotThrow(() -> validate(xml), xml);
        assertEquals(number("count(//testcase)", xml), number("/testsuite/@tests", xml));
        assertEquals(number("count(//failure)", xml), number("/testsuite/@failures", xml));
        assertEquals(number("count(//error)", xml), number("/testsuite/@errors", xml));
        assertEquals(number("count(//skipped)", xml), number("/testsuite/@skipped", xml));
    }

    @Test
    void aWarningIsATestThatIsSkipped() throws Exception {
        // readings of one pass, so that nothing is known between runs
        StringBuilder log = new StringBuilder();
        for (String line : Files.readAllLines(DEMO.resolve("tablet.csv"))) {
            String[] row = line.split(",", -1);
            if (row[0].matches("\\d+")) {
                log.append("step=").append(row[0]).append(" D=").append(row[1]).append('\n');
            }
        }
        String xml = report("once.log", log.toString());

        assertTrue(number("count(//testcase[@classname='densitometer.findings']/skipped)", xml) > 0, xml);
        assertEquals(0, number("/testsuite/@failures", xml));
    }

    /** The schema refuses what it should. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "timestamp=\"[^\"]*\" ",
                "hostname=\"[^\"]*\" ",
                " time=\"[^\"]*\"",
                " type=\"[^\"]*\"",
                " classname=\"[^\"]*\"",
                "<system-err/>",
                "<properties/>",
                "T\\d\\d:\\d\\d",
            })
    void isNotValidWithoutAPart(String part) throws Exception {
        String xml = report("stray-light.csv", "");
        String damaged = xml.replaceAll(part, "");
        assertTrue(!damaged.equals(xml), part);

        assertThrows(SAXException.class, () -> validate(damaged));
    }
}
