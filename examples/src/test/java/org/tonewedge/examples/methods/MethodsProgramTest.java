// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.examples.PrintedDigits;
import org.tonewedge.examples.spreadsheet.SheetWriter;

/** Each question on its demo table, whose truth {@link DemoMethods} states. */
class MethodsProgramTest {

    private static final Path DEMO = Path.of("demo");

    @TempDir
    private Path directory;

    @AfterEach
    void everyFigureIsRoundedToItsUncertainty() {
        assertEquals(List.of(), PrintedDigits.faultsOf(directory));
    }

    private final StringWriter output = new StringWriter();
    private final StringWriter messages = new StringWriter();

    private int run(String... args) {
        return MethodsProgram.run(args, new PrintWriter(output), new PrintWriter(messages));
    }

    private int ask(String question, String file, String... more) {
        List<String> args = new ArrayList<>(List.of(
                question,
                DEMO.resolve(file).toString(),
                "--out",
                directory.resolve(question).toString()));
        args.addAll(List.of(more));
        return run(args.toArray(String[]::new));
    }

    private NamedCsvRecord figure(String question, String subject, String figure) throws IOException {
        try (CsvReader<NamedCsvRecord> csv =
                CsvReader.builder().ofNamedCsvRecord(directory.resolve(question).resolve(question + ".csv"))) {
            return csv.stream()
                    .filter(row -> row.getField("subject").equals(subject)
                            && row.getField("figure").startsWith(figure))
                    .findFirst()
                    .orElseThrow();
        }
    }

    /**
     * The truth of {@link DemoMethods} lies within three standard uncertainties. From the box: log₂ 160/200 = −0.322; at 640 nm
     * −(100/220)² − ln(1 + e^(−10/15)) = −0.621.
     */
    @ParameterizedTest
    @CsvSource(textBlock = """
            filter-factor,    filters.csv,        yellow,         filter factor,            2
            filter-factor,    filters.csv,        red,            exposure,                 3
            callier,          callier.csv,        film,           Callier's factor Q,       1.32
            reciprocity,      reciprocity.csv,    Schwarzschild,  exponent p,               0.86
            camera-flare,     flare.csv,          camera,         flare,                    0.012
            camera-flare,     flare.csv,          camera,         log exposure of the bare, -0.5
            personal-index,   shadow-frames.csv,  Alder Demo 200, personal exposure index,  160
            personal-index,   shadow-frames.csv,  Birch Demo 400, personal exposure index,  250
            personal-index,   shadow-frames.csv,  Alder Demo 200, from the speed on the box, -0.322
            spectrogram,      spectrogram.csv,    640 nm,         log sensitivity,          -0.621
            """)
    void findsWhatTheDemoTableWasMadeWith(String question, String file, String subject, String figure, double truth)
            throws IOException {
        String[] stated = question.equals("filter-factor") ? new String[] {"--uncertainty", "0.01"} : new String[0];
        assertEquals(0, ask(question, "methods/" + file, stated), messages.toString());

        NamedCsvRecord row = figure(question, subject, figure);
        double u = Double.parseDouble(row.getField("u"));
        assertEquals(truth, Double.parseDouble(row.getField("value")), 3 * u, row.toString());
        assertTrue(u < 0.3 * Math.abs(truth), "an uncertainty that proves something: " + row);
        assertTrue(Files.readString(directory.resolve(question).resolve("report.html"))
                .contains(figure));
        assertTrue(output.toString().contains("holds for: "), output.toString());
    }

    @Test
    void correctsLongTimes() throws IOException {
        ask("reciprocity", "methods/reciprocity.csv");

        // t = 100 s by the meter: t^p = 100 with p = 0.86, so 100^(1/0.86) = 211 s
        NamedCsvRecord row = figure("reciprocity", "Schwarzschild", "corrected time for 100 s");
        assertEquals(211, Double.parseDouble(row.getField("value")), 3 * Double.parseDouble(row.getField("u")));
    }

    /** The times of a table in milliseconds by mistake, or of very long exposures: the first is right by definition. */
    @Test
    void theShortestTimeIsPrintedAsItIs() throws IOException {
        Path file = Files.writeString(
                directory.resolve("long.csv"),
                "seconds,log_exposure,u\n1000,-1.188,0.01\n3000,-1.137,0.01\n10000,-1.049,0.01\n");
        assertEquals(
                0,
                run(
                        "reciprocity",
                        file.toString(),
                        "--out",
                        directory.resolve("reciprocity").toString()),
                messages.toString());
        NamedCsvRecord row = figure("reciprocity", "Schwarzschild", "corrected time for 1000 s");
        assertEquals("1000.00", row.getField("value"));
        assertEquals("", row.getField("u"));
        assertTrue(output.toString().contains("corrected time for 1000 s by the meter: 1000 s"), output.toString());
    }

    @Test
    void warnsOfATintedBase() throws IOException {
        assertEquals(0, ask("printing-channel", "methods/tinted-bases.csv"), messages.toString());

        // 0.46 − 0.27 = 0.19 in log exposure, over log 2 = 0.631 stop
        NamedCsvRecord row = figure("printing-channel", "Birch Demo 400", "print exposure");
        assertEquals(0.631, Double.parseDouble(row.getField("value")), 0.001);
        assertTrue(output.toString().contains("finding: Birch Demo 400: "), output.toString());
    }

    @Test
    void namesTheRunsThatAreOutOfControl() {
        assertEquals(0, ask("process-control", "methods/control-strips.csv", "--baseline", "14"), messages.toString());

        assertTrue(output.toString().contains("finding: run 18: contrast"), output.toString());
        assertTrue(output.toString().contains("limits: three standard deviations of the first 14 runs"));
        assertTrue(output.toString().contains("11, contrast, from the reference: 0.000 density"), output.toString());
    }

    @Test
    void comparesColoursAndRanges() throws IOException {
        assertEquals(0, ask("colour-pairs", "frames.csv", "--frame", "metered"), output + messages.toString());
        assertTrue(output.toString().contains("renders red lighter against cyan than"), output.toString());

        // S17 was hardly exposed.
        assertEquals(1, ask("scanned-range", "strips.csv", "--noise", "0.004,0.002"), messages.toString());
        assertTrue(output.toString().contains("S17, range: not determined"), output.toString());
        // demo_truth.py (SciPy 1.17.1) on the formulas of DemoStrips: the gradients reach the limit 0.971 stop apart.
        NamedCsvRecord speed = figure("scanned-range", "S02", "speed for the scanner");
        assertEquals(0.971, Double.parseDouble(speed.getField("value")), 0.1);
    }

    @ParameterizedTest
    @EnumSource(MethodQuestion.class)
    void saysWhatItsTableIs(MethodQuestion question) {
        assertEquals(0, run(question.word()));
        assertTrue(output.toString().startsWith(question.title() + ": "), output.toString());
    }

    @Test
    void keepsTheDemoTablesThatItsProgramWrites() throws IOException {
        DemoMethods.write(directory);
        try (Stream<Path> files = Files.list(DEMO.resolve("methods"))) {
            for (Path file : files.toList()) {
                assertEquals(
                        Files.readString(file),
                        Files.readString(directory.resolve(file.getFileName().toString())),
                        file.toString());
            }
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            sharpness       |                                        | the question "sharpness" is not one of
            reciprocity     | seconds,log_exposure\\n1,0.1           | the header lacks the column u
            reciprocity     | seconds,log_exposure,u\\n-1,0.1,0      | line 2: seconds must be above 0
            reciprocity     | seconds,log_exposure,u\\n1,abc,0       | line 2: log_exposure "abc" is not a number
            callier         | place,diffuse,specular\\n1,0.3,0.4     | there is no place named base
            printing-channel| film,response,density\\nA,infrared,0.3 | "infrared" is not a spectral response
            scanned-range   | strip,log_exposure,density             | needs --noise A,B
            process-control | run,base_plus_fog,speed_point,high_step\\nr,0.2,0.7,1.3 | one run at least
            """)
    void refusesWhatItCannotUse(String question, String text, String message) throws IOException {
        Path file = Files.writeString(
                directory.resolve("table.csv"), String.valueOf(text).replace("\\n", "\n"));

        assertEquals(2, run(question.strip(), file.toString()));
        assertTrue(messages.toString().contains(message), messages.toString());
    }

    @Test
    void refusesAnOptionThatChangesNothing() {
        assertEquals(2, run("callier", DEMO.resolve("methods/callier.csv").toString(), "--noise", "0.01,0"));
        assertTrue(
                messages.toString().contains("callier has no use for --noise; it takes --density: leave it out"),
                messages.toString());
    }

    /** A spreadsheet of a country with decimal commas saves semicolons; an XLSX file has neither. */
    @Test
    void tablesAreReadInEveryDialect() throws IOException {
        Path points = DEMO.resolve("methods/callier.csv");
        assertEquals(
                0,
                run(
                        "callier",
                        points.toString(),
                        "--out",
                        directory.resolve("points").toString()));
        String text = Files.readString(points);
        Path commas = Files.writeString(
                directory.resolve("commas.csv"),
                "# made; here\n" + text.replace(',', ';').replace('.', ','));
        assertEquals(
                0,
                run(
                        "callier",
                        commas.toString(),
                        "--out",
                        directory.resolve("commas").toString()),
                messages::toString);
        Path sheet = directory.resolve("callier.xlsx");
        SheetWriter.XLSX.write(CsvDialect.guessed().open(points), sheet);
        assertEquals(
                0,
                run(
                        "callier",
                        sheet.toString(),
                        "--out",
                        directory.resolve("sheet").toString()),
                messages::toString);
        for (String out : List.of("commas", "sheet")) {
            try (Stream<Path> files = Files.list(directory.resolve("points"))) {
                for (Path csv :
                        files.filter(file -> file.toString().endsWith(".csv")).toList()) {
                    assertEquals(
                            Files.readString(csv),
                            Files.readString(directory.resolve(out).resolve(csv.getFileName())));
                }
            }
        }
        Path wrong = Files.writeString(directory.resolve("wrong.csv"), text.replace("0.25", "abc"));
        assertEquals(
                2,
                run(
                        "callier",
                        wrong.toString(),
                        "--out",
                        directory.resolve("wrong").toString()));
        assertTrue(
                messages.toString().contains("wrong.csv, line 3: diffuse \"abc\" is not a number"),
                messages.toString());
    }
}
