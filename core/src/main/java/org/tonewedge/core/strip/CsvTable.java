package org.tonewedge.core.strip;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import org.tonewedge.core.internal.Checks;

/** The form that all tables share: CSV with a header row; every fault becomes a {@link ReadingsException} in its place. */
final class CsvTable {

    private final String name;
    private final Set<String> known;
    private final Map<String, Integer> columns = new LinkedHashMap<>();
    private final List<String> notices = new ArrayList<>();
    private int width;

    /** A table of the name, with the columns that have a meaning in it. */
    CsvTable(String name, List<String> known) {
        this.name = name;
        this.known = Set.copyOf(known);
    }

    /** Makes something of the characters of a table. */
    interface Reading<T> {
        T of(String name, Reader reader) throws IOException;
    }

    /** Reads a file, telling of bytes that are not UTF-8 where they stand. */
    static <T> T read(Path file, Reading<T> reading) throws IOException {
        String name = String.valueOf(file.getFileName());
        try (Reader reader = new BufferedReader(
                new InputStreamReader(Files.newInputStream(file), StandardCharsets.UTF_8.newDecoder()))) {
            return reading.of(name, reader);
        } catch (CharacterCodingException e) {
            throw wrongEncoding(name, file);
        }
    }

    /** Reads the header, then each row. */
    void read(Reader characters, Runnable afterHeader, Consumer<Row> each) throws IOException {
        PushbackReader reader = new PushbackReader(characters);
        int first = reader.read();
        if (first >= 0 && first != '\uFEFF') {
            reader.unread(first);
        }
        CsvReader<CsvRecord> csv = CsvReader.builder()
                .commentStrategy(CommentStrategy.NONE)
                .skipEmptyLines(true)
                .allowExtraFields(true)
                .allowMissingFields(true)
                .detectBomHeader(false)
                .ofCsvRecord(reader);
        long line = 0;
        try {
            CloseableIterator<CsvRecord> records = csv.iterator();
            if (!records.hasNext()) {
                throw fault("the table is empty", "give it a header row and one row for each reading");
            }
            readHeader(records.next());
            afterHeader.run();
            if (!records.hasNext()) {
                throw fault("the table has a header but no readings", "give it one row for each reading");
            }
            while (records.hasNext()) {
                CsvRecord row = records.next();
                line = row.getStartingLineNumber();
                requireWidth(row, line);
                refuseLineBreaks(row, line);
                each.accept(new Row(row, line));
            }
        } catch (CsvParseException e) {
            throw broken(line + 1, e);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    List<String> notices() {
        return notices;
    }

    boolean has(String column) {
        return columns.containsKey(column);
    }

    void requireColumn(String column, String meaning) {
        if (!has(column)) {
            throw missing(column, meaning);
        }
    }

    ReadingsException missing(String column, String meaning) {
        return fault(
                1,
                column,
                null,
                "the header lacks this column; it has " + Checks.shortened(String.join(", ", columns.keySet())),
                "add the column " + column + ": " + meaning);
    }

    ReadingsException fault(String fault, String remedy) {
        return fault(0, null, null, fault, remedy);
    }

    ReadingsException fault(long line, String column, String value, String fault, String remedy) {
        return new ReadingsException(name, line, column, value, fault, remedy);
    }

    private ReadingsException broken(long line, CsvParseException e) throws IOException {
        if (e.getCause() instanceof IOException io) {
            throw io;
        }
        return fault(
                line,
                null,
                null,
                "from here on the text is not CSV (" + e.getMessage() + ")",
                "look for a quotation mark that is not closed");
    }

    private void readHeader(CsvRecord header) {
        width = header.getFieldCount();
        List<String> unknown = new ArrayList<>();
        for (int i = 0; i < width; i++) {
            String column = header.getField(i).strip().toLowerCase(Locale.ROOT);
            if (columns.put(column, i) != null) {
                throw fault(1, column, null, "the header names this column twice", "keep one of the two");
            }
            if (!known.contains(column)) {
                unknown.add('"' + Checks.shortened(header.getField(i)) + '"');
            }
        }
        if (width == 1 && header.getField(0).matches(".*[;\t|].*")) {
            throw fault(
                    1,
                    null,
                    header.getField(0),
                    "the fields are not separated by commas",
                    "save the table with commas between fields and points in decimals");
        }
        if (!unknown.isEmpty()) {
            notices.add(name + ": unknown columns left aside: " + String.join(", ", unknown));
        }
    }

    private void requireWidth(CsvRecord row, long line) {
        if (row.getFieldCount() != width) {
            throw fault(
                    line,
                    null,
                    null,
                    "the row has " + row.getFieldCount() + " fields, the header " + width,
                    row.getFieldCount() > width
                            ? "write decimals with a point and put labels that hold a comma in quotation marks"
                            : "give every row as many fields as the header, empty ones included");
        }
    }

    /** A quotation mark that is not closed swallows the rows that follow; no known column needs a line break. */
    private void refuseLineBreaks(CsvRecord row, long line) {
        columns.forEach((column, index) -> {
            String text = row.getField(index);
            if (known.contains(column) && (text.indexOf('\n') >= 0 || text.indexOf('\r') >= 0)) {
                throw fault(
                        line,
                        column,
                        text,
                        "the field runs over several lines",
                        "look for a quotation mark that is not closed");
            }
        });
    }

    /** Hands a number to the quantity it is to become; what the quantity refuses is told with its place. */
    void accept(String column, String text, long line, DoubleConsumer quantity) {
        double value = number(text, column, line);
        try {
            quantity.accept(value);
        } catch (IllegalArgumentException e) {
            throw fault(line, column, text, e.getMessage(), "correct the value or take out the row");
        }
    }

    private double number(String text, String column, long line) {
        if (text.chars().allMatch(c -> (c >= '0' && c <= '9') || "+-.eE".indexOf(c) >= 0)) {
            try {
                return Double.parseDouble(text);
            } catch (NumberFormatException e) {
                // told below, with its place
            }
        }
        String remedy = "enter a number such as 0.42";
        if (text.matches("[+-]?[1-9]\\d{0,2},\\d{3}")) {
            remedy = "write decimals with a point and thousands without a mark: " + text.replace(',', '.') + " or "
                    + text.replace(",", "");
        } else if (text.matches("[+-]?\\d*,\\d+")) {
            remedy = "write decimals with a point: " + text.replace(',', '.');
        } else if (text.indexOf('\u2212') >= 0 || text.indexOf('\u2013') >= 0) {
            remedy = "write the minus sign as a hyphen: -";
        }
        throw fault(line, column, text, '"' + Checks.shortened(text) + "\" is not a number", remedy);
    }

    /** One row and its line in the file. */
    final class Row {

        private final CsvRecord fields;
        private final long line;

        private Row(CsvRecord fields, long line) {
            this.fields = fields;
            this.line = line;
        }

        long line() {
            return line;
        }

        /** The text of a field; empty where the table lacks the column. */
        String text(String column) {
            Integer index = columns.get(column);
            return index == null ? "" : fields.getField(index).strip();
        }

        /** The text of a field that must not be empty. */
        String required(String column, String owner, String remedy) {
            String text = text(column);
            if (text.isEmpty()) {
                throw fault(column, "the field is empty" + (owner.isEmpty() ? "" : " (" + owner + ")"), remedy);
            }
            return text;
        }

        /** The text of a field that is a label; refuses control characters. */
        String label(String column) {
            String text = text(column);
            try {
                return text.isEmpty() ? text : Checks.label("the label", text);
            } catch (IllegalArgumentException e) {
                throw fault(column, e.getMessage(), "type the label again");
            }
        }

        /** Hands the number of a field to the quantity it is to become. */
        void accept(String column, DoubleConsumer quantity) {
            CsvTable.this.accept(column, text(column), line, quantity);
        }

        ReadingsException fault(String column, String fault, String remedy) {
            return CsvTable.this.fault(line, column, text(column), fault, remedy);
        }
    }

    private static ReadingsException wrongEncoding(String name, Path file) throws IOException {
        int line = 1;
        try (InputStream bytes = Files.newInputStream(file)) {
            byte[] start = bytes.readNBytes(2);
            if (start.length == 2 && (start[0] & 0xFF) + (start[1] & 0xFF) == 0xFE + 0xFF) {
                return encoding(name, 0, "the file is in UTF-16");
            }
        }
        // A malformed byte sequence cannot hold a line feed, so lines can be decoded one by one.
        try (InputStream bytes = new BufferedInputStream(Files.newInputStream(file))) {
            ByteArrayOutputStream row = new ByteArrayOutputStream();
            for (int next = bytes.read(); next >= 0; next = bytes.read()) {
                row.write(next);
                if (next == '\n') {
                    if (!decodes(row.toByteArray())) {
                        break;
                    }
                    row.reset();
                    line++;
                }
            }
        }
        return encoding(name, line, "the line has bytes that are not UTF-8");
    }

    private static ReadingsException encoding(String name, long line, String fault) {
        return new ReadingsException(name, line, null, null, fault, "save the table in the encoding UTF-8");
    }

    private static boolean decodes(byte[] bytes) {
        try {
            StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes));
            return true;
        } catch (CharacterCodingException e) {
            return false;
        }
    }
}
