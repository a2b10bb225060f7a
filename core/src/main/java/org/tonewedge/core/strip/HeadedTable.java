// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleFunction;
import java.util.stream.Collectors;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** A table with a header row, from any source. Every fault becomes a {@link ReadingsException} that names its place. */
final class HeadedTable {

    static final String LINE_BREAK_REMEDY = "take out the line break, or look for a quotation mark that is not closed";

    private final RowSource source;
    private final Set<String> known;
    private final Map<String, Integer> columns = new LinkedHashMap<>();
    private final List<String> notices = new ArrayList<>();
    private final Row row = new Row();
    private int width;
    private boolean blankBefore;

    /** A table from the source, with the columns that have a meaning in it. */
    HeadedTable(RowSource source, List<String> known) {
        this.source = source;
        this.known = Set.copyOf(known);
    }

    /** Reads the header, then each row. */
    void read(Runnable afterHeader, Consumer<Row> each) throws IOException {
        boolean[] begun = new boolean[2];
        source.read((line, fields) -> {
            if (!begun[0]) {
                header(line, fields);
                afterHeader.run();
                begun[0] = true;
            } else {
                Row next = row(line, fields);
                if (next != null) {
                    each.accept(next);
                    begun[1] = true;
                }
            }
        });
        end(begun[0], begun[1]);
    }

    void end(boolean header, boolean rows) {
        if (!header) {
            throw fault(Fault.MISSING, "the table is empty", "give it a header row and one row for each reading");
        }
        if (!rows) {
            throw fault(Fault.MISSING, "the table has a header but no readings", "give it one row for each reading");
        }
    }

    /** Takes the header row. */
    void header(long line, List<String> header) {
        width = header.size();
        List<String> unknown = new ArrayList<>();
        for (int i = 0; i < width; i++) {
            String column = spelled(header.get(i).strip().toLowerCase(Locale.ROOT));
            if (columns.put(column, i) != null) {
                throw fault(
                        Fault.DUPLICATE,
                        line,
                        column.isEmpty() ? null : column,
                        null,
                        column.isEmpty()
                                ? "the header has two columns without a name"
                                : "the header names this column twice",
                        column.isEmpty() ? "name them, or take them out" : "keep one of the two");
            }
            if (!known.contains(column)) {
                unknown.add('"' + Checks.shortened(header.get(i)) + '"');
            }
        }
        if (!unknown.isEmpty()) {
            notices.add(source.name() + ": unknown columns ignored: "
                    + String.join(", ", unknown.subList(0, Math.min(10, unknown.size())))
                    + (unknown.size() > 10 ? ", …" : "")
                    + (renaming().isEmpty() ? "" : "; if they are meant, " + renaming()));
        }
    }

    /** A known name that is written with blanks or hyphens, as people write it; any other stays as it is. */
    private String spelled(String column) {
        String spelled = column.replaceAll("[\\s-]+", "_");
        return known.contains(spelled) ? spelled : column;
    }

    /** What to rename of the header: names with units in brackets; empty if there are none. */
    private String renaming() {
        return columns.keySet().stream()
                .filter(name -> !known.contains(name))
                .flatMap(name -> meant(name).stream().map(plain -> '"' + Checks.shortened(name) + "\" to " + plain))
                .limit(10)
                .collect(Collectors.collectingAndThen(
                        Collectors.joining(", "), all -> all.isEmpty() ? all : "rename " + all));
    }

    /** A name in lower case with neither blanks nor what stands in brackets, as a unit does. */
    static String plain(String name) {
        return name.replaceAll("[(\\[].*", "").strip().replaceAll("[\\s_-]+", "_");
    }

    /** The column that a name means when it is made plain. */
    private Optional<String> meant(String name) {
        String plain = plain(name);
        return known.contains(plain) && !columns.containsKey(plain) ? Optional.of(plain) : Optional.empty();
    }

    /** Takes a row after the header; null if all its fields are empty, as in rows that spreadsheets add at the end. */
    Row row(long line, List<String> fields) {
        if (isEmpty(fields)) {
            blankBefore = true;
            return null;
        }
        row.afterBlank = blankBefore;
        blankBefore = false;
        requireWidth(fields, line);
        row.fields = fields;
        row.repeated = fields instanceof RepeatedFields.Line repeated ? repeated : null;
        row.line = line;
        return row;
    }

    private static boolean isEmpty(List<String> fields) {
        for (int i = 0; i < fields.size(); i++) {
            if (!fields.get(i).isEmpty()) {
                return fields.get(i).isBlank() && fields.stream().allMatch(String::isBlank);
            }
        }
        return true;
    }

    List<String> notices() {
        List<String> all = new ArrayList<>(source.notices());
        all.addAll(notices);
        return all;
    }

    boolean has(String column) {
        return columns.containsKey(column);
    }

    /** The index of a column; −1 if the table lacks it. */
    int column(String column) {
        return columns.getOrDefault(column, -1);
    }

    void requireColumn(String column, String meaning) {
        if (!has(column)) {
            throw missing(column, meaning);
        }
    }

    ReadingsException missing(String column, String meaning) {
        columns.keySet().forEach(name -> refuseLineBreak(null, name, 1));
        String rename = renaming();
        return fault(
                Fault.MISSING,
                1,
                column,
                null,
                "the header lacks this column; it has " + Checks.shortened(String.join(", ", columns.keySet())),
                rename.isEmpty()
                        ? "add the column " + column + ": " + meaning
                        : rename + "; needed is " + column + ": " + meaning);
    }

    ReadingsException fault(Fault kind, String fault, String remedy) {
        return fault(kind, 0, null, null, fault, remedy);
    }

    ReadingsException fault(Fault kind, long line, String column, String value, String fault, String remedy) {
        String place = line > 0 ? source.place(line, column == null ? -1 : column(column)) : "";
        return new ReadingsException(kind, source.name(), line, place, column, value, fault, remedy);
    }

    private void requireWidth(List<String> fields, long line) {
        if (fields.size() != width) {
            fields.forEach(field -> refuseLineBreak(null, field, line));
            throw fault(
                    Fault.WRONG_FORMAT,
                    line,
                    null,
                    null,
                    "the row has " + fields.size() + " fields, the header " + width,
                    fields.size() > width
                            ? "write decimals with a point and put labels that contain a comma in quotation marks"
                            : "give every row as many fields as the header, empty ones included");
        }
    }

    static boolean hasLineBreak(String text) {
        return text.indexOf('\n') >= 0 || text.indexOf('\r') >= 0;
    }

    /** A quotation mark that is not closed swallows the rows after it; no known column needs a line break. */
    void refuseLineBreak(String column, String text, long line) {
        if (hasLineBreak(text)) {
            throw fault(
                    Fault.WRONG_FORMAT,
                    line,
                    column,
                    text,
                    (column == null ? "a" : "the") + " field runs over several lines",
                    LINE_BREAK_REMEDY);
        }
    }

    /** Passes a number to the quantity it becomes; what the quantity refuses is reported with its place. */
    void accept(String column, String text, long line, DoubleConsumer quantity) {
        number(column, text, line, value -> {
            quantity.accept(value);
            return value;
        });
    }

    /** Makes a quantity of a number; what the quantity refuses is reported with its place. */
    <T> T number(String column, String text, long line, DoubleFunction<T> quantity) {
        try {
            return quantity.apply(Numerals.number(text, source.decimalMark()));
        } catch (Numerals.NotANumber e) {
            refuseLineBreak(column, text, line);
            throw fault(Fault.BAD_NUMBER, line, column, text, e.getMessage(), e.remedy());
        } catch (IllegalArgumentException e) {
            throw fault(
                    Fault.OUT_OF_RANGE, line, column, text, e.getMessage(), "correct the value or leave out the row");
        }
    }

    /** One row and its line in the file; valid during the call that receives it. */
    final class Row {

        private List<String> fields = List.of();
        /** The same fields, if they know what the row before says. */
        private RepeatedFields.Line repeated;

        private long line;
        private boolean afterBlank;

        private Row() {}

        long line() {
            return line;
        }

        /** The text of a field; empty where the table lacks the column. */
        String text(String column) {
            return text(column(column));
        }

        /** The text of a field by the index of its column; empty for −1. */
        String text(int index) {
            return index < 0 ? "" : fields.get(index).strip();
        }

        /** Whether a field is empty or blank. */
        boolean isEmpty(int index) {
            return repeated == null ? fields.get(index).isBlank() : repeated.isBlank(index);
        }

        /** The number in a field, if it is plain; NaN if it is not, or if only {@link #number} may find it. */
        double digits(int index) {
            return repeated == null ? Double.NaN : repeated.digits(index, source.decimalMark());
        }

        /** Makes a quantity of the number in a field; what the quantity refuses is reported with its place. */
        <T> T number(String column, int index, DoubleFunction<T> quantity) {
            return HeadedTable.this.number(column, text(index), line, quantity);
        }

        /** Whether the fields of {@linkplain RepeatedFields#bit these bits} say what the row before says, which was not blank. */
        boolean areRepeated(long bits) {
            return !afterBlank && repeated != null && repeated.areRepeated(bits);
        }

        /** The text of a field, unchanged. */
        String raw(int index) {
            return fields.get(index);
        }

        /** The text of a field that must not be empty. */
        String required(String column, String owner, String remedy) {
            String text = text(column);
            if (text.isEmpty()) {
                throw fault(
                        Fault.MISSING,
                        column,
                        "the field is empty" + (owner.isEmpty() ? "" : " (" + owner + ")"),
                        remedy);
            }
            return text;
        }

        /** The text of a field that is a label; control characters are refused. */
        String label(String column) {
            return label(column, column(column));
        }

        String label(String column, int index) {
            String text = text(index);
            refuseLineBreak(column, text, line);
            try {
                return text.isEmpty() ? text : Checks.label("the label", text);
            } catch (IllegalArgumentException e) {
                throw fault(Fault.OUT_OF_RANGE, column, e.getMessage(), "type the label again");
            }
        }

        /** Passes the number in a field to the quantity it becomes. */
        void accept(String column, DoubleConsumer quantity) {
            HeadedTable.this.accept(column, text(column), line, quantity);
        }

        ReadingsException fault(Fault kind, String column, String fault, String remedy) {
            return HeadedTable.this.fault(kind, line, column, text(column), fault, remedy);
        }
    }
}
