// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Color;

/** The parts of SVG that are text: numbers, colours, escaped characters. No locale enters. */
final class SvgText {

    private SvgText() {}

    /** A number with at most two decimals. */
    static String number(double value) {
        long hundredths = Math.round(value * 100);
        StringBuilder text = new StringBuilder(8);
        if (hundredths < 0) {
            text.append('-');
            hundredths = -hundredths;
        }
        text.append(hundredths / 100);
        int rest = (int) (hundredths % 100);
        if (rest != 0) {
            text.append('.').append(rest / 10);
            if (rest % 10 != 0) {
                text.append(rest % 10);
            }
        }
        return text.toString();
    }

    static String colour(Color colour) {
        return String.format((java.util.Locale) null, "#%06x", colour.getRGB() & 0xffffff);
    }

    /** A text for element content or a quoted attribute; characters that XML does not have are shown as U+FFFD. */
    static String escape(String text) {
        StringBuilder escaped = new StringBuilder(text.length() + 8);
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> escaped.append("&amp;");
                case '<' -> escaped.append("&lt;");
                case '>' -> escaped.append("&gt;");
                case '"' -> escaped.append("&quot;");
                default -> escaped.appendCodePoint(isXml(c) ? c : '\ufffd');
            }
        });
        return escaped.toString();
    }

    private static boolean isXml(int c) {
        return c == '\t'
                || c == '\n'
                || c == '\r'
                || (c >= 0x20 && c <= 0xd7ff)
                || (c >= 0xe000 && c <= 0xfffd)
                || c >= 0x10000;
    }
}
