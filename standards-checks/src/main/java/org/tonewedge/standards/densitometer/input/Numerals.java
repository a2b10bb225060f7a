// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;

/** Numbers in the one strict spelling that is accepted as data: digits, a point, an exponent, nothing else. */
final class Numerals {

    private static final int LONGEST = 24;
    private static final Set<String> OVERRANGE = Set.of(
            "OL", "OVL", "OVF", "OFL", "OVER", "OVERRANGE", "OVER-RANGE", "OVERFLOW", "SAT", "HI", "INF", "+INF");

    private Numerals() {}

    /** A finite number such as {@code 0.42}, {@code -.5} or {@code 1e-3}; empty for anything else. */
    static OptionalDouble number(String text) {
        if (!isNumber(text)) {
            return OptionalDouble.empty();
        }
        double value = Double.parseDouble(text);
        return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
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
            return isNumber(text.substring(1));
        }
        return OVERRANGE.contains(text.toUpperCase(Locale.ROOT))
                || (text.length() > 1 && text.chars().allMatch(c -> c == '-' || c == '.') && text.startsWith("--"));
    }

    /** Whether a text is printable ASCII, with tabulators. */
    static boolean isAscii(String text) {
        return text.chars().allMatch(c -> (c >= 0x20 && c < 0x7F) || c == '\t');
    }

    private static boolean isNumber(String text) {
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
