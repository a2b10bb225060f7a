// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.examples.PrintedDigits;

/** The programs around the check: calibrating, watching over weeks, comparing two instruments. */
class BenchProgramsTest {

    @TempDir
    private Path directory;

    @AfterEach
    void everyFigureIsRoundedToItsUncertainty() {
        assertEquals(List.of(), PrintedDigits.faultsOf(directory));
    }

    private final StringWriter output = new StringWriter();
    private final StringWriter messages = new StringWriter();
    private final PrintWriter out = new PrintWriter(output);
    private final PrintWriter err = new PrintWriter(messages);

    private Path write(String name, String text) throws IOException {
        return Files.writeString(directory.resolve(name), text);
    }

    private int chart(Path record, String date, String readings) {
        return ControlChartProgram.run(
                new String[] {
                    record.toString(),
                    "--add",
                    readings,
                    "--date",
                    date,
                    "--baseline",
                    "10",
                    "--no-png",
                    "--out",
                    directory.resolve("chart").toString()
                },
                out,
                err);
    }

    @Test
    void watchesACheckPieceOverWeeks() throws IOException {
        Path record = directory.resolve("record.csv");
        Random random = new Random(3);
        for (int session = 1; session <= 12; session++) {
            double first = 1.5 + 0.002 * random.nextGaussian();
            String date = String.format(Locale.ROOT, "2026-%02d-%02d", 1 + session / 5, 1 + 1 + session % 5 * 6);
            assertEquals(0, chart(record, date, String.format(Locale.ROOT, "%.4f,%.4f", first, first + 0.001)));
        }
        assertTrue(output.toString().contains("the record has 10 of the 10 sessions that set"), output.toString());
        assertTrue(output.toString().contains("IN CONTROL"), output.toString());
        assertEquals(25, Files.readAllLines(record).size());

        assertEquals(1, chart(record, "2026-06-01", "1.53,1.531"));

        assertTrue(output.toString().contains("OUT OF CONTROL (beyond the control limits"), output.toString());
        assertTrue(Files.readString(directory.resolve("chart/report.html")).contains("out of control"));
        assertTrue(Files.exists(directory.resolve("chart/control.svg")));
        String before = Files.readString(record);
        assertEquals(2, chart(record, "2026-05-01", "1.5"), "a date before the last");
        assertEquals(before, Files.readString(record), "a session that is refused is not kept");
        Files.delete(directory.resolve("chart/report.html"));
        Files.createDirectory(directory.resolve("chart/report.html"));
        assertEquals(2, chart(record, "2026-06-08", "1.5"), "results that cannot be written");
        assertEquals(before, Files.readString(record), "a session without results is not kept");
        try (Stream<Path> files = Files.list(directory)) {
            assertEquals(2, files.count(), "nothing is left beside the record");
        }
    }

    @Test
    void refusesARecordThatItCannotRead() throws IOException {
        Path record = write("record.csv", "date,reading\n2026-01-01,abc\n");
        assertEquals(2, chart(record, "2026-01-02", "1.5"));
        assertTrue(messages.toString().contains("line 2: reading \"abc\" is not a number"), messages.toString());
        assertEquals("date,reading\n2026-01-01,abc\n", Files.readString(record));
    }

    /** The commands of the list of programs, on the invented demo readings. */
    @Test
    void readsTheDemoFiles() throws IOException {
        DemoLogs.write(directory);
        String points = directory.resolve("calibration-points.csv").toString();
        String record = directory.resolve("check-piece.csv").toString();
        String pairs = directory.resolve("two-instruments.csv").toString();

        assertEquals(0, CalibrationProgram.run(new String[] {points}, out, err), messages.toString());
        assertEquals(1, ControlChartProgram.run(new String[] {record}, out, err), messages.toString());
        assertEquals(1, InstrumentComparisonProgram.run(new String[] {pairs}, out, err), messages.toString());

        String told = output.toString();
        assertTrue(told.contains("the points fit the form"), told);
        assertTrue(told.contains("Session of 2026-07-27, mean reading"), told);
        assertTrue(told.contains("the instruments are not shown to agree within 0.02"), told);
    }

    private Path pairs(double slope) throws IOException {
        StringBuilder pairs = new StringBuilder("sample,first,second\n");
        Random random = new Random(5);
        for (int i = 0; i < 21; i++) {
            for (int repeat = 0; repeat < 2; repeat++) {
                double density = 0.05 + 0.15 * i;
                pairs.append(String.format(
                        Locale.ROOT,
                        "%d,%.4f,%.4f%n",
                        i,
                        density + 0.002 * random.nextGaussian(),
                        slope * density + 0.002 * random.nextGaussian()));
            }
        }
        return write("pairs.csv", pairs.toString());
    }

    @Test
    void comparesTwoInstruments() throws IOException {
        String folder = directory.resolve("pair").toString();
        assertEquals(
                0,
                InstrumentComparisonProgram.run(
                        new String[] {pairs(1).toString(), "--out", folder, "--no-png"}, out, err),
                output + messages.toString());
        assertTrue(output.toString().contains("the instruments agree within 0.02"), output.toString());
        assertEquals(
                1, InstrumentComparisonProgram.run(new String[] {pairs(0.97).toString()}, out, err));
        assertTrue(output.toString().contains("not shown to agree"), output.toString());
        assertTrue(output.toString().matches("(?s).*slope of the line \\(errors in both\\) +\\+0\\.9[67]\\d\\d .*"));
        assertTrue(Files.exists(directory.resolve("pair/agreement.svg")));
    }

    @Test
    void calibratesAtAnOpenGateAndTwoSteps() throws IOException {
        StringBuilder points = new StringBuilder("point,density,expanded_uncertainty,sample,dark,open\n");
        for (double density : new double[] {0, 1.5, 3}) {
            for (int repeat = -1; repeat <= 1; repeat++) {
                // a leak of 0.0002 and a slope of 1
                double light = (Math.pow(10, -density) + 2e-4) * 1e6;
                points.append(String.format(
                        Locale.ROOT,
                        "%s,%.1f,%s,%.0f,200,1000200%n",
                        density == 0 ? "open" : "step " + density,
                        density,
                        density == 0 ? "0" : "0.01",
                        200 + light * (1 + 0.002 * repeat)));
            }
        }
        Path file = write("points.csv", points.toString());

        int status = CalibrationProgram.run(
                new String[] {file.toString(), "--out", directory.resolve("cal").toString()}, out, err);

        assertEquals(0, status, messages.toString());
        String header = Files.readString(directory.resolve("cal/calibration.h"));
        assertTrue(header.contains("#define DENSITOMETER_CALIBRATION_LEAK (2.00"), header);
        assertTrue(header.contains("#define DENSITOMETER_CALIBRATION_SLOPE (1.000"), header);
        assertTrue(output.toString().contains("D 3.00  u 0.00"), output.toString());
    }

    @Test
    void saysThatTheScatterIsNotKnown() throws IOException {
        Path file = write("points.csv", "point,density,expanded_uncertainty,reading\nopen,0,0,0\nstep,3,0.01,2.9\n");

        assertEquals(2, CalibrationProgram.run(new String[] {file.toString()}, out, err));
        assertTrue(messages.toString().contains("--repeatability"), messages.toString());
        assertEquals(0, CalibrationProgram.run(new String[] {file.toString(), "--repeatability", "0.002"}, out, err));
        assertTrue(output.toString().contains("nothing shows whether"), output.toString());
    }

    private static final String PERCENT =
            "the printed numbers are those of a firmware in which the transmittance in per cent is printed for the density"
                    + " (PERCENT_TRANSMITTANCE); print 2 - log10 of it";

    private void assertTold(String words) {
        assertTrue(messages.toString().contains(words), messages.toString());
    }

    /** 100 · 10^−D per cent: 79.433 at D 0.1, 10 at D 1, 1 at D 2. */
    @Test
    void namesTheUnitOfOneOfTwoInstruments() throws IOException {
        Path pairs = write("pairs.csv", "sample,first,second\n1,1,10\n2,0.1,79.433\n3,2,1\n");
        assertEquals(2, InstrumentComparisonProgram.run(new String[] {pairs.toString()}, out, err));
        assertTold("pairs.csv, line 3: second 79.433 beside first 0.1: " + PERCENT);

        Path other = write("other.csv", "sample,first,second\n1,10,1\n2,79.433,0.1\n3,1,2\n");
        assertEquals(2, InstrumentComparisonProgram.run(new String[] {other.toString()}, out, err));
        assertTold("other.csv, line 3: first 79.433 beside second 0.1: " + PERCENT);

        Path both = write("both.csv", "sample,first,second\n1,10,10\n2,79.433,80\n3,1,1\n");
        assertEquals(2, InstrumentComparisonProgram.run(new String[] {both.toString()}, out, err));
        assertTold("both.csv, line 3: second is no density: density must be from -0.2 to 10, was 80: a percentage,"
                + " counts or a missing decimal point?");
    }

    /** A piece of D 1.5: 100 · 10^−1.5 = 3.162 per cent. */
    @Test
    void namesTheUnitOfASession() throws IOException {
        StringBuilder sessions = new StringBuilder("date,reading\n");
        for (int day = 1; day <= 11; day++) {
            sessions.append(String.format(Locale.ROOT, "2026-01-%02d,%.3f%n", day, 1.5 + day % 2 * 0.002));
        }
        Path record = write("record.csv", sessions.toString());

        assertEquals(1, chart(record, "2026-02-01", "3.162"));
        assertTold("record.csv, line 13: reading 3.162 of a piece that usually reads 1.5020: " + PERCENT);
        assertTrue(output.toString().contains("OUT OF CONTROL"), output.toString());

        String before = Files.readString(record);
        assertEquals(2, chart(record, "2026-02-02", "1502"));
        assertTold("(TIMES_THOUSAND); divide by 1000, or move the decimal point");
        assertTold("record.csv, line 14: reading is no density: density must be from -0.2 to 10, was 1502");
        assertEquals(before, Files.readString(record));
    }

    /** 100 · 10^−D per cent: 100 at D 0, 3.162 at D 1.5, 0.1 at D 3. */
    @Test
    void namesTheUnitOfAColumnOfACalibration() throws IOException {
        Path readings = write(
                "points.csv",
                "point,density,expanded_uncertainty,reading\ngate,0,0,100\na,1.5,0.01,3.162\nb,3,0.02,0.100\n");
        assertEquals(
                2, CalibrationProgram.run(new String[] {readings.toString(), "--repeatability", "0.003"}, out, err));
        assertTold("points.csv, line 2: reading 100 beside density 0: " + PERCENT);

        Path certificate = write(
                "certificate.csv",
                "point,density,expanded_uncertainty,reading\ngate,100,0,0\na,3.162,0.01,1.5\nb,0.1,0.02,3\n");
        assertEquals(
                2, CalibrationProgram.run(new String[] {certificate.toString(), "--repeatability", "0.003"}, out, err));
        assertTold("certificate.csv, line 2: density 100 beside reading 0: " + PERCENT);
    }

    @Test
    void asksWhetherAnUncertaintyIsInPerCent() throws IOException {
        Path points = write(
                "points.csv", "point,density,expanded_uncertainty,reading\ngate,0,0,0\na,1.5,0.5,1.5\nb,3,0.1,3\n");
        assertEquals(0, CalibrationProgram.run(new String[] {points.toString(), "--repeatability", "0.003"}, out, err));
        assertTold("a: the expanded uncertainty is 0.50 in density; check whether U was typed in per cent");
        assertFalse(messages.toString().contains("b: "), messages.toString());
    }
}
