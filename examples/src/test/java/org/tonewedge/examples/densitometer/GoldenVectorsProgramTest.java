// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The vectors computed anew by other means than the library's. */
class GoldenVectorsProgramTest {

    @TempDir
    private Path directory;

    @BeforeEach
    void write() {
        StringWriter messages = new StringWriter();
        PrintWriter writer = new PrintWriter(messages);
        assertEquals(0, GoldenVectorsProgram.run(new String[] {"--out", directory.toString()}, writer, writer));
        assertTrue(messages.toString().contains("wrote 41 vectors counts-to-density"), messages.toString());
    }

    private List<NamedCsvRecord> read(String name) throws IOException {
        try (CsvReader<NamedCsvRecord> csv = CsvReader.builder()
                .commentStrategy(CommentStrategy.SKIP)
                .ofNamedCsvRecord(directory.resolve(name + ".csv"))) {
            return csv.stream().toList();
        }
    }

    private List<NamedCsvRecord> given(String name) throws IOException {
        return read(name).stream()
                .filter(row -> row.getField("expected_refusal").isEmpty())
                .toList();
    }

    private static double number(NamedCsvRecord row, String column) {
        return Double.parseDouble(row.getField(column));
    }

    private static double[] numbers(NamedCsvRecord row, String column) {
        return Arrays.stream(row.getField(column).split(" ", -1))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }

    @Test
    void givesDensityOfCounts() throws IOException {
        for (NamedCsvRecord row : given("counts-to-density")) {
            double sample = (number(row, "sample") - number(row, "dark"))
                    / number(row, "gain_ratio")
                    / number(row, "time_ratio");
            double open = number(row, "open") - number(row, "open_dark");
            double expected = number(row, "expected_density");
            assertEquals(open, sample * Math.pow(10, expected), open * 1e-12);
            double single = (float) Math.log10((float) open / (float) sample);
            assertEquals(expected, single, number(row, "absolute_tolerance"));
        }
    }

    @Test
    void givesOpacityOfDensity() throws IOException {
        for (NamedCsvRecord row : given("density-to-opacity")) {
            assertEquals(number(row, "density"), Math.log10(number(row, "expected_opacity")), 1e-12);
        }
    }

    @Test
    void givesLogExposuresBehindATablet() throws IOException {
        for (NamedCsvRecord row : read("tablet-to-log-exposure")) {
            double[] steps = numbers(row, "step_densities");
            double[] exposures = numbers(row, "expected_log_exposures");
            assertEquals(steps.length, exposures.length);
            for (int i = 0; i < steps.length; i++) {
                assertEquals(number(row, "log_exposure_without_tablet"), steps[i] + exposures[i], 1e-12);
            }
        }
    }

    /** ISO 6:1993, S = 0.8 / H at 0.10 above base plus fog, by straight interpolation, within 3 % of any smooth one. */
    @Test
    void givesSpeedOfReadings() throws IOException {
        for (NamedCsvRecord row : read("readings-to-speed")) {
            double[] x = numbers(row, "log_exposures");
            double[] d = numbers(row, "densities");
            double target = number(row, "base_plus_fog") + 0.10;
            int i = 0;
            while (d[i + 1] < target) {
                i++;
            }
            double at = x[i] + (target - d[i]) * (x[i + 1] - x[i]) / (d[i + 1] - d[i]);
            double speed = 0.8 / Math.pow(10, at);
            double expected = number(row, "expected_speed");
            assertEquals(expected, speed, 0.03 * expected);
        }
    }

    /** By the formula of the forward direction: a leak adds to the transmittance, then slope and offset. */
    @Test
    void givesCorrectedDensityOfReading() throws IOException {
        List<NamedCsvRecord> rows = given("reading-to-corrected-density");
        assertEquals(18, rows.size());
        for (NamedCsvRecord row : rows) {
            double light = Math.pow(10, -number(row, "expected_corrected_density")) + number(row, "leak");
            double reading = number(row, "offset") - number(row, "slope") * Math.log10(light);
            assertEquals(number(row, "reading"), reading, 1e-9);
        }
    }

    /** The reasons again, written independently of the program. */
    @Test
    void expectsRefusalsOfWhatHasNoDensity() throws IOException {
        int refused = 0;
        for (NamedCsvRecord row : read("counts-to-density")) {
            double full = number(row, "full_scale") > 0 ? number(row, "full_scale") : Double.POSITIVE_INFINITY;
            boolean possible = true;
            for (String count : List.of("sample", "dark", "open", "open_dark")) {
                possible &= number(row, count) >= 0 && number(row, count) < full;
            }
            possible &= number(row, "sample") > number(row, "dark") && number(row, "open") > number(row, "open_dark");
            possible &= number(row, "gain_ratio") > 0 && number(row, "time_ratio") > 0;
            assertEquals(possible, row.getField("expected_refusal").isEmpty(), row.toString());
            assertEquals(possible, !row.getField("expected_density").isEmpty(), row.toString());
            refused += possible ? 0 : 1;
        }
        assertEquals(24, refused);
    }

    @Test
    void tellsTheSameInJson() throws IOException {
        for (String name : List.of(
                "counts-to-density",
                "density-to-opacity",
                "tablet-to-log-exposure",
                "readings-to-speed",
                "reading-to-corrected-density")) {
            String json = Files.readString(directory.resolve(name + ".json"));
            Matcher vectors = Pattern.compile("\"expected\": \\{\"(\\w+)\": [\\[\"]?([^\\]}\"]+)[\\]\"]?\\}")
                    .matcher(json);
            for (NamedCsvRecord row : read(name)) {
                assertTrue(vectors.find(), name);
                assertEquals(
                        row.getField("expected_" + vectors.group(1)),
                        vectors.group(2).replace(", ", " "));
            }
            assertTrue(!vectors.find(), name);
            assertEquals(
                    json.chars().filter(c -> c == '{').count(),
                    json.chars().filter(c -> c == '}').count());
        }
    }
}
