// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * Reads a grid with a column for each strip. The first rows describe the strips; base plus fog follows; below the name
 * of the scale there is a row for each step.
 */
final class GridParser implements ReadingsReader.Form {

    static final String BASE_PLUS_FOG = "base_plus_fog";

    private static final Set<String> BASE_PLUS_FOG_WORDS =
            Set.of(BASE_PLUS_FOG, "base_and_fog", "base_fog", "base+fog", "base_+_fog", "b+f", "b_+_f");
    static final int MOST_CELLS = 2_000_000;

    private final ReadingsReader reader;
    private final RowSource source;
    /** Names a column in words. */
    private final IntFunction<String> columnInWords;

    private final List<Line> lines = new ArrayList<>();
    private final List<String> notices = new ArrayList<>();
    private final List<Column> columns = new ArrayList<>();
    private ExposureScale scale;
    private ExposureAxis axis;
    private final BadFields bad = new BadFields();
    private int cells;

    private record Line(long row, List<String> fields) {

        String word() {
            return fields.isEmpty() ? "" : GridParser.word(fields.get(0));
        }

        String text(int column) {
            return column < fields.size() ? fields.get(column).strip() : "";
        }
    }

    private record Column(int index, String id, StripAssembly strip) {}

    GridParser(ReadingsReader reader, RowSource source) {
        this(reader, source, index -> "column " + (index + 1));
    }

    GridParser(ReadingsReader reader, RowSource source, IntFunction<String> columnInWords) {
        this.reader = reader;
        this.source = source;
        this.columnInWords = columnInWords;
    }

    /** Whether a first row, in lower case, is the beginning of a grid. */
    static boolean begins(List<String> first) {
        if (first.size() < 2) {
            return false;
        }
        String word = word(first.get(0));
        return word.equals(ReadingsParser.STRIP)
                ? first.stream().noneMatch(GridParser::isScaleOrDescription)
                : word.equals(StripAssembly.FILM)
                        && first.stream().skip(1).noneMatch(GridParser::isScaleOrDescription)
                        && !first.contains(ReadingsParser.STRIP);
    }

    private static boolean isScaleOrDescription(String word) {
        return scale(word) != null
                || StripAssembly.DESCRIPTIONS.contains(word)
                || HeadedTable.plain(word).endsWith(ExposureScale.LOG_EXPOSURE.word());
    }

    static ExposureScale scale(String word) {
        return Arrays.stream(ExposureScale.values())
                .filter(each -> each.word().equals(word))
                .findFirst()
                .orElse(null);
    }

    private static String word(String field) {
        return field.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_-]+", "_");
    }

    @Override
    public void row(long row, List<String> fields) {
        if (fields.stream().allMatch(String::isBlank)) {
            return;
        }
        cells += fields.size();
        if (cells > MOST_CELLS) {
            throw whole(
                    Fault.TOO_LARGE, row, "a grid has at most " + MOST_CELLS + " cells", "give several smaller grids");
        }
        lines.add(new Line(row, List.copyOf(fields)));
    }

    @Override
    public ReadingsTable finish() {
        int start = scaleRow();
        scale = scale(lines.get(start).word());
        axis = scale == ExposureScale.LOG_EXPOSURE
                ? ExposureAxis.LUX_SECONDS
                : ExposureAxis.relativeTo("the zero of " + source.name());
        nameColumns(start);
        try {
            rows(start);
        } catch (ReadingsException e) {
            bad.add(e);
        }
        bad.refuse();
        List<Strip> built = new ArrayList<>();
        leaveEmptyColumns();
        requireOneAxis();
        for (Column column : columns) {
            long last = lines.get(lines.size() - 1).row;
            built.add(column.strip.build(axis, origin(column.index, last), place(last, column)));
        }
        List<String> all = new ArrayList<>(source.notices());
        all.addAll(notices);
        scale.doubt(source.name(), built).ifPresent(all::add);
        return new ReadingsTable(source.name(), built, all);
    }

    private void rows(int start) {
        Set<String> described = new HashSet<>();
        for (int i = 0; i < start; i++) {
            describe(lines.get(i), described);
        }
        if (start + 1 == lines.size()) {
            throw whole(
                    Fault.MISSING,
                    lines.get(start).row,
                    "no row follows row " + scale.word(),
                    "give a row for each step");
        }
        requireReadings(start);
        for (int i = start + 1; i < lines.size() && !bad.isFull(); i++) {
            step(lines.get(i));
        }
    }

    private String origin(int column, long lastRow) {
        String from = source.place(lines.get(0).row, column);
        String to = source.place(lastRow, column);
        return source.name() + ", "
                + (from.equals(to) ? from : from + " to " + to + ", " + columnInWords.apply(column));
    }

    private int scaleRow() {
        for (int i = 0; i < lines.size(); i++) {
            if (scale(lines.get(i).word()) != null) {
                return i;
            }
        }
        lines.forEach(this::refuseLineBreak);
        throw new ReadingsException(
                Fault.WRONG_FORMAT,
                source.name(),
                0,
                "",
                null,
                null,
                "the grid lacks the row that says what its steps are",
                renaming()
                        .orElse("above the first step put a row that begins with step, stops, log_exposure or"
                                + " relative_log_exposure"));
    }

    /** The row to rename where its first cell has blanks, or units in brackets, that only a reader understands. */
    private Optional<String> renaming() {
        for (Line line : lines) {
            String plain = HeadedTable.plain(line.text(0).toLowerCase(Locale.ROOT));
            if (scale(plain) != null) {
                return Optional.of("rename \"" + Checks.shortened(line.text(0)) + "\" in " + source.place(line.row, 0)
                        + " to " + plain);
            }
        }
        return Optional.empty();
    }

    /** Names the strips: by the row strip, or by the row film if every film has one strip. */
    private void nameColumns(int start) {
        Line names = lines.subList(0, start).stream()
                .filter(line -> line.word().equals(ReadingsParser.STRIP))
                .findFirst()
                .orElse(lines.get(0));
        int width = lines.stream().mapToInt(line -> line.fields.size()).max().orElse(0);
        Map<String, Integer> seen = new HashMap<>();
        for (int i = 1; i < width; i++) {
            String id = names.text(i);
            if (id.isEmpty()) {
                refuseUnnamed(names, i);
                continue;
            }
            Integer before = seen.put(id, i);
            if (before != null) {
                throw fault(
                        Fault.DUPLICATE,
                        names.row,
                        i,
                        names.word(),
                        id,
                        '"' + Checks.shortened(id) + "\" stands here and in " + columnInWords.apply(before) + ", with "
                                + (hasSameReadings(start, before, i) ? "the same" : "different") + " readings",
                        names.word().equals(ReadingsParser.STRIP)
                                ? "take one out, or give each piece of film its own identifier"
                                : "add a row strip with an identifier for each piece of film");
            }
            StripAssembly.Place place = new StripAssembly.Place(names.row, i, names.word());
            columns.add(new Column(i, id, new StripAssembly(reader, source, scale, id, place)));
        }
        if (columns.isEmpty()) {
            throw whole(
                    Fault.MISSING,
                    names.row,
                    "the grid has no strip",
                    "name a strip in the second column of the row strip");
        }
    }

    /** The rows of densities: base plus fog wherever it stands, and the steps. */
    private Stream<Line> densities(int start) {
        return IntStream.range(0, lines.size())
                .filter(i ->
                        i > start || BASE_PLUS_FOG_WORDS.contains(lines.get(i).word()))
                .mapToObj(lines::get);
    }

    private boolean hasSameReadings(int start, int one, int other) {
        return densities(start).allMatch(line -> line.text(one).equals(line.text(other)));
    }

    private void requireReadings(int start) {
        if (densities(start)
                .allMatch(line -> columns.stream()
                        .allMatch(column -> line.text(column.index).isEmpty()))) {
            throw whole(
                    Fault.MISSING,
                    lines.get(start).row,
                    "nothing is filled in: the grid has no density",
                    "enter the densities below the names of the strips, and leave a cell empty that was not read");
        }
    }

    /** A quotation mark that is not closed swallows the rows after it; no known row needs a line break. */
    private void refuseLineBreak(Line line) {
        for (int i = 0; i < line.fields.size(); i++) {
            if (HeadedTable.hasLineBreak(line.text(i))) {
                throw fault(
                        Fault.WRONG_FORMAT,
                        line.row,
                        i,
                        null,
                        null,
                        "a field runs over several lines",
                        HeadedTable.LINE_BREAK_REMEDY);
            }
        }
    }

    /** Ignores a column that contains only a name, as a blank grid has. */
    private void leaveEmptyColumns() {
        List<String> empty = new ArrayList<>();
        for (Column column : List.copyOf(columns)) {
            long filled = lines.stream()
                    .filter(line -> !line.text(column.index).isEmpty())
                    .count();
            if (filled == 1 && columns.size() > 1) {
                columns.remove(column);
                empty.add(Checks.shortened(column.id));
            }
        }
        if (!empty.isEmpty()) {
            notices.add(source.name() + ": columns without readings ignored: " + String.join(", ", empty));
        }
    }

    private void refuseUnnamed(Line names, int column) {
        for (Line line : lines) {
            if (!line.text(column).isEmpty() && scale(line.word()) == null) {
                throw fault(
                        Fault.MISSING,
                        line.row,
                        column,
                        null,
                        line.text(column),
                        "\"" + Checks.shortened(line.text(column)) + "\" stands in a column without a strip",
                        "name the strip of the column in " + source.place(names.row, column)
                                + ", or take the text out");
            }
        }
    }

    private void describe(Line line, Set<String> described) {
        String word = line.word();
        if (word.equals(ReadingsParser.STRIP)) {
            requireOnce(line, described, word);
            return;
        }
        if (BASE_PLUS_FOG_WORDS.contains(word)) {
            basePlusFog(line);
            return;
        }
        int what = StripAssembly.DESCRIPTIONS.indexOf(word);
        if (what < 0) {
            if (word.isEmpty()) {
                throw whole(
                        Fault.WRONG_FORMAT,
                        line.row,
                        "the row does not say what it is",
                        "begin it with a word such as film or minutes");
            }
            notices.add(source.name() + ": row ignored: \"" + Checks.shortened(line.fields.get(0)) + '"'
                    + (word.matches(".*(base|fog|unexposed|d_?min).*")
                            ? "; if it has readings of base plus fog, begin it with " + BASE_PLUS_FOG
                            : ""));
            return;
        }
        requireOnce(line, described, word);
        for (Column column : columns) {
            String text = line.text(column.index);
            if (!text.isEmpty()) {
                column.strip.describe(what, text, place(line.row, column));
            }
        }
    }

    private void requireOnce(Line line, Set<String> described, String word) {
        if (!described.add(word)) {
            throw whole(Fault.DUPLICATE, line.row, "the grid has more than one row " + word, "keep one of the two");
        }
    }

    private void basePlusFog(Line line) {
        refuseLineBreak(line);
        for (Column column : columns) {
            density(line, column, density -> column.strip.builder().basePlusFog(density.value()));
        }
    }

    private void step(Line line) {
        String word = line.word();
        if (BASE_PLUS_FOG_WORDS.contains(word)) {
            basePlusFog(line);
            return;
        }
        String exposure = line.text(0);
        if (exposure.isEmpty()) {
            throw whole(Fault.MISSING, line.row, "the row gives no " + scale.word(), "enter it in the first column");
        }
        refuseLineBreak(line);
        StripAssembly.Place place = new StripAssembly.Place(line.row, 0, scale.word());
        LogExposure[] direct = new LogExposure[1];
        if (!scale.isIndirect()) {
            try {
                direct[0] = new LogExposure(Numerals.number(exposure, source.decimalMark()), axis);
            } catch (Numerals.NotANumber e) {
                throw columns.get(0).strip.fault(Fault.BAD_NUMBER, place, exposure, e.getMessage(), e.remedy());
            } catch (IllegalArgumentException e) {
                throw columns.get(0)
                        .strip
                        .fault(Fault.OUT_OF_RANGE, place, exposure, e.getMessage(), "correct the value");
            }
        }
        for (Column column : columns) {
            density(line, column, density -> {
                if (scale.isIndirect()) {
                    column.strip.step(exposure, place, density);
                } else {
                    column.strip.builder().reading(direct[0], density);
                }
            });
        }
    }

    private interface Reading {
        void take(Density density);
    }

    /** Takes the density in a cell, or its fault; an empty cell was not read. */
    private void density(Line line, Column column, Reading reading) {
        String text = line.text(column.index);
        if (text.isEmpty()) {
            return;
        }
        Density density;
        try {
            density = reader.density(Numerals.number(text, source.decimalMark()));
        } catch (Numerals.NotANumber e) {
            bad.add(column.strip.fault(Fault.BAD_NUMBER, place(line.row, column), text, e.getMessage(), e.remedy()));
            return;
        } catch (IllegalArgumentException e) {
            bad.add(column.strip.fault(
                    Fault.OUT_OF_RANGE, place(line.row, column), text, e.getMessage(), "read the step again"));
            return;
        }
        reading.take(density);
    }

    private void requireOneAxis() {
        if (!scale.isIndirect()) {
            return;
        }
        boolean first = columns.get(0).strip.statesExposure();
        for (Column column : columns) {
            if (column.strip.statesExposure() != first) {
                Column without = first ? column : columns.get(0);
                throw fault(
                        Fault.MISSING,
                        lines.get(0).row,
                        without.index,
                        without.id,
                        null,
                        "strip '" + Checks.shortened(without.id) + "' states no exposure but other strips do",
                        "state the exposure of every strip, or of none");
            }
        }
    }

    private static StripAssembly.Place place(long row, Column column) {
        return new StripAssembly.Place(row, column.index, column.id);
    }

    private ReadingsException whole(Fault kind, long row, String fault, String remedy) {
        return fault(kind, row, -1, null, null, fault, remedy);
    }

    private ReadingsException fault(
            Fault kind, long row, int column, String name, String value, String fault, String remedy) {
        return new ReadingsException(kind, source.name(), row, source.place(row, column), name, value, fault, remedy);
    }
}
