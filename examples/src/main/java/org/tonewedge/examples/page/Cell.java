// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.quantity.Estimate;

/**
 * What stands in one field of a table: in full for programs, written out for readers, and where it is empty the reason.
 *
 * <p>Immutable and thread safe.
 */
public final class Cell {

    private static final String NONE = "\u2013";

    private final List<String> full;
    private final String shown;
    private final String sorted;
    private final String style;
    private final String reason;

    private Cell(List<String> full, String shown, String sorted, String style, String reason) {
        this.full = full;
        this.shown = shown;
        this.sorted = sorted;
        this.style = style;
        this.reason = reason;
    }

    /**
     * Returns a text that is the same for programs and readers.
     *
     * @param text the text
     * @return the cell
     */
    public static Cell text(String text) {
        return text(text, text);
    }

    /**
     * Returns a text.
     *
     * @param full what programs get
     * @param shown what readers see
     * @return the cell
     */
    public static Cell text(String full, String shown) {
        return new Cell(List.of(disarmed(full)), shown, shown, "", "");
    }

    /**
     * A label that a spreadsheet would run as a formula gets an apostrophe before it (OWASP, CSV injection); numbers and
     * fractions, such as −1 1/3 in the label of a frame, stay.
     */
    private static String disarmed(String text) {
        boolean formula = text.matches("(?s)[=+\\-@\\t\\r].*")
                && !text.matches("[+-]?\\d+(\\.\\d+)?([eE][+-]?\\d+)?|[+-](\\d+ )?\\d+/\\d+");
        return formula ? "'" + text : text;
    }

    /**
     * Returns a number.
     *
     * @param value the number; programs get it in full precision
     * @param shown what readers see
     * @return the cell
     */
    public static Cell number(double value, String shown) {
        return new Cell(List.of(full(value)), shown, full(value), "", "");
    }

    /**
     * Returns a number with its standard uncertainty and with the half-width of its 95 % interval, which counts how well the
     * standard uncertainty itself is known. Programs have a column for each.
     *
     * @param estimate the number; programs get it in full precision
     * @param shown what readers see
     * @return the cell
     */
    public static Cell estimate(Estimate estimate, String shown) {
        String value = full(estimate.value());
        double half = estimate.interval(0.95).upper() - estimate.value();
        return new Cell(List.of(value, full(estimate.standardUncertainty()), full(half)), shown, value, "", "");
    }

    /**
     * Returns an empty cell with its reason.
     *
     * @param reason why nothing is there, and what to do
     * @return the cell
     */
    public static Cell missing(String reason) {
        return new Cell(List.of(), NONE, "", "none", Objects.requireNonNull(reason));
    }

    /**
     * Returns an empty cell that needs no reason, such as that of a label which was not given.
     *
     * @return the cell
     */
    public static Cell empty() {
        return new Cell(List.of(), "", "", "", "");
    }

    /**
     * Returns a copy that sorts by a number.
     *
     * @param by the number
     * @return the copy
     */
    public Cell sortedBy(double by) {
        return new Cell(full, shown, full(by), style, reason);
    }

    /**
     * Returns a copy with a style of its own.
     *
     * @param name a class of the style sheet
     * @return the copy
     */
    public Cell styled(String name) {
        return new Cell(full, shown, sorted, name, reason);
    }

    /**
     * Returns what programs get.
     *
     * @param fields how many fields the column has for them
     * @return the fields, empty where nothing is there, such as an uncertainty that is not known
     */
    List<String> full(int fields) {
        List<String> padded = new ArrayList<>(full);
        padded.addAll(Collections.nCopies(fields - full.size(), ""));
        return padded;
    }

    /**
     * Returns what readers see.
     *
     * @return the text; a dash where something is missing
     */
    public String shown() {
        return shown;
    }

    /**
     * Returns what the cell sorts by.
     *
     * @return a text or a number in full precision; empty where nothing is there
     */
    public String sorted() {
        return sorted;
    }

    /**
     * Returns the style of the cell.
     *
     * @return a class of the style sheet; empty for the usual one
     */
    public String style() {
        return style;
    }

    /**
     * Returns why the cell is empty.
     *
     * @return the reason; nothing if something is there or no reason is needed
     */
    public Optional<String> reason() {
        return reason.isEmpty() ? Optional.empty() : Optional.of(reason);
    }

    /** A number in full precision; a negative zero loses its sign. */
    private static String full(double value) {
        return Double.toString(value + 0.0);
    }
}
