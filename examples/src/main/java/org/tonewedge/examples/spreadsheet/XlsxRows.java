// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The rows of a sheet of an XLSX file.
 *
 * @source ISO/IEC 29500-1 (ECMA-376 part 1): workbook 18.2, sheet data 18.3.1, shared strings 18.4, number formats
 *     18.8.30; read in the standard's public edition, ECMA-376 5th edition (from memory)
 */
final class XlsxRows extends SheetRows {

    private static final String RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private static final String STRICT_RELATIONSHIPS = "http://purl.oclc.org/ooxml/officeDocument/relationships";
    /** The built-in number formats of dates and times. */
    private static final Set<Integer> DATES = IntStream.concat(
                    IntStream.rangeClosed(14, 22),
                    IntStream.concat(
                            IntStream.rangeClosed(27, 36),
                            IntStream.concat(IntStream.rangeClosed(45, 47), IntStream.rangeClosed(50, 58))))
            .boxed()
            .collect(Collectors.toUnmodifiableSet());

    private final Path file;
    private final String part;
    private List<String> strings = List.of();
    private boolean[] dates = {};

    private XlsxRows(Path file, String name, String sheet, String part) {
        super(name, sheet);
        this.file = file;
        this.part = part;
    }

    /** The named sheet, or the first. */
    static XlsxRows open(Path file, Optional<String> wanted) throws IOException {
        try (SheetArchive archive = SheetArchive.open(file)) {
            Map<String, String> idBySheet = new LinkedHashMap<>();
            archive.read(
                    "xl/workbook.xml",
                    xml -> each(xml, "sheet", () -> {
                        String id = xml.getAttributeValue(RELATIONSHIPS, "id");
                        idBySheet.put(
                                xml.getAttributeValue(null, "name"),
                                id == null ? xml.getAttributeValue(STRICT_RELATIONSHIPS, "id") : id);
                    }));
            String sheet = Spreadsheets.choose(archive.name(), List.copyOf(idBySheet.keySet()), wanted);
            Map<String, String> partById = new HashMap<>();
            archive.read(
                    "xl/_rels/workbook.xml.rels",
                    xml -> each(
                            xml,
                            "Relationship",
                            () -> partById.put(
                                    xml.getAttributeValue(null, "Id"), xml.getAttributeValue(null, "Target"))));
            String target = partById.get(idBySheet.get(sheet));
            if (target == null) {
                throw ReadingsException.at(
                        Fault.UNREADABLE,
                        archive.name(),
                        "sheet '" + sheet + "'",
                        "the file does not say where the sheet is",
                        "open it in the spreadsheet program and save it again");
            }
            return new XlsxRows(
                    file, archive.name(), sheet, target.startsWith("/") ? target.substring(1) : "xl/" + target);
        }
    }

    private static void each(XMLStreamReader xml, String element, Runnable found) throws XMLStreamException {
        while (xml.hasNext()) {
            if (xml.next() == XMLStreamConstants.START_ELEMENT
                    && xml.getLocalName().equals(element)) {
                found.run();
            }
        }
    }

    @Override
    public void read(RowHandler rows) throws IOException {
        try (SheetArchive archive = SheetArchive.open(file)) {
            // Merged cells stand behind the rows they are in; they are refused before a row is handed over.
            archive.read(
                    part,
                    xml -> each(xml, "mergeCell", () -> {
                        throw merged(xml.getAttributeValue(null, "ref"));
                    }));
            strings = strings(archive);
            dates = dates(archive);
            if (!archive.read(part, xml -> sheet(xml, rows))) {
                throw ReadingsException.at(
                        Fault.UNREADABLE,
                        name(),
                        "",
                        "the file lacks its part " + part,
                        "save it again in the spreadsheet program");
            }
        }
    }

    private static List<String> strings(SheetArchive archive) throws IOException {
        List<String> strings = new ArrayList<>();
        archive.read("xl/sharedStrings.xml", xml -> {
            while (xml.hasNext()) {
                if (xml.next() == XMLStreamConstants.START_ELEMENT
                        && xml.getLocalName().equals("si")) {
                    strings.add(richText(xml, "si"));
                }
            }
        });
        return strings;
    }

    /** The text of all its runs, without the reading aids of some scripts. */
    private static String richText(XMLStreamReader xml, String until) throws XMLStreamException {
        StringBuilder text = new StringBuilder();
        int aids = 0;
        while (xml.hasNext()) {
            int event = xml.next();
            String name = xml.hasName() ? xml.getLocalName() : "";
            if (event == XMLStreamConstants.START_ELEMENT && name.equals("rPh")) {
                aids++;
            } else if (event == XMLStreamConstants.END_ELEMENT && name.equals("rPh")) {
                aids--;
            } else if (event == XMLStreamConstants.START_ELEMENT && name.equals("t") && aids == 0) {
                text.append(xml.getElementText());
            } else if (event == XMLStreamConstants.END_ELEMENT && name.equals(until)) {
                break;
            }
        }
        return text.toString();
    }

    /** Which styles of cells are dates or times. */
    private static boolean[] dates(SheetArchive archive) throws IOException {
        Set<Integer> formats = new HashSet<>(DATES);
        List<Boolean> styles = new ArrayList<>();
        archive.read("xl/styles.xml", xml -> {
            boolean cellFormats = false;
            while (xml.hasNext()) {
                int event = xml.next();
                if (event == XMLStreamConstants.END_ELEMENT) {
                    cellFormats &= !xml.getLocalName().equals("cellXfs");
                } else if (event == XMLStreamConstants.START_ELEMENT) {
                    switch (xml.getLocalName()) {
                        case "numFmt" -> {
                            if (isDate(xml.getAttributeValue(null, "formatCode"))) {
                                formats.add(whole(xml.getAttributeValue(null, "numFmtId")));
                            }
                        }
                        case "cellXfs" -> cellFormats = true;
                        case "xf" -> {
                            if (cellFormats) {
                                styles.add(formats.contains(whole(xml.getAttributeValue(null, "numFmtId"))));
                            }
                        }
                        default -> {}
                    }
                }
            }
        });
        boolean[] dates = new boolean[styles.size()];
        for (int i = 0; i < dates.length; i++) {
            dates[i] = styles.get(i);
        }
        return dates;
    }

    /** Whether a number format shows days or hours: its letters outside quotation marks, brackets and escapes. */
    private static boolean isDate(String format) {
        return format != null
                && format.toLowerCase(Locale.ROOT)
                        .replaceAll("\"[^\"]*\"|\\\\.|_.|\\*.|\\[(?!h+\\]|m+\\]|s+\\])[^\\]]*\\]", "")
                        .replaceAll("e[+-]|general|am/pm", "")
                        .matches(".*[dmyhs].*");
    }

    private static int whole(String text) {
        try {
            return text == null ? -1 : Integer.parseInt(text);
        } catch (NumberFormatException e) {
            return -1;
        }
    }

    private void sheet(XMLStreamReader xml, RowHandler rows) throws XMLStreamException {
        long row = 0;
        int column = -1;
        while (xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT && xml.getLocalName().equals("row")) {
                int stated = whole(xml.getAttributeValue(null, "r"));
                row = stated > 0 ? stated : row + 1;
                column = -1;
            } else if (event == XMLStreamConstants.START_ELEMENT
                    && xml.getLocalName().equals("c")) {
                String reference = xml.getAttributeValue(null, "r");
                column = reference == null ? column + 1 : column(reference);
                cell(xml, row, column);
            } else if (event == XMLStreamConstants.END_ELEMENT
                    && xml.getLocalName().equals("row")) {
                endRow(row, rows);
            }
        }
    }

    private static int column(String reference) {
        int column = 0;
        for (int i = 0; i < reference.length() && Character.isLetter(reference.charAt(i)); i++) {
            column = Math.min(column * 26 + Character.toUpperCase(reference.charAt(i)) - 'A' + 1, 1 << 20);
        }
        return column - 1;
    }

    private void cell(XMLStreamReader xml, long row, int column) throws XMLStreamException {
        String type = xml.getAttributeValue(null, "t");
        int style = whole(xml.getAttributeValue(null, "s"));
        String value = null;
        boolean formula = false;
        while (xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.END_ELEMENT && xml.getLocalName().equals("c")) {
                break;
            }
            if (event == XMLStreamConstants.START_ELEMENT) {
                switch (xml.getLocalName()) {
                    case "f" -> formula = true;
                    case "v" -> value = xml.getElementText();
                    case "is" -> value = richText(xml, "is");
                    default -> {}
                }
            }
        }
        if (value == null || (value.isEmpty() && formula && !"str".equals(type))) {
            if (formula) {
                throw formula(row, column);
            }
            return;
        }
        put(row, column, text(value.strip(), type == null ? "n" : type, style, row, column));
    }

    private String text(String value, String type, int style, long row, int column) {
        switch (type) {
            case "s" -> {
                int index = whole(value);
                if (index < 0 || index >= strings.size()) {
                    throw fault(Fault.MISSING, row, column, "the text of the cell is missing", "enter it again");
                }
                return strings.get(index).strip();
            }
            case "e" -> throw error(row, column, value);
            case "d" -> throw date(row, column);
            case "n" -> {
                if (style >= 0 && style < dates.length && dates[style]) {
                    throw date(row, column);
                }
                try {
                    return number(Double.parseDouble(value));
                } catch (NumberFormatException e) {
                    throw fault(
                            Fault.BAD_NUMBER,
                            row,
                            column,
                            '"' + value + "\" is not a number",
                            "enter the number again");
                }
            }
            default -> {
                return value;
            }
        }
    }
}
