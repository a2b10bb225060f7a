// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;

/** Numbers in the one strict spelling that is accepted as data: digits, a point, an exponent, nothing else. */
final class Numerals {

    private static final int LONGEST = 24;
    private static final int MOST_DIGITS = 15;
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
    };
    private static final Set<String> OVERRANGE = Set.of(
            "OL", "OVL", "OVF", "OFL", "OVER", "OVERRANGE", "OVER-RANGE", "OVERFLOW", "SAT", "HI", "INF", "+INF");

    private Numerals() {}

    /** A finite number such as {@code 0.42}, {@code -.5} or {@code 1e-3}; empty for anything else. */
    static OptionalDouble number(String text) {
        double value = value(text);
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    /** Whether a text is a finite number. */
    static boolean isNumber(String text) {
        return !Double.isNaN(value(text));
    }

    /**
     * The value of a finite number; NaN for anything else. Digits with at most one point are a quotient of two numbers
     * that are exact, whose division rounds as reading the decimals would.
     */
    private static double value(String text) {
        int length = text.length();
        int start = length > 0 && (text.charAt(0) == '-' || text.charAt(0) == '+') ? 1 : 0;
        long digits = 0; // of more digits than count, whatever they overflow to
        int point = -1;
        for (int i = start; i < length; i++) {
            char c = text.charAt(i);
            if (c >= '0' && c <= '9') {
                digits = 10 * digits + (c - '0');
            } else if (c == '.' && point < 0) {
                point = i;
            } else {
                return longer(text);
            }
        }
        int count = length - start - (point < 0 ? 0 : 1);
        // A point needs a digit after it.
        if (count < 1 || count > MOST_DIGITS || point == length - 1) {
            return longer(text);
        }
        double value = point < 0 ? digits : digits / POWERS[length - 1 - point];
        return text.charAt(0) == '-' ? -value : value;
    }

    private static double longer(String text) {
        if (!isSpelledAsNumber(text)) {
            return Double.NaN;
        }
        double value = Double.parseDouble(text);
        return Double.isFinite(value) ? value : Double.NaN;
    }

    /** A whole number of up to nine digits without a sign. */
    static OptionalInt wholeNumber(String text) {
        if (text.isEmpty() || text.length() > 9 || digitsFrom(text, 0) != text.length()) {
            return OptionalInt.empty();
        }
        return OptionalInt.of(Integer.parseInt(text));
    }

    /** The number of decimals of a number's text. */
    static int decimals(String number) {
        int point = number.indexOf('.');
        return point < 0 ? 0 : digitsFrom(number, point + 1) - point - 1;
    }

    static boolean isOverrange(String text) {
        if (text.length() > 1 && text.charAt(0) == '>') {
            return isSpelledAsNumber(text.substring(1));
        }
        return OVERRANGE.contains(text.toUpperCase(Locale.ROOT))
                || (text.length() > 1 && text.chars().allMatch(c -> c == '-' || c == '.') && text.startsWith("--"));
    }

    /** Whether a text is printable ASCII, with tabulators. */
    static boolean isAscii(String text) {
        return text.chars().allMatch(c -> (c >= 0x20 && c < 0x7F) || c == '\t');
    }

    private static boolean isSpelledAsNumber(String text) {
        int length = text.length();
        if (length == 0 || length > LONGEST) {
            return false;
        }
        int start = text.charAt(0) == '-' || text.charAt(0) == '+' ? 1 : 0;
        int end = digitsFrom(text, start);
        boolean digits = end > start;
        if (end < length && text.charAt(end) == '.') {
            int decimals = digitsFrom(text, end + 1);
            if (decimals == end + 1) {
                return false;
            }
            digits = true;
            end = decimals;
        }
        if (digits && end < length && (text.charAt(end) == 'e' || text.charAt(end) == 'E')) {
            int exponent = end + 1;
            if (exponent < length && (text.charAt(exponent) == '-' || text.charAt(exponent) == '+')) {
                exponent++;
            }
            end = digitsFrom(text, exponent);
            digits = end > exponent;
        }
        return digits && end == length;
    }

    private static int digitsFrom(String text, int start) {
        int end = start;
        while (end < text.length() && text.charAt(end) >= '0' && text.charAt(end) <= '9') {
            end++;
        }
        return end;
    }
}
