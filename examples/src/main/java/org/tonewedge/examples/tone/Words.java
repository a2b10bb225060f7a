// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.Locale;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.examples.page.Cell;

/** How figures are written for readers. */
final class Words {

    private Words() {}

    /** A constant of an enum, such as {@code lighter}. */
    static String of(Object constant) {
        return constant.toString().toLowerCase(Locale.ROOT);
    }

    static String twoDecimals(double value) {
        return decimals(2, value);
    }

    static String oneDecimal(double value) {
        return decimals(1, value);
    }

    private static String decimals(int places, double value) {
        return String.format(Locale.ROOT, "%." + places + "f", value).replace('-', '\u2212');
    }

    /** A number with its sign and at most two decimals. */
    static String signed(double value) {
        return Figures.signed(Math.rint(value * 100) / 100);
    }

    static Cell twoDecimalsCell(double value) {
        return Cell.number(value, twoDecimals(value));
    }

    static Cell signedCell(double value) {
        return Cell.number(value, signed(value));
    }

    /** An interval in stops with its standard uncertainty. */
    static Cell stopsCell(Estimate stops) {
        String text = EstimateFormat.withDefaults().format(stops);
        return Cell.estimate(stops, stops.value() > 0 && !text.matches("[0.]+ .*") ? "+" + text : text);
    }
}
