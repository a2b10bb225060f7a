// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.StringReader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.standards.densitometer.input.Certificate;
import org.tonewedge.standards.densitometer.input.CertificateTable;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LayoutGuess;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/** One simulated instrument prints its readings in many ways; each time the same verdict must come out. */
class LayoutsTest {

    private static final List<LogReading> READINGS = new SimulatedDensitometer(7).read(Logs.TABLET);

    /** 1 step, 2 density, 3 milliseconds, 4 temperature, 5 counts, 6 dark counts, 7 clock, 8 density with a comma. */
    private static String log(String header, String format) {
        StringBuilder log = new StringBuilder("boot ok\nmeter 1.2 ready\n");
        if (!header.isEmpty()) {
            log.append(header).append('\n');
        }
        for (LogReading reading : READINGS) {
            double density = reading.density().orElseThrow().value();
            int seconds = (int) reading.seconds().orElseThrow();
            log.append(String.format(
                            Locale.ROOT,
                            format,
                            reading.step().orElseThrow(),
                            density,
                            7500 + 1000 * seconds,
                            reading.celsius().orElseThrow(),
                            Math.round(200 + 6e6 * Math.pow(10, -density)),
                            200 + seconds % 3,
                            String.format(Locale.ROOT, "10:%02d:%02d", seconds / 60, seconds % 60),
                            String.format(Locale.ROOT, "%.3f", density).replace('.', ',')))
                    .append('\n');
        }
        return log.toString();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "| {\"step\": %1$d, \"density\": %2$.3f}",
                "| {\"t\":%3$d,\"reading\":{\"step\":%1$d,\"density\":%2$.3f,\"kind\":\"vis\"},\"tags\":[1,true,null]}",
                "| I (%3$d) dens: step=%1$d D=%2$.3f",
                "| I (%3$d) dens: step %1$d D %2$.3f",
                "| I (%3$d) dens: {\"step\":%1$d,\"D\":%2$.3f}",
                "| [%7$s] INFO dens: step=%1$d D=%2$.3f tempC=%4$.1f",
                "| %7$s.250 step=%1$d D=%2$.3f",
                "| 2026-01-31T%7$sZ INFO: S:%1$d, D:%2$.3f",
                "| [   12.345678] dens: step=%1$d, density=%2$.3f",
                "| %1$d %2$.3f",
                "|   %1$3d   %2$7.3f   %4$5.1f",
                "step density tempC | %1$d %2$.3f %4$.1f",
                "No   Dens | %1$d   %2$.3f",
                "| Step %1$d D %2$.3f",
                "| Step %1$d: %2$.3f D",
                "| Step %1$d -> D=%2$.3f (%4$.1f C)",
                "| S%1$d D%2$.3f",
                "| step %1$d, %2$.3fD",
                "| \"%1$d\",\"%2$.3f\",\"%4$.1f\"",
                "\"step\",\"density\",\"note\" | \"%1$d\",\"%2$.3f\",\"a, \"\"b\"\"\"",
                "| %1$d;%8$s",
                "step;density;tempC | %1$d;%8$s;21,5",
                "| %1$d %8$s",
                "| step=%1$d D=%8$s",
                "| step=%1$d, D=%8$s",
                "| Step %1$d: %8$s D",
                "step,D,tempC | %1$d,%2$.3f,%4$.1f",
                "| %7$s,%1$d,%2$.3f",
                "| %7$s %1$d %2$.3f",
                "| S=%1$d, raw=%5$d, dark=%6$d, open=6000200, odark=200",
                "| {\"step\":%1$d,\"raw\":%5$d,\"dark\":%6$d,\"open\":6000200,\"odark\":200,\"D\":%2$.3f}",
                "| %1$d %5$d %6$d 6000200",
            })
    void readsEveryLineOfTheSimulatedInstrument(String header, String format) throws IOException {
        String log = log(header == null ? "" : header.strip(), format);
        BufferedInputStream stream = new BufferedInputStream(Logs.stream(log));
        LayoutGuess guess = LayoutGuess.from(stream);

        ReadingsSummary summary = ReadingsSummary.read(stream, guess.layout(), Logs.TABLET);

        assertEquals(READINGS.size(), summary.tally().count(LineKind.READING), guess + "\n" + summary.tally());
        assertEquals(0, summary.tally().damaged(), summary.tally().toString());
        assertEquals(
                LogLayout.parse(guess.layout().toString()).toString(),
                guess.layout().toString());
        DensitometerVerdict verdict = DensitometerCheck.withDefaults().judge(summary);
        assertEquals(CheckOutcome.PASSED, verdict.outcome(), guess.toString());
        ReadingsSummary direct = ReadingsSummary.of(Logs.TABLET, READINGS);
        for (int i = 0; i < 21; i++) {
            assertEquals(
                    direct.densities().get(i).mean(), summary.densities().get(i).mean(), 0.0012, guess.toString());
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "bare |",
                "keys step=step density=d decimals=2 | step=%d D=%.2f",
                "words step=step density=d decimals=2 | Step %d D %.2f",
                "json step=step density=d decimals=2 | {\"step\":%d,\"D\":%.2f}",
                "blank step=1 density=2 decimals=2 width=2 | %d %.2f",
            })
    void neverTakesACutLineForAWholeOne(String layout, String format) {
        if (format == null) {
            assertEquals(1, Logs.read("bare decimals=2", "0.42\n0.4\n0.\n").densities().length);
            return;
        }
        String whole = String.format(Locale.ROOT, format, 3, 0.42);
        for (int end = 1; end < whole.length(); end++) {
            String text = String.format(Locale.ROOT, format, 1, 0.05) + "\n" + whole.substring(0, end) + "\n";
            assertEquals(1, Logs.read(layout, text).densities().length, text);
        }
        assertEquals(0.42, Logs.read(layout, whole + "\n").densities()[0]);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "Step 1 D 0.0 4 | UNREADABLE",
                "Step 1 D 0x04 | UNREADABLE",
                "Step 1 D 0.04 D 0.05 | CONTRADICTORY",
                "Step 1 2 D 0.04 | UNREADABLE",
                "Step D 0.04 | INCOMPLETE_LINE",
                "Step 1 0.04 | UNREADABLE",
                "hello | MESSAGE",
            })
    void refusesWordsThatDoNotGoWithTheirNumbers(String line, LineKind kind) {
        Logs.Read log = Logs.read("words step=step density=d", "Step 1 D 0.04\n" + line + "\n");

        assertEquals(1, log.tally().count(kind), log.tally().toString());
        assertEquals(1, log.densities().length);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"step\":1,\"D\":0.04,\"D\":0.05} | CONTRADICTORY",
                "{\"step\":1,\"D\":0.04}} | UNREADABLE",
                "{\"step\":1,\"D\":0.04 | INCOMPLETE_LINE",
                "{\"step\":1 \"D\":0.04} | UNREADABLE",
                "{\"step\":1,\"D\":null} | UNREADABLE",
                "{\"step\":1} | INCOMPLETE_LINE",
                "{\"state\":1} | MESSAGE",
                "ready | MESSAGE",
            })
    void refusesDamagedJson(String line, LineKind kind) {
        Logs.Read log = Logs.read("json step=step density=d", "{\"step\":1,\"D\":0.04}\n" + line + "\n");

        assertEquals(1, log.tally().count(kind), log.tally().toString());
        assertEquals(1, log.densities().length);
    }

    @Test
    void aPointIsUnreadableWhereTheLogHasDecimalCommas() {
        Logs.Read log = Logs.read("semicolon step=1 density=2 decimal=comma", "1;0,04\n2;0.19\n3;0,35\n");

        assertEquals(2, log.densities().length);
        assertEquals(1, log.tally().count(LineKind.UNREADABLE));
        assertThrows(DensitometerInputException.class, () -> LogLayout.parse("comma step=1 density=2 decimal=comma"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "x=0.04 y=1 | line 3 | none of which is known as a density",
                "{\"x\":0.04,\"y\":1} | line 3 | none of which is known as a density",
                "{\"step\":1,\"D\":0.04 | line 3 | not a whole object of JSON",
                "1,2,3 | line 3 | none of them alone looks like densities",
                "reading 0.04, 7 | line 3 | no header with a known name",
                "raw=812 dark=3 | line 3 | without those of the open gate",
                "foo 1 bar 0.04 | line 3 | none of which is known as a density",
                "D 0.04 21.5\u00C2\u00B0C | line 3 | not ASCII",
            })
    void saysAtTheFirstRefusedLineWhyNoLayoutFits(String line, String place, String why) {
        DensitometerInputException refused = assertThrows(
                DensitometerInputException.class,
                () -> LayoutGuess.from(List.of("boot", "meter 1.2", line, line, line)));

        assertTrue(refused.getMessage().contains(place), refused.getMessage());
        assertTrue(refused.getMessage().contains(why), refused.getMessage());
    }

    @Test
    void saysThatThereIsNoNumber() {
        DensitometerInputException refused =
                assertThrows(DensitometerInputException.class, () -> LayoutGuess.from(List.of("hello", "world")));

        assertTrue(refused.getMessage().contains("none of which has a number"), refused.getMessage());
    }

    private static byte[] packed(boolean zip) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (OutputStream out = zip ? new ZipOutputStream(bytes) : new GZIPOutputStream(bytes)) {
            if (out instanceof ZipOutputStream archive) {
                archive.putNextEntry(new ZipEntry("sheet.xml"));
            }
            out.write("step=1 D=0.05\n".getBytes(StandardCharsets.US_ASCII));
        }
        return bytes.toByteArray();
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-16", "UTF-16LE", "UTF-16BE", "gzip", "zip", "spreadsheet", "PDF"})
    void namesAFileThatIsNoText(String what) throws IOException {
        byte[] bytes = switch (what) {
            case "gzip" -> packed(false);
            case "zip" -> packed(true);
            case "spreadsheet" -> new byte[] {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0, 0, 0};
            case "PDF" -> "%PDF-1.7\n".getBytes(StandardCharsets.US_ASCII);
            default -> "step=1 D=0.05\nstep=2 D=0.20\n".getBytes(Charset.forName(what));
        };
        String named = what.startsWith("UTF") ? "UTF-16" : what;
        LogLayout layout = LogLayout.parse("keys step=step density=d");
        for (DensitometerInputException refused : List.of(
                assertThrows(
                        DensitometerInputException.class,
                        () -> LayoutGuess.from(new BufferedInputStream(new ByteArrayInputStream(bytes)))),
                assertThrows(
                        DensitometerInputException.class,
                        () -> DensitometerLogReader.of(layout).read(new ByteArrayInputStream(bytes), reading -> {})),
                assertThrows(
                        DensitometerInputException.class,
                        () -> Certificate.read("tablet.csv", new ByteArrayInputStream(bytes))))) {
            assertTrue(refused.getMessage().contains(named), refused.getMessage());
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "step,density,density_red,expanded_uncertainty",
                "step,density,density,expanded_uncertainty",
                "step,density,D,expanded_uncertainty",
                "step,density,visual density,expanded_uncertainty",
            })
    void refusesACertificateWithTwoColumnsOfDensities(String header) {
        DensitometerInputException refused = assertThrows(
                DensitometerInputException.class,
                () -> CertificateTable.read("tablet.csv", new StringReader(header + "\n1,0.05,0.06,0.006\n")));

        assertTrue(refused.getMessage().contains("2 columns of densities"), refused.getMessage());
        assertEquals(1, refused.line().orElseThrow());
    }
}
