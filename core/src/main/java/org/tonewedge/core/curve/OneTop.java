// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import org.tonewedge.core.internal.Roots;

/**
 * The search in a gradient that rises to one top and falls from there. So does its average over any window: its derivative is
 * the difference of the gradients at both ends of the window, which is above 0 before the window meets the top, below 0 after
 * it, and falls between. A few places therefore bracket the top and every fall, and no other place needs a look.
 */
final class OneTop implements GradientSearch {

    private static final int CELLS = 16;

    private final CurveForm form;
    private final double window;
    private final double[] places = new double[CELLS + 1];
    private final double[] gradients = new double[CELLS + 1];

    /**
     * Whether the places lie no farther apart than the window. Otherwise the top of a steep form may lie between two of them,
     * and at all of them the density is level to its last digit.
     */
    static boolean shows(double window, double from, double to) {
        return CELLS * window >= to - from;
    }

    OneTop(CurveForm form, double window, double from, double to) {
        this.form = form;
        this.window = window;
        double[] densities = new double[2 * CELLS + 2];
        for (int i = 0; i <= CELLS; i++) {
            places[i] = i == CELLS ? to : from + (to - from) * i / CELLS;
            densities[i] = places[i] + window / 2;
            densities[CELLS + 1 + i] = places[i] - window / 2;
        }
        form.densities(densities, densities);
        for (int i = 0; i <= CELLS; i++) {
            gradients[i] = (densities[i] - densities[CELLS + 1 + i]) / window;
        }
    }

    @Override
    public GradientSearch ofPart(double otherWindow, double start, double end) {
        return new OneTop(form, otherWindow, start, end);
    }

    @Override
    public double gradient(double x) {
        return GradientSearch.averaged(form, window, x);
    }

    private double slope(double x) {
        return form.gradient(x + window / 2) - form.gradient(x - window / 2);
    }

    @Override
    public double steepest() {
        int best = 0;
        for (int i = 1; i <= CELLS; i++) {
            best = gradients[i] > gradients[best] ? i : best;
        }
        double start = places[Math.max(0, best - 1)];
        double end = places[Math.min(CELLS, best + 1)];
        double rise = slope(start);
        double fall = slope(end);
        // Otherwise the top is at an end, or the gradient is level up to rounding.
        return rise > 0 && fall < 0 ? Roots.crossing(this::slope, start, rise, end, fall, EXACT) : places[best];
    }

    @Override
    public double fallsBelow(double level, double start, int direction) {
        return GradientSearch.firstFall(this, places, gradients, level, start, direction);
    }
}
