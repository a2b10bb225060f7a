// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** What the sheets of all formats share: places named as the spreadsheet does, and rows of the width of the first. */
abstract class SheetRows implements RowSource {

    private static final int MOST_COLUMNS = 1 << 14;
    private static final int MOST_CELLS = 1_000_000;
    private static final int LONGEST_TEXT = 1 << 15;

    private final String name;
    private final List<String> fields = new ArrayList<>();
    private int width;
    private int cells;

    SheetRows(String file, String sheet) {
        name = file + ", sheet '" + sheet + "'";
    }

    @Override
    public final String name() {
        return name;
    }

    @Override
    public final String place(long row, int column) {
        return column < 0 ? "row " + row : "cell " + letters(column) + row;
    }

    /** The letters of a column, 0 being A. */
    static String letters(int column) {
        String last = String.valueOf((char) ('A' + column % 26));
        return column < 26 ? last : letters(column / 26 - 1) + last;
    }

    /** A number as it is read: whole ones without a point, others with the fewest digits that give them back. */
    static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    /** Puts a text into the row being read. */
    final void put(long row, int column, String text) {
        if (text.isEmpty()) {
            return;
        }
        if (column >= MOST_COLUMNS || ++cells > MOST_CELLS) {
            throw fault(Fault.TOO_LARGE, row, column, "the sheet has too many cells", "keep only the readings in it");
        }
        if (text.length() > LONGEST_TEXT) {
            throw fault(Fault.TOO_LARGE, row, column, "the text has " + text.length() + " characters", "shorten it");
        }
        while (fields.size() <= column) {
            fields.add("");
        }
        fields.set(column, text);
    }

    /** Ends a row and hands it over; rows without text are passed over. */
    final void endRow(long row, RowHandler handler) {
        if (fields.isEmpty()) {
            return;
        }
        width = width == 0 ? fields.size() : width;
        while (fields.size() < width) {
            fields.add("");
        }
        handler.accept(row, fields);
        fields.clear();
    }

    /** Whether a row being read has a text. */
    final boolean hasText() {
        return !fields.isEmpty();
    }

    final ReadingsException fault(Fault kind, long row, int column, String fault, String remedy) {
        return ReadingsException.at(kind, name, place(row, column), fault, remedy);
    }

    final ReadingsException merged(String range) {
        return ReadingsException.at(
                Fault.AMBIGUOUS,
                name,
                "cells " + range,
                "the cells are merged, so it is unclear to which strips their value belongs",
                "unmerge them and enter the value in every cell");
    }

    final ReadingsException formula(long row, int column) {
        return fault(
                Fault.MISSING,
                row,
                column,
                "the formula has no value stored with it",
                "open the file in the spreadsheet program and save it, or enter the value");
    }

    final ReadingsException date(long row, int column) {
        return fault(
                Fault.BAD_NUMBER,
                row,
                column,
                "the cell is a date or a time of day",
                "enter the number as a number (8.5), or as text with an apostrophe before it ('8:30)");
    }

    final ReadingsException error(long row, int column, String text) {
        return fault(
                Fault.BAD_NUMBER,
                row,
                column,
                "the cell shows the error " + text,
                "correct its formula, or enter the value");
    }
}
