// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;

class BracketTableTest {

    private static final String TABLE = """
            film,frame,stops,patch,group,reflectance,density
            Quay,,,,,,0.21
            Quay,,,,,,0.23
            Quay,f2,0.3333,shadow,,,0.35
            Quay,f2,,grey,neutral,0.18,0.80
            Quay,f2,,grey,,,0.82
            Quay,f1,0,shadow,,,0.31
            Quay,f1,,brick,Red,0.12,0.60
            Moor,,,,,,0.30
            Moor,a,0,shadow,,,0.40
            """;

    private static BracketTable read(String text) throws IOException {
        return BracketTable.read("frames.csv", new StringReader(text));
    }

    @Test
    void readsFilmsFramesPatchesAndRepeats() throws IOException {
        BracketTable table = read(TABLE);

        assertEquals(
                List.of("Quay", "Moor"),
                table.brackets().stream().map(Bracket::film).toList());
        Bracket quay = table.bracket("Quay");
        assertEquals(0.22, quay.basePlusFog().value(), 1e-12);
        assertEquals(
                List.of("f1", "f2"), quay.frames().stream().map(Frame::label).toList());
        assertEquals(0.81, quay.frame("f2").reading("grey").density().value(), 1e-12);
        assertEquals(
                Patch.of("brick", PatchGroup.RED, 0.12),
                quay.frame("f1").reading("brick").patch());
        assertEquals(0.3333, quay.frame("f2").exposure().stops(), 1e-12);
        assertTrue(table.notices().isEmpty());
    }

    @Test
    void writesWhatItReads() throws IOException {
        StringWriter text = new StringWriter();
        BracketTable.write(read(TABLE).brackets(), text);
        StringWriter again = new StringWriter();
        BracketTable.write(read(text.toString()).brackets(), again);

        assertEquals(text.toString(), again.toString());
        assertEquals(
                read(TABLE).bracket("Quay").frames(),
                read(text.toString()).bracket("Quay").frames());
    }

    @Test
    void refusesToWriteWhatWouldNotReadBackToTheSame() {
        Patch grey = Patch.of("grey", PatchGroup.NEUTRAL, 0.18);
        for (List<Bracket> unreadable : List.of(
                List.of(series("Quay", "f1", grey), series("Quay", "f2", grey)),
                List.of(
                        series("Quay", "f1", grey),
                        series("Pier", "f1", Patch.of("grey", PatchGroup.NEUTRAL, 0.19))))) {
            StringWriter text = new StringWriter();
            assertThrows(IllegalArgumentException.class, () -> BracketTable.write(unreadable, text));
            assertEquals("", text.toString());
        }
    }

    @Test
    void labelsHaveNoControlCharacters() {
        Patch grey = Patch.of("grey", PatchGroup.NEUTRAL, 0.18);
        assertThrows(IllegalArgumentException.class, () -> series("Quay\nnorth", "f1", grey));
        assertThrows(IllegalArgumentException.class, () -> series("Quay", "f1\rf2", grey));
        assertThrows(IllegalArgumentException.class, () -> Patch.of("grey\tcard", PatchGroup.NEUTRAL));
    }

    private static Bracket series(String film, String frame, Patch patch) {
        return Bracket.of(
                film,
                List.of(Density.of(0.2)),
                List.of(new Frame(frame, ExposureInterval.ZERO, List.of(PatchReading.of(patch, 0.7)))));
    }

    /** Base plus fog is read once by each response; the readings of two responses never mix. */
    @Test
    void eachResponseHasOneBasePlusFog() {
        Bracket bracket = series("Quay", "f1", Patch.of("grey", PatchGroup.NEUTRAL, 0.18));
        List<Density> fog = List.of(Density.of(0.3));
        Bracket green = bracket.with(SpectralResponse.VISUAL).withBasePlusFog(SpectralResponse.STATUS_M_GREEN, fog);
        Bracket both = green.withBasePlusFog(SpectralResponse.STATUS_M_BLUE, List.of(Density.of(0.4)));
        assertEquals(Density.of(0.3), both.basePlusFogByResponse().get(SpectralResponse.STATUS_M_GREEN));
        assertEquals(Density.of(0.4), both.basePlusFogByResponse().get(SpectralResponse.STATUS_M_BLUE));
        assertThrows(IllegalArgumentException.class, () -> both.withBasePlusFog(SpectralResponse.STATUS_M_GREEN, fog));
        assertThrows(IllegalArgumentException.class, () -> both.withBasePlusFog(SpectralResponse.VISUAL, fog));
        assertThrows(IllegalArgumentException.class, () -> both.with(SpectralResponse.STATUS_M_BLUE));
        assertEquals(Density.of(0.2), both.neutralScale("f1").basePlusFog().orElseThrow());
    }

    /** The columns of response and geometry are written where a series states one of them, and with all that it states. */
    @Test
    void aTableHasTheColumnsThatItsSeriesNeed() throws IOException {
        Bracket plain = series("Quay", "f1", Patch.of("grey", PatchGroup.NEUTRAL, 0.18));
        assertEquals("film,frame,stops,patch,group,reflectance,density", header(plain));
        String kind = "film,frame,stops,patch,group,reflectance,density,density_response,density_geometry";
        assertEquals(kind, header(plain.with(TransmissionGeometry.DIFFUSE)));
        assertEquals(kind, header(plain.with(SpectralResponse.VISUAL)));
    }

    private static String header(Bracket bracket) throws IOException {
        StringWriter written = new StringWriter();
        BracketTable.write(List.of(bracket), written);
        assertEquals(bracket, read(written.toString()).bracket("Quay"));
        return written.toString().lines().findFirst().orElseThrow();
    }

    @Test
    void stripsOfASeriesHaveItsKindOfDensity() {
        Bracket bracket =
                series("Quay", "f1", Patch.of("grey", PatchGroup.NEUTRAL, 0.18)).with(TransmissionGeometry.DIFFUSE);
        assertEquals(
                TransmissionGeometry.DIFFUSE,
                bracket.stripOf("grey").densityGeometry().orElseThrow());
        assertEquals(
                TransmissionGeometry.DIFFUSE,
                bracket.neutralScale("f1").densityGeometry().orElseThrow());
        assertEquals("bracket on film 'Quay'", bracket.toString());
        assertNotEquals(bracket, series("Quay", "f1", Patch.of("grey", PatchGroup.NEUTRAL, 0.18)));
    }

    @Test
    void refusesToWriteNothing() {
        assertThrows(IllegalArgumentException.class, () -> BracketTable.write(List.of(), new StringWriter()));
    }

    @Test
    void leavesUnknownColumnsAsideWithANotice() throws IOException {
        BracketTable table = read("film,frame,stops,patch,density,Weather\nQuay,,,,0.2,rain\nQuay,f,0,p,0.3,rain\n");

        assertEquals(List.of("frames.csv: unknown columns ignored: \"Weather\""), table.notices());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // row in place of the last | line | column | part of the fault | part of the remedy
                "Moor,a,0,shadow,,,0;40          | 10 | density     | not a number            | such as 0.42",
                "Moor,a,0,shadow,,,42            | 10 | density     | from -0.2 to 10, was 42   | percentage",
                "Moor,a,0,shadow,,,              | 10 | density     | empty (film 'Moor')     | leave out the row",
                "Moor,a,,shadow,,,0.40           | 10 | stops       | no row of frame 'a' of film 'Moor' | 0 for the metered one",
                "Moor,,0,shadow,,,0.40           | 10 | frame       | empty (patch 'shadow')  | name the frame",
                "Moor,a,0,,,,0.40                | 10 | frame       | names no patch          | name the patch",
                "Moor,a,0,shadow,puce,,0.40      | 10 | group       | \"puce\" is not a group | use one of neutral, red",
                "Moor,a,0,brick,green,,0.40      | 10 | group       | but \"Red\" in line 8   | make them agree",
                "Moor,a,0,brick,,0.2,0.40        | 10 | reflectance | but \"0.12\" in line 8  | make them agree",
                "Moor,a,0,shadow,,18,0.40        | 10 | reflectance | was 18                  | 0.18 for 18 %",
                "Moor,a,x,shadow,,,0.40          | 10 | stops       | \"x\" is not a number   | such as",
                "Quay,f1,1,shadow,,,0.40         | 10 | stops       | but \"0\" in line 7     | make them agree",
                ",a,0,shadow,,,0.40              | 10 | film        | empty                   | name the film",
            })
    void tellsFaultsWithPlaceAndRemedy(String row, long line, String column, String fault, String remedy) {
        String table = TABLE.substring(0, TABLE.lastIndexOf("Moor")) + row + "\n";

        ReadingsException e = assertThrows(ReadingsException.class, () -> read(table));

        assertEquals(line, e.line().orElseThrow(), e.getMessage());
        assertEquals(column, e.column().orElseThrow(), e.getMessage());
        assertTrue(e.getMessage().startsWith("frames.csv, line " + line), e.getMessage());
        assertTrue(e.getMessage().contains(fault), e.getMessage());
        assertTrue(e.getMessage().contains(remedy), e.getMessage());
    }

    @Test
    void leavesOutAFilmWithoutBasePlusFogOrFrames() throws IOException {
        BracketTable table = read(TABLE + "Sand,a,0,shadow,,,0.40\nFen,,,,,,0.31\n");

        assertEquals(
                List.of("Quay", "Moor"),
                table.brackets().stream().map(Bracket::film).toList());
        assertEquals(List.of("Sand", "Fen"), List.copyOf(table.leftOut().keySet()));
        String sand = table.leftOut().get("Sand");
        assertTrue(sand.startsWith("frames.csv, line 11") && sand.contains("'Sand' has no base-plus-fog"), sand);
        String fen = table.leftOut().get("Fen");
        assertTrue(fen.startsWith("frames.csv, line 12") && fen.contains("has no frame"), fen);
        assertEquals(
                sand,
                assertThrows(IllegalArgumentException.class, () -> table.bracket("Sand"))
                        .getMessage());
        assertTrue(read(TABLE).leftOut().isEmpty());
    }

    @Test
    void refusesATableWhereNoFilmMakesASeries() {
        ReadingsException e = assertThrows(
                ReadingsException.class, () -> read("film,frame,stops,patch,density\nSand,a,0,shadow,0.40\n"));

        assertEquals(2, e.line().orElseThrow());
        assertTrue(e.getMessage().contains("'Sand' has no base-plus-fog"), e.getMessage());
    }

    @ParameterizedTest
    @CsvSource({
        "film, the film of the series",
        "frame, the label of the frame",
        "patch, 'the label of the patch, empty for base plus fog'",
        "density, the density read"
    })
    void tellsWhatAMissingColumnIsFor(String column, String words) {
        String message = assertThrows(
                        ReadingsException.class, () -> read(TABLE.replaceFirst(column + "(,|\n)", "other$1")))
                .getMessage();
        assertTrue(message.contains(column) && message.contains(words), message);
    }

    @Test
    void tellsAMissingColumn() {
        ReadingsException e =
                assertThrows(ReadingsException.class, () -> read("film,frame,patch,density\nQuay,f,p,0.3\n"));

        assertEquals("stops", e.column().orElseThrow());
        assertTrue(e.getMessage().contains("add the column stops"), e.getMessage());
    }

    @Test
    void tellsAnEmptyTable() {
        assertTrue(assertThrows(ReadingsException.class, () -> read(""))
                .getMessage()
                .contains("is empty"));
        assertTrue(assertThrows(ReadingsException.class, () -> read("film,frame,stops,patch,density\n"))
                .getMessage()
                .contains("no readings"));
    }

    @Test
    void tellsBytesThatAreNotUtf8(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("frames.csv");
        Files.write(file, TABLE.replace("Moor", "Mo\u00f6r").getBytes(StandardCharsets.ISO_8859_1));

        ReadingsException e = assertThrows(ReadingsException.class, () -> BracketTable.read(file));

        assertEquals(9, e.line().orElseThrow());
    }

    @Test
    void listsWhatThereIsWhenAskedForWhatThereIsNot() throws IOException {
        BracketTable table = read(TABLE);

        assertTrue(assertThrows(IllegalArgumentException.class, () -> table.bracket("Fen"))
                .getMessage()
                .contains("Quay, Moor"));
        assertTrue(assertThrows(
                        IllegalArgumentException.class,
                        () -> table.bracket("Quay").frame("f9"))
                .getMessage()
                .contains("f1, f2"));
        assertTrue(assertThrows(
                        IllegalArgumentException.class,
                        () -> table.bracket("Quay").frame("f1").reading("sky"))
                .getMessage()
                .contains("shadow, brick"));
    }

    @Test
    void poolsTheRepeatability() throws IOException {
        // Two pairs, 0.21/0.23 and 0.80/0.82, each with a sum of squares of 0.0002: s² = 0.0004 / 2.
        assertEquals(
                Math.sqrt(0.0002), read(TABLE).bracket("Quay").repeatability().orElseThrow(), 1e-12);
        assertTrue(read(TABLE).bracket("Moor").repeatability().isEmpty());
    }

    @Test
    void reflectanceInPercentIsRefusedInWords() {
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> Patch.of("brick", PatchGroup.RED, 18));
        assertTrue(
                e.getMessage().startsWith("reflectance of patch 'brick' must be above 0 and at most 1.2, was 18"),
                e.getMessage());
    }

    private static final String BY_TWO = """
            film,frame,stops,patch,group,reflectance,density,density_response,density_geometry
            Quay,,,,,,0.21,,
            Quay,,,,,,0.40,status m blue,
            Quay,,,,,,0.42,status M blue,
            Quay,f1,0,shadow,,,0.31,visual,diffuse
            Quay,f1,,grey,,,0.81,,
            """;

    @Test
    void basePlusFogMayBeReadByMoreThanOneResponse() throws IOException {
        Bracket quay = read(BY_TWO).bracket("Quay");
        assertEquals(0.21, quay.basePlusFog().value(), 1e-12);
        assertEquals(SpectralResponse.VISUAL, quay.densityResponse().orElseThrow());
        assertEquals(TransmissionGeometry.DIFFUSE, quay.densityGeometry().orElseThrow());
        Map<SpectralResponse, Density> all = quay.basePlusFogByResponse();
        assertEquals(2, all.size());
        assertEquals(0.21, all.get(SpectralResponse.VISUAL).value(), 1e-12);
        assertEquals(0.41, all.get(SpectralResponse.STATUS_M_BLUE).value(), 1e-12);
        assertEquals(
                SpectralResponse.VISUAL, quay.stripOf("grey").densityResponse().orElseThrow());
        StringWriter written = new StringWriter();
        BracketTable.write(List.of(quay), written);
        assertEquals(quay, read(written.toString()).bracket("Quay"));
        assertEquals(quay, read(BY_TWO.replace("0.81,,", "0.81,VISUAL,Diffuse")).bracket("Quay"));
        // All by one response: it is that of the frames too.
        Bracket blue = read(BY_TWO.replace("Quay,,,,,,0.21,,\n", "").replace(",visual,", ",,"))
                .bracket("Quay");
        assertEquals(SpectralResponse.STATUS_M_BLUE, blue.densityResponse().orElseThrow());
        assertEquals(0.41, blue.basePlusFog().value(), 1e-12);
    }

    @Test
    void aResponseThatIsUnknownOrNotThatOfTheFramesIsRefused() {
        ReadingsException e =
                assertThrows(ReadingsException.class, () -> read(BY_TWO.replace("status m blue", "bleu")));
        assertTrue(e.getMessage().contains("\"bleu\" is not a spectral response"), e.getMessage());
        assertEquals(3, e.line().orElseThrow());
        e = assertThrows(ReadingsException.class, () -> read(BY_TWO.replace("Quay,,,,,,0.21,,\n", "")));
        assertTrue(e.getMessage().contains("but not by the response of its frames"), e.getMessage());
        e = assertThrows(ReadingsException.class, () -> read(BY_TWO.replace("0.81,,", "0.81,type 2,")));
        assertTrue(e.getMessage().contains("a frame of film 'Quay' has \"type 2\" here"), e.getMessage());
    }
}
