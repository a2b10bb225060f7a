// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** A grid that lies on its side, strips down and steps across: it is turned upright, then read as any other. */
final class SidewaysGrid implements ReadingsReader.Form {

    private static final String NUMBER = "[-+]?\\d*[.,]?\\d+";

    private final ReadingsReader reader;
    private final RowSource source;
    private final List<List<String>> rows = new ArrayList<>();
    private final List<Long> numbers = new ArrayList<>();
    private int width;

    SidewaysGrid(ReadingsReader reader, RowSource source) {
        this.reader = reader;
        this.source = source;
    }

    /** Whether a first row, in lower case, names strips or films, then a scale of exposures and numbers on it. */
    static boolean begins(List<String> words) {
        if (words.isEmpty()
                || !List.of(ReadingsParser.STRIP, StripAssembly.FILM).contains(words.get(0))
                || words.contains(ReadingsParser.DENSITY)) {
            return false;
        }
        for (int i = 1; i + 1 < words.size(); i++) {
            if (GridParser.scale(words.get(i)) != null && words.get(i + 1).matches(NUMBER)) {
                return true;
            }
        }
        return false;
    }

    @Override
    public void row(long row, List<String> fields) {
        if ((long) Math.max(width, fields.size()) * (rows.size() + 1) > GridParser.MOST_CELLS) {
            throw ReadingsException.at(
                    Fault.TOO_LARGE,
                    source.name(),
                    source.place(row, -1),
                    "a grid has at most " + GridParser.MOST_CELLS + " cells",
                    "give several smaller grids");
        }
        rows.add(List.copyOf(fields));
        numbers.add(row);
        width = Math.max(width, fields.size());
    }

    @Override
    public ReadingsTable finish() {
        GridParser grid = new GridParser(reader, new Upright(), column -> source.place(numbers.get(column), -1));
        for (int i = 0; i < width; i++) {
            List<String> turned = new ArrayList<>();
            for (List<String> row : rows) {
                turned.add(i < row.size() ? row.get(i) : "");
            }
            grid.row(i + 1L, turned);
        }
        ReadingsTable table = grid.finish();
        List<String> notices = new ArrayList<>(table.notices());
        notices.add(source.name() + ": read as a grid with strips down and steps across");
        return new ReadingsTable(table.name(), table.strips(), notices);
    }

    /** The source as the turned rows see it. */
    private final class Upright implements RowSource {

        @Override
        public String name() {
            return source.name();
        }

        @Override
        public void read(RowHandler handler) {
            throw new IllegalStateException("the rows of a sideways grid were read already");
        }

        @Override
        public String place(long row, int column) {
            return source.place(numbers.get(Math.max(0, Math.min(column, numbers.size() - 1))), (int) row - 1);
        }

        @Override
        public char decimalMark() {
            return source.decimalMark();
        }

        @Override
        public List<String> notices() {
            return source.notices();
        }
    }
}
