// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.colour.Channel;
import org.tonewedge.standards.colour.MultichannelStrip;

class DensityExchangeTest {

    /** The form as general-purpose readers take it: comments, single quotes, several values on a line, undeclared names. */
    private static final String FOREIGN = """
            CGATS.17
            ORIGINATOR "example"   # made by hand
            FILE_DESCRIPTOR 'step wedge, diffuse visual'
            CREATED "2024-01-31"
            MEASUREMENT_GEOMETRY "transmission, opal, 3 mm"
            KEYWORD "LOG_H_UNIT"
            LOG_H_UNIT "lux second"
            DATA_FORMAT_IDENTIFIER "LOG_H"
            NUMBER_OF_FIELDS 3
            BEGIN_DATA_FORMAT
            SAMPLE_ID LOG_H
            D_VIS
            END_DATA_FORMAT
            NUMBER_OF_SETS 2
            BEGIN_DATA
            1 -3.00 0.25 2 -2.85 2.7E-1
            END_DATA
            """;

    private static List<ExchangeTable> read(String text) throws IOException {
        return DensityExchange.read("wedge.txt", new StringReader(text));
    }

    @Test
    void aForeignFileIsRead() throws IOException {
        ExchangeTable table = read(FOREIGN).get(0);
        assertEquals("transmission, opal, 3 mm", table.keywords().get("MEASUREMENT_GEOMETRY"));
        assertEquals(List.of("SAMPLE_ID", "LOG_H", "D_VIS"), table.fields());
        assertEquals(List.of(0.25, 0.27), table.numbers("D_VIS"));
        assertEquals(List.of("2", "-2.85", "2.7E-1"), table.rows().get(1));
        Strip strip = table.strip().strip(Channel.VISUAL);
        assertEquals(LogExposure.ofLogLuxSeconds(-2.85), strip.steps().get(1).exposure());
        assertEquals(Density.of(0.27), strip.steps().get(1).density());
    }

    @ParameterizedTest
    @CsvSource({"'\r\n'", "'\r'", "'\n\u001A rest that is not read'"})
    void lineEndsMayBeAnyAndTheFileMayEndEarly(String end) throws IOException {
        String text = end.startsWith("\n") ? FOREIGN + end.substring(1) : FOREIGN.replace("\n", end);
        assertEquals(List.of(-3.00, -2.85), read(text).get(0).numbers("LOG_H"));
    }

    @Test
    void stripsSurviveWritingAndReading(@TempDir Path folder) throws IOException {
        MultichannelStrip colour = MultichannelStrip.of(
                "S07",
                Map.of(
                        Channel.RED,
                        strip("S07", 0.2, ExposureAxis.LUX_SECONDS, SpectralResponse.STATUS_M_RED),
                        Channel.GREEN,
                        strip("S07", 0.5, ExposureAxis.LUX_SECONDS, SpectralResponse.STATUS_M_GREEN),
                        Channel.BLUE,
                        strip("S07", 0.8, ExposureAxis.LUX_SECONDS, SpectralResponse.STATUS_M_BLUE)));
        MultichannelStrip visual = MultichannelStrip.of(
                "S08",
                Map.of(Channel.VISUAL, strip("S08", 0.2, ExposureAxis.relativeTo("frame 1"), SpectralResponse.VISUAL)));
        StringWriter text = new StringWriter();
        DensityExchange.write("test bench", "two strips", LocalDate.of(2026, 1, 31), List.of(colour, visual), text);
        Path file = folder.resolve("strips.txt");
        Files.writeString(file, text.toString());

        List<ExchangeTable> tables = DensityExchange.read(file);
        assertEquals(2, tables.size());
        assertSame(colour, tables.get(0).strip());
        assertSame(visual, tables.get(1).strip());
        assertTrue(text.toString().startsWith("""
                CGATS.17
                ORIGINATOR "test bench"
                FILE_DESCRIPTOR "two strips"
                CREATED "2026-01-31"
                """), text.toString());
        assertTrue(text.toString().contains("SAMPLE_ID LOG_H D_RED D_GREEN D_BLUE\n"), text.toString());
        assertTrue(text.toString().contains("1 UNEXPOSED 0.2 0.5 0.8\n2 "), text.toString());
        // CGATS.17 declares a name of one's own before its value.
        assertTrue(text.toString().contains("KEYWORD \"LOG_H_UNIT\"\nLOG_H_UNIT \"lux second\"\n"), text.toString());
        assertTrue(text.toString().contains("DATA_FORMAT_IDENTIFIER \"LOG_H\"\n"), text.toString());
    }

    @Test
    void nothingStaysInABuffer() throws IOException {
        MultichannelStrip visual = MultichannelStrip.of(
                "S08", Map.of(Channel.VISUAL, strip("S08", 0.2, ExposureAxis.LUX_SECONDS, SpectralResponse.VISUAL)));
        StringWriter text = new StringWriter();
        BufferedWriter buffered = new BufferedWriter(text);
        DensityExchange.write("test bench", "one strip", LocalDate.of(2026, 1, 31), List.of(visual), buffered);
        assertTrue(text.toString().endsWith("END_DATA\n"), text.toString());
    }

    private static Strip strip(String id, double base, ExposureAxis axis, SpectralResponse response) {
        return Strip.builder(id)
                .densityResponse(response)
                .densityGeometry(TransmissionGeometry.PROJECTION_F4_5)
                .film("test film")
                .boxSpeed(125)
                .testConditions(TestConditions.notStated()
                        .withIlluminant("daylight filter")
                        .withExposureTime(Duration.ofNanos(333_333_333))
                        .withHold(Duration.ofHours(2))
                        .withStorage("sealed"))
                .processing(Processing.unknown()
                        .withDeveloper("developer A")
                        .withMinutes(7.5)
                        .withTemperature(Temperature.ofCelsius(20))
                        .withAgitation("every 30 s"))
                .basePlusFog(base)
                .reading(new LogExposure(-2, axis), Density.of(base + 0.1))
                .reading(new LogExposure(-2, axis), Density.of(base + 0.11))
                .reading(new LogExposure(-1.85, axis), Density.of(base + 0.2))
                .build();
    }

    private static void assertSame(MultichannelStrip expected, MultichannelStrip found) {
        assertEquals(expected.id(), found.id());
        assertEquals(expected.channels(), found.channels());
        for (Channel channel : expected.channels()) {
            Strip one = expected.strip(channel);
            Strip other = found.strip(channel);
            assertEquals(one.steps(), other.steps());
            assertEquals(one.basePlusFogReadings(), other.basePlusFogReadings());
            assertEquals(one.processing(), other.processing());
            assertEquals(one.testConditions(), other.testConditions());
            assertEquals(one.boxSpeed(), other.boxSpeed());
            assertEquals(one.film(), other.film());
            assertEquals(one.densityResponse(), other.densityResponse());
            assertEquals(one.densityGeometry(), other.densityGeometry());
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            NUMBER_OF_SETS 2           | NUMBER_OF_SETS 3            | CONTRADICTION | line 15: NUMBER_OF_SETS says 3 but there are 2
            NUMBER_OF_FIELDS 3         | NUMBER_OF_FIELDS 4          | CONTRADICTION | line 10: NUMBER_OF_FIELDS says 4 but there are 3
            0.25 2                     | 0,25 2                      | BAD_NUMBER    | line 16: field D_VIS: "0,25" is not a number
            -3.00 0.25                 | -3.00                       | WRONG_FORMAT  | line 15: the table has 5 values for rows of 3
            -3.00 0.25                 | -3.00 25                    | OUT_OF_RANGE  | line 16: density must be from
            LOG_H_UNIT "lux second"    | LOG_H_UNIT "footcandle"     | MISSING       | the unit of the exposures is "footcandle"
            LOG_H_UNIT "lux second"    | LOG_H_UNIT                  | MISSING       | line 7: keyword LOG_H_UNIT has no value
            LOG_H_UNIT "lux second"    | LOG_H_UNIT "lux second      | WRONG_FORMAT  | line 7: the string "lux second does not end
            END_DATA_FORMAT            | END_FORMAT                  | WRONG_FORMAT  | line 10: BEGIN_DATA_FORMAT without END_DATA_FORMAT
            D_VIS                      | D_MAJOR_FILTER              | MISSING       | the table has no density field
            SAMPLE_ID LOG_H            | SAMPLE_ID STEP              | MISSING       | the table has no field LOG_H
            """)
    void faultsAreNamedWithTheirLine(String right, String wrong, Fault fault, String message) {
        ExchangeException e = assertThrows(
                ExchangeException.class,
                () -> read(FOREIGN.replace(right, wrong)).get(0).strip());
        assertEquals(fault, e.fault());
        assertTrue(e.getMessage().startsWith("wedge.txt, line "), e.getMessage());
        assertTrue(e.getMessage().contains(message), e.getMessage());
    }

    @Test
    void textsWithoutATableAreRefused() {
        assertThrows(ExchangeException.class, () -> read(""));
        assertThrows(ExchangeException.class, () -> read("CGATS.17\nORIGINATOR \"a\"\n"));
        assertThrows(ExchangeException.class, () -> read("CGATS.17\nBEGIN_DATA\n1 2\nEND_DATA\n"));
    }

    @Test
    void whatTheFormCannotHoldIsNotWritten() {
        MultichannelStrip strip = MultichannelStrip.of(
                "S\"1", Map.of(Channel.VISUAL, strip("S1", 0.2, ExposureAxis.LUX_SECONDS, SpectralResponse.VISUAL)));
        StringWriter text = new StringWriter();
        LocalDate day = LocalDate.of(2026, 1, 31);
        assertThrows(IllegalArgumentException.class, () -> DensityExchange.write("a", "b", day, List.of(strip), text));
        assertThrows(IllegalArgumentException.class, () -> DensityExchange.write("a", "b", day, List.of(), text));
        MultichannelStrip tab = MultichannelStrip.of(
                "S\t1", Map.of(Channel.VISUAL, strip("S1", 0.2, ExposureAxis.LUX_SECONDS, SpectralResponse.VISUAL)));
        String message = assertThrows(
                        IllegalArgumentException.class, () -> DensityExchange.write("a", "b", day, List.of(tab), text))
                .getMessage();
        assertTrue(message.contains("tab"), message);
        assertEquals("", text.toString());
    }
}
