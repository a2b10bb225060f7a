// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** Reads a table with one row for each reading. */
final class ReadingsParser implements ReadingsReader.Form {

    static final String STRIP = "strip";
    static final String DENSITY = "density";

    private static final int MOST_NAMED = 5;

    static final List<String> COLUMNS = columns();

    private final ReadingsReader reader;
    private final RowSource source;
    private final HeadedTable table;
    private final Map<String, Rows> strips = new LinkedHashMap<>();
    /** The descriptions that the table has, by their index, and the column of each. */
    private int[] descriptions = {};

    private final int[] described = new int[StripAssembly.DESCRIPTIONS.size()];
    private final BadFields bad = new BadFields();
    private boolean hasHeader;
    private ExposureScale scale;
    private ExposureAxis axis;
    private HeadedTable.Row inRow;
    private long describedBits;
    private int stripColumn;
    private long stripBit;
    private int densityColumn;
    private int exposureColumn;
    private Rows current;

    private static List<String> columns() {
        List<String> columns = new ArrayList<>(List.of(STRIP, DENSITY));
        for (ExposureScale each : ExposureScale.values()) {
            columns.add(each.word());
        }
        columns.addAll(StripAssembly.DESCRIPTIONS);
        return List.copyOf(columns);
    }

    ReadingsParser(ReadingsReader reader, RowSource source) {
        this.reader = reader;
        this.source = source;
        table = new HeadedTable(source, COLUMNS);
    }

    /** The rows of one strip so far. */
    private static final class Rows {
        final String id;
        final StripAssembly strip;
        final String[] lastFields;
        final long firstLine;
        long lastLine;
        /** In how many places of the table rows of the strip stand together. */
        int places = 1;

        private int inFirstPlace;
        private long firstPlaceEnds;
        private long secondPlaceBegins;

        Rows(String id, StripAssembly strip, int described, long line) {
            this.id = id;
            this.strip = strip;
            lastFields = new String[described];
            firstLine = line;
        }

        /** The strip comes again, at this line, after rows of others. */
        void again(long line) {
            places++;
            if (places == 2) {
                inFirstPlace = strip.exposedReadings();
                firstPlaceEnds = lastLine;
                secondPlaceBegins = line;
            }
        }

        /** Where the strip stands: in one place, in both of two, or between the first line and the last. */
        String lines() {
            if (firstLine == lastLine) {
                return "line " + firstLine;
            }
            return "lines "
                    + (places == 2
                            ? lines(firstLine, firstPlaceEnds) + " and " + lines(secondPlaceBegins, lastLine)
                            : lines(firstLine, lastLine) + (places > 2 ? ", in " + places + " places" : ""));
        }

        private static String lines(long first, long last) {
            return first == last ? Long.toString(first) : first + " to " + last;
        }

        /**
         * Whether the built strip may have been typed twice: it stands in two places, and both have readings of one
         * exposure. In many places it is the order of the table, and a second place may continue the first.
         */
        boolean mayBeTwice() {
            return places == 2 && strip.builder().repeatsFrom(inFirstPlace);
        }

        /** Where a strip in two places stands, and whether each of its readings does twice. */
        String twice(Strip built) {
            boolean same = isTwice(built.basePlusFogReadings())
                    && built.steps().stream().allMatch(step -> isTwice(step.readings()));
            return '\'' + Checks.shortened(id) + "', " + lines()
                    + (same ? ", each reading twice" : ", with different readings");
        }

        private static boolean isTwice(List<Density> readings) {
            int half = readings.size() / 2;
            return readings.subList(0, half).equals(readings.subList(half, readings.size()));
        }
    }

    @Override
    public void row(long row, List<String> fields) {
        if (hasHeader) {
            try {
                HeadedTable.Row next = table.row(row, fields);
                if (next != null) {
                    reading(next);
                }
            } catch (ReadingsException e) {
                bad.add(e);
                bad.refuse();
            }
            if (bad.isFull()) {
                bad.refuse();
            }
        } else {
            table.header(row, fields);
            checkHeader();
            hasHeader = true;
        }
    }

    @Override
    public ReadingsTable finish() {
        bad.refuse();
        table.end(hasHeader, !strips.isEmpty());
        requireOneAxis();
        List<Strip> built = new ArrayList<>(strips.size());
        List<String> twice = new ArrayList<>();
        // What is built of is let go strip by strip, so that no reading is in memory twice.
        for (Iterator<Rows> each = strips.values().iterator(); each.hasNext(); each.remove()) {
            Rows rows = each.next();
            String origin = source.name() + ", " + rows.lines();
            Strip strip = rows.strip.build(axis, origin, exposurePlace(rows.lastLine));
            built.add(strip);
            if (rows.mayBeTwice()) {
                twice.add(rows.twice(strip));
            }
        }
        List<String> notices = table.notices();
        noticeTwice(notices, twice);
        scale.doubt(source.name(), built).ifPresent(notices::add);
        return new ReadingsTable(source.name(), built, notices);
    }

    private void noticeTwice(List<String> notices, List<String> twice) {
        if (!twice.isEmpty()) {
            notices.add(source.name() + ": strips that stand in two places of the table: "
                    + String.join("; ", twice.subList(0, Math.min(MOST_NAMED, twice.size())))
                    + (twice.size() > MOST_NAMED ? "; …" : "")
                    + ". Their readings of one exposure are taken as repeats: if a strip was typed twice, take one out; give"
                    + " a second piece of film its own identifier");
        }
    }

    /** Strips with a stated exposure and strips without one cannot share an axis. */
    private void requireOneAxis() {
        if (!scale.isIndirect()) {
            return;
        }
        for (Rows rows : strips.values()) {
            if (rows.strip.statesExposure() != current.strip.statesExposure()) {
                Rows without = rows.strip.statesExposure() ? current : rows;
                throw table.fault(
                        Fault.MISSING,
                        without.lastLine,
                        null,
                        null,
                        "strip '" + Checks.shortened(without.id) + "' states no exposure but other strips do",
                        "state the exposure of every strip, or of none");
            }
        }
    }

    private void checkHeader() {
        chooseScale();
        table.requireColumn(STRIP, "the identifier of the piece of film");
        table.requireColumn(DENSITY, "the density read");
        stripColumn = table.column(STRIP);
        stripBit = RepeatedFields.bit(stripColumn);
        densityColumn = table.column(DENSITY);
        exposureColumn = table.column(scale.word());
        int count = 0;
        int[] all = new int[described.length];
        for (int i = 0; i < described.length; i++) {
            described[i] = table.column(StripAssembly.DESCRIPTIONS.get(i));
            if (described[i] >= 0) {
                all[count++] = i;
                describedBits |= RepeatedFields.bit(described[i]);
            }
        }
        descriptions = Arrays.copyOf(all, count);
    }

    private void chooseScale() {
        List<ExposureScale> found = new ArrayList<>();
        for (ExposureScale each : ExposureScale.values()) {
            if (table.has(each.word())) {
                found.add(each);
            }
        }
        if (found.isEmpty()) {
            throw table.missing(
                    ExposureScale.LOG_EXPOSURE.word(),
                    "log10 of the exposure in lux seconds (or relative_log_exposure, step or stops)");
        }
        if (found.size() > 1) {
            throw table.fault(
                    Fault.CONTRADICTION,
                    1,
                    found.get(1).word(),
                    null,
                    "the table has both " + found.get(0).word() + " and "
                            + found.get(1).word(),
                    "keep log_exposure if lux seconds are known, otherwise the column that was measured");
        }
        scale = found.get(0);
        axis = scale == ExposureScale.LOG_EXPOSURE
                ? ExposureAxis.LUX_SECONDS
                : ExposureAxis.relativeTo("the zero of " + source.name());
    }

    private void reading(HeadedTable.Row row) {
        Rows before = current;
        Rows rows = rows(row);
        inRow = row;
        rows.lastLine = row.line();
        // Most rows say the same of their strip as the row before.
        if (rows != before || !row.areRepeated(describedBits)) {
            for (int i = 0; i < descriptions.length; i++) {
                String field = row.raw(described[descriptions[i]]);
                if (!field.equals(rows.lastFields[i])) {
                    rows.lastFields[i] = field;
                    describe(rows, descriptions[i], row);
                }
            }
        }
        if (row.isEmpty(densityColumn)) {
            throw row.fault(
                    Fault.MISSING,
                    DENSITY,
                    "the field is empty (strip '" + Checks.shortened(rows.id) + "')",
                    "enter the density, or leave out the row of a step that was not read"
                            + (looksLikeDensity(row)
                                    ? "; if " + row.text(exposureColumn)
                                            + " is the density of base plus fog, the columns " + DENSITY + " and "
                                            + scale.word() + " are swapped"
                                    : ""));
        }
        Density density;
        try {
            density = density(row);
        } catch (ReadingsException e) {
            bad.add(e);
            return;
        }
        if (row.isEmpty(exposureColumn)) {
            rows.strip.builder().basePlusFog(density.value());
        } else if (scale.isIndirect()) {
            rows.strip.step(row.text(exposureColumn), exposurePlace(row.line()), density);
        } else {
            rows.strip.builder().reading(exposure(row), density);
        }
    }

    private void describe(Rows rows, int what, HeadedTable.Row row) {
        String column = StripAssembly.DESCRIPTIONS.get(what);
        String text = row.text(described[what]);
        if (!rows.strip.isDescribed(what, text)) {
            if (what < StripAssembly.LABELS) {
                row.label(column, described[what]);
            } else {
                table.refuseLineBreak(column, text, row.line());
            }
            rows.strip.describe(what, text, new StripAssembly.Place(row.line(), described[what], column));
        }
    }

    // Most numbers are plain and in range: for them no function is made, which costs a fresh process about a
    // millisecond.

    private Density density(HeadedTable.Row row) {
        double plain = row.digits(densityColumn);
        if (!Double.isNaN(plain)) {
            try {
                return density(plain);
            } catch (IllegalArgumentException e) {
                // told below
            }
        }
        return row.number(DENSITY, densityColumn, this::density);
    }

    private LogExposure exposure(HeadedTable.Row row) {
        double plain = row.digits(exposureColumn);
        if (!Double.isNaN(plain)) {
            try {
                return exposure(plain);
            } catch (IllegalArgumentException e) {
                // told below
            }
        }
        return row.number(scale.word(), exposureColumn, this::exposure);
    }

    private LogExposure exposure(double value) {
        return new LogExposure(value, axis);
    }

    private Density density(double value) {
        try {
            return reader.density(value);
        } catch (IllegalArgumentException e) {
            if (value < 0 && value > -10 && looksLikeDensity(inRow)) {
                throw new IllegalArgumentException(
                        "density " + inRow.text(densityColumn) + " is too far below 0, and " + scale.word() + " "
                                + inRow.text(exposureColumn)
                                + " beside it could be one: the two columns look swapped; exchange their names in the"
                                + " header",
                        e);
            }
            throw e;
        }
    }

    /** Whether the exposure of a row could be a density. */
    private boolean looksLikeDensity(HeadedTable.Row row) {
        return !scale.isIndirect() && row.text(exposureColumn).matches("[0-4]?[.,]\\d+");
    }

    private Rows rows(HeadedTable.Row row) {
        if (current != null && row.areRepeated(stripBit)) {
            return current;
        }
        String id = row.text(stripColumn);
        // Rows of a strip mostly stand together.
        if (current == null || !id.equals(current.id)) {
            if (id.isEmpty()) {
                throw row.fault(Fault.MISSING, STRIP, "the field is empty", "name the piece of film");
            }
            current = strips.get(id);
            if (current == null) {
                String label = row.label(STRIP, stripColumn);
                StripAssembly.Place place = new StripAssembly.Place(row.line(), stripColumn, STRIP);
                current = new Rows(
                        label, new StripAssembly(reader, source, scale, label, place), descriptions.length, row.line());
                strips.put(id, current);
            } else {
                current.again(row.line());
            }
        }
        return current;
    }

    private StripAssembly.Place exposurePlace(long line) {
        return new StripAssembly.Place(line, exposureColumn, scale.word());
    }
}
