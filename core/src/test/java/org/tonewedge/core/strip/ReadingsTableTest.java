// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.quantity.TransmissionGeometry;

class ReadingsTableTest {

    private static final String HEADER = "strip,film,developer,minutes,celsius,box_speed,log_exposure,density\n";

    @TempDir
    Path directory;

    private static ReadingsTable read(String text) {
        try {
            return ReadingsTable.read("strips.csv", new StringReader(text));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static ReadingsException refused(String text) {
        ReadingsException e = assertThrows(ReadingsException.class, () -> read(text));
        assertTrue(e.getMessage().startsWith("strips.csv"), e.getMessage());
        assertFalse(e.remedy().isBlank());
        return e;
    }

    private static void place(ReadingsException e, long line, String column, String value) {
        assertEquals(line, e.line().orElse(0), e.getMessage());
        assertEquals(column, e.column().orElse(""), e.getMessage());
        assertEquals(value, e.value().orElse(""), e.getMessage());
        if (!column.isEmpty()) {
            assertTrue(e.getMessage().contains("line " + line + ", column " + column), e.getMessage());
        }
    }

    @Test
    void readsStripsInTheOrderOfTheFile() {
        ReadingsTable table = read(HEADER
                + "S2,Stock two,bath,8.5,20,100,,0.21\n"
                + "S1,\"Stock, one\",bath,8,21,,-2.1,0.31\n"
                + "S2,Stock two,bath,8.5,20,100,-2.4,0.25\n"
                + "S2,,,,,,-2.4,0.27\n");
        assertEquals(List.of("S2", "S1"), table.strips().stream().map(Strip::id).toList());
        Strip two = table.strip("S2");
        assertEquals("Stock two", two.film());
        assertEquals(Duration.ofSeconds(510), two.processing().time().orElseThrow());
        assertEquals(Temperature.ofCelsius(20), two.processing().temperature().orElseThrow());
        assertEquals("bath", two.processing().developer().orElseThrow());
        assertEquals(OptionalDouble.of(100), two.boxSpeed());
        assertEquals(List.of(Density.of(0.21)), two.basePlusFogReadings());
        assertEquals(
                List.of(Density.of(0.25), Density.of(0.27)), two.steps().get(0).readings());
        assertEquals("strips.csv, lines 2 and 4 to 5", two.origin().orElseThrow());
        assertEquals("Stock, one", table.strip("S1").film());
        assertTrue(table.strip("S1").boxSpeed().isEmpty());
        assertTrue(assertThrows(IllegalArgumentException.class, () -> table.strip("S3"))
                .getMessage()
                .contains("S2, S1"));
    }

    @Test
    void columnsMayStandInAnyOrderAndUnknownOnesAreNoticed() {
        ReadingsTable table = read("density,operator,Log_Exposure, strip \n0.3,me,-2,S1\n");
        assertEquals(0.3, table.strip("S1").steps().get(0).density().value());
        assertEquals(1, table.notices().size());
        assertTrue(table.notices().get(0).contains("\"operator\""));
    }

    @Test
    void byteOrderMarkAndWindowsLineEndsAreRead() {
        ReadingsTable table = read("\uFEFF\"strip\",log_exposure,density\r\nS1,-2,0.3\r\n\r\n");
        assertEquals(1, table.strips().size());
        assertEquals(List.of(), table.notices());
    }

    @Test
    void relativeExposuresShareAnAxisNamedAfterTheTable() {
        ReadingsTable table = read("strip,relative_log_exposure,density\nS1,0.3,0.3\nS2,0.6,0.3\n");
        assertFalse(table.strip("S1").axis().isAbsolute());
        assertEquals(table.strip("S1").axis(), table.strip("S2").axis());
        assertTrue(table.strip("S1").axis().toString().contains("strips.csv"));
    }

    @Test
    void missingColumn() {
        place(refused("strip,log_exposure\nS1,-2\n"), 1, "density", "");
        place(refused("density,log_exposure\n0.2,-2\n"), 1, "strip", "");
        place(refused("strip,density\nS1,0.2\n"), 1, "log_exposure", "");
    }

    @Test
    void bothExposureColumns() {
        ReadingsException e = refused("strip,log_exposure,relative_log_exposure,density\nS1,-2,0,0.2\n");
        place(e, 1, "relative_log_exposure", "");
    }

    @Test
    void columnNamedTwice() {
        place(refused("strip,density,log_exposure,density\nS1,1,2,3\n"), 1, "density", "");
    }

    @ParameterizedTest
    @CsvSource({"abc", "NaN", "Infinity", "1e", "0x1p3", "1.2.3", "1d", "12 %", "1_000"})
    void notANumber(String bad) {
        place(refused("strip,log_exposure,density\nS1,-2,0.3\nS1,-1," + bad + "\n"), 3, "density", bad);
        place(refused("strip,log_exposure,density\nS1," + bad + ",0.3\n"), 2, "log_exposure", bad);
    }

    @Test
    void decimalCommas() {
        ReadingsException quoted = refused("strip,log_exposure,density\nS1,-2,\"0,42\"\n");
        place(quoted, 2, "density", "0,42");
        assertTrue(quoted.remedy().contains("0.42"));
        ReadingsException bare = refused("strip,log_exposure,density\nS1,-2,0,42\n");
        place(bare, 2, "", "");
        assertTrue(bare.remedy().contains("point"), bare.remedy());
    }

    @Test
    void typographicMinus() {
        assertTrue(refused("strip,log_exposure,density\nS1,\u22122.1,0.42\n")
                .remedy()
                .contains("hyphen"));
    }

    @Test
    void negativeTime() {
        ReadingsException e = refused(HEADER + "S1,F,B,-8,20,100,-2,0.3\n");
        place(e, 2, "minutes", "-8");
    }

    @Test
    void temperatureInFahrenheit() {
        ReadingsException e = refused(HEADER + "S1,F,B,8,68,100,-2,0.3\n");
        place(e, 2, "celsius", "68");
        assertTrue(e.getMessage().contains("Fahrenheit"));
    }

    @Test
    void boxSpeedOutOfRange() {
        place(refused(HEADER + "S1,F,B,8,20,0,-2,0.3\n"), 2, "box_speed", "0");
    }

    @Test
    void densityOutOfRange() {
        place(refused("strip,log_exposure,density\nS1,-2,42\n"), 2, "density", "42");
        place(refused("strip,log_exposure,density\nS1,-2,-0.5\n"), 2, "density", "-0.5");
    }

    @Test
    void exposureInsteadOfItsLogarithm() {
        place(refused("strip,log_exposure,density\nS1,128,0.3\n"), 2, "log_exposure", "128");
    }

    @Test
    void conflictingLabelsNameBothLines() {
        ReadingsException e = refused(HEADER + "S1,F,B,8,20,100,-2,0.3\nS1,F,B,9,20,100,-1,0.6\n");
        place(e, 3, "minutes", "9");
        assertTrue(e.getMessage().contains("line 2"), e.getMessage());
    }

    @Test
    void oneNumberWrittenInTwoWaysIsNoContradiction() {
        ReadingsTable table = read(HEADER + "S1,F,B,8.0,20,100,-2,0.3\nS1,F,B,8,20.0,1e2,-1,0.6\n");
        assertEquals(
                Duration.ofMinutes(8), table.strip("S1").processing().time().orElseThrow());
    }

    @Test
    void emptyStripOrDensity() {
        place(refused("strip,log_exposure,density\n,-2,0.3\n"), 2, "strip", "");
        place(refused("strip,log_exposure,density\nS1,-2,\n"), 2, "density", "");
    }

    @Test
    void aStripWithOnlyBasePlusFog() {
        ReadingsException e = refused("strip,log_exposure,density\nS1,,0.3\n");
        assertTrue(e.getMessage().contains("'S1'"), e.getMessage());
    }

    @Test
    void emptyTables() {
        assertTrue(refused("").getMessage().contains("empty"));
        assertTrue(refused("strip,log_exposure,density\n").getMessage().contains("no readings"));
    }

    @Test
    void unclosedQuotationMark() {
        ReadingsException e = refused("strip,log_exposure,density\nS1,-2,0.3\nS1,-1,\"0.4\nS1,0,0.5");
        assertTrue(e.getMessage().contains("quotation mark"), e.getMessage());
        // Two marks that are not closed would swallow the row between them.
        ReadingsException two = refused("strip,film,log_exposure,density\nS1,\"Stock,-2,0.3\nS1,Stock\",-1,0.6\n");
        assertEquals("film", two.column().orElseThrow());
    }

    @Test
    void shortRows() {
        place(refused("strip,log_exposure,density\nS1,-2\n"), 2, "", "");
    }

    @Test
    void otherEncodings() throws IOException {
        Path file = directory.resolve("strips.csv");
        String text = "strip,film,log_exposure,density\nS1,Stock,-2,0.3\nS1,Stöck,-2,0.3\n";
        Files.writeString(file, text, Charset.forName("windows-1252"));
        ReadingsException e = assertThrows(ReadingsException.class, () -> ReadingsTable.read(file));
        assertEquals(3, e.line().orElseThrow());
        assertTrue(e.remedy().contains("UTF-8"));
        Files.writeString(file, "\uFEFF" + text, StandardCharsets.UTF_16LE);
        assertTrue(assertThrows(ReadingsException.class, () -> ReadingsTable.read(file))
                .getMessage()
                .contains("UTF-16"));
    }

    @Test
    void noSuchFile() {
        assertThrows(NoSuchFileException.class, () -> ReadingsTable.read(directory.resolve("none.csv")));
    }

    @Test
    @Tag("slow")
    void aFileOf200MegabytesIsRead() throws IOException {
        Path file = directory.resolve("large.csv");
        long rows = 0;
        try (BufferedWriter writer = Files.newBufferedWriter(file)) {
            writer.write("strip,film,log_exposure,density\n");
            String label = ",A label long enough to make a row of eighty characters or so, demo stock no. ";
            while (Files.size(file) < 200_000_000) {
                for (int i = 0; i < 10_000; i++) {
                    long strip = rows / 1000;
                    writer.write("S" + strip + ",\"" + label.substring(1) + strip + "\"," + (-3 + 0.003 * (rows % 1000))
                            + ",0." + (100 + rows % 900) + "\n");
                    rows++;
                }
                writer.flush();
            }
        }
        ReadingsTable table = ReadingsTable.read(file);
        assertEquals(
                rows,
                table.strips().stream().mapToLong(strip -> strip.steps().size()).sum());
    }

    @Test
    void whatIsWrittenIsReadBack() throws IOException {
        Strip strip = Strip.builder("S,1")
                .film("Stock \"one\"")
                .boxSpeed(125)
                .processing(Processing.unknown().withDeveloper("bath, 1+1").withMinutes(8.5))
                .basePlusFog(0.21, 0.22)
                .reading(LogExposure.ofLogLuxSeconds(-2.123456789), Density.of(0.312345))
                .reading(LogExposure.ofLogLuxSeconds(-2.123456789), Density.of(0.32))
                .build();
        StringWriter writer = new StringWriter();
        ReadingsTable.write(List.of(strip), writer);
        Strip back = read(writer.toString()).strips().get(0);
        assertEquals(strip.steps(), back.steps());
        assertEquals(strip.basePlusFogReadings(), back.basePlusFogReadings());
        assertEquals(strip.film(), back.film());
        assertEquals(strip.processing(), back.processing());
        assertEquals(strip.boxSpeed(), back.boxSpeed());
        assertThrows(IllegalArgumentException.class, () -> ReadingsTable.write(List.of(), writer));
        Strip relative = Strip.builder("R")
                .reading(new LogExposure(0, ExposureAxis.relativeTo("a")), Density.of(1))
                .build();
        assertThrows(IllegalArgumentException.class, () -> ReadingsTable.write(List.of(strip, relative), writer));
    }

    @Test
    void refusesToWriteWhatWouldNotReadBackToTheSame() {
        StringWriter text = new StringWriter();
        List<Strip> two = List.of(labelled("S1", "film", "soup"), labelled("S1", "film", "soup"));
        assertThrows(IllegalArgumentException.class, () -> ReadingsTable.write(two, text));
        assertEquals("", text.toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r", "\t", "\u0000", "\u001b", "\u0085", "\u2028", "\uffff", "\ud800"})
    void labelsHaveNoControlCharacters(String control) {
        String bad = "a" + control + "b";
        assertThrows(IllegalArgumentException.class, () -> labelled(bad, "film", "soup"));
        assertThrows(IllegalArgumentException.class, () -> labelled("S1", bad, "soup"));
        assertThrows(IllegalArgumentException.class, () -> labelled("S1", "film", bad));
        if (!control.matches("[\n\r]")) {
            place(refused("strip,log_exposure,density\nS1,-2,0.3\n" + bad + ",-2,0.3\n"), 3, "strip", bad);
            place(refused(HEADER + "S1,F," + bad + ",9,20,100,-2,0.3\n"), 2, "developer", bad);
        }
        assertEquals("Ö 東 🙂", labelled("S1", " Ö 東 🙂 ", "soup").film());
    }

    @Test
    void messagesQuoteTheBeginningOfALongValue() {
        ReadingsException e = refused("strip,log_exposure,density\nS1,-2," + "9".repeat(500) + "x\n");
        assertTrue(e.getMessage().contains("9".repeat(80) + "… (501 characters)"), e.getMessage());
        assertFalse(e.getMessage().contains("9".repeat(81)), e.getMessage());
        assertEquals(501, e.value().orElseThrow().length());
    }

    private static Strip labelled(String id, String film, String developer) {
        return Strip.builder(id)
                .film(film)
                .processing(Processing.unknown().withDeveloper(developer))
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5))
                .build();
    }

    /** What readings cannot show is stated in columns of its own; the seconds of an exposure are its exposure time. */
    @Test
    void conditionsOfTheTestAreRead() throws IOException {
        Strip strip = ReadingsTable.read("t.csv", new StringReader("""
                                strip,illuminant,exposure_seconds,hold_minutes,storage,log_exposure,density
                                S1,tungsten with filter,1/125,90,"8 months, 20 °C",-2,0.3
                                S1,,,,,-1,0.6
                                """)).strip("S1");
        assertEquals(
                TestConditions.notStated()
                        .withIlluminant("tungsten with filter")
                        .withExposureTime(Duration.ofMillis(8))
                        .withHold(Duration.ofMinutes(90))
                        .withStorage("8 months, 20 °C"),
                strip.testConditions());
        assertEquals(
                "illuminant tungsten with filter, exposure time 1/125 s, hold 90 min, storage 8 months, 20 °C",
                strip.testConditions().toString());
        Strip lit = ReadingsReader.withDefaults()
                .with(StepTablet.nominal(3, Density.of(0.05), 0.15))
                .read(CsvDialect.guessed()
                        .open(
                                "t.csv",
                                new StringReader("strip,step,lux,seconds,density\nS1,1,10,0.5,0.9\nS1,2,,,0.8\n")))
                .strip("S1");
        assertEquals(Duration.ofMillis(500), lit.testConditions().exposureTime().orElseThrow());
        ReadingsException e = assertThrows(
                ReadingsException.class,
                () -> ReadingsTable.read(
                        "t.csv", new StringReader("strip,exposure_seconds,log_exposure,density\nS1,0,-2,0.3\n")));
        place(e, 2, "exposure_seconds", "0");
    }

    @Test
    void sameDescriptionMayBeWrittenInTwoWays() {
        Strip strip = read(HEADER + "S1,F,B,8:30,20,100/21°,,0.2\nS1,F,B,8.5,20.0,100,-2,0.3\n")
                .strip("S1");
        assertEquals(100, strip.boxSpeed().orElseThrow());
        assertEquals(Duration.ofSeconds(510), strip.processing().time().orElseThrow());
        place(
                refused(HEADER + "S1,F,B,8:30,20,100/21°,,0.2\nS1,F,B,8:30,20,125/22°,-2,0.3\n"),
                3,
                "box_speed",
                "125/22°");
    }

    @Test
    void tablesArePutTogether() throws IOException {
        ReadingsTable monday = ReadingsTable.read(
                "monday.csv", new StringReader("strip,log_exposure,density,weather\nA,,0.2,sun\nA,-1,0.5,sun\n"));
        ReadingsTable friday = ReadingsTable.read(
                "friday.csv", new StringReader("strip,relative_log_exposure,density\nB,,0.2\nB,-1,0.5\n"));
        ReadingsTable both = ReadingsTable.of(List.of(monday, friday));

        assertEquals("monday.csv, friday.csv", both.name());
        assertEquals(List.of(monday.strip("A"), friday.strip("B")), both.strips());
        assertEquals(monday.notices(), both.notices());
        assertEquals(monday, ReadingsTable.of(List.of(monday)));
        assertThrows(IllegalArgumentException.class, () -> ReadingsTable.of(List.of()));
        assertEquals(
                "strip 'A' stands in monday.csv, lines 2 to 3, and in monday.csv, lines 2 to 3, the second table of this name,"
                        + " with the same readings; take one out, or give each piece of film an identifier of its own",
                assertThrows(IllegalArgumentException.class, () -> ReadingsTable.of(List.of(monday, friday, monday)))
                        .getMessage());
        ReadingsTable sunday = ReadingsTable.read(
                "sunday.csv",
                new StringReader("strip,relative_log_exposure,density\nC,,0.2\nC,-1,0.5\nB,,0.2\nB,-1,0.6\n"));
        String said = assertThrows(IllegalArgumentException.class, () -> ReadingsTable.of(List.of(friday, sunday)))
                .getMessage();
        assertTrue(
                said.startsWith(
                        "strip 'B' stands in friday.csv, lines 2 to 3, and in sunday.csv, lines 4 to 5, with different"
                                + " readings; "),
                said);
    }

    @Test
    void kindOfDensityIsReadWrittenAndCompared() throws IOException {
        Strip strip = ReadingsTable.read("t.csv", new StringReader("""
                                strip,density_response,density_geometry,log_exposure,density
                                S1,Status M blue,Diffuse,,0.2
                                S1,status_m_blue,DIFFUSE,-2,0.3
                                """)).strip("S1");
        assertEquals(SpectralResponse.STATUS_M_BLUE, strip.densityResponse().orElseThrow());
        assertEquals(TransmissionGeometry.DIFFUSE, strip.densityGeometry().orElseThrow());
        StringWriter table = new StringWriter();
        ReadingsTable.write(List.of(strip), table);
        Strip again =
                ReadingsTable.read("t.csv", new StringReader(table.toString())).strip("S1");
        assertEquals(strip, again);
        Strip grid = ReadingsTable.read(ReadingsGrid.of("grid", List.of(strip))).strip("S1");
        assertEquals(strip, grid);
        Strip unstated = ReadingsTable.read(
                        "t.csv", new StringReader("strip,log_exposure,density\nS1,,0.2\nS1,-2,0.3\n"))
                .strip("S1");
        assertTrue(unstated.densityResponse().isEmpty()
                && unstated.densityGeometry().isEmpty());
        assertNotEquals(
                strip,
                ReadingsTable.read("t.csv", new StringReader(table.toString().replace("status M blue", "visual")))
                        .strip("S1"));
        ReadingsException misspelt = assertThrows(
                ReadingsException.class,
                () -> ReadingsTable.read(
                        "t.csv", new StringReader(table.toString().replace("status M blue", "visaul"))));
        place(misspelt, 2, "density_response", "visaul");
        assertEquals(UnusableInputException.Fault.UNKNOWN_NAME, misspelt.fault());
        assertTrue(misspelt.getMessage().endsWith("correct the name, or leave the field empty"), misspelt.getMessage());
        place(
                assertThrows(
                        ReadingsException.class,
                        () -> ReadingsTable.read(
                                "t.csv", new StringReader(table.toString().replace("diffuse", "glossy")))),
                2,
                "density_geometry",
                "glossy");
    }

    /** A field that repeats the row above says it of the same strip only, and not across a blank row. */
    @Test
    void repeatedFieldsBelongToTheStripOfTheirRow() throws IOException {
        String head = "strip,film,minutes,log_exposure,density\n";
        ReadingsTable turns = ReadingsTable.read(
                "t.csv",
                new StringReader(head + "A,Alder,8,-2,0.3\nB,Alder,8,-2,0.4\nA,Alder,8,-1,0.5\nB,Alder,8,-1,0.6\n"));
        assertEquals(List.of("A", "B"), turns.strips().stream().map(Strip::id).toList());
        for (Strip strip : turns.strips()) {
            assertEquals("Alder", strip.film());
            assertEquals(Duration.ofMinutes(8), strip.processing().time().orElseThrow());
            assertEquals(2, strip.steps().size());
        }
        ReadingsException contradiction = assertThrows(
                ReadingsException.class,
                () -> ReadingsTable.read(
                        "t.csv", new StringReader(head + "A,Alder,8,-2,0.3\nB,Birch,9,-2,0.4\nA,Birch,8,-1,0.5\n")));
        assertTrue(contradiction.getMessage().contains("has \"Birch\" here but \"Alder\""), contradiction.getMessage());
        ReadingsException unnamed = assertThrows(
                ReadingsException.class,
                () -> ReadingsTable.read("t.csv", new StringReader(head + "A,Alder,8,-2,0.3\n,,,,\n,,,-1,0.5\n")));
        assertTrue(unnamed.getMessage().contains("line 4, column strip: the field is empty"), unnamed.getMessage());
    }

    @Test
    void columnsFarToTheRightAreReadAsThoseToTheLeft() {
        String blanks = "n,".repeat(66);
        StringBuilder header = new StringBuilder();
        for (int i = 0; i < 66; i++) {
            header.append("remark ").append(i).append(',');
        }
        ReadingsTable table = read(header + "strip,film,log_exposure,density\n" + blanks + "A,Alder,-2,0.2\n" + blanks
                + "A,Alder,-1,0.8\n" + blanks + "B,Birch,-1,0.9\n");
        assertEquals(List.of("A", "B"), table.strips().stream().map(Strip::id).toList());
        assertEquals("Birch", table.strip("B").film());
        ReadingsException contradiction = refused(header + "strip,film,log_exposure,density\n" + blanks
                + "A,Alder,-2,0.2\n" + blanks + "A,Birch,-1,0.8\n");
        assertTrue(contradiction.getMessage().contains("has \"Birch\" here but \"Alder\""), contradiction.getMessage());
    }

    /** Below a title rows may be short; a field that repeats the one above a short row is new to its own strip. */
    @Test
    void aFieldBelowAShortRowIsRead() throws IOException {
        ReadingsTable table = ReadingsTable.read(
                "t.csv",
                new StringReader(
                        "Session of May\nstrip,log_exposure,density,film\nB,-2,0.3,Alder\nA,-2,0.3\nA,-1,0.5,Alder\n"));
        assertEquals("Alder", table.strip("A").film());
    }

    /** A line of a gradient against log H, at steps that are entered as stops: a row for each, and a grid. */
    private static List<String> asStops(double apart, double gradient, double unit) {
        StringBuilder rows = new StringBuilder("strip,stops,density\nA,,0.20\n");
        StringBuilder grid = new StringBuilder("strip,A\nbase_plus_fog,0.20\nstops,\n");
        for (int i = 0; i < 9; i++) {
            String step = String.format(Locale.ROOT, "%.2f,%.3f%n", (i - 4) * apart, 0.2 + gradient * unit * i * apart);
            rows.append("A,").append(step);
            grid.append(step);
        }
        return List.of(rows.toString(), grid.toString());
    }

    @ParameterizedTest
    @CsvSource({"0.15, 0.6, true", "0.3, 0.5, true", "0.1, 0.6, true", "0.333333, 0.6, false", "0.5, 0.6, false"})
    void logarithmsInPlaceOfStopsAreTold(double apart, double gradient, boolean told) {
        for (String text : asStops(apart, gradient, 1)) {
            List<String> notices = read(text).notices();
            assertEquals(
                    told,
                    notices.stream().anyMatch(notice -> notice.contains("the stops of A are as far apart")),
                    notices::toString);
        }
        // The same steps, of film whose density rises as slowly as it should per stop.
        for (String text : asStops(apart, gradient, Math.log10(2))) {
            assertFalse(read(text).notices().toString().contains("logarithms"), text);
        }
    }
}
