// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.FilterReader;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/** Grids, dialects of CSV, and exposures behind a tablet or in a bracket. */
class ReadingsReaderTest {

    private static final String GRID = """
            strip,A,B
            film,Alder 50,"Birch, 100"
            developer,bath 1+1,
            minutes,8.5,8:30
            celsius,20,21
            box speed,50,100/21°
            Base + fog,0.21,0.25
            base_plus_fog,0.23,
            log_exposure,,
            -3,0.30,0.35
            -2.85,0.40,
            -2.85,0.42,0.50
            """;

    /** A tablet of three steps; its certificate says 0.01 for the middle one only. */
    private static final StepTablet TABLET =
            StepTablet.calibrated("T7", new double[] {0.05, 0.55, 1.05}, new double[] {0, 0.01, 0});

    @TempDir
    Path directory;

    private static ReadingsTable read(ReadingsReader reader, String text) {
        try {
            return reader.read(CsvDialect.guessed().open("t.csv", new StringReader(text)));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static ReadingsTable read(String text) {
        return read(ReadingsReader.withDefaults(), text);
    }

    private static String refused(ReadingsReader reader, String text) {
        return assertThrows(ReadingsException.class, () -> read(reader, text)).getMessage();
    }

    private static List<Double> exposures(Strip strip) {
        return strip.steps().stream().map(step -> step.exposure().value()).toList();
    }

    @Test
    void aGridHasStepsDownAndStripsAcross() {
        ReadingsTable table = read(GRID);
        Strip a = table.strip("A");
        Strip b = table.strip("B");
        assertEquals("Birch, 100", b.film());
        assertEquals(100, b.boxSpeed().orElseThrow());
        assertEquals(Duration.ofSeconds(510), a.processing().time().orElseThrow());
        assertEquals(a.processing().time(), b.processing().time());
        assertEquals("bath 1+1", a.processing().developer().orElseThrow());
        assertTrue(b.processing().developer().isEmpty());
        assertEquals(0.22, a.basePlusFog().orElseThrow().value(), 1e-12);
        assertEquals(1, b.basePlusFogReadings().size());
        assertEquals(List.of(-3.0, -2.85), exposures(a));
        assertEquals(2, a.steps().get(1).readings().size());
        assertEquals(List.of(-3.0, -2.85), exposures(b));
        assertEquals(1, b.steps().get(1).readings().size());
        assertTrue(table.notices().isEmpty());
    }

    @Test
    void aGridMayNameItsStripsByTheirFilms() {
        assertEquals(
                "Alder",
                read("film,Alder,Birch\nbase_plus_fog,.2,.2\nstops,,\n0,0.3,0.4\n")
                        .strips()
                        .get(0)
                        .id());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "box speed,50,100/21° | box speed,50,fast | line 6, column B: \"fast\" is not a number",
                "-3,0.30,0.35 | -3,0.30,O.35 | line 10, column B: \"O.35\" is not a number",
                "-3,0.30,0.35 | -3,0.30,35 | line 10, column B: density",
                "-3,0.30,0.35 | x,0.30,0.35 | line 10, column log_exposure: \"x\" is not a number",
                "-3,0.30,0.35 | ,0.30,0.35 | line 10: the row gives no log_exposure",
                "log_exposure,, | rows,, | the grid lacks the row that says what its steps are",
                "strip,A,B | strip,A,A | line 1, column strip: \"A\" stands here and in column 2",
                "strip,A,B | strip,A, | line 2: \"Birch, 100\" stands in a column without a strip",
                "celsius,20,21 | minutes,20,21 | line 5: the grid has more than one row minutes"
            })
    void aGridIsRefusedWhereItIsWrong(String right, String wrong, String message) {
        assertTrue(GRID.contains(right + "\n"));
        String said = refused(ReadingsReader.withDefaults(), GRID.replace(right + "\n", wrong + "\n"));
        assertTrue(said.startsWith("t.csv") && said.contains(message), said);
    }

    @Test
    void columnsLeftEmptyAreNoticed() {
        ReadingsTable table = read("strip,A,B\nbase_plus_fog,.2,\nlog_exposure,,\n-3,0.3,\n");
        assertEquals(1, table.strips().size());
        assertEquals(List.of("t.csv: columns without readings ignored: B"), table.notices());
        String described = refused(
                ReadingsReader.withDefaults(), "strip,A,B\nfilm,F,G\nbase_plus_fog,.2,\nlog_exposure,,\n-3,0.3,\n");
        assertTrue(described.contains("strip 'B'") && described.contains("has no exposed reading"), described);
    }

    @Test
    void rowsOfAGridWithoutMeaningAreNoticed() {
        ReadingsTable table = read(GRID.replace("celsius", "operator"));
        assertEquals(List.of("t.csv: row ignored: \"operator\""), table.notices());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '!',
            value = {
                "strip;log_exposure;density\\nS;-2,5;0,42\\n!semicolons between fields and decimal commas",
                "strip;log_exposure;density\\nS;-2.5;0.42\\n!semicolons between fields and decimal points",
                "strip\\tlog_exposure\\tdensity\\nS\\t-2,5\\t0,42\\n!tabs between fields and decimal commas",
                "sep=;\\nstrip;log_exposure;density\\nS;-2,5;0,42\\n!semicolons between fields and decimal commas",
                "strip;film;log_exposure;density\\nS;\"a;b\";-2,5;0,420\\n!semicolons between fields and decimal commas"
            })
    void dialectsAreFoundAndShown(String text, String notice) {
        ReadingsTable table = read(text.replace("\\n", "\n").replace("\\t", "\t"));
        assertEquals(-2.5, exposures(table.strip("S")).get(0));
        assertEquals(0.42, table.strip("S").steps().get(0).density().value());
        assertEquals(List.of("t.csv: read as CSV with " + notice), table.notices());
    }

    @Test
    void remarksAboveTheTableDoNotTellItsSeparator() {
        ReadingsTable table = read("# read by A, B, C, D and E\n#, again\nstrip;log_exposure;density\nS;-2,5;0,42\n");
        assertEquals(0.42, table.strip("S").steps().get(0).density().value());
        assertEquals(
                "t.csv: read as CSV with semicolons between fields and decimal commas",
                table.notices().get(0));
    }

    @Test
    void decimalsThatDisagreeOrMayBeThousandsAreRefused() {
        String both = refused(ReadingsReader.withDefaults(), "strip;log_exposure;density\nS;-2,5;0,42\nS;-2.2;0,52\n");
        assertTrue(both.contains("\"-2,5\" in line 2, and with a point, \"-2.2\" in line 3"), both);
        String open = "strip;log_exposure;density\nS;-2;1,234\n";
        String thousands = refused(ReadingsReader.withDefaults(), open);
        assertTrue(thousands.contains("line 2: \"1,234\" may be a number with decimals or with thousands"), thousands);
        ReadingsReader stated = ReadingsReader.withDefaults();
        try {
            Path file = Files.writeString(directory.resolve("open.csv"), open);
            assertEquals(
                    1.234,
                    stated.with(CsvDialect.guessed().withDecimalMark(','))
                            .read(file)
                            .strip("S")
                            .steps()
                            .get(0)
                            .density()
                            .value());
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void statedEncodingsAreRead() throws IOException {
        String text = "\uFEFFstrip,film,log_exposure,density\nS,Stöck,-2,0.3\n";
        for (Charset encoding : List.of(StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE, StandardCharsets.UTF_8)) {
            Path file = Files.writeString(directory.resolve("e.csv"), text, encoding);
            ReadingsReader reader =
                    ReadingsReader.withDefaults().with(CsvDialect.guessed().withEncoding(encoding));
            assertEquals("Stöck", reader.read(file).strip("S").film());
        }
        Charset west = Charset.forName("windows-1252");
        Path file = Files.writeString(directory.resolve("w.csv"), text.substring(1), west);
        assertEquals(
                "Stöck",
                ReadingsReader.withDefaults()
                        .with(CsvDialect.guessed().withEncoding(west))
                        .read(file)
                        .strip("S")
                        .film());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "504b0304 | a spreadsheet (XLSX or ODS)",
                "d0cf11e0a1b1 | a spreadsheet of the old binary kind",
                "1f8b0800 | compressed with gzip",
                "fffe7300 | in UTF-16",
                "feff0073 | in UTF-16",
                "73007400720069007000 | in UTF-16",
                "255044462d312e37 | a PDF document",
                "89504e470d0a1a0a | an image",
                "3c21444f43545950452048544d4c3e | a web page",
                "73000102030405 | not text"
            })
    void filesOfAnotherKindAreNamed(String hex, String kind) throws IOException {
        Path file = Files.write(directory.resolve("x.csv"), HexFormat.of().parseHex(hex));
        String said = assertThrows(ReadingsException.class, () -> ReadingsTable.read(file))
                .getMessage();
        assertTrue(said.startsWith("x.csv: the file is " + kind), said);
    }

    /** log H = log H0 - D of the step: here -0.5 - 0.55 and so on. */
    @Test
    void stepsLieBehindTheTablet() {
        ReadingsReader reader = ReadingsReader.withDefaults().with(TABLET);
        String text = "strip,exposure,step,density\nS,-0.5,,0.2\nS,,3,0.3\nS,,2,0.8\nS,,1,1.4\n";
        Strip strip = read(reader, text).strip("S");
        assertTrue(strip.axis().isAbsolute());
        assertEquals(List.of(-1.55, -1.05, -0.55), exposures(strip));
        assertEquals(0.3, strip.steps().get(0).density().value());
        // The same strip numbered from the dense end, its exposure in lux and seconds: 1.2649 lx · 0.25 s = 10^-0.5
        // lx·s.
        String dense = """
                strip,lux,seconds,read_from,step,density
                S,1.264911064067352,0.25,dense,1,0.3
                S,,,,2,0.8
                S,,,,3,1.4
                S,,,,,0.2
                """;
        Strip other = read(reader, dense).strip("S");
        for (int i = 0; i < 3; i++) {
            assertEquals(exposures(strip).get(i), exposures(other).get(i), 1e-12);
            assertEquals(strip.steps().get(i).readings(), other.steps().get(i).readings());
        }
        // In a grid, and without an exposure: relative.
        Strip grid = read(reader, "strip,S\nbase_plus_fog,0.2\nstep,\n1,1.4\n2,0.8\n3,0.3\n")
                .strip("S");
        assertFalse(grid.axis().isAbsolute());
        assertEquals(List.of(-1.05, -0.55, -0.05), exposures(grid));
    }

    @Test
    void theTabletsErrorIsThatOfAllStripsBehindIt() {
        ReadingsReader reader = ReadingsReader.withDefaults().with(TABLET);
        ReadingsTable table = read(
                reader,
                "strip,exposure,exposure_uncertainty,step,density\nS,-0.5,0.02,3,0.3\nS,,,2,0.8\nR,-0.5,0.02,2,0.7\n");
        Strip s = table.strip("S");
        assertEquals(Set.of("exposure of strip 'S'", "step 2 of tablet T7"), s.statedErrors());
        assertEquals(
                Set.of("exposure of strip 'R'", "step 2 of tablet T7"),
                table.strip("R").statedErrors());
        assertEquals(List.of(-1.55, -1.04), exposures(s.withStatedError("step 2 of tablet T7", 1)));
        Strip whole = s.withStatedError("exposure of strip 'S'", -2);
        assertEquals(-1.59, exposures(whole).get(0), 1e-12);
        assertEquals(-1.09, exposures(whole).get(1), 1e-12);
        assertEquals(s, s.withStatedError("exposure of strip 'R'", 1));
    }

    /** Multiplies readings up to D 2.00; the uncertainty is a share of the density. */
    private static class TestCorrection implements ReadingCorrection {

        private final double factor;
        private final double share;

        TestCorrection(double factor, double share) {
            this.factor = factor;
            this.share = share;
        }

        @Override
        public String name() {
            return "c.csv";
        }

        @Override
        public Density correct(Density reading) {
            if (reading.value() > 2) {
                throw new IllegalArgumentException("the correction ends at D 2.00, was D " + reading.value());
            }
            return Density.of(reading.value() * factor);
        }

        @Override
        public double standardUncertainty(Density corrected) {
            return share * corrected.value();
        }
    }

    @Test
    void aCorrectionOfTheDensitometerIsAppliedAndItsErrorShared() {
        ReadingCorrection correction = new TestCorrection(1.1, 0.01);
        ReadingsReader reader = ReadingsReader.withDefaults().with(correction);
        ReadingsTable table = read(reader, "strip,log_exposure,density\nS,,0.2\nS,-2,1\n");
        Strip strip = table.strip("S");
        assertEquals(1.1, strip.steps().get(0).density().value(), 1e-12);
        assertEquals(0.22, strip.basePlusFog().orElseThrow().value(), 1e-12);
        assertEquals(1, table.notices().size());
        String notice = table.notices().get(0);
        assertTrue(
                notice.startsWith("t.csv: densities corrected by c.csv; its error is taken to have the same sign"),
                notice);
        assertEquals(Set.of("correction c.csv"), strip.statedErrors());
        Strip moved = strip.withStatedError("correction c.csv", -1);
        assertEquals(1.089, moved.steps().get(0).density().value(), 1e-12);
        assertEquals(0.2178, moved.basePlusFog().orElseThrow().value(), 1e-12);
        String beyond = refused(reader, "strip,A\nlog_exposure,\n-2,2.5\n");
        assertTrue(beyond.contains("line 3, column A: the correction ends at D 2.00, was D 2.5"), beyond);
    }

    /** By hand: 0.002 at all densities, and 0.01 for each unit of density above 1, with its sign. */
    @Test
    void theErrorsOfACorrectionAreStatedOneByOne() {
        ReadingCorrection correction = new TestCorrection(1, 0.02) {
            @Override
            public Map<String, DoubleUnaryOperator> commonErrors() {
                return Map.of("offset", density -> 0.002, "slope", density -> 0.01 * (density - 1));
            }
        };
        ReadingsTable table = read(
                ReadingsReader.withDefaults().with(correction),
                "strip,log_exposure,density\nS,,0.2\nS,-2,1.5\nT,-2,1\n");
        assertEquals(List.of("t.csv: densities corrected by c.csv"), table.notices());
        Strip strip = table.strip("S");
        assertEquals(Set.of("offset", "slope"), strip.statedErrors());
        Strip offset = strip.withStatedError("offset", 1);
        assertEquals(1.502, offset.steps().get(0).density().value(), 1e-12);
        assertEquals(0.202, offset.basePlusFog().orElseThrow().value(), 1e-12);
        Strip slope = strip.withStatedError("slope", -1);
        assertEquals(1.495, slope.steps().get(0).density().value(), 1e-12);
        assertEquals(0.208, slope.basePlusFog().orElseThrow().value(), 1e-12);
    }

    /** A correction may well know of one error only: no one is told that it has the same sign everywhere. */
    @Test
    void aCorrectionWithOneErrorOfItsOwnIsTakenAtItsWord() {
        ReadingCorrection correction = new TestCorrection(1, 0.02) {
            @Override
            public Map<String, DoubleUnaryOperator> commonErrors() {
                return Map.of("slope", density -> 0.01 * (density - 1));
            }
        };
        ReadingsTable table =
                read(ReadingsReader.withDefaults().with(correction), "strip,log_exposure,density\nS,-2,1.5\n");
        assertEquals(List.of("t.csv: densities corrected by c.csv"), table.notices());
    }

    @Test
    void bracketsAreInStopsFromTheMiddleExposure() {
        ReadingsReader camera = ReadingsReader.withDefaults()
                .with((setting, luminance) -> LogExposure.ofLuxSeconds(
                        0.65 * luminance * setting.seconds() / (setting.fNumber() * setting.fNumber())));
        String text = """
                strip,f_number,seconds,luminance,flare,stops,density
                S,8,0.0125,400,0.02,-1 2/3,0.3
                S,,,,,0,0.8
                S,,,,,+1/3,0.9
                S,,,,,1.5,1.2
                """;
        // 0.65 · 400 · 0.0125 / 64 · 1.02 lx s; a stop is log10 2.
        double middle = Math.log10(0.65 * 400 * 0.0125 / 64 * 1.02);
        List<Double> found = exposures(read(camera, text).strip("S"));
        double[] stops = {-5.0 / 3, 0, 1.0 / 3, 1.5};
        for (int i = 0; i < stops.length; i++) {
            assertEquals(middle + stops[i] * Math.log10(2), found.get(i), 1e-12);
        }
        String without = refused(ReadingsReader.withDefaults(), text);
        assertTrue(without.contains("line 2, column f_number"), without);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "strip,exposure,step,density;S,-0.5,4,0.3 | column step: step must be a whole number from 1 to 3",
                "strip,exposure,step,density;S,-0.5,1.5,0.3 | column step: step must be a whole number",
                "strip,exposure,step,density;S,-0.5,x,0.3 | column step: \"x\" is not a number",
                "strip,lux,step,density;S,5,1,0.3 | column lux: strip 'S' states lux without seconds",
                "strip,lux,seconds,exposure,step,density;S,5,1,0,1,0.3 | stated in two ways",
                "strip,exposure,step,density;S,-0.5,1,0.3;T,,1,0.3 | strip 'T' states no exposure but other strips do",
                "strip,read_from,step,density;S,left,1,0.3 | column read_from: \"left\" is not an end of a tablet",
                "strip,step,stops,density;S,1,1,0.3 | the table has both step and stops"
            })
    void exposuresAreRefusedWhereTheyAreWrong(String text, String message) {
        String said = refused(ReadingsReader.withDefaults().with(TABLET), text.replace(';', '\n') + "\n");
        assertTrue(said.contains(message), said);
    }

    @Test
    void stepNumbersNeedATablet() {
        String said = refused(ReadingsReader.withDefaults(), "strip,step,density\nS,1,0.3\n");
        assertTrue(said.contains("no tablet is stated"), said);
    }

    /** The grid of the other tests, turned: its first column becomes the header. */
    private static String sideways(String grid) {
        List<List<String>> rows = grid.replace("\"Birch, 100\"", "Birch 100")
                .lines()
                .map(line -> List.of(line.split(",", -1)))
                .toList();
        StringBuilder turned = new StringBuilder();
        for (int i = 0; i < rows.get(0).size(); i++) {
            int column = i;
            turned.append(String.join(
                            ",",
                            rows.stream()
                                    .map(row -> column < row.size() ? row.get(column) : "")
                                    .toList()))
                    .append('\n');
        }
        return turned.toString();
    }

    @Test
    void aGridMayLieOnItsSide() {
        ReadingsTable upright = read(GRID);
        ReadingsTable sideways = read(sideways(GRID));
        assertEquals(
                upright.strips().stream().map(Strip::steps).toList(),
                sideways.strips().stream().map(Strip::steps).toList());
        assertEquals(
                upright.strips().stream().map(Strip::basePlusFogReadings).toList(),
                sideways.strips().stream().map(Strip::basePlusFogReadings).toList());
        assertEquals(
                upright.strips().stream().map(Strip::processing).toList(),
                sideways.strips().stream().map(Strip::processing).toList());
        assertTrue(
                sideways.notices().toString().contains("read as a grid with strips down and steps across"),
                sideways.notices()::toString);
        // The place of a fault is that in the file.
        String second = sideways(GRID).lines().skip(2).findFirst().orElseThrow();
        String wrong = refused(
                ReadingsReader.withDefaults(), sideways(GRID).replace(second, second.replaceFirst(",[^,]*$", ",x")));
        assertTrue(wrong.contains("line 3") && wrong.contains("\"x\" is not a number"), wrong);
    }

    @Test
    void titlesAboveATableAreIgnored() {
        for (String table : List.of(GRID, sideways(GRID), "strip,log_exposure,density\nA,,0.2\nA,-1,0.5\n")) {
            ReadingsTable plain = read(table);
            ReadingsTable titled = read("My films of May,,\n\n,second evening,\n" + table);
            assertEquals(
                    plain.strips().stream().map(Strip::steps).toList(),
                    titled.strips().stream().map(Strip::steps).toList());
            assertTrue(
                    titled.notices()
                            .toString()
                            .contains("ignored above the table: \"My films of May\", \"second evening\""),
                    titled.notices()::toString);
        }
        assertTrue(read("# read at night, by me\nstrip,log_exposure,density\nA,,0.2\nA,-1,0.5\n")
                .notices()
                .toString()
                .contains("ignored above the table: \"# read at night, by me\""));
        // Without a header there is nothing to look above.
        String said = refused(ReadingsReader.withDefaults(), "A,-2,0.3\nA,-1,0.4\n");
        assertTrue(said.contains("line 1, column log_exposure: the header lacks this column; it has a, -2, 0.3"), said);
    }

    /** Remarks above the header say nothing of the separator, whatever ends the lines. */
    @Test
    void remarksEndWithTheirLine() {
        for (String end : List.of("\n", "\r\n", "\r")) {
            ReadingsTable table = read(String.join(
                    end, "# one, two, three, four", "strip;log_exposure;density", "A;;0,21", "A;-1,05;0,5", ""));
            assertEquals(-1.05, table.strip("A").steps().get(0).exposure().value());
        }
    }

    /** A carriage return and its line feed are one line end, even if a slow source delivers them one by one. */
    @Test
    void linesAreCountedAlikeHoweverSlowlyTheyArrive() throws IOException {
        String text = "sep=;\r\nstrip;log_exposure;density\r\nA;;0,21\r\nA;-1;0,5\r\n";
        Reader slow = new FilterReader(new StringReader(text)) {
            @Override
            public int read(char[] buffer, int offset, int length) throws IOException {
                return super.read(buffer, offset, Math.min(length, 1));
            }
        };
        assertEquals(
                Optional.of("t.csv, lines 3 to 4"),
                ReadingsTable.read("t.csv", slow).strip("A").origin());
    }

    /** What a row has in common with the row above is kept; what it has not must not be. */
    @Test
    void fieldsLikeThoseAboveAreNotMixedUp() {
        ReadingsTable table = read("""
                strip,film,log_exposure,density
                A,Moor,,0.21
                A,Moor,-1.05,0.5
                A,,-1,0.51
                B,"Mo""r",,0.210
                B,"Mo""r",-1.05,0.5
                B,,-1.0,0.52
                AB,Moo,,0.2
                AB,Moo,-1.05,0.5
                """);
        assertEquals(
                List.of("Moor", "Mo\"r", "Moo"),
                table.strips().stream().map(Strip::film).toList());
        assertEquals(
                List.of(0.5, 0.51, 0.5, 0.52, 0.5),
                table.strips().stream()
                        .flatMap(strip -> strip.steps().stream())
                        .map(step -> step.density().value())
                        .toList());
        assertEquals(
                List.of(0.21, 0.21, 0.2),
                table.strips().stream()
                        .map(strip -> strip.basePlusFog().orElseThrow().value())
                        .toList());
    }

    /** Rows are passed on once a number has shown the mark; a later number with the other mark is still refused. */
    @Test
    void aSecondDecimalMarkIsRefusedWhereverItStands() {
        String rows = "A;-1,234;0,30\n".repeat(50);
        String said = refused(
                ReadingsReader.withDefaults(), "strip;log_exposure;density\nA;;0,21\n" + rows + "A;-1.1;0,35\n");
        assertTrue(
                said.contains("decimals with a comma, \"0,21\" in line 2, and with a point, \"-1.1\" in line 53"),
                said);
        String other = refused(
                ReadingsReader.withDefaults(),
                "strip;log_exposure;density\nA;;0.21\n" + rows.replace(',', '.') + "A;-1,123;0.35\n");
        assertTrue(
                other.contains("decimals with a comma, \"-1,123\" in line 53, and with a point, \"0.21\" in line 2"),
                other);
        String open = refused(ReadingsReader.withDefaults(), "strip;log_exposure;density\nA;;1\nA;-1,234;2\n");
        assertTrue(open.contains("\"-1,234\" may be a number with decimals or with thousands"), open);
    }

    /** An em space is as empty as a blank. */
    @Test
    void aFieldOfWhiteSpaceIsEmpty() {
        String said = refused(ReadingsReader.withDefaults(), "strip,log_exposure,density\nA,-1,\u2003\n");
        assertTrue(said.contains("line 2, column density: the field is empty (strip 'A')"), said);
        assertEquals(
                1,
                read("strip,log_exposure,density\nA,\u2003,0.2\nA,-1, 0.5 \n")
                        .strip("A")
                        .basePlusFogReadings()
                        .size());
    }

    @Test
    void aRowOfEndlessFieldsIsRefused() {
        String said = refused(
                ReadingsReader.withDefaults(), "strip,log_exposure,density\nA,-1,0.2" + ",".repeat(20_000) + "\n");
        assertTrue(said.contains("line 2: from here on the text is not CSV"), said);
    }

    @Test
    void aStripInTwoPlacesIsNoticed() {
        String table = """
                strip,log_exposure,density
                A,,0.20
                A,-1,0.5
                B,,0.21
                B,-1,0.6
                """;
        assertEquals(List.of(), read(table).notices());
        ReadingsTable twice = read(table + "A,-1,0.52\n");
        assertEquals(2, twice.strip("A").steps().get(0).readings().size());
        assertTrue(
                twice.notices()
                        .toString()
                        .contains(
                                "t.csv: strips that stand in two places of the table: 'A', lines 2 to 3 and 6, with different"
                                        + " readings."),
                twice.notices()::toString);
        String same = read(table + "A,,0.20\nA,-1,0.5\n").notices().toString();
        assertTrue(same.contains("'A', lines 2 to 3 and 6 to 7, each reading twice."), same);
        String other = read(table + "A,,0.20\nA,-1,0.51\n").notices().toString();
        assertTrue(other.contains("'A', lines 2 to 3 and 6 to 7, with different readings."), other);
        assertEquals(
                Optional.of("t.csv, lines 2 to 3 and 6 to 7"),
                read(table + "A,,0.20\nA,-1,0.51\n").strip("A").origin());
        // A table in the order of the steps has each strip in many places.
        ReadingsTable bySteps = read(table + "A,-0.9,0.6\nB,-0.9,0.7\nA,-0.8,0.7\nB,-0.8,0.8\n");
        assertEquals(List.of(), bySteps.notices());
        assertEquals(
                Optional.of("t.csv, lines 2 to 8, in 3 places"),
                bySteps.strip("A").origin());
        // Base plus fog first, then the steps: the second place continues the first.
        assertEquals(
                List.of(),
                read("strip,log_exposure,density\nA,,0.2\nA,,0.21\nB,,0.2\nA,-1,0.5\nA,-0.9,0.6\nB,-1,0.5\n")
                        .notices());
        // The same where each step was read twice at once.
        assertEquals(
                List.of(),
                read("strip,log_exposure,density\nA,,0.2\nA,-2,0.3\nA,-2,0.31\nB,,0.2\nB,-1,0.5\nA,-1,0.5\nA,-1,0.52\n")
                        .notices());
    }

    /** A quotation mark that is not closed swallows all that follows: the message leads to it, wherever it stands. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "4 | strip,film,log_exposure,density/A,Moor,,0.2/A,Moor,-1,0.4/B,\"Moor,,0.2/B,Moor,-1,0.4",
                "1 | \"strip,film,log_exposure,density/A,Moor,,0.2/A,Moor,-1,0.4",
                "2 | strip,A,B/film,\"Moor,Fen/base_plus_fog,0.2,0.2/log_exposure,,/-1,0.3,0.3",
                "5 | strip,A,B/film,Moor,Fen/base_plus_fog,0.2,0.2/log_exposure,,/-2,\"0.3,0.2/-1,0.3,0.3",
                "5 | strip,A,B/film,Moor,Fen/base_plus_fog,0.2,0.2/log_exposure,,/\"-2,0.3,0.2/-1,0.3,0.3",
                "3 | strip,base_plus_fog,log_exposure,-2,-1/A,0.2,,0.3,0.5/B,0.2,,\"0.3,0.6/C,0.2,,0.3,0.6"
            })
    void anUnclosedQuotationMarkIsTold(int line, String rows) {
        String said = refused(ReadingsReader.withDefaults(), rows.replace('/', '\n') + '\n');
        assertEquals(
                "t.csv, line " + line + ": a field runs over several lines; take out the line break, or look for a"
                        + " quotation mark that is not closed",
                said);
    }

    @Test
    void aGridWithoutDensitiesIsToldAsNotFilledIn() {
        String said = refused(ReadingsReader.withDefaults(), """
                strip,S1,S2
                film,,
                base_plus_fog,,
                log_exposure,,
                -2,,
                -1,,
                """);
        assertEquals(
                "t.csv, line 4: nothing is filled in: the grid has no density; enter the densities below the names of the"
                        + " strips, and leave a cell empty that was not read",
                said);
    }

    @Test
    void aStripTwiceInAGridIsRefusedWithWhetherItsReadingsAgree() {
        String grid = "strip,A,B,A\nbase_plus_fog,0.2,0.2,0.2\nlog_exposure,,,\n-2,0.3,0.4,0.3\n-1,0.5,0.6,";
        assertEquals(
                "t.csv, line 1, column strip: \"A\" stands here and in column 2, with the same readings; take one out, or"
                        + " give each piece of film its own identifier",
                refused(ReadingsReader.withDefaults(), grid + "0.5\n"));
        String different = refused(ReadingsReader.withDefaults(), grid + "0.7\n");
        assertTrue(different.contains("and in column 2, with different readings; "), different);
    }

    /** A strip that lies in a row is named by its row. */
    @Test
    void theStripsOfASidewaysGridStandInLines() {
        String grid = "strip,base_plus_fog,log_exposure,-2,-1\nA,0.2,,0.3,0.5\nB,0.2,,0.3,0.6\n";
        assertEquals(Optional.of("t.csv, line 3"), read(grid).strip("B").origin());
        String twice = refused(ReadingsReader.withDefaults(), grid + "A,0.2,,0.3,0.5\n");
        assertTrue(twice.contains("\"A\" stands here and in line 2, with the same readings"), twice);
    }

    /** The films of a grid may stand above the names of its strips; two strips may be of one film. */
    @Test
    void theRowStripNamesStripsWhereverItStands() {
        String grid = "film,Alder,Alder\nstrip,A,B\nbase_plus_fog,.2,.2\nlog_exposure,,\n-3,.3,.4\n";
        ReadingsTable table = read(grid);
        assertEquals(List.of("A", "B"), table.strips().stream().map(Strip::id).toList());
        assertEquals("Alder", table.strip("B").film());
        String unnamed = refused(ReadingsReader.withDefaults(), grid.replace("strip,A,B\n", ""));
        assertTrue(unnamed.contains("add a row strip with an identifier for each piece of film"), unnamed);
        String same = refused(ReadingsReader.withDefaults(), grid.replace("strip,A,B", "strip,A,A"));
        assertTrue(same.contains("take one out, or give each piece of film its own identifier"), same);
        String twice = refused(ReadingsReader.withDefaults(), grid.replace("base", "strip,A,B\nbase"));
        assertTrue(twice.contains("line 3: the grid has more than one row strip"), twice);
        String endless = refused(ReadingsReader.withDefaults(), grid.replace("-3,.3,.4\n", ""));
        assertTrue(endless.contains("line 4: no row follows row log_exposure"), endless);
    }

    @Test
    void stripsOfAGridStateTheirExposuresOrNoneDoes() {
        String mixed = refused(
                ReadingsReader.withDefaults().with(TABLET),
                "strip,A,B\nexposure,-0.5,\nbase_plus_fog,.2,.2\nstep,,\n1,1.4,1.5\n3,.3,.4\n");
        assertTrue(mixed.contains("strip 'B' states no exposure but other strips do"), mixed);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '!',
            value = {
                "strip,log_exposure,density,,\\nS,-2,.4,,\\n!line 1!the header has two columns without a name",
                "strip,log_exposure,density,density\\nS,-2,.4,.4\\n!line 1!the header names this column twice",
                "strip,log_exposure,density\\nS,-2\\n!line 2!give every row as many fields as the header",
                "strip,log_exposure,density\\nS,-2,0,42\\n!line 2!write decimals with a point",
                "strip,log_exposure,density\\n ,-2,.4\\n!line 2!name the piece of film",
                "strip,film,log_exposure,density\\nS,'Al\\nder',-2,.4\\n!line 2!field runs over several lines",
                "strip,log_exposure,density\\nS,.42,-2.5\\n!line 2!log_exposure .42 beside it could be one: the two columns look swapped",
                "strip,log_exposure,density\\nS,1.42,-0.9\\n!line 2!the two columns look swapped",
                "strip,log_exposure,density\\nS,-2,\u22120.42\\n!line 2!write the minus sign as a hyphen"
            })
    void aTableIsRefusedWhereItIsWrong(String text, String place, String message) {
        String said =
                refused(ReadingsReader.withDefaults(), text.replace("\\n", "\n").replace('\'', '"'));
        assertTrue(said.contains(place) && said.contains(message), said);
    }

    /** Densities far out, or beside exposures that are no densities, are wrong for another reason. */
    @ParameterizedTest
    @CsvSource({".42, -10.5", ".42, 12", "-1.5, -0.9", "5.5, -0.9"})
    void columnsThatAreNotSwappedAreNotCalledSo(String exposure, String density) {
        String said = refused(
                ReadingsReader.withDefaults(), "strip,log_exposure,density\nS," + exposure + "," + density + "\n");
        assertTrue(said.contains("line 2") && !said.contains("swapped"), said);
    }

    @Test
    void rowsOfBlanksAtTheEndAreLeftOut() {
        ReadingsTable table = read("strip,log_exposure,density\nS,-2,.4\n , ,\n,,\n");
        assertEquals(1, table.strip("S").steps().size());
    }

    /** Lines end with a line feed, a carriage return or both; a quoted name may contain other separators. */
    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r", "\r\n"})
    void separatorsAreFoundBelowRemarksWithAnyLineEnd(String lineEnd) {
        String text = "# by A, B, C and D" + lineEnd + "#, again, again, again" + lineEnd
                + "strip;\"film, and a remark, or two, or three, or four\";log_exposure;density" + lineEnd
                + "S;Alder;-2,5;0,42" + lineEnd;
        ReadingsTable table = read(text);
        assertEquals(0.42, table.strip("S").steps().get(0).density().value());
        assertEquals(-2.5, exposures(table.strip("S")).get(0));
        String bars = "strip|log_exposure|density" + lineEnd + "S|-2,5|0,42" + lineEnd;
        assertEquals(0.42, read(bars).strip("S").steps().get(0).density().value());
        assertEquals(
                List.of("t.csv: read as CSV with bars between fields and decimal commas"),
                read(bars).notices());
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r", "\r\n"})
    void theLineWithForeignBytesIsNamed(String lineEnd) throws IOException {
        byte[] text = "strip,film,log_exposure,density\nS,Stock,-2,0.3\nS,Stöck,-1,0.5\nS,,0,1\n"
                .replace("\n", lineEnd)
                .getBytes(StandardCharsets.ISO_8859_1);
        Path file = Files.write(directory.resolve("w.csv"), text);
        String said = assertThrows(ReadingsException.class, () -> ReadingsTable.read(file))
                .getMessage();
        assertTrue(said.contains("line 3: the line has bytes that are not UTF-8"), said);
    }

    @Test
    void aStatedDecimalMarkIsAPointOrAComma() throws IOException {
        Path file = Files.writeString(directory.resolve("p.csv"), "strip;log_exposure;density\nS;-2;1.234\n");
        for (char mark : new char[] {'.', ','}) {
            assertEquals(
                    1.234,
                    ReadingsReader.withDefaults()
                            .with(CsvDialect.guessed().withDecimalMark(mark))
                            .read(file)
                            .strip("S")
                            .steps()
                            .get(0)
                            .density()
                            .value());
        }
        assertThrows(IllegalArgumentException.class, () -> CsvDialect.guessed().withDecimalMark(';'));
    }

    /** Whether 1,234 has decimals or thousands is told by a later row; rows without decimals tell nothing. */
    @Test
    void aLaterRowTellsTheDecimalMark() {
        Strip strip = read("strip;log_exposure;density\nS;-3;1\nS;-2;1,234\nS;-1;1,5\nS;0;2\n")
                .strip("S");
        assertEquals(
                List.of(1.0, 1.234, 1.5, 2.0),
                strip.steps().stream().map(step -> step.density().value()).toList());
    }

    @Test
    void aTableOfEmptyRowsHasNoReadings() {
        String said = refused(ReadingsReader.withDefaults(), "strip,log_exposure,density\n,,\n , ,\n");
        assertTrue(said.contains("the table has a header but no readings"), said);
    }

    @Test
    void oneRunNamesAllBadCellsOfAGrid() {
        String said = refused(
                ReadingsReader.withDefaults(),
                "strip,A,B\nbase_plus_fog,o.2,0.2\nlog_exposure,,\n-3,0.3,\"0,4\"\n-2,12,0.9\n");
        assertEquals(
                "t.csv, line 2, column A: \"o.2\" is not a number; enter a number such as 0.42; look also at"
                        + " line 4, column B (\"0,4\"), line 5, column A (\"12\")",
                said);
    }

    @Test
    void oneRunNamesAllBadDensitiesOfATable() {
        String said = refused(
                ReadingsReader.withDefaults(),
                "strip,log_exposure,density\nS,,0.2\nS,-3,x\nS,-2,0.9\nS,-1,y\nS,q,1\nS,0,z\n");
        assertEquals(
                "t.csv, line 3, column density: \"x\" is not a number; enter a number such as 0.42; look also at line 5,"
                        + " column density (\"y\"), line 6, column log_exposure (\"q\")",
                said,
                "up to the first fault of another kind");
        StringBuilder all = new StringBuilder("strip,A\nlog_exposure,\n");
        for (int i = 0; i < 30; i++) {
            all.append(-i).append(",x").append(i).append('\n');
        }
        String many = refused(ReadingsReader.withDefaults(), all.toString());
        assertTrue(many.endsWith("line 22 (\"x19\"), …"), many);
        assertEquals(1, many.split("is not a number", -1).length - 1, many);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "strip,Log exposure (lx·s),density | rename \"log exposure (lx·s)\" to log_exposure; needed is log_exposure",
                "strip,Relative-log exposure [lx s],Density [D] | rename \"relative-log exposure [lx s]\" to relative_log_exposure, \"density [d]\" to density",
                "strip,log h,density | add the column log_exposure: log10"
            })
    void aHeaderWithUnitsIsToldWhatToRename(String header, String remedy) {
        String said = refused(ReadingsReader.withDefaults(), header + "\nS,-2,1\n");
        assertTrue(said.contains(remedy), said);
    }

    @Test
    void aRowOfAGridWithUnitsIsToldWhatToRename() {
        assertEquals(
                "t.csv: the grid lacks the row that says what its steps are; rename \"Log exposure (lx s)\" in line 2 to"
                        + " log_exposure",
                refused(ReadingsReader.withDefaults(), "strip,A\nLog exposure (lx s),\n-2,1\n"));
    }

    @Test
    void anIgnoredColumnThatIsMeantIsToldWhatToRename() {
        ReadingsTable table = read("strip,log_exposure,density,Minutes (min),Weather,density (old)\nS,-2,1,8,fine,2\n");
        assertEquals(
                List.of("t.csv: unknown columns ignored: \"Minutes (min)\", \"Weather\", \"density (old)\"; if they"
                        + " are meant, rename \"minutes (min)\" to minutes"),
                table.notices());
    }

    @Test
    void namesOfColumnsMayHaveBlanksOrHyphens() {
        ReadingsTable table = read("Strip,Log exposure,Density,Box speed\nS,-2,1,100\n");
        assertEquals(OptionalDouble.of(100), table.strip("S").boxSpeed());
        assertEquals(List.of(), table.notices());
        String twice = refused(
                ReadingsReader.withDefaults(), "strip,log_exposure,density,box-speed,box_speed\nS,-2,1,100,200\n");
        assertTrue(twice.contains("column box_speed: the header names this column twice"), twice);
    }

    @Test
    void anIgnoredRowThatMayBeBasePlusFogIsToldItsName() {
        ReadingsTable table = read("strip,A\nBase,0.2\nlog exposure,\n-3,0.3\n");
        assertEquals(
                List.of(
                        "t.csv: row ignored: \"Base\"; if it has readings of base plus fog, begin it with base_plus_fog"),
                table.notices());
        assertTrue(read("strip,A\nB+F,0.2\nlog exposure,\n-3,0.3\n")
                .strip("A")
                .basePlusFog()
                .isPresent());
    }

    @Test
    void anEmptyDensityBesideWhatMayBeOneAsksForSwappedColumns() {
        String said = refused(ReadingsReader.withDefaults(), "strip,log_exposure,density\nS,0.243,\nS,0.25,-3\n");
        assertTrue(
                said.contains(
                        "if 0.243 is the density of base plus fog, the columns density and log_exposure are swapped"),
                said);
        String unread = refused(ReadingsReader.withDefaults(), "strip,log_exposure,density\nS,-2.5,\n");
        assertFalse(unread.contains("swapped"), unread);
    }
}
