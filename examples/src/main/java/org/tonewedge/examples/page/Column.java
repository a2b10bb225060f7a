// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import java.util.List;
import java.util.function.Function;

/**
 * A column of a table, stated once for programs and for readers: its name in the CSV, its heading on the page, and its
 * cell in a row.
 *
 * <p>Immutable and thread safe.
 *
 * @param <T> what a row is about
 */
public final class Column<T> {

    private static final String UNCERTAINTY = "_u";
    private static final String HALF_WIDTH = "_u95";

    /** What a column consists of. */
    private enum Kind {
        TEXT,
        NUMBER,
        ESTIMATE
    }

    private final Kind kind;
    private final String name;
    private final String heading;
    private final Function<T, Cell> cell;

    private Column(Kind kind, String name, String heading, Function<T, Cell> cell) {
        this.kind = kind;
        this.name = name;
        this.heading = heading;
        this.cell = cell;
    }

    /**
     * Returns a column of texts.
     *
     * @param <T> what a row is about
     * @param name its name in the CSV; empty for a column of the page only
     * @param heading its heading on the page; empty for a column of the CSV only
     * @param cell what stands in a row
     * @return the column
     */
    public static <T> Column<T> text(String name, String heading, Function<T, Cell> cell) {
        return new Column<>(Kind.TEXT, name, heading, cell);
    }

    /**
     * Returns a column of numbers.
     *
     * @param <T> what a row is about
     * @param name its name in the CSV; empty for a column of the page only
     * @param heading its heading on the page; empty for a column of the CSV only
     * @param cell what stands in a row
     * @return the column
     */
    public static <T> Column<T> number(String name, String heading, Function<T, Cell> cell) {
        return new Column<>(Kind.NUMBER, name, heading, cell);
    }

    /**
     * Returns a column of numbers with their uncertainties, which have columns of their own in the CSV: the standard
     * uncertainty, named {@code …_u}, and the half-width of the 95 % interval, named {@code …_u95}.
     *
     * @param <T> what a row is about
     * @param name its name in the CSV
     * @param heading its heading on the page; empty for a column of the CSV only
     * @param cell what stands in a row
     * @return the column
     */
    public static <T> Column<T> estimate(String name, String heading, Function<T, Cell> cell) {
        return new Column<>(Kind.ESTIMATE, name, heading, cell);
    }

    /**
     * Returns the names of its fields for programs.
     *
     * @return the names; none for a column of the page only
     */
    List<String> names() {
        if (name.isEmpty()) {
            return List.of();
        }
        return kind == Kind.ESTIMATE ? List.of(name, name + UNCERTAINTY, name + HALF_WIDTH) : List.of(name);
    }

    /**
     * Returns its fields for programs.
     *
     * @param row the row
     * @return as many fields as {@link #names()}
     */
    List<String> fields(T row) {
        int fields = names().size();
        return fields == 0 ? List.of() : cell.apply(row).full(fields);
    }

    /**
     * Returns its name for programs.
     *
     * @return the name; empty for a column of the page only
     */
    public String name() {
        return name;
    }

    /**
     * Returns its heading.
     *
     * @return the heading; empty for a column of the CSV only
     */
    public String heading() {
        return heading;
    }

    /**
     * Tells whether readers see it.
     *
     * @return false for a column of the CSV only
     */
    public boolean isOnPage() {
        return !heading.isEmpty();
    }

    /**
     * Tells whether it consists of texts.
     *
     * @return false for numbers
     */
    public boolean isText() {
        return kind == Kind.TEXT;
    }

    /**
     * Returns what stands in a row.
     *
     * @param row the row
     * @return the cell
     */
    public Cell cell(T row) {
        return cell.apply(row);
    }
}
