// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

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
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What people do to the comparison without wanting to. */
class FilmComparisonMistakesTest {

    private static final String FIRST_ROWS = "strip,film,log_exposure,density\n";

    @TempDir
    Path scratch;

    private Path out;
    private StringWriter messages;

    @BeforeAll
    static void needNoScreen() {
        System.setProperty("java.awt.headless", "true");
    }

    @BeforeEach
    void begin() {
        out = scratch.resolve("out");
        messages = new StringWriter();
    }

    private int run(Path table, String reference, String... more) {
        String[] args = new String[more.length + 5];
        args[0] = table.toString();
        args[1] = "--reference";
        args[2] = reference;
        args[3] = "--out";
        args[4] = out.toString();
        System.arraycopy(more, 0, args, 5, more.length);
        return FilmComparisonProgram.run(args, new PrintWriter(new StringWriter()), new PrintWriter(messages));
    }

    private Path write(String name, String table) throws IOException {
        return Files.writeString(scratch.resolve(name), table);
    }

    /** A strip whose density rises by 0.6 for each log unit from the third step on. */
    private static String strip(String id, String film, boolean base, double sign) {
        StringBuilder rows = new StringBuilder();
        String start = id + "," + film + ",";
        if (base) {
            rows.append(start).append(",0.2\n");
        }
        for (int i = 0; i < 12; i++) {
            double density = 0.2 + 0.6 * Math.max(0, 0.3 * i - 0.6);
            rows.append(start).append(String.format(Locale.ROOT, "%.2f,%.3f%n", sign * (-3 + 0.3 * i), density));
        }
        return rows.toString();
    }

    @ParameterizedTest
    @ValueSource(strings = {"comparison.csv", "report.html", "strip-A.svg", "film-comparison.sha256"})
    void aTableInTheOutputFolderIsNeverOverwritten(String name) throws IOException {
        Files.createDirectory(out);
        String table = FIRST_ROWS + strip("A", "one", true, 1) + strip("B", "two", true, 1);
        Path readings = Files.writeString(out.resolve(name), table);
        assertEquals(2, run(readings, "A"));
        assertTrue(messages.toString().contains(readings + " is in the way"), messages.toString());
        assertEquals(table, Files.readString(readings));
        try (var files = Files.list(out)) {
            assertEquals(1, files.count());
        }
    }

    private void noResults(String table, String cause) throws IOException {
        assertEquals(1, run(write("table.csv", table), "A"), messages.toString());
        assertTrue(messages.toString().contains(cause), messages.toString());
        String page = Files.readString(out.resolve("report.html"));
        assertEquals(2, page.split(cause, -1).length, "the cause stands on the page once");
        assertTrue(Files.exists(out.resolve("all-strips.svg")));
        assertFalse(messages.toString().contains("fault of the program"), messages.toString());
    }

    @Test
    void aStripWithoutTheTimeThatOthersStateIsNamed() throws IOException {
        String others = (strip("A", "one", true, 1) + strip("B", "two", true, 1)).replaceAll("\n", ",8\n");
        String table = FIRST_ROWS.replace("density", "density,minutes")
                + others
                + strip("C", "three", true, 1).replaceAll("\n", ",\n");
        assertEquals(0, run(write("table.csv", table), "A", "--no-plots"), messages.toString());
        assertTrue(messages.toString().contains("no minutes are stated for C, but"), messages.toString());
        begin();
        assertEquals(0, run(write("table.csv", table.replace(",\n", ",8\n")), "A", "--no-plots"), messages.toString());
        assertFalse(messages.toString().contains("minutes"), messages.toString());
    }

    @Test
    void allStripsWithoutBasePlusFog() throws IOException {
        noResults(
                FIRST_ROWS + strip("A", "one", false, 1) + strip("B", "two", false, 1),
                "No results: each of the 2 strips lacks a base-plus-fog reading");
    }

    @Test
    void allExposuresWithTheWrongSign() throws IOException {
        noResults(
                FIRST_ROWS + strip("A", "one", true, -1) + strip("B", "two", true, -1),
                "No results: density falls with exposure in each of the 2 strips");
    }

    @Test
    void mostStripsReadFromTheOtherEnd() throws IOException {
        String three = strip("B", "two", true, -1) + strip("C", "three", true, -1) + strip("D", "four", true, -1);
        Path most = write("table.csv", FIRST_ROWS + strip("A", "one", true, 1) + three);
        assertEquals(1, run(most, "A", "--no-plots"), messages.toString());
        assertTrue(messages.toString().contains("Density falls with exposure in 3 of 4 strips. "), messages.toString());
        begin();
        Path half = write(
                "half.csv",
                FIRST_ROWS
                        + strip("A", "one", true, 1)
                        + strip("E", "five", true, 1)
                        + strip("F", "six", true, 1)
                        + three);
        assertEquals(1, run(half, "A", "--no-plots"), messages.toString());
        assertFalse(messages.toString().contains("ensity falls with exposure in"), messages.toString());
    }

    /** The steps of a tablet, 0.3 apart, stand in the column of densities. */
    @Test
    void relativeExposuresAndDensitiesSwapped() throws IOException {
        StringBuilder rows = new StringBuilder("strip,film,relative_log_exposure,density\nA,one,,0.2\n");
        double[] densities = {0.21, 0.22, 0.25, 0.31, 0.45, 0.62, 0.80, 0.99, 1.17};
        for (int i = 0; i < densities.length; i++) {
            rows.append(String.format(Locale.ROOT, "A,one,%.2f,%.2f%n", densities[i], 0.3 * i));
        }
        noResults(rows.toString(), "No results: densities are evenly spaced and exposures are not, in the only strip.");
    }

    @Test
    void anExposureLeftOutInEveryStrip() throws IOException {
        String strips = strip("A", "one", true, 1).replace("A,one,-3.00,0.200", "A,one,,1.7");
        noResults(FIRST_ROWS + strips, "No results: there are steps below base plus fog in the only strip");
    }

    /** Readings put through a function; the exposures stay. */
    private static String with(String rows, DoubleUnaryOperator density) {
        return rows.lines()
                .map(row -> {
                    int last = row.lastIndexOf(',') + 1;
                    double value = density.applyAsDouble(Double.parseDouble(row.substring(last)));
                    return row.substring(0, last) + String.format(Locale.ROOT, "%.3f%n", value);
                })
                .collect(Collectors.joining());
    }

    @Test
    void allStripsExposedTooLittle() throws IOException {
        String rows = with(strip("A", "one", true, 1), density -> 0.2 + 0.04 * (density - 0.2));
        noResults(FIRST_ROWS + rows, "No results: none of the strips has a speed point");
    }

    @Test
    void allReadingsOfTheEmptyGate() throws IOException {
        String rows = with(strip("A", "one", true, 1) + strip("B", "two", true, 1), density -> 0.21);
        noResults(FIRST_ROWS + rows, "No results: density hardly changes with exposure in each of the 2 strips");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "A,one,-1.6,0.28\n"})
    void fewStepsAreToldAsTooFew(String third) throws IOException {
        noResults(
                FIRST_ROWS + "A,one,,0.20\nA,one,-2.0,0.21\nA,one,-1.8,0.23\n" + third,
                "No results: three exposed steps or fewer were read in the only strip");
    }

    @Test
    void transmittancesInPlaceOfDensities() throws IOException {
        String rows = with(strip("A", "one", true, 1), density -> Math.pow(10, -density));
        noResults(
                FIRST_ROWS + rows, "No results: in the only strip density falls with exposure, no reading is above 1");
    }

    private void cautioned(String table, String caution) throws IOException {
        assertEquals(0, run(write("table.csv", table), "A", "--no-plots", "--no-film-pages"), messages.toString());
        assertTrue(messages.toString().contains(caution), messages.toString());
        String page = Files.readString(out.resolve("report.html"));
        assertEquals(2, page.split(Pattern.quote(caution), -1).length, "the caution stands on the page once");
    }

    @Test
    void baseAlreadySubtracted() throws IOException {
        cautioned(
                FIRST_ROWS + with(strip("A", "one", true, 1), density -> density - 0.2),
                "Base plus fog reads about 0.00 on every strip, as if it had been subtracted already");
    }

    @Test
    void anExposureThatIsNoLogarithm() throws IOException {
        StringBuilder table = new StringBuilder("strip,box_speed,log_exposure,density\n");
        for (String id : List.of("A", "B", "C")) {
            strip(id, "100", true, 1)
                    .lines()
                    .forEach(row -> table.append(moved(row)).append('\n'));
        }
        cautioned(table.toString(), "All 3 strips with a box speed come out more than 2 stops slower than the box");
    }

    /** A row with its exposure two log units higher. */
    private static String moved(String row) {
        return exposed(row, exposure -> exposure + 2);
    }

    private static String exposed(String row, DoubleUnaryOperator exposure) {
        String[] fields = row.split(",", -1);
        if (!fields[2].isEmpty()) {
            fields[2] = String.format(Locale.ROOT, "%.2f", exposure.applyAsDouble(Double.parseDouble(fields[2])));
        }
        return String.join(",", fields);
    }

    private static String exposed(List<String> rows, DoubleUnaryOperator exposure) {
        return rows.stream().map(row -> exposed(row, exposure) + "\n").collect(Collectors.joining());
    }

    /** A millilux second is a thousandth of a lux second: its logarithm is greater by 3. */
    @Test
    void exposuresInMilliluxSeconds() throws IOException {
        List<String> a = strip("A", "100", true, 1).lines().toList();
        List<String> b = strip("B", "100", true, 1).lines().toList();
        String caution = "look like logarithms of millilux seconds";
        cautioned(
                FIRST_ROWS + exposed(a, x -> x + 3),
                "The exposures of the only strip look like logarithms of millilux seconds");
        begin();
        cautioned(
                FIRST_ROWS + exposed(a, x -> x) + exposed(b, x -> x + 3),
                "The exposures of 1 of 2 strips (B) look like logarithms of millilux seconds");
        begin();
        // A fast film comes out at an ordinary speed, a thousandth of that on its box.
        cautioned(
                "strip,box_speed,log_exposure,density\n"
                        + exposed(a, x -> x + 3 - Math.log10(16)).replace("A,100", "A,1600"),
                "The exposures of the only strip look like logarithms of millilux seconds");
        begin();
        // A film for prints from negatives, as slow as that, and told so.
        String slow = "strip,box_speed,log_exposure,density\n"
                + exposed(a, x -> x + 3).replace("A,100", "A,0.05");
        run(write("slow.csv", slow), "A", "--no-plots");
        assertFalse(messages.toString().contains(caution), messages.toString());
    }

    @Test
    void stopsInPlaceOfLogarithms() throws IOException {
        List<String> rows = strip("A", "100", true, 1).lines().toList();
        // The rows are 0.3 apart, which is a stop: from -3 in steps of 1.
        String stops = exposed(rows, x -> -3 + Math.round((x + 3) / 0.3));
        cautioned(
                "strip,box_speed,log_exposure,density\n" + stops,
                "The exposures of the only strip look like stops, not like logarithms");
        assertFalse(messages.toString().contains("millilux"), messages.toString());
        assertFalse(Files.readString(out.resolve("comparison.csv")).contains("no step was read between"));
    }

    @Test
    void secondsInPlaceOfMinutes() throws IOException {
        String rows = strip("A", "510", true, 1);
        cautioned(
                "strip,minutes,log_exposure,density\n" + rows,
                "More than 2 hours of development are stated for A: were these seconds?");
    }

    @Test
    void aVeryLongNameDoesNotEndTheRun() throws IOException {
        String name = "x".repeat(10_000);
        String table = FIRST_ROWS + strip(name, name, true, 1) + strip(name + "y", name, false, 1);
        assertEquals(1, run(write("table.csv", table), name), messages.toString());
        assertTrue(Files.exists(out.resolve("strip-" + "x".repeat(60) + "-2.svg")));
        assertTrue(
                messages.toString().length() < 1000,
                messages.toString()
                        .substring(0, Math.min(2500, messages.toString().length())));
        assertEquals(2, run(scratch.resolve("table.csv"), name + "z"));
        assertTrue(messages.toString().length() < 2000, messages::toString);
    }

    @Test
    void controlCharactersAreRefusedWhereTheyStand() throws IOException {
        String table = FIRST_ROWS + strip("A", "bell \u0007", true, 1);
        assertEquals(2, run(write("table.csv", table), "A"));
        assertTrue(
                messages.toString()
                        .contains("table.csv, line 2, column film: the label must be on one line without control"
                                + " characters, had U+0007"),
                messages.toString());
    }

    @Test
    void aRemarkIsNotAFileOfArguments() throws IOException {
        Path secret = write("secret.txt", "--nonsense");
        String table = FIRST_ROWS + strip("A", "one", true, 1);
        assertEquals(0, run(write("table.csv", table), "A", "--note", "@" + secret), messages.toString());
        assertTrue(Files.readString(out.resolve("report.html")).contains("@" + secret));
    }

    @Test
    void aWrongOptionIsToldInOneLine() throws IOException {
        assertEquals(2, run(write("table.csv", ""), "A", "--nonsense"));
        assertEquals(
                "film-comparison: Unknown option: '--nonsense'; film-comparison --help lists the options",
                messages.toString().strip());
    }
}
