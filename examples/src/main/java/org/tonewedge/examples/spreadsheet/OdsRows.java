// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The rows of a sheet of an ODS file.
 *
 * @source OpenDocument 1.3 part 3 (OASIS, 2021; ISO/IEC 26300): table 9.1, office:value-type 19.389 (from memory)
 */
final class OdsRows extends SheetRows {

    private static final String TABLE = "urn:oasis:names:tc:opendocument:xmlns:table:1.0";
    private static final String OFFICE = "urn:oasis:names:tc:opendocument:xmlns:office:1.0";
    private static final String TEXT = "urn:oasis:names:tc:opendocument:xmlns:text:1.0";
    /** Repeats of a cell or row with a text in it; empty ones are repeated to the end of the sheet. */
    private static final int MOST_REPEATS = 10_000;

    private final Path file;
    private final String sheet;

    private OdsRows(Path file, String name, String sheet) {
        super(name, sheet);
        this.file = file;
        this.sheet = sheet;
    }

    /** The named sheet, or the first. */
    static OdsRows open(Path file, Optional<String> wanted) throws IOException {
        try (SheetArchive archive = SheetArchive.open(file)) {
            List<String> sheets = new ArrayList<>();
            archive.read("content.xml", xml -> {
                while (xml.hasNext()) {
                    if (xml.next() == XMLStreamConstants.START_ELEMENT && isTable(xml, "table")) {
                        sheets.add(xml.getAttributeValue(TABLE, "name"));
                    }
                }
            });
            return new OdsRows(file, archive.name(), Spreadsheets.choose(archive.name(), sheets, wanted));
        }
    }

    private static boolean isTable(XMLStreamReader xml, String element) {
        return xml.getLocalName().equals(element) && TABLE.equals(xml.getNamespaceURI());
    }

    @Override
    public void read(RowHandler rows) throws IOException {
        try (SheetArchive archive = SheetArchive.open(file)) {
            archive.read("content.xml", xml -> {
                while (xml.hasNext()) {
                    if (xml.next() == XMLStreamConstants.START_ELEMENT
                            && isTable(xml, "table")
                            && sheet.equals(xml.getAttributeValue(TABLE, "name"))) {
                        sheet(xml, rows);
                        return;
                    }
                }
            });
        }
    }

    private void sheet(XMLStreamReader xml, RowHandler rows) throws XMLStreamException {
        long row = 1;
        int depth = 1;
        while (depth > 0 && xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT && isTable(xml, "table-row")) {
                int repeats = repeats(xml, "number-rows-repeated");
                row(xml, row);
                if (hasText() && repeats > 1) {
                    throw fault(
                            Fault.DUPLICATE,
                            row,
                            -1,
                            "the row stands for " + repeats + " equal rows",
                            "enter readings once; remove the repeated rows");
                }
                endRow(row, rows);
                row += repeats;
            } else if (event == XMLStreamConstants.START_ELEMENT && isTable(xml, "table")) {
                depth++;
            } else if (event == XMLStreamConstants.END_ELEMENT && isTable(xml, "table")) {
                depth--;
            }
        }
    }

    private void row(XMLStreamReader xml, long row) throws XMLStreamException {
        int column = 0;
        while (xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.END_ELEMENT && isTable(xml, "table-row")) {
                return;
            }
            if (event != XMLStreamConstants.START_ELEMENT) {
                continue;
            }
            if (isTable(xml, "covered-table-cell")) {
                column += repeats(xml, "number-columns-repeated");
            } else if (isTable(xml, "table-cell")) {
                column += cell(xml, row, column);
            }
        }
    }

    /** Reads a cell and returns how many it stands for. */
    private int cell(XMLStreamReader xml, long row, int column) throws XMLStreamException {
        int repeats = repeats(xml, "number-columns-repeated");
        int columns = whole(xml.getAttributeValue(TABLE, "number-columns-spanned"));
        int rowsDown = whole(xml.getAttributeValue(TABLE, "number-rows-spanned"));
        if (columns > 1 || rowsDown > 1) {
            throw merged(letters(column) + row + ":" + letters(column + Math.max(columns, 1) - 1)
                    + (row + Math.max(rowsDown, 1) - 1));
        }
        String type = xml.getAttributeValue(OFFICE, "value-type");
        String value = xml.getAttributeValue(OFFICE, "value");
        boolean formula = xml.getAttributeValue(TABLE, "formula") != null;
        String shown = paragraphs(xml);
        String text = text(type, value, shown, formula, row, column);
        if (!text.isEmpty() && repeats > MOST_REPEATS) {
            throw fault(
                    Fault.TOO_LARGE,
                    row,
                    column,
                    "the cell is repeated " + repeats + " times",
                    "keep only the readings in the sheet");
        }
        for (int i = 0; i < repeats && !text.isEmpty(); i++) {
            put(row, column + i, text);
        }
        return repeats;
    }

    private String text(String type, String value, String shown, boolean formula, long row, int column) {
        if (formula && (type == null || shown.startsWith("#") || shown.startsWith("Err:"))) {
            throw shown.isEmpty() ? formula(row, column) : error(row, column, shown);
        }
        if (type == null) {
            return shown;
        }
        switch (type) {
            case "float", "percentage", "currency" -> {
                try {
                    return number(Double.parseDouble(value == null ? "" : value));
                } catch (NumberFormatException e) {
                    throw fault(
                            Fault.BAD_NUMBER,
                            row,
                            column,
                            '"' + shown + "\" is not a number",
                            "enter the number again");
                }
            }
            case "date", "time" -> throw date(row, column);
            default -> {
                return shown;
            }
        }
    }

    /** The text of a cell, its lines joined; ends at the end of the cell. */
    private static String paragraphs(XMLStreamReader xml) throws XMLStreamException {
        StringBuilder text = new StringBuilder();
        int lines = 0;
        int depth = 1;
        int aside = 0;
        while (depth > 0 && xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT) {
                depth++;
                String name = xml.getLocalName();
                if (aside > 0 || (OFFICE.equals(xml.getNamespaceURI()) && name.equals("annotation"))) {
                    aside++;
                } else if (TEXT.equals(xml.getNamespaceURI())) {
                    if (name.equals("p") && lines++ > 0) {
                        text.append('\n');
                    } else if (name.equals("s")) {
                        text.append(" ".repeat(Math.min(Math.max(whole(xml.getAttributeValue(TEXT, "c")), 1), 1000)));
                    } else if (name.equals("tab")) {
                        text.append('\t');
                    } else if (name.equals("line-break")) {
                        text.append('\n');
                    }
                }
            } else if (event == XMLStreamConstants.END_ELEMENT) {
                depth--;
                aside = Math.max(0, aside - 1);
            } else if (event == XMLStreamConstants.CHARACTERS && aside == 0 && depth > 1) {
                text.append(xml.getText());
            }
        }
        return text.toString().strip();
    }

    private static int repeats(XMLStreamReader xml, String attribute) {
        return Math.max(1, whole(xml.getAttributeValue(TABLE, attribute)));
    }

    private static int whole(String text) {
        try {
            return text == null ? -1 : Integer.parseInt(text);
        } catch (NumberFormatException e) {
            return Integer.MAX_VALUE / 2;
        }
    }

    /** Tells an ODS file from other archives. */
    static boolean isOds(SheetArchive archive) throws IOException {
        return archive.text("mimetype")
                .filter(type -> type.startsWith("application/vnd.oasis.opendocument.spreadsheet"))
                .isPresent();
    }
}
