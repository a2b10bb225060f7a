// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.ReadingsGrid;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.ProjectFiles;

class SpreadsheetsTest {

    @TempDir
    Path scratch;

    private static RowSource open(Path file) throws IOException {
        return Spreadsheets.open(file, Optional.empty(), CsvDialect.guessed());
    }

    private static List<List<String>> rows(RowSource source) throws IOException {
        List<List<String>> rows = new ArrayList<>();
        source.read((row, fields) -> rows.add(List.copyOf(fields)));
        return rows;
    }

    private static void assertSame(List<Strip> expected, List<Strip> found) {
        assertEquals(expected.size(), found.size());
        for (int i = 0; i < expected.size(); i++) {
            Strip one = expected.get(i);
            Strip other = found.get(i);
            assertEquals(one.id(), other.id());
            assertEquals(one.film(), other.film());
            assertEquals(one.processing(), other.processing());
            assertEquals(one.boxSpeed(), other.boxSpeed());
            assertEquals(one.basePlusFogReadings(), other.basePlusFogReadings());
            assertEquals(one.steps(), other.steps());
        }
    }

    @ParameterizedTest
    @EnumSource(SheetWriter.class)
    void theDemoStripsComeBackFromAGridInEveryFormat(SheetWriter format) throws IOException {
        List<Strip> strips = ReadingsTable.read(ProjectFiles.demoStrips()).strips();
        Path file = scratch.resolve("readings");
        format.write(ReadingsGrid.of("readings", strips), file);
        assertSame(strips, ReadingsTable.read(open(file)).strips());
    }

    /** Tables of random strips to grids and back, with labels that look like numbers, formulas and markup. */
    @ParameterizedTest
    @EnumSource(SheetWriter.class)
    void anyStripsComeBackFromAGrid(SheetWriter format) throws IOException {
        Random random = new Random(20_260_101);
        List<String> labels = List.of(
                "8.0",
                "007",
                "1e3",
                "a,b;c",
                "\"quoted\"",
                "=1+1",
                "-3",
                "3,5",
                "Ö 東 🙂",
                "<b>&amp;</b>",
                "two  spaces",
                "three   spaces",
                "100/21°",
                "TRUE",
                "2026-01-02",
                "NaN",
                "0x10");
        for (int round = 0; round < 15; round++) {
            List<Strip> strips = new ArrayList<>();
            for (int s = 0; s <= random.nextInt(4); s++) {
                String label = labels.get(random.nextInt(labels.size()));
                Strip.Builder strip = Strip.builder(label + " " + s)
                        .film(label)
                        .boxSpeed(1 + random.nextInt(3200))
                        .processing(Processing.unknown()
                                .withDeveloper(labels.get(random.nextInt(labels.size())))
                                .withMinutes(1 + random.nextInt(100) / 8.0));
                for (int i = 0; i < random.nextInt(4); i++) {
                    strip.basePlusFog(random.nextDouble());
                }
                for (int i = 0; i <= random.nextInt(20); i++) {
                    double exposure = random.nextBoolean() ? -3 + 0.15 * i : 4 * random.nextDouble() - 3;
                    strip.reading(LogExposure.ofLogLuxSeconds(exposure), Density.of(4 * random.nextDouble()));
                }
                strips.add(strip.build());
            }
            Path file = scratch.resolve("readings");
            format.write(ReadingsGrid.of("readings", strips), file);
            assertSame(strips, ReadingsTable.read(open(file)).strips());
        }
    }

    /**
     * Written by general-purpose libraries: the XLSX by org.dhatim:fastexcel 0.18.4, the ODS by
     * com.github.miachm.sods:SODS 1.6.7. In the other direction, fastexcel-reader 0.18.4 and SODS read the 19,570 cells
     * of the demo strips from what {@link SheetWriter} writes as they are (tried by hand).
     */
    @ParameterizedTest
    @ValueSource(strings = {"written-elsewhere.xlsx", "written-elsewhere.ods"})
    void filesOfOtherWritersAreRead(String name) throws Exception {
        Path file = Path.of(SpreadsheetsTest.class.getResource(name).toURI());
        assertEquals(
                List.of(
                        List.of("strip", "A", "B"),
                        List.of("film", "Alder & Son 50", "Birch <100>"),
                        List.of("minutes", "8.5", "8:30"),
                        List.of("base_plus_fog", "0.1", "0.21"),
                        List.of("log_exposure", "", ""),
                        List.of("-3.05", "0.1", "0.3333333333333333"),
                        List.of("-2.9", "1.0E-4", "2")),
                rows(open(file)));
    }

    private Path zip(Map<String, String> parts) throws IOException {
        Path file = scratch.resolve("readings.xlsx");
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
            for (Map.Entry<String, String> part : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
                zip.closeEntry();
            }
        }
        return file;
    }

    private static final String WORKBOOK = "<workbook xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/"
            + "relationships\"><sheets><sheet name=\"Day 1\" r:id=\"a\"/><sheet name=\"Day 2\" r:id=\"b\"/></sheets></workbook>";
    private static final String RELATIONSHIPS = "<Relationships><Relationship Id=\"a\" Target=\"worksheets/one.xml\"/>"
            + "<Relationship Id=\"b\" Target=\"/xl/worksheets/two.xml\"/></Relationships>";
    private static final String STYLES = "<styleSheet><numFmts><numFmt numFmtId=\"164\" formatCode=\"yyyy\\-mm\"/>"
            + "<numFmt numFmtId=\"165\" formatCode=\"0.00&quot; D&quot;\"/><numFmt numFmtId=\"166\" formatCode=\"[h]:mm\"/>"
            + "</numFmts><cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs>"
            + "<cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/>"
            + "<xf numFmtId=\"166\"/><xf numFmtId=\"2\"/></cellXfs></styleSheet>";

    private Path xlsx(String cells, String after) throws IOException {
        return zip(Map.of(
                "xl/workbook.xml",
                WORKBOOK,
                "xl/_rels/workbook.xml.rels",
                RELATIONSHIPS,
                "xl/styles.xml",
                STYLES,
                "xl/sharedStrings.xml",
                "<sst><si><t>strip</t></si><si><r><t>Al</t></r><r><t>der</t></r><rPh><t>x</t></rPh></si></sst>",
                "xl/worksheets/one.xml",
                "<worksheet><sheetData>" + cells + "</sheetData>" + after + "</worksheet>",
                "xl/worksheets/two.xml",
                "<worksheet><sheetData><row><c><v>2</v></c></row></sheetData></worksheet>"));
    }

    @Test
    void cellsOfAnXlsxSheet() throws IOException {
        Path file = xlsx(
                "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>0</v></c><c r=\"B2\" t=\"s\"><v>1</v></c></row>"
                        + "<row r=\"4\"><c r=\"B4\" s=\"3\"><v>0.10000000000000001</v></c></row>"
                        + "<row r=\"5\"><c r=\"A5\"><f>1+1</f><v>2</v></c><c r=\"B5\" t=\"str\"><f>A2</f><v>strip</v></c></row>"
                        + "<row r=\"6\"><c r=\"A6\" t=\"b\"><v>1</v></c><c r=\"B6\" t=\"inlineStr\"><is><t> in </t></is></c></row>"
                        + "<row r=\"7\"><c r=\"A7\" s=\"1\"/><c r=\"B7\"><v>4.2E-3</v></c></row>",
                "");
        assertEquals(
                List.of(
                        List.of("strip", "Alder"),
                        List.of("", "0.1"),
                        List.of("2", "strip"),
                        List.of("1", "in"),
                        List.of("", "0.0042")),
                rows(open(file)));
        assertEquals(List.of(List.of("2")), rows(Spreadsheets.open(file, Optional.of("Day 2"), CsvDialect.guessed())));
        assertTrue(assertThrows(
                        ReadingsException.class,
                        () -> Spreadsheets.open(file, Optional.of("Day 3"), CsvDialect.guessed()))
                .getMessage()
                .contains("there is no sheet 'Day 3'; there are Day 1, Day 2"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "<c r=\"C3\"><f>A1+1</f></c> | cell C3: the formula has no value stored with it",
                "<c r=\"C3\"><f>A1+1</f><v></v></c> | cell C3: the formula has no value",
                "<c r=\"AB3\" s=\"1\"><v>45000</v></c> | cell AB3: the cell is a date",
                "<c r=\"C3\" s=\"2\"><v>45000</v></c> | cell C3: the cell is a date",
                "<c r=\"C3\" s=\"4\"><v>0.35</v></c> | cell C3: the cell is a date or a time of day",
                "<c r=\"C3\" t=\"d\"><v>2026-01-02</v></c> | cell C3: the cell is a date",
                "<c r=\"C3\" t=\"e\"><f>1/0</f><v>#DIV/0!</v></c> | cell C3: the cell shows the error #DIV/0!",
                "<c r=\"C3\" t=\"s\"><v>9</v></c> | cell C3: the text of the cell is missing",
                "<c r=\"C3\"><v>0,42</v></c> | cell C3: \"0,42\" is not a number",
                "<c r=\"XFE3\"><v>1</v></c> | cell XFE3: the sheet has too many cells",
                "<c | its part xl/worksheets/one.xml is not XML"
            })
    void whatAnXlsxSheetMustNotHave(String cell, String message) throws IOException {
        refused(xlsx("<row r=\"3\">" + cell + "</row>", ""), message);
    }

    @Test
    void mergedCellsAreRefused() throws IOException {
        refused(
                xlsx(
                        "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>",
                        "<mergeCells><mergeCell ref=\"A1:B2\"/></mergeCells>"),
                "cells A1:B2: the cells are merged");
    }

    private void refused(Path file, String message) {
        String said =
                assertThrows(ReadingsException.class, () -> rows(open(file))).getMessage();
        assertTrue(said.startsWith("readings.xlsx") && said.contains(message), said);
    }

    private Path ods(String table) throws IOException {
        String names = "urn:oasis:names:tc:opendocument:xmlns:";
        return zip(Map.of(
                "mimetype",
                "application/vnd.oasis.opendocument.spreadsheet",
                "content.xml",
                "<o:document-content xmlns:o=\"" + names + "office:1.0\" xmlns:t=\"" + names + "table:1.0\" xmlns:x=\""
                        + names + "text:1.0\"><o:body><o:spreadsheet><t:table t:name=\"Day 1\">" + table
                        + "</t:table></o:spreadsheet></o:body></o:document-content>"));
    }

    @Test
    void cellsOfAnOdsSheet() throws IOException {
        Path file = ods(
                "<t:table-column t:number-columns-repeated=\"1024\"/>"
                        + "<t:table-row><t:table-cell o:value-type=\"string\"><x:p>st<x:span>rip</x:span></x:p></t:table-cell>"
                        + "<t:table-cell o:value-type=\"float\" o:value=\"0.1\" t:number-columns-repeated=\"2\"><x:p>0,1</x:p></t:table-cell>"
                        + "<t:table-cell t:number-columns-repeated=\"1021\"/></t:table-row>"
                        + "<t:table-row t:number-rows-repeated=\"3\"><t:table-cell t:number-columns-repeated=\"1024\"/></t:table-row>"
                        + "<t:table-row><t:table-cell o:value-type=\"float\" o:value=\"2\" t:formula=\"of:=1+1\"><x:p>2</x:p></t:table-cell>"
                        + "<t:table-cell><o:annotation><x:p>a remark</x:p></o:annotation></t:table-cell>"
                        + "<t:table-cell o:value-type=\"string\"><x:p>a<x:s x:c=\"2\"/>b</x:p></t:table-cell></t:table-row>"
                        + "<t:table-row t:number-rows-repeated=\"1048570\"><t:table-cell t:number-columns-repeated=\"1024\"/></t:table-row>");
        RowSource source = open(file);
        List<Long> numbers = new ArrayList<>();
        source.read((row, fields) -> numbers.add(row));
        assertEquals(List.of(1L, 5L), numbers);
        assertEquals(List.of(List.of("strip", "0.1", "0.1"), List.of("2", "", "a  b")), rows(open(file)));
        assertEquals("readings.xlsx, sheet 'Day 1'", source.name());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "<t:table-cell t:formula=\"of:=1+1\"/> | cell B1: the formula has no value",
                "<t:table-cell t:formula=\"of:=1/0\" o:value-type=\"string\"><x:p>#DIV/0!</x:p></t:table-cell>"
                        + " | cell B1: the cell shows the error #DIV/0!",
                "<t:table-cell o:value-type=\"date\" o:date-value=\"2026-01-02\"><x:p>2</x:p></t:table-cell> | cell B1: the cell is a date",
                "<t:table-cell o:value-type=\"time\" o:time-value=\"PT8H\"><x:p>8:00</x:p></t:table-cell> | cell B1: the cell is a date or a time",
                "<t:table-cell t:number-columns-spanned=\"2\" t:number-rows-spanned=\"3\"><x:p>8</x:p></t:table-cell>"
                        + " | cells B1:C3: the cells are merged",
                "<t:table-cell t:number-columns-repeated=\"999999999\"><x:p>8</x:p></t:table-cell> | cell B1: the cell is repeated"
            })
    void whatAnOdsSheetMustNotHave(String cell, String message) throws IOException {
        refused(ods("<t:table-row><t:table-cell/>" + cell + "</t:table-row>"), message);
    }

    @Test
    void aRowRepeatedWithTextIsRefused() throws IOException {
        refused(
                ods(
                        "<t:table-row t:number-rows-repeated=\"1000000\"><t:table-cell><x:p>8</x:p></t:table-cell></t:table-row>"),
                "row 1: the row stands for 1000000 equal rows");
    }

    /** More than 32 MB, packed to a few hundred kilobytes; one gigabyte ends at the same byte. */
    @ParameterizedTest
    @ValueSource(strings = {"xl/worksheets/one.xml", "xl/sharedStrings.xml"})
    void whatUnpacksToTooMuchIsRefusedInFlatMemory(String part) throws IOException {
        Path file = scratch.resolve("readings.xlsx");
        String item = part.endsWith("one.xml") ? "<row><c><v>0.42</v></c></row>" : "<si><t>a text</t></si>";
        byte[] block = item.repeat(30_000).getBytes(StandardCharsets.UTF_8);
        try (OutputStream out = Files.newOutputStream(file);
                ZipOutputStream zip = new ZipOutputStream(out)) {
            zip.setLevel(Deflater.BEST_SPEED);
            Map<String, String> parts = Map.of(
                    "xl/workbook.xml",
                    WORKBOOK,
                    "xl/_rels/workbook.xml.rels",
                    RELATIONSHIPS,
                    "xl/worksheets/one.xml",
                    "<worksheet><sheetData>",
                    "xl/sharedStrings.xml",
                    "<sst>");
            for (Map.Entry<String, String> each : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(each.getKey()));
                zip.write(each.getValue().getBytes(StandardCharsets.UTF_8));
                if (each.getKey().equals(part)) {
                    for (long n = 0; n < 1L << 26; n += block.length) {
                        zip.write(block);
                    }
                } else if (each.getKey().equals("xl/worksheets/one.xml")) {
                    zip.write("<row/></sheetData></worksheet>".getBytes(StandardCharsets.UTF_8));
                } else if (each.getKey().equals("xl/sharedStrings.xml")) {
                    zip.write("</sst>".getBytes(StandardCharsets.UTF_8));
                }
                zip.closeEntry();
            }
        }
        refused(file, "its part " + part + " unpacks to more than 32 MB");
    }

    @Test
    void otherArchivesAreNamed() throws IOException {
        refused(zip(Map.of("readme.txt", "text")), "the file is a zip archive, but not an XLSX or ODS spreadsheet");
        Path cut = scratch.resolve("readings.xlsx");
        byte[] whole = Files.readAllBytes(xlsx("", ""));
        Files.write(cut, Arrays.copyOf(whole, whole.length / 2));
        refused(cut, "the file is damaged, or is not a spreadsheet");
    }

    @Test
    void entitiesAreNotRead() throws IOException {
        Path secret = Files.writeString(scratch.resolve("secret.txt"), "secret");
        Path file = zip(Map.of(
                "xl/workbook.xml",
                WORKBOOK,
                "xl/_rels/workbook.xml.rels",
                RELATIONSHIPS,
                "xl/worksheets/one.xml",
                "<!DOCTYPE w [<!ENTITY e SYSTEM \"" + secret.toUri() + "\">]><worksheet><sheetData><row><c t=\"str\">"
                        + "<v>&e;</v></c></row></sheetData></worksheet>"));
        refused(file, "its part xl/worksheets/one.xml is not XML");
    }
}
