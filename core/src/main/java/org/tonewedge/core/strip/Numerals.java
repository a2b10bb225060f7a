// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.tonewedge.core.internal.Checks;

/** Numbers as people write them in tables of readings. */
final class Numerals {

    private static final int MOST_DIGITS = 15;
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
    };

    private Numerals() {}

    /** Compiled when a number is written in such a form: that takes longer than to read a table of plain ones. */
    private static final class Forms {

        static final Pattern CLOCK = Pattern.compile("(\\d{1,4}):([0-5]\\d)");
        static final Pattern BOTH_SPEEDS = Pattern.compile("(?:iso\\s*)?(\\d+(?:[.,]\\d+)?)\\s*/\\s*\\d+\\s*[°º]");
        static final Pattern FRACTION = Pattern.compile("(\\d{1,6})\\s*/\\s*([1-9]\\d{0,6})");
        static final Pattern PARTS = Pattern.compile("([+\u2212-]?)\\s*(?:(\\d+)\\s+)?(\\d)/(\\d)");
        static final Pattern WITH_UNIT = Pattern.compile(
                "([+-]?(?:\\d{1,6}(?:[.,]\\d{1,6})?|[.,]\\d{1,6}))\\s*(?![OoIl]$)[\\p{L}°º][\\p{L} ./·]*");

        private Forms() {}
    }

    /** Text that is not a number, with what to do about it. */
    static final class NotANumber extends IllegalArgumentException {

        private static final long serialVersionUID = 1L;

        private final String remedy;

        private NotANumber(String text, String remedy) {
            super('"' + Checks.shortened(text) + "\" is not a number");
            this.remedy = remedy;
        }

        String remedy() {
            return remedy;
        }
    }

    /** A plain number with its decimal mark. */
    static double number(String text, char decimalMark) {
        double value = digits(text.toCharArray(), text.length(), decimalMark);
        return Double.isNaN(value) ? longer(text, decimalMark) : value;
    }

    /**
     * The number that is written with up to 15 digits, perhaps a sign and a decimal mark, and nothing else, in so many
     * characters; NaN for any other text.
     *
     * <p>Up to 15 digits are a whole number that a double represents exactly, and so is the power of ten. Their
     * quotient is the double nearest to the number, as {@link Double#parseDouble} finds it more slowly.
     *
     * @source W. D. Clinger, How to read floating point numbers accurately, PLDI 1990, the fast path
     */
    static double digits(char[] text, int length, char decimalMark) {
        int start = length > 0 && (text[0] == '-' || text[0] == '+') ? 1 : 0;
        if (length - start > MOST_DIGITS + 1) {
            return Double.NaN;
        }
        long digits = 0;
        int mark = -1;
        for (int i = start; i < length; i++) {
            char c = text[i];
            if (c >= '0' && c <= '9') {
                digits = 10 * digits + (c - '0');
            } else if (mark < 0 && (c == '.' || c == decimalMark)) {
                mark = i;
            } else {
                return Double.NaN;
            }
        }
        int count = length - start - (mark < 0 ? 0 : 1);
        if (count < 1 || count > MOST_DIGITS) {
            return Double.NaN;
        }
        double value = mark < 0 ? digits : digits / POWERS[length - 1 - mark];
        return text[0] == '-' ? -value : value;
    }

    private static double longer(String text, char decimalMark) {
        String plain = decimalMark == ',' && text.indexOf('.') < 0 ? text.replace(',', '.') : text;
        if (isPlain(plain)) {
            try {
                double value = Double.parseDouble(plain);
                if (Double.isInfinite(value)) {
                    throw new IllegalArgumentException('"' + Checks.shortened(text) + "\" is too large a number");
                }
                return value;
            } catch (NumberFormatException e) {
                // told below
            }
        }
        throw new NotANumber(text, remedy(text));
    }

    /** Minutes, as 8.5 or 8:30. */
    static double minutes(String text, char decimalMark) {
        if (text.indexOf(':') < 0) {
            return number(text, decimalMark);
        }
        Matcher clock = Forms.CLOCK.matcher(text);
        return clock.matches()
                ? Integer.parseInt(clock.group(1)) + Integer.parseInt(clock.group(2)) / 60.0
                : number(text, decimalMark);
    }

    /** Seconds, as 0.008 or 1/125. */
    static double seconds(String text, char decimalMark) {
        if (text.indexOf('/') < 0) {
            return number(text, decimalMark);
        }
        Matcher fraction = Forms.FRACTION.matcher(text);
        return fraction.matches()
                ? Double.parseDouble(fraction.group(1)) / Double.parseDouble(fraction.group(2))
                : number(text, decimalMark);
    }

    /** The arithmetic speed, from 100 or 100/21°. */
    static double speed(String text, char decimalMark) {
        if (text.indexOf('/') < 0) {
            return number(text, decimalMark);
        }
        Matcher both = Forms.BOTH_SPEEDS.matcher(text.toLowerCase(Locale.ROOT));
        return number(both.matches() ? both.group(1) : text, decimalMark);
    }

    /** Stops, as -1.67 or -1 2/3. */
    static double stops(String text, char decimalMark) {
        if (text.indexOf('/') < 0) {
            return number(text, decimalMark);
        }
        Matcher parts = Forms.PARTS.matcher(text);
        if (!parts.matches() || parts.group(4).equals("0")) {
            return number(text, decimalMark);
        }
        double whole = parts.group(2) == null ? 0 : Integer.parseInt(parts.group(2));
        double stops = whole + Double.parseDouble(parts.group(3)) / Double.parseDouble(parts.group(4));
        return parts.group(1).isEmpty() || parts.group(1).equals("+") ? stops : -stops;
    }

    private static boolean isPlain(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (!(c >= '0' && c <= '9') && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E') {
                return false;
            }
        }
        return true;
    }

    private static String remedy(String text) {
        if (text.matches("[+-]?[1-9]\\d{0,2},\\d{3}")) {
            return "write decimals with a point and thousands without a separator: " + text.replace(',', '.') + " or "
                    + text.replace(",", "");
        }
        if (text.matches("[+-]?\\d*,\\d+")) {
            return "write decimals with a point: " + text.replace(',', '.');
        }
        if (text.indexOf('\u2212') >= 0 || text.indexOf('\u2013') >= 0) {
            return "write the minus sign as a hyphen: -";
        }
        if (text.startsWith("=")) {
            return "enter the value, not the formula";
        }
        if (text.startsWith("#")) {
            return "this is a spreadsheet's error value; correct the formula and save again";
        }
        Matcher unit = Forms.WITH_UNIT.matcher(text);
        if (unit.matches()) {
            if (text.matches(".*[°º ]\\s*F|\\d{2,3}F")) {
                return "enter degrees Celsius, (F − 32) / 1.8";
            }
            return "leave out the unit if it is that of the column: " + unit.group(1);
        }
        return "enter a number such as 0.42";
    }
}
