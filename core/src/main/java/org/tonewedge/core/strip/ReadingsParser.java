package org.tonewedge.core.strip;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.PushbackReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleConsumer;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;

/** Reads one readings table; every fault becomes a {@link ReadingsException} with its place. */
final class ReadingsParser {

    private static final String STRIP = "strip";
    private static final String LOG_EXPOSURE = "log_exposure";
    private static final String RELATIVE = "relative_log_exposure";
    private static final String DENSITY = "density";
    /** Columns that describe the strip, not the reading; a strip states each in one way. */
    private static final List<String> DESCRIPTIONS = List.of("film", "developer", "minutes", "celsius", "box_speed");

    private static final Set<String> KNOWN =
            Set.of(STRIP, LOG_EXPOSURE, RELATIVE, DENSITY, "film", "developer", "minutes", "celsius", "box_speed");

    private final String table;
    private final Map<String, Integer> columns = new LinkedHashMap<>();
    private final List<String> notices = new ArrayList<>();
    private final Map<String, Rows> strips = new LinkedHashMap<>();
    private ExposureAxis axis;
    private String exposureColumn;
    private int width;

    ReadingsParser(String table) {
        this.table = table;
    }

    /** The rows of one strip so far. */
    private static final class Rows {
        final Strip.Builder builder;
        final String[] descriptions = new String[DESCRIPTIONS.size()];
        final long[] describedOn = new long[DESCRIPTIONS.size()];
        final long firstLine;
        long lastLine;

        Rows(String id, long line) {
            builder = Strip.builder(id);
            firstLine = line;
        }
    }

    ReadingsTable parse(Reader characters) throws IOException {
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
                throw table("the table is empty", "give it a header row and one row for each reading");
            }
            readHeader(records.next());
            while (records.hasNext()) {
                CsvRecord row = records.next();
                line = row.getStartingLineNumber();
                readRow(row, line);
            }
        } catch (CsvParseException e) {
            throw broken(line + 1, e);
        }
        if (strips.isEmpty()) {
            throw table("the table has a header but no readings", "give it one row for each reading");
        }
        List<Strip> built = new ArrayList<>(strips.size());
        strips.forEach((id, rows) -> built.add(build(rows)));
        return new ReadingsTable(table, built, notices);
    }

    private ReadingsException broken(long line, CsvParseException e) {
        if (e.getCause() instanceof IOException io) {
            throw new UncheckedIOException(io);
        }
        return new ReadingsException(
                table,
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
            String name = header.getField(i).strip().toLowerCase(Locale.ROOT);
            if (columns.put(name, i) != null) {
                throw new ReadingsException(
                        table, 1, name, null, "the header names this column twice", "keep one of the two");
            }
            if (!DESCRIPTIONS.contains(name)
                    && !List.of(STRIP, LOG_EXPOSURE, RELATIVE, DENSITY).contains(name)) {
                unknown.add('"' + header.getField(i) + '"');
            }
        }
        if (width == 1 && header.getField(0).matches(".*[;\t|].*")) {
            throw new ReadingsException(
                    table,
                    1,
                    null,
                    header.getField(0),
                    "the fields are not separated by commas",
                    "save the table with commas between fields and points in decimals");
        }
        chooseExposureColumn();
        requireColumn(STRIP, "the identifier of the piece of film");
        requireColumn(DENSITY, "the density read");
        if (!unknown.isEmpty()) {
            notices.add(table + ": unknown columns left aside: " + String.join(", ", unknown));
        }
    }

    private void chooseExposureColumn() {
        boolean absolute = columns.containsKey(LOG_EXPOSURE);
        boolean relative = columns.containsKey(RELATIVE);
        if (absolute && relative) {
            throw new ReadingsException(
                    table,
                    1,
                    RELATIVE,
                    null,
                    "the table has both log_exposure and relative_log_exposure",
                    "keep log_exposure where lux seconds are known, else relative_log_exposure");
        }
        if (!absolute && !relative) {
            throw missing(LOG_EXPOSURE, "log10 of the exposure in lux seconds (or relative_log_exposure)");
        }
        exposureColumn = absolute ? LOG_EXPOSURE : RELATIVE;
        axis = absolute ? ExposureAxis.LUX_SECONDS : ExposureAxis.relativeTo("the zero of " + table);
    }

    private void requireColumn(String name, String meaning) {
        if (!columns.containsKey(name)) {
            throw missing(name, meaning);
        }
    }

    private ReadingsException missing(String column, String meaning) {
        return new ReadingsException(
                table,
                1,
                column,
                null,
                "the header lacks this column; it has " + String.join(", ", columns.keySet()),
                "add the column " + column + ": " + meaning);
    }

    private ReadingsException table(String fault, String remedy) {
        return new ReadingsException(table, 0, null, null, fault, remedy);
    }

    private void readRow(CsvRecord row, long line) {
        if (row.getFieldCount() != width) {
            throw new ReadingsException(
                    table,
                    line,
                    null,
                    null,
                    "the row has " + row.getFieldCount() + " fields, the header " + width,
                    row.getFieldCount() > width
                            ? "write decimals with a point and put labels that hold a comma in quotation marks"
                            : "give every row as many fields as the header, empty ones included");
        }
        refuseLineBreaks(row, line);
        String id = field(row, STRIP);
        if (id.isEmpty()) {
            throw new ReadingsException(table, line, STRIP, "", "the field is empty", "name the piece of film");
        }
        Rows rows = strips.computeIfAbsent(id, key -> new Rows(key, line));
        rows.lastLine = line;
        describe(rows, row, line);
        String densityText = field(row, DENSITY);
        if (densityText.isEmpty()) {
            throw new ReadingsException(
                    table,
                    line,
                    DENSITY,
                    "",
                    "the field is empty (strip '" + id + "')",
                    "enter the density, or take out the row of a step that was not read");
        }
        double density = number(densityText, DENSITY, line);
        accept(DENSITY, densityText, line, density, Density::of);
        String exposureText = field(row, exposureColumn);
        if (exposureText.isEmpty()) {
            rows.builder.basePlusFog(density);
        } else {
            double exposure = number(exposureText, exposureColumn, line);
            accept(exposureColumn, exposureText, line, exposure, value -> new LogExposure(value, axis));
            rows.builder.reading(new LogExposure(exposure, axis), Density.of(density));
        }
    }

    /** A quotation mark that is not closed swallows the rows that follow; none of the columns needs a line break. */
    private void refuseLineBreaks(CsvRecord row, long line) {
        columns.forEach((name, index) -> {
            String text = row.getField(index);
            if (KNOWN.contains(name) && (text.indexOf('\n') >= 0 || text.indexOf('\r') >= 0)) {
                throw new ReadingsException(
                        table,
                        line,
                        name,
                        text,
                        "the field runs over several lines",
                        "look for a quotation mark that is not closed");
            }
        });
    }

    private String field(CsvRecord row, String column) {
        Integer index = columns.get(column);
        return index == null ? "" : row.getField(index).strip();
    }

    private void describe(Rows rows, CsvRecord row, long line) {
        for (int i = 0; i < rows.descriptions.length; i++) {
            String value = field(row, DESCRIPTIONS.get(i));
            String before = rows.descriptions[i];
            if (value.isEmpty() || value.equals(before)) {
                continue;
            }
            if (before != null) {
                throw new ReadingsException(
                        table,
                        line,
                        DESCRIPTIONS.get(i),
                        value,
                        "strip '" + field(row, STRIP) + "' has \"" + value + "\" here but \"" + before + "\" in line "
                                + rows.describedOn[i],
                        "make them agree, or give the second piece of film an identifier of its own");
            }
            rows.descriptions[i] = value;
            rows.describedOn[i] = line;
        }
    }

    private Strip build(Rows rows) {
        String[] text = rows.descriptions;
        long[] on = rows.describedOn;
        Strip.Builder builder = rows.builder;
        if (text[0] != null) {
            builder.film(text[0]);
        }
        Processing[] how = {Processing.unknown()};
        if (text[1] != null) {
            how[0] = how[0].withDeveloper(text[1]);
        }
        if (text[2] != null) {
            double minutes = number(text[2], "minutes", on[2]);
            accept("minutes", text[2], on[2], minutes, value -> how[0] = how[0].withMinutes(value));
        }
        if (text[3] != null) {
            double celsius = number(text[3], "celsius", on[3]);
            accept(
                    "celsius",
                    text[3],
                    on[3],
                    celsius,
                    value -> how[0] = how[0].withTemperature(Temperature.ofCelsius(value)));
        }
        if (text[4] != null) {
            accept("box_speed", text[4], on[4], number(text[4], "box_speed", on[4]), builder::boxSpeed);
        }
        builder.processing(how[0]);
        builder.origin(table
                + (rows.firstLine == rows.lastLine ? ", line " : ", lines " + rows.firstLine + " to ")
                + rows.lastLine);
        try {
            return builder.build();
        } catch (IllegalArgumentException e) {
            throw new ReadingsException(
                    table,
                    rows.lastLine,
                    exposureColumn,
                    "",
                    e.getMessage(),
                    "enter the exposure of each step; leave it empty for base plus fog only");
        }
    }

    /** Hands a number to the quantity it is to become; what the quantity refuses is told with its place. */
    private void accept(String column, String text, long line, double value, DoubleConsumer quantity) {
        try {
            quantity.accept(value);
        } catch (IllegalArgumentException e) {
            throw new ReadingsException(
                    table, line, column, text, e.getMessage(), "correct the value or take out the row");
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
        if (text.matches("[+-]?\\d*,\\d+")) {
            remedy = "write decimals with a point: " + text.replace(',', '.');
        } else if (text.indexOf('\u2212') >= 0 || text.indexOf('\u2013') >= 0) {
            remedy = "write the minus sign as a hyphen: -";
        }
        throw new ReadingsException(table, line, column, text, '"' + text + "\" is not a number", remedy);
    }
}
