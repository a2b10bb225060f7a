// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.examples.GoldenFiles;
import org.tonewedge.examples.PrintedDigits;
import org.tonewedge.examples.ProjectFiles;

class ToneComparisonProgramTest {

    private static final String REFERENCE = "Ostwick Reference 125";

    private static final Path DEMO = ProjectFiles.root().resolve("examples/demo");

    @TempDir
    static Path folder;

    @AfterAll
    static void everyFigureIsRoundedToItsUncertainty() {
        assertEquals(List.of(), PrintedDigits.faultsOf(folder));
    }

    private final StringWriter messages = new StringWriter();

    @BeforeAll
    static void makeDemo() throws IOException {
        System.setProperty("java.awt.headless", "true");
        DemoFrames.main(new String[] {folder.toString()});
    }

    private int run(String... args) {
        return ToneComparisonProgram.run(args, new PrintWriter(messages, true), new PrintWriter(messages, true));
    }

    private int runDemo(Path out, String... more) {
        String[] args = {
            folder.resolve("frames.csv").toString(),
            "--reference",
            REFERENCE,
            "--frame",
            "metered",
            "--strips",
            DEMO.resolve("strips.csv").toString(),
            "--paper",
            folder.resolve("paper.csv").toString(),
            "--flare",
            "0.02",
            "--out",
            out.toString()
        };
        String[] all = Arrays.copyOf(args, args.length + more.length);
        System.arraycopy(more, 0, all, args.length, more.length);
        return run(all);
    }

    private static String[] row(Path table, String start) throws IOException {
        return Files.readAllLines(table).stream()
                .filter(line -> line.startsWith(start))
                .findFirst()
                .orElseThrow()
                .split(",");
    }

    @Test
    void writesTablesChartsAndPage() throws IOException {
        Path out = folder.resolve("full");

        int status =
                runDemo(out, "--paper-range", "soft=130", "--paper-range", "normal=105", "--note", "Invented <data>.");

        assertTrue(status <= 1, messages.toString());
        for (String name : List.of(
                "shadow-match.csv",
                "print-exposure.csv",
                "colour-groups.csv",
                "colour-patches.csv",
                "range-latitude.csv",
                "paper-choice.csv",
                "tone-reproduction.csv",
                "patches.svg",
                "patches.png",
                "tone-reproduction-1.svg",
                "tone-reproduction-2.png")) {
            assertTrue(Files.size(out.resolve(name)) > 100, name);
        }
        GoldenFiles.assertTablesAsKept("tone", out);
        String page = Files.readString(out.resolve("tone.html"));
        assertTrue(page.contains("Invented &lt;data&gt;."), "remark");
        assertTrue(page.contains("tone-reproduction-2.svg"), "chart");
        assertTrue(
                page.contains(
                        "<li>Bellmarsh 400, strip 'S02' (strips.csv, lines 50 to 73): toe and straight line, which follows"),
                page);
    }

    @Test
    void findsWhatTheDemoWasMadeOf() throws IOException {
        Path out = folder.resolve("found");
        runDemo(out);

        // A film matched with itself.
        String[] own = row(out.resolve("shadow-match.csv"), REFERENCE);
        assertEquals("metered", own[1]);
        assertEquals(0, Double.parseDouble(own[4]), 1e-9);
        assertEquals(0, Double.parseDouble(own[6]), 0.005);
        // In blue, base plus fog 0.28 against 0.25: ΔD 0.03 is a factor of 1.07, ± 0.02 by three times the noise of the
        // means.
        String[] print = row(out.resolve("print-exposure.csv"), "Bellmarsh 400");
        assertEquals("status M blue", print[1]);
        assertEquals(1.07, Double.parseDouble(print[4]), 0.02);
        assertTrue(
                messages.toString().contains("Calder Mill 50: The base is tinted or stained: it is 0.13 denser"),
                messages.toString());
        // A film blind to red renders it 1.6 stops darker than neutral.
        String[] brick = row(out.resolve("colour-patches.csv"), "Calder Mill 50,brick");
        assertEquals(-1.6, Double.parseDouble(brick[5]), 0.1);
        assertEquals("darker", brick[8]);
        assertEquals("darker", brick[12]);
        // The grey of the reference is printed to 0.75.
        assertEquals(
                0.75, Double.parseDouble(row(out.resolve("tone-reproduction.csv"), REFERENCE + ",0.0,")[2]), 0.005);
    }

    @Test
    void tablesArePlainNumbersOrEmptyWithAReason() throws IOException {
        Path out = folder.resolve("plain");
        runDemo(out, "--paper-range", "soft=130");
        Path alone = folder.resolve("plain-alone");
        run(
                folder.resolve("frames.csv").toString(),
                "--reference",
                REFERENCE,
                "--frame",
                "metered",
                "--out",
                alone.toString());

        List<String> texts = List.of(
                "film",
                "frame",
                "patch",
                "group",
                "against",
                "paper",
                "bracket_reaches",
                "base_plus_fog_response",
                "notes");
        int tables = 0;
        for (Path directory : List.of(out, alone)) {
            try (DirectoryStream<Path> files = Files.newDirectoryStream(directory, "*.csv")) {
                for (Path file : files) {
                    tables++;
                    try (CsvReader<NamedCsvRecord> csv = CsvReader.builder().ofNamedCsvRecord(file)) {
                        csv.forEach(row -> row.getFieldsAsMap().forEach((column, field) -> {
                            String place = file + ", " + column + ": " + row;
                            assertTrue(column.matches("[a-z0-9_]+"), place);
                            if (field.isEmpty() && !column.equals("notes")) {
                                assertTrue(
                                        row.getField("notes").matches("(.* )?" + column + "(, [a-z0-9_]+)*: .+"),
                                        place);
                            } else if (!texts.contains(column) && !column.matches("shade_.*|completeness")) {
                                assertTrue(field.matches("-?[0-9]+\\.[0-9]+(E-?[0-9]+)?"), place);
                            }
                        }));
                    }
                }
            }
        }
        assertEquals(7 + 4, tables);
        assertTrue(row(out.resolve("colour-groups.csv"), "film").length > 5);
        assertTrue(Files.readString(out.resolve("colour-groups.csv")).contains("red_stops,red_stops_u,"));
        assertTrue(Files.readString(out.resolve("tone.html")).contains(" ± "));
    }

    @Test
    void doesWithFramesAlone() throws IOException {
        Path out = folder.resolve("frames");

        int status = run(
                folder.resolve("frames.csv").toString(),
                "--reference",
                REFERENCE,
                "--frame",
                "metered",
                "--out",
                out.toString());

        assertTrue(status <= 1, messages.toString());
        GoldenFiles.assertTablesAsKept("tone-frames-alone", out);
        assertTrue(Files.exists(out.resolve("colour-groups.csv")));
        assertTrue(Files.notExists(out.resolve("tone-reproduction.csv")));
    }

    /** One neutral patch has no range: that film loses its paper and its latitude, not the run. */
    @Test
    void aFilmWithOneNeutralPatchLosesItsPaperAlone() throws IOException {
        Path frames = folder.resolve("one-neutral.csv");
        Files.writeString(
                frames,
                Files.readAllLines(folder.resolve("frames.csv")).stream()
                        .filter(line -> !line.matches("Calder Mill 50,[^,]+,[^,]*,(?!shadow,)[^,]+,neutral,.*"))
                        .collect(Collectors.joining("\n", "", "\n")));
        Path out = folder.resolve("one-neutral");

        int status = run(
                frames.toString(),
                "--reference",
                REFERENCE,
                "--frame",
                "metered",
                "--paper-range",
                "soft=130",
                "--no-plots",
                "--out",
                out.toString());

        assertEquals(1, status, messages.toString());
        assertTrue(messages.toString().contains("read a dark and a light one"), messages.toString());
        assertEquals("", row(out.resolve("paper-choice.csv"), "Calder Mill 50")[2]);
        assertEquals("soft", row(out.resolve("paper-choice.csv"), "Bellmarsh 400")[2]);
    }

    /** Without base plus fog, or without the shadow on a frame, a film is lost by name, on the console and on the page. */
    @Test
    void aFilmThatCannotBeMatchedIsLostAlone() throws IOException {
        Path frames = folder.resolve("incomplete.csv");
        Files.writeString(
                frames,
                Files.readAllLines(folder.resolve("frames.csv")).stream()
                        .filter(line -> !line.matches("Calder Mill 50,,.*"))
                        .filter(line -> !line.matches("Bellmarsh 400,metered,[^,]*,shadow,.*"))
                        .collect(Collectors.joining("\n", "", "\n")));
        Path out = folder.resolve("incomplete");
        String[] args = {
            frames.toString(),
            "--reference",
            REFERENCE,
            "--frame",
            "metered",
            "--scan",
            "Calder Mill 50=unread.png",
            "--no-plots",
            "--out",
            out.toString()
        };

        assertEquals(1, run(args), messages.toString());

        List<String> lost = List.of(
                "the bracket on film 'Calder Mill 50' has no base-plus-fog reading; read an unexposed, processed part of"
                        + " the film",
                "bracket on film 'Bellmarsh 400': frame 'metered' has no patch 'shadow'");
        String page = Files.readString(out.resolve("tone.html")).replace("&#39;", "'");
        for (String reason : lost) {
            assertTrue(messages.toString().contains(reason), messages.toString());
            assertTrue(page.contains(reason), page);
        }
        assertTrue(page.contains("until then the film is left out"), page);
        String table = Files.readString(out.resolve("shadow-match.csv"));
        assertTrue(table.contains(REFERENCE) && !table.contains("Calder Mill 50"), table);

        args[2] = "Calder Mill 50";
        assertEquals(2, run(args), "the reference cannot be lost");
        assertTrue(messages.toString().contains("tone-comparison: incomplete.csv, line "), messages.toString());
    }

    /** The reference by one of its strips; a film with two strips is read on the one of the better contrast. */
    @Test
    void choosesStrips() throws IOException {
        Path strips = folder.resolve("choice.csv");
        Files.writeString(
                strips,
                Files.readAllLines(DEMO.resolve("strips.csv")).stream()
                        .filter(line -> line.matches("(strip|R00|S02|S12),.*"))
                        .map(line -> line.replaceFirst("^S12,[^,]*", "S12,Bellmarsh 400"))
                        .collect(Collectors.joining("\n", "", "\n")));
        String[] args = {
            folder.resolve("frames.csv").toString(),
            "--reference",
            "R00",
            "--frame",
            "metered",
            "--strips",
            strips.toString(),
            "--out",
            folder.resolve("choice").toString()
        };
        assertTrue(run(args) <= 1, messages.toString());
        String page = Files.readString(folder.resolve("choice/tone.html"));
        assertTrue(
                page.contains("Film 'Bellmarsh 400' has 2 strips; 'S02' (") && page.contains("is used, because"), page);
        assertTrue(messages.toString().contains("film 'Calder Mill 50' has no strip in"), messages.toString());
        assertTrue(page.contains("<li>film 'Calder Mill 50' has no strip in"), page);
        String[] named = Arrays.copyOf(args, args.length + 2);
        named[args.length] = "--strip";
        named[args.length + 1] = "Bellmarsh 400=S12";
        assertTrue(run(named) <= 1, messages.toString());
        assertTrue(!Files.readString(folder.resolve("choice/tone.html")).contains("is used, because"));
    }

    /** A strip that was not developed gives no curve; the reason stands where the figures are missed. */
    @Test
    void aFilmWithoutCurveIsToldWithTheReason() throws IOException {
        Path strips = folder.resolve("level.csv");
        Files.writeString(
                strips,
                Files.readAllLines(DEMO.resolve("strips.csv")).stream()
                        .filter(line -> line.matches("(strip|R00|S02|S03),.*"))
                        .map(line -> line.startsWith("S03") ? line.replaceFirst("[^,]*$", "0.3") : line)
                        .collect(Collectors.joining("\n", "", "\n")));

        int status = run(
                folder.resolve("frames.csv").toString(),
                "--reference",
                "Ostwick Reference 125",
                "--frame",
                "metered",
                "--strips",
                strips.toString(),
                "--no-plots",
                "--out",
                folder.resolve("level").toString());

        assertEquals(1, status, messages.toString());
        String reason = "densities run from 0.3 to 0.3 only; check that the strip was exposed and developed";
        assertTrue(messages.toString().contains(reason), messages.toString());
        assertTrue(Files.readString(folder.resolve("level/tone.html")).contains(reason), "page");
    }

    @Test
    void measuresAScan() throws IOException {
        // White noise of σ 0.05 at D 1.0 and 4 µm: 0.05 / √113.1 through 48 µm, 4.70 times 1000; noise power 0.05² 4².
        Path scan = folder.resolve("grain.png");
        BufferedImage image = new BufferedImage(900, 900, BufferedImage.TYPE_USHORT_GRAY);
        Random random = new Random(2);
        for (int i = 0; i < 810_000; i++) {
            double density = 1.0 + 0.05 * random.nextGaussian();
            image.getRaster().setSample(i % 900, i / 900, 0, (int) Math.round(65_535 * Math.pow(10, -density)));
        }
        ImageIO.write(image, "png", scan.toFile());
        Path tiff = folder.resolve("grain.tif");
        ImageIO.write(image, "tiff", tiff.toFile());
        Path out = folder.resolve("grain");

        runDemo(out, "--scan", REFERENCE + "=" + scan, "--scan", "Bellmarsh 400=" + tiff, "--scan-pitch", "4");

        String[] png = row(out.resolve("granularity.csv"), REFERENCE);
        assertEquals(4.70, Double.parseDouble(png[3]), 0.2);
        assertEquals(0.04, Double.parseDouble(png[12]), 4 * Double.parseDouble(png[13]));
        assertTrue(Double.parseDouble(png[13]) < 0.003, png[13]);
        assertTrue(Double.parseDouble(png[15]) <= 10, png[15]);
        // The reference beside itself is exact; the ratio of another has the relative variances of both.
        assertEquals(0, Double.parseDouble(png[10]));
        String[] other = row(out.resolve("granularity.csv"), "Bellmarsh 400");
        assertEquals(
                Double.parseDouble(other[9])
                        * Math.hypot(
                                Double.parseDouble(png[4]) / Double.parseDouble(png[3]),
                                Double.parseDouble(other[4]) / Double.parseDouble(other[3])),
                Double.parseDouble(other[10]),
                1e-12);
        assertArrayEquals(
                Arrays.copyOfRange(png, 2, 5),
                Arrays.copyOfRange(row(out.resolve("granularity.csv"), "Bellmarsh 400"), 2, 5));
        GoldenFiles.assertTablesAsKept("tone-grain", out);
    }

    @Test
    void saysWhereAScanIsTooSmallForNoisePower() throws IOException {
        Path scan = folder.resolve("small.png");
        BufferedImage image = new BufferedImage(200, 200, BufferedImage.TYPE_USHORT_GRAY);
        Random random = new Random(3);
        for (int i = 0; i < 40_000; i++) {
            image.getRaster().setSample(i % 200, i / 200, 0, 6000 + random.nextInt(1000));
        }
        ImageIO.write(image, "png", scan.toFile());
        Path out = folder.resolve("small");

        runDemo(out, "--scan", REFERENCE + "=" + scan);

        String[] small = row(out.resolve("granularity.csv"), REFERENCE);
        assertArrayEquals(new String[] {"", "", "", ""}, Arrays.copyOfRange(small, 12, 16));
        assertTrue(messages.toString().contains("250 pixels wide, the image 200 by 200"), messages.toString());
    }

    @Test
    void refusesEightBitScans() throws IOException {
        Path scan = folder.resolve("eight.png");
        ImageIO.write(new BufferedImage(9, 9, BufferedImage.TYPE_BYTE_GRAY), "png", scan.toFile());

        assertEquals(2, runDemo(folder.resolve("eight"), "--scan", REFERENCE + "=" + scan));
        assertTrue(messages.toString().contains("16-bit grey"), messages.toString());
    }

    @Test
    void saysWhatIsWrong() {
        Path out = folder.resolve("wrong");
        String frames = folder.resolve("frames.csv").toString();

        assertEquals(2, run(frames, "--reference", "Nowhere", "--frame", "metered", "--out", out.toString()));
        assertEquals(2, run(frames, "--reference", REFERENCE, "--frame", "noon", "--out", out.toString()));
        assertEquals(2, run("none.csv", "--reference", REFERENCE, "--frame", "metered", "--out", out.toString()));
        String strips = DEMO.resolve("strips.csv").toString();
        assertEquals(
                2,
                run(
                        frames,
                        "--reference",
                        REFERENCE,
                        "--frame",
                        "metered",
                        "--strips",
                        strips,
                        "--paper",
                        strips,
                        "--out",
                        out.toString()));
        String said = messages.toString();
        assertTrue(said.contains("frames.csv has no film 'Nowhere'; it has Ostwick"), said);
        assertTrue(said.contains("no frame 'noon'"), said);
        assertTrue(said.contains("there is no file none.csv"), said);
        assertTrue(said.contains("has 39 strips; --paper takes a table with one"), said);
    }

    @Test
    void refusesAPaperRangeInLogUnits() {
        for (String range : new String[] {"1.1", "19", "301", "NaN"}) {
            assertEquals(2, runDemo(folder.resolve("log-units"), "--paper-range", "grade2=" + range));
        }
        String said = messages.toString();
        assertTrue(said.contains("--paper-range 'grade2' must be from 20 to 300, was 1.1; give ISO range R"), said);
        assertTrue(Files.notExists(folder.resolve("log-units")));
    }

    @Test
    void refusesOptionsThatWouldHaveNoEffect() {
        String out = folder.resolve("no-effect").toString();
        String frames = folder.resolve("frames.csv").toString();
        String[] needs = {
            "--paper", "paper.csv", "--strips", "--flare", "0.02", "--paper", "--scan-pitch", "4", "--scan"
        };
        for (int i = 0; i < needs.length; i += 3) {
            assertEquals(
                    2,
                    run(frames, "--reference", REFERENCE, "--frame", "metered", "--out", out, needs[i], needs[i + 1]));
            String said = needs[i] + " has no effect without " + needs[i + 2];
            assertTrue(messages.toString().contains(said), messages.toString());
        }
        assertEquals(2, run(frames, "--reference", REFERENCE, "--frame", "metered", "--out", out, "--sheet", "Steps"));
        assertTrue(messages.toString().contains("give the sheet of the frames by --frames-sheet"), messages.toString());
        assertTrue(Files.notExists(Path.of(out)));
    }

    @Test
    void madeTheDemoDataThatAreKept() throws IOException {
        for (String name : List.of("frames.csv", "paper.csv")) {
            assertEquals(Files.readString(DEMO.resolve(name)), Files.readString(folder.resolve(name)), name);
        }
    }

    /** Net densities count Q times, base plus fog once; unlike or projected densities are not printed by. */
    @Test
    void printsByDensitiesAsThePrinterSeesThem() throws IOException {
        Path out = folder.resolve("callier");
        runFrames(out, "frames.csv", "--callier", "1.5");
        double[] diffuse =
                stops(folder.resolve("frames-only"), () -> runFrames(folder.resolve("frames-only"), "frames.csv"));
        double[] condenser = stops(out, () -> 0);
        assertEquals(diffuse[0], condenser[0], 1e-9);
        assertEquals(1.5 * (diffuse[1] - diffuse[0]), condenser[1] - condenser[0], 1e-9);

        String frames = Files.readString(folder.resolve("frames.csv"));
        Files.writeString(folder.resolve("eye.csv"), frames.replaceAll("(?m)^.*status M blue.*\n", ""));
        runFrames(folder.resolve("eye"), "eye.csv");
        assertTrue(messages.toString()
                .contains("known to the eye alone for Ostwick Reference 125, Bellmarsh 400, Calder"));
        Files.writeString(
                folder.resolve("unlike.csv"),
                frames.replaceAll("(?m)^(Bellmarsh 400.*),visual,diffuse$", "$1,visual,specular")
                        .replaceAll("(?m)^(Bellmarsh 400.*blue),diffuse$", "$1,specular"));
        assertEquals(1, runFrames(folder.resolve("unlike"), "unlike.csv"), messages.toString());
        assertTrue(
                messages.toString()
                        .contains("its frames were read by visual, specular, those of the reference by visual"),
                messages.toString());
        assertEquals("", row(folder.resolve("unlike/print-exposure.csv"), "Bellmarsh 400")[4]);
        assertEquals(2, runFrames(folder.resolve("twice"), "unlike.csv", "--callier", "1.5"));
        assertTrue(
                messages.toString()
                        .contains("--callier is for diffuse densities, but those of 'Bellmarsh 400' are specular"),
                messages.toString());
    }

    private int runFrames(Path out, String table, String... more) {
        return run(Stream.concat(
                        Stream.of(
                                folder.resolve(table).toString(),
                                "--reference",
                                REFERENCE,
                                "--frame",
                                "metered",
                                "--no-plots",
                                "--out",
                                out.toString()),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    /** The stops for base plus fog and for the grey of one film. */
    private static double[] stops(Path out, Supplier<Integer> run) throws IOException {
        assertTrue(run.get() <= 1);
        String[] row = row(out.resolve("print-exposure.csv"), "Calder Mill 50");
        return new double[] {Double.parseDouble(row[3]), Double.parseDouble(row[7])};
    }
}
