// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.examples.PrintedDigits;
import org.w3c.dom.Element;

class DensitometerCheckProgramTest {

    private static final Path DEMO = Path.of("demo", "densitometer");

    @TempDir
    private Path directory;

    @AfterEach
    void everyFigureIsRoundedToItsUncertainty() {
        assertEquals(List.of(), PrintedDigits.faultsOf(directory));
    }

    private final StringWriter output = new StringWriter();
    private final StringWriter messages = new StringWriter();

    @BeforeAll
    static void drawWithoutScreen() {
        System.setProperty("java.awt.headless", "true");
    }

    private int run(InputStream input, String... args) {
        return DensitometerCheckProgram.run(args, input, new PrintWriter(output), new PrintWriter(messages));
    }

    private int check(String log, String... more) {
        List<String> args = new ArrayList<>(List.of(
                DEMO.resolve(log).toString(),
                "--tablet",
                DEMO.resolve("tablet.csv").toString()));
        args.addAll(List.of(more));
        return run(InputStream.nullInputStream(), args.toArray(new String[0]));
    }

    @Test
    void keepsTheDemoLogsThatItsProgramWrites() throws IOException {
        DemoLogs.write(directory);

        for (String name : List.of(
                "tablet.csv",
                "healthy.log",
                "stray-light.csv",
                "firmware-fault.tsv",
                "calibration-points.csv",
                "check-piece.csv",
                "two-instruments.csv")) {
            assertArrayEquals(
                    Files.readAllBytes(DEMO.resolve(name)), Files.readAllBytes(directory.resolve(name)), name);
        }
    }

    @Test
    void passesTheHealthyInstrument() {
        assertEquals(0, check("healthy.log"), () -> output + "\n" + messages);

        String report = output.toString();
        assertTrue(report.startsWith("The densitometer PASSED"), report);
        assertTrue(
                report.contains("1 incomplete line") && report.contains("1 line with bytes that are not ASCII"),
                report);
        assertTrue(messages.toString().contains("guessed layout \"keys"), messages.toString());
        assertTrue(report.contains("drift per hour"), report);
    }

    @Test
    void failsTheOneWithStrayLightAndSaysSo() {
        assertEquals(1, check("stray-light.csv", "--layout", "comma step=1 density=2 decimals=3"));

        assertTrue(output.toString().contains("FAULT STRAY_LIGHT"), output.toString());
        assertTrue(output.toString().contains("OFFSET_SLOPE_AND_LEAK"), output.toString());
    }

    @Test
    void failsTheOneWithTheFaultInItsFirmwareAndNamesIt() {
        assertEquals(1, check("firmware-fault.tsv"));

        String report = output.toString();
        assertTrue(report.contains("FAULT ARITHMETIC"), report);
        assertTrue(report.contains("DARK_NOT_SUBTRACTED_FROM_SAMPLE"), report);
        assertTrue(!report.contains("STRAY_LIGHT"), report);
    }

    @Test
    void writesNoCorrectionForFaultyArithmeticAndTakesAnOldOneAway() throws IOException {
        Path out = directory.resolve("results");
        assertEquals(1, check("stray-light.csv", "--out", out.toString()));
        assertTrue(Files.exists(out.resolve("correction.h")));
        assertEquals(1, check("firmware-fault.tsv", "--out", out.toString()));
        assertTrue(messages.toString().contains("correction: withheld because"), messages.toString());
        assertTrue(messages.toString().contains("dark counts are not subtracted"), messages.toString());
        assertTrue(Files.notExists(out.resolve("correction.h")));
        assertTrue(Files.notExists(out.resolve("correction.csv")));
    }

    @Test
    void passesWhereOnlyTheLowDensitiesMatter() {
        assertEquals(0, check("stray-light.csv", "--layout", "comma step=1 density=2", "--to", "1.0"));
    }

    /**
     * Its errors were made 0.002 + 0.0025 sin(5.1 step), 0.0045 at most, of which the means of nine readings differ by some
     * 0.0005; with the 0.006 of the certificate 0.0105, above a guarded tolerance of 0.008.
     */
    @Test
    void failsTheHealthyInstrumentByATightTolerance() {
        assertEquals(1, check("healthy.log", "--tolerance", "0.001", "--tolerance-percent", "0"));
        assertEquals(1, check("healthy.log", "--tolerance", "0.008", "--tolerance-percent", "0", "--guarded"));
    }

    @Test
    void readsStandardInputAsItStreams() throws IOException {
        byte[] bytes = Files.readAllBytes(DEMO.resolve("healthy.log"));
        InputStream drops = new ByteArrayInputStream(bytes) {
            @Override
            public synchronized int read(byte[] target, int offset, int length) {
                return super.read(target, offset, Math.min(length, 7));
            }

            @Override
            public synchronized int available() {
                return 0;
            }
        };

        int status = run(drops, "-", "--tablet", DEMO.resolve("tablet.csv").toString());

        assertEquals(0, status, () -> output + "\n" + messages);
    }

    @Test
    void readsABareLogInTurnFromEitherEnd() throws IOException {
        Path tablet = directory.resolve("four.csv");
        Files.writeString(
                tablet, "step,density,expanded_uncertainty\n1,0.05,0.006\n2,0.55,0.006\n3,1.05,0.006\n4,1.55,0.006\n");

        String rising = "boot\n0.055\n0.052\n0.551\n0.553\n1.049\n1.052\n1.551\n1.549\n";
        String falling = "1.551\n1.051\n0.552\n0.051\n1.550\n1.053\n0.551\n0.053\n";

        assertEquals(0, run(stream(rising), "-", "--tablet", tablet.toString(), "--readings-per-step", "2"));
        assertEquals(0, run(stream(falling), "-", "--tablet", tablet.toString(), "--from-dense-end"));
        assertEquals(2, run(stream(falling), "-", "--tablet", tablet.toString()));
        assertEquals(2, run(stream(rising), "-", "--tablet", tablet.toString(), "--readings-per-step", "3"));
        assertEquals(2, run(stream(rising), "-", "--tablet", tablet.toString()));
        assertTrue(messages.toString().contains("state readings per step: 2;"), messages.toString());
    }

    private static InputStream stream(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.US_ASCII));
    }

    @Test
    void writesReportPlotTestFileAndCorrection() throws Exception {
        Path out = directory.resolve("results");

        assertEquals(1, check("stray-light.csv", "--out", out.toString(), "--table-rows", "17"));

        Element suite = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(out.resolve("junit.xml").toFile())
                .getDocumentElement();
        int failures = suite.getElementsByTagName("failure").getLength();
        assertEquals(Integer.toString(failures), suite.getAttribute("failures"));
        assertEquals(Integer.toString(suite.getElementsByTagName("testcase").getLength()), suite.getAttribute("tests"));
        assertTrue(failures > 0);
        assertTrue(ImageIO.read(out.resolve("residuals.png").toFile()).getWidth() > 800);
        assertTrue(Files.readString(out.resolve("residuals.svg")).contains("<svg"));
        String page = Files.readString(out.resolve("report.html"));
        assertTrue(page.contains("residuals.svg") && page.contains("<h1><bdi>The densitometer does not pass: "), page);
        Matcher outside = Pattern.compile(
                        "<h1>.*?(\\d+) of 21 steps outside the tolerance.*?; faults: .*stray light.*</h1>")
                .matcher(page);
        assertTrue(outside.find(), page);
        assertEquals(page.split("<bdi>FAIL</bdi>", -1).length - 1, Integer.parseInt(outside.group(1)));
        assertTrue(page.contains("<code class=\"code\">STRAY_LIGHT</code>"), page);
        List<String> table = Files.readAllLines(out.resolve("correction.csv"));
        assertTrue(
                table.get(0)
                        .startsWith(
                                "reading,density,standard_uncertainty,common_error_certificate of tablet tablet.csv,"),
                table.get(0));
        assertTrue(
                table.get(0)
                        .contains(
                                ",common_error_step 21 of tablet tablet.csv,common_error_1,common_error_2,common_error_3,common_error_4"),
                table.get(0));
        assertEquals(18, table.size());
        String header = Files.readString(out.resolve("correction.h"));
        assertTrue(header.contains("#define DENSITY_CORRECTION_ROWS 17"), header);
        String first = table.get(1).split(",", -1)[1];
        assertTrue(
                header.contains("density_correction_density[DENSITY_CORRECTION_ROWS] = {\n    " + first + "f"), header);
    }

    /** The demo log of the firmware fault with another fault in what it prints. */
    private Path printing(String name, DoubleUnaryOperator arithmetic) throws IOException {
        List<String> lines = new ArrayList<>();
        for (String line : Files.readAllLines(DEMO.resolve("firmware-fault.tsv"))) {
            String[] fields = line.split("\t", -1);
            if (fields.length == 5 && Character.isDigit(fields[0].charAt(0))) {
                double dark = Double.parseDouble(fields[2]);
                double right =
                        Math.log10((Double.parseDouble(fields[3]) - dark) / (Double.parseDouble(fields[1]) - dark));
                fields[4] = String.format(Locale.ROOT, "%.3f", arithmetic.applyAsDouble(right));
            }
            lines.add(String.join("\t", fields));
        }
        return Files.write(directory.resolve(name), lines);
    }

    @Test
    void failsPrintedDensitiesThatNoSampleHas() throws IOException {
        assertEquals(
                0, check(printing("sound.tsv", right -> right).toAbsolutePath().toString()));
        assertEquals(
                1, check(printing("sign.tsv", right -> -right).toAbsolutePath().toString()));
        assertTrue(output.toString().contains("SIGN_REVERSED"), output.toString());
        assertEquals(
                1,
                check(printing("binary.tsv", right -> right / Math.log10(2))
                        .toAbsolutePath()
                        .toString()));
        assertTrue(output.toString().contains("BINARY_LOGARITHM"), output.toString());
    }

    @Test
    void writesNoCorrectionForSuspectedArithmeticButForCutDecimals() throws IOException {
        Path out = directory.resolve("results");
        Path cut = printing("cut.tsv", right -> Math.floor(right * 1000) / 1000);
        check(cut.toAbsolutePath().toString(), "--out", out.toString());
        assertTrue(output.toString().contains("DECIMALS_CUT_OFF"), output.toString());
        assertTrue(Files.exists(out.resolve("correction.h")));

        Path natural = printing("natural.tsv", right -> Math.log(10) * right);
        assertEquals(
                1,
                check(
                        natural.toAbsolutePath().toString(),
                        "--layout",
                        "tab step=step density=density",
                        "--out",
                        out.toString()));

        assertTrue(output.toString().contains("ARITHMETIC_SUSPECTED"), output.toString());
        assertTrue(messages.toString().contains("natural logarithm"), messages.toString());
        assertTrue(Files.notExists(out.resolve("correction.h")));
    }

    @Test
    void findsNoLackOfFitWithinTheUncertaintyOfTheCertificate() {
        check("healthy.log");

        Matcher found = Pattern.compile("lack of fit, F .*\\) +([0-9.]+) \\(probability ([0-9.e+-]+)\\)")
                .matcher(output.toString());
        assertTrue(found.find(), output.toString());
        assertTrue(Double.parseDouble(found.group(1)) < 2, found.group());
        assertTrue(Double.parseDouble(found.group(2)) > 0.05, found.group());
    }

    @Test
    void doesNotStateAScatterItCannotKnow() throws IOException {
        List<String> once = Files.readAllLines(DEMO.resolve("stray-light.csv")).stream()
                .filter(line -> !line.startsWith("#"))
                .limit(63)
                .toList();
        StringBuilder log = new StringBuilder();
        for (int i = 0; i < once.size(); i += 3) {
            log.append(once.get(i)).append('\n');
        }

        run(stream(log.toString()), "-", "--tablet", DEMO.resolve("tablet.csv").toString());

        String report = output.toString();
        assertTrue(report.matches("(?s).*zero offset +[+-][0-9.]+, u not known.*"), report);
        assertTrue(report.matches("(?s).*REPEATABILITY +not known +-\\R.*"), report);
        assertTrue(report.matches("(?s).*BETWEEN_RUNS +not known +-\\R.*"), report);
    }

    @Test
    void takesAFaultOfItsOwnForNoVerdict() {
        InputStream broken = new InputStream() {
            @Override
            public int read() {
                throw new IllegalStateException("a fault that nobody foresaw");
            }

            @Override
            public int read(byte[] target, int offset, int length) {
                return read();
            }
        };

        assertEquals(2, run(broken, "-", "--tablet", DEMO.resolve("tablet.csv").toString()));
        assertTrue(messages.toString().contains("a fault that nobody foresaw"), messages.toString());
    }

    @Test
    void saysWhatKeepsItFromChecking() {
        assertEquals(2, check("no-such.log"));
        assertTrue(messages.toString().contains("there is no file"), messages.toString());

        String tablet = DEMO.resolve("tablet.csv").toString();
        assertEquals(2, run(stream("hello\nworld\n"), "-", "--tablet", tablet));
        assertTrue(messages.toString().contains("no layout can be guessed"), messages.toString());

        assertEquals(2, run(stream("1,0.5\n2,0.6\n"), "-", "--tablet", tablet, "--layout", "comma step=1 density=2"));
        assertTrue(messages.toString().contains("at least 3 steps"), messages.toString());

        assertEquals(2, check("healthy.log", "--out", tablet));
        assertTrue(messages.toString().contains("give a directory to --out"), messages.toString());
    }

    @Test
    void namesTheFileThatIsNotTextOrADirectory() throws IOException {
        Path certificate = directory.resolve("latin.csv");
        Files.writeString(
                certificate,
                "# Pr\u00fcfschein\nstep,density,expanded_uncertainty\n1,0.05,0.006\n",
                StandardCharsets.ISO_8859_1);

        assertEquals(2, run(stream("0.1\n"), "-", "--tablet", certificate.toString()));
        assertTrue(messages.toString().contains("latin.csv: the certificate has bytes"), messages.toString());
        assertTrue(messages.toString().contains("save it as UTF-8"), messages.toString());

        assertEquals(2, run(stream("0.1\n"), "-", "--tablet", directory.toString()));
        assertEquals(2, check(directory.toAbsolutePath().toString()));
        String said = directory + " is a directory; give the path of a file";
        assertEquals(
                2,
                messages.toString().lines().filter(line -> line.contains(said)).count(),
                messages.toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"1", "-3", "10001"})
    void refusesTheRowsOfTheTableBeforeItReports(String rows) {
        Path out = directory.resolve("results");

        assertEquals(2, check("stray-light.csv", "--out", out.toString(), "--table-rows", rows));

        assertTrue(
                messages.toString().contains("--table-rows must be from 2 to 10000, was " + rows), messages.toString());
        assertEquals("", output.toString());
        assertTrue(Files.notExists(out));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--layout=keys density=q",
                "--layout=nonsense",
                "--tolerance=-1",
                "--from=3 --to=1",
                "--no-such-option",
                "--correction=NONE",
            })
    void refusesFaultyOptions(String options) {
        assertEquals(
                2,
                check("healthy.log", options.startsWith("--from") ? options.split(" ", -1) : new String[] {options}));
        assertTrue(!messages.toString().isBlank());
    }

    @Test
    void explainsItself() {
        assertEquals(0, run(InputStream.nullInputStream(), "--help"));
        assertTrue(output.toString().contains("Exit status:"), output.toString());
    }
}
