// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.strip.ReadingsReader;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.PrintedDigits;
import org.tonewedge.examples.scan.ScanFile;

/** The program on scans whose sharpness, grain and densities were put in by {@link DemoScan}. */
class DetailProgramTest {

    private static final double BLUR = 4.0;
    private static final double GRAIN = 0.02;

    @TempDir
    private Path directory;

    @AfterEach
    void everyFigureIsRoundedToItsUncertainty() {
        assertEquals(List.of(), PrintedDigits.faultsOf(directory));
    }

    private Path scan;
    private final StringWriter messages = new StringWriter();

    @BeforeEach
    void drawScan() throws IOException {
        scan = directory.resolve("alder.png");
        DemoScan.write(BLUR, GRAIN, 7, scan);
    }

    private int run(String... args) {
        List<String> all = new ArrayList<>(Arrays.asList(args));
        all.add("--out");
        all.add(directory.resolve("out").toString());
        return DetailProgram.run(all.toArray(String[]::new), new PrintWriter(messages), new PrintWriter(messages));
    }

    private Map<String, NamedCsvRecord> figures() throws IOException {
        Map<String, NamedCsvRecord> found = new LinkedHashMap<>();
        try (CsvReader<NamedCsvRecord> csv =
                CsvReader.builder().ofNamedCsvRecord(directory.resolve("out/detail.csv"))) {
            csv.forEach(row -> found.put(row.getField("region") + " " + row.getField("figure"), row));
        }
        return found;
    }

    private static double value(NamedCsvRecord row) {
        return Double.parseDouble(row.getField("value"));
    }

    /** The frequency at which exp(−2 (πfs)²) falls to M is √(ln(1/M)/2) / (πs). */
    private static double gaussian(double modulation) {
        return Math.sqrt(Math.log(1 / modulation) / 2) / Math.PI / (BLUR / 1000);
    }

    @Test
    void whatWasPutInComesOut() throws IOException {
        assertEquals(
                0,
                run(
                        scan.toString(),
                        "--pixels-per-mm=200",
                        "--edge=knife=110,40,140,280",
                        "--grain=even=20,380,320,320",
                        "--bars=coarse=450,10,90,340@20",
                        "--bars=fine=540,10,90,340@40",
                        "--chart=chart=360,360,360,360/4x4"),
                messages::toString);
        Map<String, NamedCsvRecord> found = figures();
        assertEquals(
                List.of("scan", "region", "figure", "value", "u", "degrees_of_freedom", "unit", "notes"),
                found.get("knife mtf50").getHeader());
        NamedCsvRecord mtf50 = found.get("knife mtf50");
        double u = Double.parseDouble(mtf50.getField("u"));
        assertEquals(gaussian(0.5), value(mtf50), 3 * u);
        assertTrue(u > 0 && u < 0.03 * value(mtf50), "u = " + u);
        assertEquals("cycles/mm", mtf50.getField("unit"));
        assertEquals(gaussian(0.1), value(found.get("knife mtf10")), 0.15 * gaussian(0.1));
        // White noise of σ from pixel to pixel gives σ p / √A through an aperture of area A.
        double expected = 1000 * GRAIN * 5 / Math.sqrt(Math.PI * 48 * 48 / 4);
        assertEquals(expected, value(found.get("even rms_granularity")), 0.08 * expected);
        assertEquals(0.90, value(found.get("even mean_density")), 0.002);
        for (int i = 0; i < 16; i++) {
            String patch = "chart-" + (i / 4 + 1) + "-" + (i % 4 + 1) + " density";
            assertEquals(0.20 + 0.10 * i, value(found.get(patch)), 0.003, patch);
        }
        assertEquals(
                0.6 * Math.exp(-2 * Math.pow(Math.PI * 0.020 * BLUR, 2)),
                value(found.get("coarse bar_modulation")),
                0.006);
        assertEquals(40, value(found.get("coarse+fine resolving_power")));
        assertTrue(found.get("coarse+fine resolving_power").getField("notes").contains("lower bound"));
        assertEquals(
                DemoScan.SIDE,
                ImageIO.read(directory.resolve("out/alder-regions.png").toFile())
                        .getWidth());
        assertTrue(Files.size(directory.resolve("out/mtf.csv")) > 1000);
    }

    @Test
    void aRegionWithoutAnEdgeHasRowsThatSayWhyAndStatusOne() throws IOException {
        assertEquals(1, run(scan.toString(), "--pixels-per-mm=200", "--edge=none=20,380,200,200"));
        NamedCsvRecord row = figures().get("none mtf50");
        assertEquals("", row.getField("value"));
        assertTrue(row.getField("notes").contains("place"), row.getField("notes"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--pixels-per-mm=200 | no region is given",
                "--edge=a=10,10,50,50 | does not state its resolution; give it with --pixels-per-mm",
                "--pixels-per-mm=200 --edge=a=700,10,50,50 | reaches beyond",
                "--pixels-per-mm=200 --edge=a=10,10,50 | X,Y,WIDTH,HEIGHT",
                "--pixels-per-mm=0 --edge=a=10,10,50,50 | must be above 0",
                "--pixels-per-mm=200 --bars=a=10,10,50,50 | 40,30,200,120@25",
                "--pixels-per-mm=200 --chart=a=10,10,50,50/3 | 40,30,600,400/4x6",
                "--pixels-per-mm=200 --chart=a=10,10,50,50/4.5x6 | --chart a: '4.5' is not a whole number",
                "--pixels-per-mm=200 --chart=a=10,10,50,10,50,50/4x6 | four corners are eight numbers",
                "--pixels-per-mm=200 --chart=a=10,10,50,10,50,5000,10,5000/4x6 | corners 10,10,50,10,50,5000,10,5000 reach beyond",
                "--pixels-per-mm=200 --edge=a=10,10,50,50 --scanner-floor=0.2 | --scanner-floor has no effect without",
                "--pixels-per-mm=200 --edge=a=10,10,50,50 --scanner-edge=10,10,50,50 --scanner-floor=1 | below 1, was 1.0",
                "--pixels-per-mm=200 --edge=a=10,10,50,50 --scanner=elsewhere/alder.png --scanner-edge=10,10,50,50 | two scans are named alder",
                "--pixels-per-mm=200 --edge=a=10,10,50,50 --dark=70000 | --open-gate must be above --dark",
                "--pixels-per-mm=200 --grain=a=10,10,50,50 --dark=60000 | alder, region 10,10,50,50, column 10, row 10: code",
                "--pixels-per-mm=200 --grain=a=10,10,50,50 --dark=60000 | is black, beyond the range of the scanner",
                "--pixels-per-mm=200 --grain=a=-10,10,50,50 | alder, region a: left column",
                "--pixels-per-mm=200 --grain=birch/a=10,10,50,50 | region birch/a is on none of the scans; they are alder",
                "--pixels-per-mm=200 --grain=a=10,10,50,50 --grain=alder/a=10,10,60,50 | given for all scans and for alder",
                "--pixels-per-mm=200 --grain=a=10,10,50,50 --grain=a=10,10,60,50 | --grain has the name a twice",
                "--pixels-per-mm=200 --grain==10,10,50,50 | --grain '=10,10,50,50' has no name",
                "--pixels-per-mm=200,5 --grain=a=10,10,50,50 | '200,5' is not a number; write it with a decimal point",
                "--pixels-per-mm=200 --grain=a=10,10,50,50 --encoding=UTF-16 | --encoding has no effect without --curve",
                "--pixels-per-mm=200 --grain=10,10,50,50 | --grain must be given as NAME=REGION, was '10,10,50,50'"
            })
    void whatCannotBeUsedIsRefusedInWords(String options, String words) {
        List<String> args = new ArrayList<>(List.of(scan.toString()));
        args.addAll(Arrays.asList(options.split(" ")));
        assertEquals(2, run(args.toArray(String[]::new)));
        assertTrue(messages.toString().contains(words), messages.toString());
    }

    @Test
    void anApertureLargerThanTheRegionHasRowsThatSaySo() throws IOException {
        assertEquals(1, run(scan.toString(), "--pixels-per-mm=200", "--grain=a=20,380,200,200", "--aperture=1e9"));
        String notes = figures().get("a rms_granularity").getField("notes");
        assertTrue(notes.contains("0 independent readings"), notes);
    }

    /** The options of tables of readings hold for the curve, too. */
    @Test
    void theCurveIsReadInItsEncoding() throws IOException {
        StringBuilder rows = new StringBuilder("strip,log_exposure,density\nA,,0.2\n");
        for (int i = 0; i < 9; i++) {
            rows.append(String.format(Locale.ROOT, "A,%.1f,%.2f%n", -3 + 0.3 * i, 0.2 + 0.05 * i * i / 3));
        }
        Path curve = directory.resolve("curve.csv");
        Files.writeString(curve, rows, StandardCharsets.UTF_16);
        String[] args = {scan.toString(), "--pixels-per-mm=200", "--grain=a=20,380,200,200", "--curve=" + curve};
        assertEquals(2, run(args));
        assertTrue(messages.toString().contains("state its encoding"), messages.toString());
        args = Arrays.copyOf(args, 5);
        args[4] = "--encoding=UTF-16";
        assertEquals(0, run(args), messages.toString());
    }

    @Test
    void emptyNamesOfFilesAreRefused() {
        assertEquals(2, run(scan.toString(), "--pixels-per-mm=200", "--grain=a=20,380,200,200", "--scanner="));
        assertTrue(messages.toString().contains("--scanner is empty; give it the name of a file"), messages.toString());
        assertEquals(2, run("", "--pixels-per-mm=200", "--grain=a=20,380,200,200"));
        assertTrue(messages.toString().contains("an input has no name"), messages.toString());
    }

    @Test
    void twoScansOfOneNameAreRefused() throws IOException {
        Path other = Files.createDirectory(directory.resolve("other")).resolve("alder.png");
        Files.copy(scan, other);
        assertEquals(2, run(scan.toString(), other.toString(), "--pixels-per-mm=200", "--grain=a=20,380,320,320"));
        assertTrue(messages.toString().contains("two scans are named alder"), messages.toString());
        assertTrue(Files.notExists(directory.resolve("out/detail.csv")));
    }

    @Test
    void filesThatAreNoWholeImagesAreRefused() throws IOException {
        Path cut = directory.resolve("cut.png");
        byte[] whole = Files.readAllBytes(scan);
        Files.write(cut, Arrays.copyOf(whole, whole.length / 3));
        assertEquals(2, run(cut.toString(), "--pixels-per-mm=200", "--edge=a=110,300,140,280"));
        assertTrue(messages.toString().contains("damaged or cut short"), messages.toString());
        Path text = Files.writeString(directory.resolve("text.png"), "no image");
        assertEquals(2, run(text.toString(), "--pixels-per-mm=200", "--edge=a=110,300,140,280"));
        assertTrue(messages.toString().contains("is not a PNG or TIFF image"), messages.toString());
        // A header that promises 20,000 by 30,000 pixels over the same few bytes.
        byte[] liar = whole.clone();
        liar[18] = (byte) (20_000 >> 8);
        liar[19] = (byte) 20_000;
        liar[22] = (byte) (30_000 >> 8);
        liar[23] = (byte) 30_000;
        Path lies = Files.write(directory.resolve("lies.png"), liar);
        assertEquals(2, run(lies.toString(), "--pixels-per-mm=200", "--edge=a=10000,20000,140,280"));
        assertTrue(messages.toString().contains("damaged"), messages.toString());
    }

    /** A tablet and a film strip exposed through it, with flare; the densities are known. */
    private Path scanOfStrips(double[] tablet, double[] film, double base) throws IOException {
        int width = 760;
        int height = 240;
        Random random = new Random(3);
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_USHORT_GRAY);
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int k = Math.floorDiv(x - 60, 30);
                double density = 0;
                if (k >= 0 && k < tablet.length && y < 110) {
                    density = tablet[k];
                } else if (y >= 120 && k >= -1 && k <= film.length) {
                    density = k < 0 || k == film.length ? base : film[k];
                }
                double light = (Math.pow(10, -density) + 0.002) / 1.002 + 1e-4 * random.nextGaussian();
                image.getRaster().setSample(x, y, 0, (int) Math.round(65_000 * Math.max(0, Math.min(1, light))));
            }
        }
        Path file = directory.resolve("strips.png");
        ImageIO.write(image, "png", file.toFile());
        return file;
    }

    @Test
    void stripsAreReadThroughTheTabletIntoATableThatOtherProgramsRead() throws IOException {
        StringBuilder certificate = new StringBuilder("step,density,expanded_uncertainty\n");
        double[] tablet = new double[21];
        double[] film = new double[21];
        for (int k = 0; k < 21; k++) {
            tablet[k] = 0.05 + 0.12 * k;
            film[k] = 0.30 + 1.8 / (1 + Math.exp(0.45 * (k - 9)));
            certificate.append(k + 1).append(',').append(tablet[k]).append(",0.01\n");
        }
        Path file = scanOfStrips(tablet, film, 0.25);
        Path certified = Files.writeString(directory.resolve("tablet.csv"), certificate);
        assertEquals(
                0,
                run(
                        file.toString(),
                        "--pixels-per-mm=20",
                        "--tablet=" + certified,
                        "--tablet-region=tablet=40,5,700,100",
                        "--steps=alder=60,130,630,100/21",
                        "--base=alder=32,140,24,80"),
                messages::toString);
        Map<String, NamedCsvRecord> found = figures();
        for (int k = 0; k < 21; k++) {
            NamedCsvRecord step = found.get("alder-" + (k + 1) + " density");
            assertEquals(film[k], value(step), 0.006, "step " + (k + 1));
            assertTrue(Double.parseDouble(step.getField("u")) >= 0.005);
        }
        Strip strip = ReadingsReader.withDefaults()
                .with(StepTablet.calibrated("tablet", tablet))
                .read(directory.resolve("out/readings.csv"))
                .strip("alder");
        assertEquals(21, strip.steps().size());
        assertEquals(0.25, strip.basePlusFog().orElseThrow().value(), 0.006);
        // The clear end of the tablet gave the greatest exposure.
        assertEquals(film[0], strip.steps().get(20).density().value(), 0.006);
        assertTrue(Files.readString(directory.resolve("out/detail.html")).contains("by its tablet"));
    }

    @Test
    void regionsInMillimetresAreThoseInPixels() throws IOException {
        assertEquals(
                0,
                run(scan.toString(), "--pixels-per-mm=200", "--grain=a=20,380,320,320", "--grain=b=0.1,1.9,1.6,1.6mm"),
                messages::toString);
        assertEquals(
                figures().get("a rms_granularity").getField("value"),
                figures().get("b rms_granularity").getField("value"));
    }

    /** More pixels than are decoded at a time, so that the file is read in one pass, row by row. */
    @ParameterizedTest
    @CsvSource({"png, grey", "png, colour", "tif, grey"})
    void largeScansAreReadRowByRow(String format, String kind) throws IOException {
        int width = 2400;
        int height = 2000;
        BufferedImage image = new BufferedImage(
                width, height, kind.equals("grey") ? BufferedImage.TYPE_USHORT_GRAY : BufferedImage.TYPE_3BYTE_BGR);
        int[] line = new int[width * image.getRaster().getNumBands()];
        for (int y = 0; y < height; y++) {
            for (int i = 0; i < line.length; i++) {
                line[i] = (i * 7 + y * 13) % 251;
            }
            image.getRaster().setPixels(0, y, width, 1, line);
        }
        Path file = directory.resolve("large." + format);
        ImageIO.write(image, format, file.toFile());
        ScanRegion region = new ScanRegion(10, 5, width - 20, height - 5);
        try (ScanFile opened = ScanFile.open(file)) {
            int bands = image.getRaster().getNumBands();
            List<Integer> rows = new ArrayList<>();
            opened.rows(ScanFile.Channel.BLUE).read(region, (y, codes) -> {
                rows.add(y);
                for (int x = 0; x < codes.length; x += 97) {
                    int expected = ((x + 10) * bands + (bands == 1 ? 0 : 2)) * 7 + y * 13;
                    assertEquals(expected % 251, codes[x], "column " + x + ", row " + y);
                }
            });
            assertEquals(height - 5, rows.size());
            assertEquals(5, rows.get(0));
        }
    }

    @Test
    void aBillionPixelsAreRefused() throws IOException {
        byte[] liar = Files.readAllBytes(scan);
        liar[18] = (byte) (40_000 >> 8);
        liar[19] = (byte) 40_000;
        liar[22] = (byte) (30_000 >> 8);
        liar[23] = (byte) 30_000;
        Path lies = Files.write(directory.resolve("huge.png"), liar);
        assertEquals(2, run(lies.toString(), "--pixels-per-mm=200", "--edge=a=20000,20000,140,280"));
        assertTrue(messages.toString().contains("a billion or more"), messages.toString());
    }

    @Test
    void filmsStandBesideTheReferenceAtOneMagnification() throws IOException {
        Path other = directory.resolve("birch.png");
        DemoScan.write(2 * BLUR, 2 * GRAIN, 8, other);
        assertEquals(
                0,
                run(
                        scan.toString(),
                        other.toString(),
                        "--reference=birch",
                        "--pixels-per-mm=200",
                        "--edge=knife=110,40,140,280",
                        "--grain=even=20,380,320,320"),
                messages::toString);
        String page = Files.readString(directory.resolve("out/detail.html"));
        assertTrue(page.contains("birch (reference)"), "the reference is named");
        assertTrue(page.indexOf("birch (reference)") < page.indexOf(">alder<"), "the reference comes first");
        // Half the blur is twice the frequency, half the grain half the deviation; both are significant.
        assertTrue(page.matches("(?s).*×(1\\.9|2\\.0)\\d\\*.*"), "the ratio of MTF50");
        assertTrue(page.matches("(?s).*×0\\.(4[5-9]|5[0-5])\\*.*"), "the ratio of granularity");
        for (String crop : List.of("crop-1-alder", "crop-1-birch", "crop-2-alder", "crop-2-birch")) {
            assertEquals(
                    Crops.SIDE,
                    ImageIO.read(directory.resolve("out/" + crop + ".png").toFile())
                            .getWidth());
            assertTrue(page.contains(crop), crop);
        }
        assertEquals(2, run(scan.toString(), "--reference=elm", "--pixels-per-mm=200", "--grain=a=20,380,320,320"));
        assertTrue(
                messages.toString().contains("--reference elm is not one of the scans; they are alder"),
                messages::toString);
    }

    @Test
    void granularityIsComparedAtEqualDensity() throws IOException {
        assertEquals(
                0,
                run(
                        scan.toString(),
                        "--pixels-per-mm=200",
                        "--grain=light=363,363,15,84",
                        "--grain=dense=363,633,15,84",
                        "--aperture=24",
                        "--grain-at=0.8"),
                messages::toString);
        NamedCsvRecord between = figures().get("grain rms_granularity");
        double expected = 1000 * GRAIN * 5 / Math.sqrt(Math.PI * 24 * 24 / 4);
        assertEquals(expected, value(between), 4 * Double.parseDouble(between.getField("u")));
        assertTrue(between.getField("notes").contains("interpolated at density 0.8"));
    }

    /** The scanner blurs by 2 of the film's 4 µm together, and adds a third of the noise: the rest is that of the film. */
    @Test
    void theScannerIsTakenOutOfSharpnessAndGrain() throws IOException {
        Path bare = directory.resolve("bare.png");
        DemoScan.write(2.0, GRAIN / 3, 9, bare);
        // Noise hides where so sharp a film falls to a tenth: that row says so, and the status is 1.
        assertEquals(
                1,
                run(
                        scan.toString(),
                        "--pixels-per-mm=200",
                        "--edge=knife=110,40,140,280",
                        "--grain=even=20,380,320,320",
                        "--scanner=" + bare,
                        "--scanner-edge=110,40,140,280",
                        "--scanner-noise=20,380,320,320",
                        "--scanner-floor=0.2"),
                messages::toString);
        Map<String, NamedCsvRecord> found = figures();
        assertEquals("", found.get("knife mtf10").getField("value"));
        double film = Math.sqrt(BLUR * BLUR - 2.0 * 2.0);
        NamedCsvRecord alone = found.get("knife mtf50");
        double u = Double.parseDouble(alone.getField("u"));
        assertEquals(gaussian(0.5) * BLUR / film, value(alone), 3 * u);
        assertTrue(u < 0.04 * value(alone), "u = " + u);
        assertTrue(alone.getField("notes").contains("where it transmits 0.20 or more"), alone.getField("notes"));
        assertEquals(gaussian(0.5), value(found.get("knife mtf50_with_scanner")), 3 * u);
        assertEquals(gaussian(0.5) * BLUR / 2, value(found.get("scanner scanner_mtf50")), 0.05 * gaussian(0.5));
        // White noise through an aperture of area A; the blur of this scanner does not act on the noise put in but is
        // divided out of it, so grain comes out 1/M as large: by less than 5 % at frequencies that the aperture passes.
        double grain = 1000 * GRAIN * Math.sqrt(1 - 1 / 9.0) * 5 / Math.sqrt(Math.PI * 48 * 48 / 4);
        NamedCsvRecord own = found.get("even rms_granularity_film");
        assertEquals(grain, value(own), 0.05 * grain + 3 * Double.parseDouble(own.getField("u")));
        assertTrue(own.getField("notes").contains("noise of the scanner at density 0.90 subtracted"), own.toString());
        String page = Files.readString(directory.resolve("out/detail.html"));
        assertTrue(
                page.contains("Of the film alone: mtf50, mtf10, rms granularity film;")
                        && page.contains("bare-regions.png"),
                "the page says so");
        assertTrue(Files.exists(directory.resolve("out/bare-regions.png")));
    }

    /** The chart of the demo, by its corners, is that of its region. */
    @Test
    void aChartMayBeGivenByItsCorners() throws IOException {
        assertEquals(
                0,
                run(
                        scan.toString(),
                        "--pixels-per-mm=200",
                        "--chart=chart=360,360,720,360,720,720,360,720/4x4",
                        "--chart=turned=360,720,360,360,720,360,720,720/4x4"),
                messages::toString);
        for (int i = 0; i < 16; i++) {
            double density = 0.20 + 0.10 * i;
            assertEquals(density, value(figures().get("chart-" + (i / 4 + 1) + "-" + (i % 4 + 1) + " density")), 0.003);
            // From the lower left corner upwards the rows of the chart are its columns.
            assertEquals(
                    density, value(figures().get("turned-" + (i % 4 + 1) + "-" + (4 - i / 4) + " density")), 0.003);
        }
    }

    @Test
    void theComparisonSetsDetailBesideTheReference() throws IOException {
        assertEquals(
                0,
                run(
                        scan.toString(),
                        "--pixels-per-mm=200",
                        "--edge=knife=110,40,140,280",
                        "--grain=even=20,380,320,320"),
                messages::toString);
        String rows = Files.readString(directory.resolve("out/detail.csv"));
        Path table = directory.resolve("both.csv");
        Files.writeString(
                table,
                rows
                        + rows.substring(rows.indexOf('\n') + 1)
                                .replace("alder,", "elm-100,")
                                .replaceAll("(elm-100,even,rms_granularity),[^,]*,[^,]*,[^,]*,", "$1,,,,")
                        + "oak,knife,mtf50,10.0,0.1,,cycles/mm,\n");
        DetailSection section = DetailSection.read(table, List.of("Elm 100", "Birch", "Alder"), "Alder");
        assertEquals(
                List.of("Elm 100", "Alder"),
                section.table().rows().stream().map(row -> row.get(0)).toList());
        int mtf = section.table().columns().indexOf("MTF50, knife (cycles/mm)");
        assertTrue(
                section.table().rows().get(0).get(mtf).contains(" ×1.00"),
                section.table().toString());
        assertTrue(
                !section.table().rows().get(1).get(mtf).contains("×"),
                section.table().toString());
        assertEquals(
                "not determined",
                section.table().rows().get(0).get(section.table().columns().indexOf("RMS granularity, even (1000 D)")));
        String missing = String.join("\n", section.missing());
        assertTrue(missing.contains("No scan in both.csv of Birch: sharpness"), missing);
        assertTrue(missing.contains("the scans oak"), missing);
        assertTrue(missing.contains("Elm 100, RMS granularity, even (1000 D): aperture of 48"), missing);
        assertTrue(assertThrows(IllegalArgumentException.class, () -> DetailSection.read(table, List.of("Fir"), "Fir"))
                .getMessage()
                .contains("the scans are alder, elm-100, oak, name them such as fir"));
    }

    @Test
    void aTableWithoutDegreesOfFreedomIsReadAndTold() throws IOException {
        String head = "scan,region,figure,value,u,degrees_of_freedom,unit,notes\n";
        String rows = "alder,knife,mtf50,40.0,2.0,4,cycles/mm,\nelm-100,knife,mtf50,46.0,2.0,4,cycles/mm,\n";
        Path table = directory.resolve("detail.csv");
        Files.writeString(table, head + rows);
        DetailSection with = DetailSection.read(table, List.of("Elm 100", "Alder"), "Alder");
        assertEquals(List.of(), with.missing());
        Files.writeString(
                table, (head + rows).replace("degrees_of_freedom,", "").replace(",4,", ","));
        DetailSection without = DetailSection.read(table, List.of("Elm 100", "Alder"), "Alder");
        // ln(46/40) = 0.140, u = hypot(2/46, 2/40) = 0.066: 2.1 u, within the interval for few degrees of freedom only
        assertEquals(
                List.of("46.0 ± 2.0 ×1.15", "46.0 ± 2.0 ×1.15*"),
                List.of(
                        with.table().rows().get(0).get(1),
                        without.table().rows().get(0).get(1)));
        assertEquals(1, without.missing().size());
        assertTrue(
                without.missing().get(0).startsWith("detail.csv has no column degrees_of_freedom: its uncertainties"),
                without.missing().get(0));
    }
}
