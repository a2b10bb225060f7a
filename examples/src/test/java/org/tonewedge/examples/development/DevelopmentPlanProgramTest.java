// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.GoldenFiles;
import org.tonewedge.examples.PrintedDigits;
import org.tonewedge.examples.ProjectFiles;
import org.tonewedge.fitting.development.Caution;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.film.Iso6;

class DevelopmentPlanProgramTest {

    private record Run(int status, String output, String messages) {}

    @TempDir
    static Path shared;

    @AfterAll
    static void everyFigureIsRoundedToItsUncertainty() {
        assertEquals(List.of(), PrintedDigits.faultsOf(shared));
    }

    @TempDir
    Path scratch;

    private static Run demo;
    private static List<NamedCsvRecord> rows;

    private static Path demoFile() {
        return ProjectFiles.root().resolve("examples/demo/development.csv");
    }

    private static Run run(String... args) {
        StringWriter output = new StringWriter();
        StringWriter messages = new StringWriter();
        int status = DevelopmentPlanProgram.run(args, new PrintWriter(output), new PrintWriter(messages));
        return new Run(status, output.toString(), messages.toString());
    }

    @BeforeAll
    static void planTheDemoStrips() throws IOException {
        System.setProperty("java.awt.headless", "true");
        demo = run(demoFile().toString(), "--current", "D2", "--out", shared.toString(), "--note", "All <invented>.");
        rows = rows(shared);
    }

    private static List<NamedCsvRecord> rows(Path directory) throws IOException {
        try (CsvReader<NamedCsvRecord> csv = CsvReader.builder().ofNamedCsvRecord(directory.resolve("plan.csv"))) {
            return csv.stream().toList();
        }
    }

    private static NamedCsvRecord row(String target, String celsius) {
        return rows.stream()
                .filter(row -> row.getField("target").equals(target))
                .filter(row -> row.getField("celsius").equals(celsius))
                .findFirst()
                .orElseThrow();
    }

    private static double number(NamedCsvRecord row, String column) {
        return Double.parseDouble(row.getField(column));
    }

    @Test
    void theFileIsWhatTheProgramMakes() throws IOException {
        StringWriter made = new StringWriter();
        ReadingsTable.write(DemoDevelopment.strips(), made);
        assertEquals(made.toString(), Files.readString(demoFile()));
    }

    /** The exposures of the demo, in stops: a stop is log10 2. */
    @Test
    void stopsInPlaceOfLogarithmsAreTold() throws IOException {
        String rows = Pattern.compile("(?m)(-?[\\d.]+)(?=,[\\d.]+$)")
                .matcher(Files.readString(demoFile()))
                .replaceAll(log -> String.valueOf(Double.parseDouble(log.group(1)) / Math.log10(2)));
        Path table = Files.writeString(scratch.resolve("stops.csv"), rows);
        Run stops = run(
                table.toString(), "--no-plots", "--out", scratch.resolve("out").toString());
        assertTrue(stops.messages().contains("are these stops?"), stops.messages());
        assertTrue(Files.readString(scratch.resolve("out/plan.html")).contains("are these stops?"));
        assertFalse(demo.messages().contains("are these stops?"), demo.messages());
        assertEquals(2, stops.messages().split("are these stops", -1).length, stops.messages());
        assertTrue(stops.messages().contains(". So in 6 more strips: D2, D3, D4, D5, D6, D7"), stops.messages());
    }

    /** The times of the demo, 4.5 to 17 minutes, in seconds. */
    @Test
    void secondsInPlaceOfMinutesAreTold() throws IOException {
        String rows = Pattern.compile("(?m)(?<=\",)([\\d.]+)(?=,)")
                .matcher(Files.readString(demoFile()))
                .replaceAll(minutes -> String.valueOf(60 * Double.parseDouble(minutes.group(1))));
        Path table = Files.writeString(scratch.resolve("seconds.csv"), rows);
        Run seconds = run(
                table.toString(), "--no-plots", "--out", scratch.resolve("out").toString());
        String caution = "stated for D1, D2, D3, D4, D5, D6, D7: were these seconds? The column is minutes.";
        assertTrue(seconds.messages().contains(caution), seconds.messages());
        assertTrue(Files.readString(scratch.resolve("out/plan.html")).contains(caution));
        assertFalse(demo.messages().contains("were these seconds?"), demo.messages());
    }

    @Test
    void theTablesAreThoseKept() throws IOException {
        GoldenFiles.assertTablesAsKept("development", shared);
    }

    private static String answer() {
        double minutes = number(row("ISO contrast condition", "20.0"), "minutes");
        long seconds = Math.round(60 * minutes);
        return "give it " + Math.round(100 * (minutes / 8.25 - 1)) + " % more: " + seconds / 60 + " min " + seconds % 60
                + " s at 20 °C";
    }

    /** D2 was developed for 8.25 minutes; the answer is the time of the table, and the percentage that of both. */
    @Test
    void theStripAsDevelopedNowGetsItsAnswer() {
        assertTrue(demo.messages().contains(answer() + "."), demo.messages());
        assertTrue(demo.messages().contains("misses the contrast condition"), demo.messages());
        assertTrue(demo.messages().contains("gloves"), demo.messages());
    }

    /** Times of the formula of the demo strips, by {@code demo_truth.py} (SciPy 1.17.1); the plan rounds to 5 seconds. */
    @ParameterizedTest
    @CsvSource({
        "ISO contrast condition, 20.0, 9.311",
        "ISO contrast condition, 24.0, 7.128",
        "N, 20.0, 9.311",
        "N, 24.0, 7.128",
        "N+1, 20.0, 11.033",
        "N+1, 24.0, 8.446",
        "N+2, 20.0, 14.430",
        "N+2, 24.0, 11.047"
    })
    void theTimeIsThatOfTheFormula(String target, String celsius, double minutes) {
        NamedCsvRecord row = row(target, celsius);
        assertEquals(minutes, number(row, "minutes"), 3 * number(row, "minutes_u") + 2.5 / 60);
        assertTrue(number(row, "minutes_u") < 0.02 * minutes, row.toString());
    }

    @Test
    void everyLineHasATimeOrAReason() {
        assertEquals(2 * 7, rows.size());
        for (NamedCsvRecord row : rows) {
            if (row.getField("minutes").isEmpty()) {
                assertFalse(row.getField("notes").isEmpty(), row.toString());
            } else {
                assertEquals("no", row.getField("extrapolated"));
                assertTrue(row.getField("cautions").contains(Caution.CHEMICALS.description()));
                assertEquals(0, Math.round(number(row, "minutes") * 60) % 5);
                assertEquals(number(row, "target_contrast"), number(row, "contrast"), 0.01);
            }
        }
        boolean all = rows.stream().noneMatch(row -> row.getField("minutes").isEmpty());
        assertEquals(all ? 0 : 1, demo.status(), demo.messages());
        NamedCsvRecord normal = row("N", "20.0");
        assertEquals("0.0", normal.getField("stops_from_normal"));
        // speeds at the true times by demo_truth.py
        assertEquals(0.149, number(row("N+1", "20.0"), "stops_from_normal"), 0.02);
        assertEquals(0.361, number(row("N+2", "20.0"), "stops_from_normal"), 0.04);
        // The strips of the demo were not exposed for a subject of 8 stops.
        assertTrue(row("N\u22121", "20.0").getField("notes").contains("were exposed only up to"));
    }

    @Test
    void thePageIsWholeAndItsPlotsAreThere() throws IOException {
        String page = Files.readString(shared.resolve("plan.html"));
        assertTrue(page.contains("All &lt;invented&gt;."), page);
        assertTrue(page.contains(answer()), page);
        assertTrue(page.contains("Read the safety data sheet"));
        String shown = page.replaceAll("(?s)<(style|script)>.*?</\\1>", "");
        assertFalse(shown.contains("null") || shown.contains("NaN") || shown.contains("Infinity"), shown);
        for (String plot : List.of("family", "contrast-time")) {
            assertTrue(page.contains("src=\"" + plot + ".svg\""));
            assertTrue(Files.readString(shared.resolve(plot + ".svg")).contains("<svg"));
            assertNotNull(ImageIO.read(shared.resolve(plot + ".png").toFile()));
        }
        try (Stream<Path> files = Files.list(shared)) {
            assertEquals(6 + 1, files.count(), "and the manifest");
        }
    }

    /** The measures of a development test are those of the standards: both modules read the same figures off a curve. */
    @Test
    void measuresAgreeWithTheStandards() {
        for (Strip strip : DemoDevelopment.strips()) {
            CharacteristicCurve curve = CharacteristicCurve.through(strip);
            assertEquals(
                    Iso6.withDefaults().contrast(curve).contrast().orElseThrow().value(),
                    ContrastMeasure.RISE_OVER_130.contrastOf(curve),
                    1e-12);
            assertEquals(
                    AverageGradient.withDefaults().determine(curve).gradient().value(),
                    ContrastMeasure.AVERAGE_GRADIENT.contrastOf(curve),
                    1e-12);
        }
    }

    @Test
    void badInputEndsWithAMessage() throws IOException {
        Run none = run(scratch.resolve("none.csv").toString(), "--out", scratch.toString());
        assertEquals(2, none.status());
        assertTrue(none.messages().contains("there is no file"), none.messages());
        Run film = run(demoFile().toString(), "--film", "Other", "--out", scratch.toString());
        assertEquals(2, film.status());
        assertTrue(film.messages().contains("Larkham Field 125"), film.messages());
        Run strip = run(demoFile().toString(), "--current", "X", "--out", scratch.toString());
        assertEquals(2, strip.status());
        assertTrue(strip.messages().contains("D1"), strip.messages());
        Run several = run(ProjectFiles.demoStrips().toString(), "--out", scratch.toString());
        assertEquals(2, several.status());
        assertTrue(
                several.messages().contains("strips of 39 films; name one of them by --film: Ostwick"),
                several.messages());
        Path one = scratch.resolve("one.csv");
        StringWriter table = new StringWriter();
        ReadingsTable.write(DemoDevelopment.strips().subList(0, 1), table);
        Files.writeString(one, table.toString());
        Run single = run(one.toString(), "--out", scratch.toString());
        assertEquals(2, single.status());
        assertTrue(single.messages().contains("D1"), single.messages());
        Run temperature = run(demoFile().toString(), "--celsius", "20,30", "--out", scratch.toString());
        assertEquals(1, temperature.status());
        assertTrue(Files.readString(scratch.resolve("plan.csv")).contains("outside the tested temperatures"));
    }

    @Test
    void refusesFlareAndPaperWithoutASubject() {
        for (String option : List.of("--flare", "--paper")) {
            Run run = run(demoFile().toString(), option, "1", "--out", scratch.toString());
            assertEquals(2, run.status(), run.messages());
            assertTrue(run.messages().contains(option + " has no effect without --subject"), run.messages());
        }
    }

    @Test
    void refusesAnIsoRangeWhereLogUnitsAreMeant() {
        Run run = run(demoFile().toString(), "--subject", "7", "--paper", "110", "--out", scratch.toString());
        assertEquals(2, run.status(), run.messages());
        assertTrue(
                run.messages().contains("--paper is the log exposure range of the paper in log units, such as 1.10"),
                run.messages());
        assertTrue(run.messages().contains("was 110.0; divide an ISO range R by 100"), run.messages());
    }

    @Test
    void moreTargetsAndExtrapolationOnRequest() throws IOException {
        Run run = run(
                demoFile().toString(),
                "--out",
                scratch.toString(),
                "--celsius",
                "20",
                "--average-gradient",
                "0.58",
                "--subject",
                "7.5",
                "--flare",
                "1",
                "--extrapolate",
                "--repeatability",
                "0.02");
        List<NamedCsvRecord> lines = rows(scratch);
        assertEquals(9, lines.size(), run.messages());
        assertTrue(lines.stream().anyMatch(line -> line.getField("measure").startsWith("average gradient")));
        assertTrue(lines.stream()
                .anyMatch(line -> line.getField("target").startsWith("subject of 7 1/2")
                        || line.getField("target").startsWith("subject of 7.50")));
    }

    /** A slice of the simulation whose 1,000 tests are told in {@link DemoPlanSimulation}. */
    @Test
    void intervalsOfTheDemoContainTheTruth() {
        List<List<DemoPlanSimulation.Outcome>> tests =
                IntStream.range(0, 60).mapToObj(DemoPlanSimulation::outcomes).toList();
        for (int i = 0; i < DemoPlanSimulation.NAMES.length; i++) {
            int which = i;
            long contained =
                    tests.stream().filter(each -> each.get(which).contained()).count();
            // Of 60 at 95 %, fewer than 51 come by chance less than once in 1,000 times (binomial).
            assertTrue(contained >= 51, DemoPlanSimulation.NAMES[i] + " in " + contained + " of 60");
        }
    }
}
