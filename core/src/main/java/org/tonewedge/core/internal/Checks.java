// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.util.Locale;
import java.util.Objects;

/** Checks that return what they checked; every message gives the name, the rule and the value. */
public final class Checks {

    /** How much of a text a message quotes. */
    private static final int MOST_QUOTED = 80;

    private Checks() {}

    /**
     * Returns a finite value, with negative zero made positive so that equal values are equal records.
     *
     * @param name what the value is, for the message
     * @param value the value
     * @return the value
     * @throws IllegalArgumentException if the value is NaN or infinite
     */
    public static double finite(String name, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " must be a finite number, was " + value);
        }
        return value + 0.0;
    }

    /**
     * Returns a value that lies within two bounds, both allowed.
     *
     * @param name what the value is, for the message
     * @param value the value
     * @param lowest the least value allowed
     * @param highest the greatest value allowed
     * @param remedy what to look for when the value is refused
     * @return the value
     * @throws IllegalArgumentException if the value is outside the bounds or NaN
     */
    public static double within(String name, double value, double lowest, double highest, String remedy) {
        if (!(value >= lowest && value <= highest)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "%s must be %s %s, was %s%s",
                    name,
                    lowest == Double.MIN_VALUE ? "above 0 and at most" : "from " + plain(lowest) + " to",
                    plain(highest),
                    plain(value),
                    remedy.isEmpty() ? "" : ": " + remedy));
        }
        return value + 0.0;
    }

    /**
     * Returns a confidence.
     *
     * @param confidence the confidence
     * @return the confidence
     * @throws IllegalArgumentException if it is not above 0 and below 1
     */
    public static double confidence(double confidence) {
        if (!(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException(
                    "confidence must be above 0 and below 1, was " + confidence + ": give 0.95 for 95 %");
        }
        return confidence;
    }

    /**
     * Returns a finite value greater than zero.
     *
     * @param name what the value is, for the message
     * @param value the value
     * @return the value
     * @throws IllegalArgumentException if the value is zero, negative, NaN or infinite
     */
    public static double positive(String name, double value) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(name + " must be a finite number above 0, was " + value);
        }
        return value;
    }

    /**
     * Returns a text that is not blank, without surrounding white space.
     *
     * @param name what the text is, for the message
     * @param text the text
     * @return the stripped text
     * @throws IllegalArgumentException if the text is blank
     */
    public static String notBlank(String name, String text) {
        String stripped = Objects.requireNonNull(text, name).strip();
        if (stripped.isEmpty()) {
            throw new IllegalArgumentException(name + " must not be blank, was \"" + shortened(text) + '"');
        }
        return stripped;
    }

    /**
     * Returns a label: a text that is not blank, on one line, of characters that can be written and printed.
     *
     * @param name what the label is, for the message
     * @param text the text
     * @return the stripped text
     * @throws IllegalArgumentException if the text is blank or has a control character
     */
    public static String label(String name, String text) {
        String stripped = notBlank(name, text);
        int control = firstControl(stripped);
        if (control < stripped.length()) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "%s must be on one line without control characters, had U+%04X in \"%s\"",
                    name,
                    stripped.codePointAt(control),
                    shortened(stripped)));
        }
        return stripped;
    }

    /** Where the first control character of a text stands; the length of the text if it has none. */
    private static int firstControl(String text) {
        for (int at = 0; at < text.length(); at++) {
            char c = text.charAt(at);
            if (c < ' ' || c > '~') {
                int point = text.codePointAt(at);
                if (isControl(point)) {
                    return at;
                }
                at += Character.charCount(point) - 1;
            }
        }
        return text.length();
    }

    private static boolean isControl(int c) {
        return Character.isISOControl(c)
                || Character.getType(c) == Character.LINE_SEPARATOR
                || Character.getType(c) == Character.PARAGRAPH_SEPARATOR
                || (c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE)
                || (c & 0xFFFE) == 0xFFFE;
    }

    /**
     * Returns a text as a message quotes it: at most 80 characters, control characters made visible.
     *
     * @param text the text
     * @return the text, or its beginning with its length
     */
    public static String shortened(String text) {
        if (text.length() <= MOST_QUOTED && firstControl(text) == text.length()) {
            return text;
        }
        StringBuilder shown = new StringBuilder();
        text.codePoints().limit(MOST_QUOTED).map(c -> isControl(c) ? 0xFFFD : c).forEach(shown::appendCodePoint);
        int length = text.codePointCount(0, text.length());
        return length <= MOST_QUOTED ? shown.toString() : shown + "… (" + length + " characters)";
    }

    private static String plain(double value) {
        return (long) value == value && Math.abs(value) < 1e15 ? Long.toString((long) value) : Double.toString(value);
    }
}
