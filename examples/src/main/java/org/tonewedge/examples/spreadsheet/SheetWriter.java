// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.tonewedge.core.strip.RowSource;

/**
 * Writes rows as CSV, XLSX or ODS, each with one sheet named Readings. Numbers are written as numbers, every other text
 * as text, so that what is read back is the same.
 *
 * @source the parts that a reader needs, as in {@link XlsxRows} and {@link OdsRows}
 */
public enum SheetWriter {
    /** CSV in UTF-8 with commas and points. */
    CSV {
        @Override
        public void write(RowSource rows, Path file) throws IOException {
            try (CsvWriter csv =
                    CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
                rows.read((row, fields) -> csv.writeRecord(fields));
            } catch (UncheckedIOException e) {
                throw e.getCause();
            }
        }
    },
    /** XLSX. */
    XLSX {
        @Override
        public void write(RowSource rows, Path file) throws IOException {
            StringBuilder sheet = new StringBuilder(XML)
                    .append(
                            "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>");
            rows.read((row, fields) -> {
                sheet.append("<row r=\"").append(row).append("\">");
                for (int i = 0; i < fields.size(); i++) {
                    String text = fields.get(i);
                    String place = SheetRows.letters(i) + row;
                    if (isNumber(text)) {
                        sheet.append("<c r=\"" + place + "\"><v>" + text + "</v></c>");
                    } else if (!text.isEmpty()) {
                        sheet.append("<c r=\"" + place + "\" t=\"inlineStr\"><is><t xml:space=\"preserve\">"
                                + escaped(text) + "</t></is></c>");
                    }
                }
                sheet.append("</row>");
            });
            sheet.append("</sheetData></worksheet>");
            String packages = "http://schemas.openxmlformats.org/package/2006/";
            String office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
            String types = "application/vnd.openxmlformats-officedocument.spreadsheetml.";
            zip(
                    file,
                    List.of(
                            Map.entry(
                                    "[Content_Types].xml",
                                    XML + "<Types xmlns=\"" + packages + "content-types\">"
                                            + "<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
                                            + "<Override PartName=\"/xl/workbook.xml\" ContentType=\"" + types
                                            + "sheet.main+xml\"/>"
                                            + "<Override PartName=\"/xl/worksheets/sheet1.xml\" ContentType=\"" + types
                                            + "worksheet+xml\"/></Types>"),
                            Map.entry(
                                    "_rels/.rels",
                                    relationship(packages, office + "/officeDocument", "xl/workbook.xml")),
                            Map.entry(
                                    "xl/workbook.xml",
                                    XML
                                            + "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\""
                                            + " xmlns:r=\"" + office + "\"><sheets><sheet name=\"" + SHEET
                                            + "\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>"),
                            Map.entry(
                                    "xl/_rels/workbook.xml.rels",
                                    relationship(packages, office + "/worksheet", "worksheets/sheet1.xml")),
                            Map.entry("xl/worksheets/sheet1.xml", sheet.toString())));
        }
    },
    /** ODS. */
    ODS {
        @Override
        public void write(RowSource rows, Path file) throws IOException {
            String names = "urn:oasis:names:tc:opendocument:xmlns:";
            String type = "application/vnd.oasis.opendocument.spreadsheet";
            StringBuilder content = new StringBuilder(XML)
                    .append("<office:document-content xmlns:office=\"" + names + "office:1.0\" xmlns:table=\"" + names
                            + "table:1.0\" xmlns:text=\"" + names
                            + "text:1.0\" office:version=\"1.3\"><office:automatic-styles/><office:body>"
                            + "<office:spreadsheet><table:table table:name=\"" + SHEET + "\">");
            rows.read((row, fields) -> {
                if (row == 1) {
                    content.append("<table:table-column table:number-columns-repeated=\"" + fields.size() + "\"/>");
                }
                content.append("<table:table-row>");
                for (String text : fields) {
                    if (text.isEmpty()) {
                        content.append("<table:table-cell/>");
                    } else if (isNumber(text)) {
                        content.append("<table:table-cell office:value-type=\"float\" office:value=\"" + text
                                + "\"><text:p>" + text + "</text:p></table:table-cell>");
                    } else {
                        content.append("<table:table-cell office:value-type=\"string\"><text:p>"
                                + escaped(text).replace("  ", " <text:s/>") + "</text:p></table:table-cell>");
                    }
                }
                content.append("</table:table-row>");
            });
            content.append("</table:table></office:spreadsheet></office:body></office:document-content>");
            zip(
                    file,
                    List.of(
                            Map.entry("mimetype", type),
                            Map.entry(
                                    "META-INF/manifest.xml",
                                    XML + "<manifest:manifest xmlns:manifest=\"" + names
                                            + "manifest:1.0\" manifest:version=\"1.3\">"
                                            + "<manifest:file-entry manifest:full-path=\"/\" manifest:media-type=\""
                                            + type
                                            + "\"/><manifest:file-entry manifest:full-path=\"content.xml\""
                                            + " manifest:media-type=\"text/xml\"/></manifest:manifest>"),
                            Map.entry("content.xml", content.toString())));
        }
    };

    private static final String XML = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
    private static final String SHEET = "Readings";

    /**
     * Writes rows to a file.
     *
     * @param rows the rows
     * @param file the file, which is replaced
     * @throws IOException if the file cannot be written
     */
    public abstract void write(RowSource rows, Path file) throws IOException;

    /** Whether a text comes back the same if it is written as a number. */
    private static boolean isNumber(String text) {
        if (text.isEmpty() || text.chars().noneMatch(c -> c >= '0' && c <= '9')) {
            return false;
        }
        try {
            return SheetRows.number(Double.parseDouble(text)).equals(text);
        } catch (NumberFormatException e) {
            return false;
        }
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }

    private static String relationship(String packages, String type, String target) {
        return XML + "<Relationships xmlns=\"" + packages + "relationships\"><Relationship Id=\"rId1\" Type=\"" + type
                + "\" Target=\"" + target + "\"/></Relationships>";
    }

    /** The first part of an ODS file is not compressed, so that its bytes tell the type. */
    private static void zip(Path file, List<Map.Entry<String, String>> parts) throws IOException {
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
            for (Map.Entry<String, String> part : parts) {
                byte[] bytes = part.getValue().getBytes(StandardCharsets.UTF_8);
                ZipEntry entry = new ZipEntry(part.getKey());
                // The same content gives the same file.
                entry.setTimeLocal(LocalDateTime.of(1980, 1, 1, 0, 0));
                if (part.getKey().equals("mimetype")) {
                    CRC32 sum = new CRC32();
                    sum.update(bytes);
                    entry.setMethod(ZipEntry.STORED);
                    entry.setSize(bytes.length);
                    entry.setCrc(sum.getValue());
                }
                zip.putNextEntry(entry);
                zip.write(bytes);
                zip.closeEntry();
            }
        }
    }
}
