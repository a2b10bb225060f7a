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
    private static final double EXACT = 1e-14;

    private final CurveForm form;
    private final double window;
    private final double from;
    private final double to;
    private final double[] atPlaces = new double[CELLS + 1];

    OneTop(CurveForm form, double window, double from, double to) {
        this.form = form;
        this.window = window;
        this.from = from;
        this.to = to;
        double[] densities = new double[2 * CELLS + 2];
        for (int place = 0; place <= CELLS; place++) {
            densities[place] = at(place) + window / 2;
            densities[CELLS + 1 + place] = at(place) - window / 2;
        }
        form.densities(densities, densities);
        for (int place = 0; place <= CELLS; place++) {
            atPlaces[place] = (densities[place] - densities[CELLS + 1 + place]) / window;
        }
    }

    @Override
    public GradientSearch ofPart(double otherWindow, double start, double end) {
        return new OneTop(form, otherWindow, start, end);
    }

    private double at(int place) {
        return place == CELLS ? to : from + (to - from) * place / CELLS;
    }

    @Override
    public double gradient(double x) {
        return (form.density(x + window / 2) - form.density(x - window / 2)) / window;
    }

    private double slope(double x) {
        return form.gradient(x + window / 2) - form.gradient(x - window / 2);
    }

    @Override
    public double steepest() {
        int best = 0;
        for (int place = 1; place <= CELLS; place++) {
            best = atPlaces[place] > atPlaces[best] ? place : best;
        }
        double start = at(Math.max(0, best - 1));
        double end = at(Math.min(CELLS, best + 1));
        double rise = slope(start);
        double fall = slope(end);
        // Otherwise the top is at an end, or the gradient is level up to rounding.
        return rise > 0 && fall < 0 ? Roots.crossing(this::slope, start, rise, end, fall, EXACT) : at(best);
    }

    @Override
    public double fallsBelow(double level, double start, int direction) {
        double above = start;
        double atAbove = gradient(start);
        for (int place = direction > 0 ? 0 : CELLS; place >= 0 && place <= CELLS; place += direction) {
            if (direction * (at(place) - above) > 0) {
                if (atPlaces[place] < level) {
                    return Roots.crossing(
                            x -> gradient(x) - level,
                            above,
                            atAbove - level,
                            at(place),
                            atPlaces[place] - level,
                            EXACT);
                }
                above = at(place);
                atAbove = atPlaces[place];
            }
        }
        return Double.NaN;
    }
}
