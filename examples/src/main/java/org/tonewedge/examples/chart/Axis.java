// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * A scale with ticks.
 *
 * @param name its name and unit; empty for none
 * @param from the value at its beginning, at the left or below
 * @param to the value at its end; less than {@code from} on an axis that runs backwards
 * @param unit the distance of ticks
 * @param label the text of a tick
 */
public record Axis(String name, double from, double to, double unit, DoubleFunction<String> label) {

    private static final double ROUNDING = 1e-9;

    /**
     * Returns an axis whose ticks have one decimal.
     *
     * @param name its name and unit
     * @param from the value at its beginning
     * @param to the value at its end
     * @param unit the distance of ticks
     * @return the axis
     */
    public static Axis of(String name, double from, double to, double unit) {
        return new Axis(name, from, to, unit, value -> decimals(value, 1));
    }

    /**
     * Returns an axis with round ticks, some five of them.
     *
     * @param name its name and unit
     * @param from the value at its beginning
     * @param to the value at its end
     * @return the axis
     */
    public static Axis round(String name, double from, double to) {
        double rough = Math.abs(to - from) / 5;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double unit = rough / power < 2 ? power * 2 : rough / power < 5 ? power * 5 : power * 10;
        int decimals = (int) Math.max(0, -Math.floor(Math.log10(unit) + ROUNDING));
        return new Axis(name, from, to, unit, value -> decimals(value, decimals));
    }

    /**
     * Returns a number with a true minus sign and a point.
     *
     * @param value the number
     * @param decimals its decimals
     * @return the text
     */
    public static String decimals(double value, int decimals) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
        return rounded.toPlainString().replace('-', '\u2212');
    }

    /** The place of a value between 0 at the beginning and 1 at the end. */
    double place(double value) {
        return (value - from) / (to - from);
    }

    /** The ticks in rising order. */
    List<Double> ticks() {
        double low = Math.min(from, to);
        double high = Math.max(from, to);
        List<Double> ticks = new ArrayList<>();
        long first = (long) Math.ceil(low / unit - ROUNDING);
        for (long i = first; i * unit <= high + ROUNDING * unit; i++) {
            ticks.add(i * unit);
        }
        return ticks;
    }

    /** The widest label of a tick. */
    double widestLabel(double size) {
        return ticks().stream()
                .mapToDouble(tick -> Lettering.width(label.apply(tick), size))
                .max()
                .orElse(0);
    }

    /** Every how many ticks a label stands, so that labels of that extent do not touch. */
    int labelEvery(double extent, double length) {
        double spacing = length * unit / Math.abs(to - from);
        for (int every : new int[] {1, 2, 5}) {
            if (every * spacing >= extent) {
                return every;
            }
        }
        return 10 * (int) Math.max(1, Math.ceil(extent / (10 * spacing)));
    }
}
