// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

/** The kinds of line in a densitometer's log. Every line is counted under one kind. */
public enum LineKind {

    /** A complete reading; the only kind whose values are used. */
    READING("reading", "readings"),

    /** A header row that names the columns. */
    HEADER("header row", "header rows"),

    /** Nothing but white space. */
    BLANK("blank line", "blank lines"),

    /** A remark, begun with {@code #} or {@code //}. */
    COMMENT("comment", "comments"),

    /** Text without any of the values expected, such as a boot message. */
    MESSAGE("message", "messages"),

    /** A reading beyond the instrument's range, by its own marker ({@code OL}, {@code OVER}, {@code ----}, {@code >4.0}). */
    OVERRANGE("overrange marker", "overrange markers"),

    /** A reading that lacks a part: fewer values or decimals than the layout states, or a last line without an end. */
    INCOMPLETE_LINE("incomplete line", "incomplete lines"),

    /** A value that is not written as a number, or surplus values. */
    UNREADABLE("unreadable value", "unreadable values"),

    /** Bytes that are not printable ASCII. */
    NOT_ASCII("line with bytes that are not ASCII text", "lines with bytes that are not ASCII text"),

    /** A number that the quantity cannot have, such as a step 0 or a temperature of 500 °C. */
    OUT_OF_DOMAIN("impossible value", "impossible values"),

    /** A complete reading with a density outside −0.2…10, such as faulty arithmetic produces. */
    IMPLAUSIBLE("density outside −0.2…10", "densities outside −0.2…10"),

    /** One value stated twice in one line. */
    CONTRADICTORY("contradictory line", "contradictory lines"),

    /** A line longer than {@value DensitometerLogReader#LONGEST_LINE} bytes. */
    TOO_LONG("overlong line", "overlong lines");

    private final String one;
    private final String several;

    LineKind(String one, String several) {
        this.one = one;
        this.several = several;
    }

    /**
     * Tells whether a line of this kind may be a reading that was damaged in transmission.
     *
     * @return true for incomplete lines, unreadable, implausible, impossible and contradictory values, foreign bytes and overlong lines
     */
    public boolean mayHideReading() {
        return switch (this) {
            case INCOMPLETE_LINE, UNREADABLE, NOT_ASCII, OUT_OF_DOMAIN, IMPLAUSIBLE, CONTRADICTORY, TOO_LONG -> true;
            case READING, HEADER, BLANK, COMMENT, MESSAGE, OVERRANGE -> false;
        };
    }

    /**
     * Returns the kind in words.
     *
     * @return for example {@code incomplete line}
     */
    public String description() {
        return one;
    }

    /** A number of lines in words, such as 2 incomplete lines. */
    String counted(long count) {
        return count + " " + (count == 1 ? one : several);
    }
}
