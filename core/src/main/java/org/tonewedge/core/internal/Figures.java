// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.Locale;

/** Figures as a practitioner writes them: two decimals at least, four at most, a true minus sign, a point. */
public final class Figures {

    private static final double THIRD_STOP_TOLERANCE = 0.02;
    /** Four decimals. */
    private static final int SCALE = 10_000;
    /** Up to here the last bit of a scaled figure is far below {@link #CLEAR_OF_TIES}. */
    private static final double LARGEST_SCALED = 1e9;
    /** So near a whole number a figure is rounded to it, whatever its last bits are. */
    private static final double CLEAR_OF_TIES = 0.499_999;

    private Figures() {}

    /** Made for the few figures that need them: the symbols of a locale are slow to load. */
    private static final class Formats {

        static final DecimalFormat PLAIN = pattern("0.00##");
        static final DecimalFormat SIGNED = pattern("+0.00##;\u22120.00##");

        private Formats() {}

        private static DecimalFormat pattern(String pattern) {
            DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(Locale.ROOT);
            symbols.setMinusSign('\u2212');
            return new DecimalFormat(pattern, symbols);
        }
    }

    /**
     * Returns a number of things in words, such as {@code 1 strip} or {@code 3 strips}.
     *
     * @param count how many
     * @param one the word for one of them, whose plural adds an s
     * @return the text
     */
    public static String counted(long count, String one) {
        return count + " " + one + (count == 1 ? "" : "s");
    }

    /**
     * Returns a figure with two to four decimals, for example {@code 0.42} or {@code −2.1549}.
     *
     * @param value the figure
     * @return the text
     */
    public static String plain(double value) {
        return format(false, value);
    }

    /**
     * Returns a time as it is marked on a shutter: 1/n s if it is that to 1 in 1,000, else seconds.
     *
     * @param seconds the time
     * @return for example {@code 1/250 s}, {@code 0.40 s} or {@code 2 s}
     */
    public static String exposureTime(double seconds) {
        double parts = Math.rint(1 / seconds);
        boolean isFraction = parts > 1 && Math.abs(parts * seconds - 1) < 1e-3;
        return (isFraction ? "1/" + Math.round(parts) : wholeOrPlain(seconds)) + " s";
    }

    /**
     * Returns a figure without decimals if it is whole, else as {@link #plain}.
     *
     * @param value the figure
     * @return the text
     */
    public static String wholeOrPlain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : plain(value);
    }

    /**
     * Returns a figure with its sign, for example {@code +0.30}.
     *
     * @param value the figure
     * @return the text
     */
    public static String signed(double value) {
        return format(true, value);
    }

    /**
     * Returns a number of stops with its sign, in thirds where it is one, for example {@code +2/3 stop},
     * {@code −1 1/3 stops} or {@code +0.45 stop}.
     *
     * @param stops the number of stops
     * @return the text
     */
    public static String stops(double stops) {
        long thirds = Math.round(stops * 3);
        if (Math.abs(stops * 3 - thirds) > 3 * THIRD_STOP_TOLERANCE) {
            return signed(Math.rint(stops * 100) / 100) + unit(Math.abs(stops));
        }
        if (thirds == 0) {
            return "0 stop";
        }
        long whole = Math.abs(thirds) / 3;
        long part = Math.abs(thirds) % 3;
        String sign = thirds < 0 ? "\u2212" : "+";
        String number = part == 0 ? Long.toString(whole) : (whole == 0 ? "" : whole + " ") + part + "/3";
        return sign + number + unit(Math.abs(thirds) / 3.0);
    }

    private static String unit(double size) {
        return size > 1.0 + 1e-9 ? " stops" : " stop";
    }

    private static String format(boolean signed, double value) {
        double scaled = Math.abs(value) * SCALE;
        double whole = Math.rint(scaled);
        if (scaled < LARGEST_SCALED && Math.abs(scaled - whole) < CLEAR_OF_TIES) {
            return digits(signed, value < 0, (long) whole);
        }
        DecimalFormat pattern = signed ? Formats.SIGNED : Formats.PLAIN;
        // A format is not thread safe, and a copy is far cheaper than a new one.
        String text = ((DecimalFormat) pattern.clone()).format(value);
        return text.equals("\u22120.00") || text.equals("+0.00") ? "0.00" : text;
    }

    /** What the patterns give, at a tenth of the time: messages and evidence contain figures by the thousand. */
    private static String digits(boolean signed, boolean negative, long tenThousandths) {
        if (tenThousandths == 0) {
            return "0.00";
        }
        StringBuilder text = new StringBuilder(12);
        if (negative || signed) {
            text.append(negative ? '\u2212' : '+');
        }
        long fraction = tenThousandths % SCALE;
        text.append(tenThousandths / SCALE)
                .append('.')
                .append((char) ('0' + fraction / 1000))
                .append((char) ('0' + fraction / 100 % 10));
        if (fraction % 100 != 0) {
            text.append((char) ('0' + fraction / 10 % 10));
        }
        if (fraction % 10 != 0) {
            text.append((char) ('0' + fraction % 10));
        }
        return text.toString();
    }
}
