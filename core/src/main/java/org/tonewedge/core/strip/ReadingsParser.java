package org.tonewedge.core.strip;

import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;

/** Reads one readings table. */
final class ReadingsParser {

    private static final String STRIP = "strip";
    private static final String LOG_EXPOSURE = "log_exposure";
    private static final String RELATIVE = "relative_log_exposure";
    private static final String DENSITY = "density";
    /** Columns that describe the strip, not the reading; a strip states each in one way. */
    private static final List<String> DESCRIPTIONS = List.of("film", "developer", "minutes", "celsius", "box_speed");
    /** From here on the descriptions are numbers: 8 and 8.0 say the same. */
    private static final int FIRST_NUMBER = 2;

    private static final List<String> COLUMNS = Stream.concat(
                    Stream.of(STRIP, LOG_EXPOSURE, RELATIVE, DENSITY), DESCRIPTIONS.stream())
            .toList();

    private final String name;
    private final CsvTable table;
    private final Map<String, Rows> strips = new LinkedHashMap<>();
    private ExposureAxis axis;
    private String exposureColumn;

    ReadingsParser(String name) {
        this.name = name;
        table = new CsvTable(name, COLUMNS);
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
        table.read(characters, this::checkHeader, this::readRow);
        List<Strip> built = new ArrayList<>(strips.size());
        strips.forEach((id, rows) -> built.add(build(rows)));
        return new ReadingsTable(name, built, table.notices());
    }

    private void checkHeader() {
        chooseExposureColumn();
        table.requireColumn(STRIP, "the identifier of the piece of film");
        table.requireColumn(DENSITY, "the density read");
    }

    private void chooseExposureColumn() {
        boolean absolute = table.has(LOG_EXPOSURE);
        boolean relative = table.has(RELATIVE);
        if (absolute && relative) {
            throw table.fault(
                    1,
                    RELATIVE,
                    null,
                    "the table has both log_exposure and relative_log_exposure",
                    "keep log_exposure where lux seconds are known, else relative_log_exposure");
        }
        if (!absolute && !relative) {
            throw table.missing(LOG_EXPOSURE, "log10 of the exposure in lux seconds (or relative_log_exposure)");
        }
        exposureColumn = absolute ? LOG_EXPOSURE : RELATIVE;
        axis = absolute ? ExposureAxis.LUX_SECONDS : ExposureAxis.relativeTo("the zero of " + name);
    }

    private void readRow(CsvTable.Row row) {
        String id = row.required(STRIP, "", "name the piece of film");
        Rows rows = strips.computeIfAbsent(id, key -> new Rows(row.label(STRIP), row.line()));
        rows.lastLine = row.line();
        describe(rows, row);
        row.required(
                DENSITY,
                "strip '" + Checks.shortened(id) + "'",
                "enter the density, or take out the row of a step that was not read");
        Density[] density = new Density[1];
        row.accept(DENSITY, value -> density[0] = Density.of(value));
        if (row.text(exposureColumn).isEmpty()) {
            rows.builder.basePlusFog(density[0].value());
        } else {
            row.accept(exposureColumn, value -> rows.builder.reading(new LogExposure(value, axis), density[0]));
        }
    }

    private void describe(Rows rows, CsvTable.Row row) {
        for (int i = 0; i < rows.descriptions.length; i++) {
            String value = row.text(DESCRIPTIONS.get(i));
            String before = rows.descriptions[i];
            if (value.isEmpty() || value.equals(before)) {
                continue;
            }
            if (before != null && i >= FIRST_NUMBER && isSameNumber(value, before)) {
                continue;
            }
            if (before != null) {
                throw row.fault(
                        DESCRIPTIONS.get(i),
                        "strip '" + Checks.shortened(row.text(STRIP)) + "' has \"" + Checks.shortened(value)
                                + "\" here but \"" + Checks.shortened(before) + "\" in line " + rows.describedOn[i],
                        "make them agree, or give the second piece of film an identifier of its own");
            }
            rows.descriptions[i] = row.label(DESCRIPTIONS.get(i));
            rows.describedOn[i] = row.line();
        }
    }

    private static boolean isSameNumber(String one, String other) {
        try {
            return Double.parseDouble(one) == Double.parseDouble(other);
        } catch (NumberFormatException e) {
            return false; // told with its place when the strip is built, or as a contradiction
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
            table.accept("minutes", text[2], on[2], value -> how[0] = how[0].withMinutes(value));
        }
        if (text[3] != null) {
            table.accept(
                    "celsius", text[3], on[3], value -> how[0] = how[0].withTemperature(Temperature.ofCelsius(value)));
        }
        if (text[4] != null) {
            table.accept("box_speed", text[4], on[4], builder::boxSpeed);
        }
        builder.processing(how[0]);
        builder.origin(name
                + (rows.firstLine == rows.lastLine ? ", line " : ", lines " + rows.firstLine + " to ")
                + rows.lastLine);
        try {
            return builder.build();
        } catch (IllegalArgumentException e) {
            throw table.fault(
                    rows.lastLine,
                    exposureColumn,
                    "",
                    e.getMessage(),
                    "enter the exposure of each step; leave it empty for base plus fog only");
        }
    }
}
