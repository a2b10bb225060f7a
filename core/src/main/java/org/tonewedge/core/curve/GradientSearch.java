// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Optional;
import org.tonewedge.core.internal.Roots;

/** Searches the averaged gradient of a rising form for its greatest value and for where it falls below a level. */
interface GradientSearch {

    /** How near a crossing is found. */
    double EXACT = 1e-14;

    /**
     * Begins a search.
     *
     * @param form the form
     * @param window the width over which the gradient is averaged; 0 for the gradient itself
     * @param from the lower end of the search
     * @param to the upper end
     */
    static GradientSearch of(CurveForm form, double window, double from, double to) {
        Optional<double[]> joints = CubicExtremes.joints(form);
        if (joints.isPresent()) {
            return new CubicExtremes(form, joints.get(), window, from, to);
        }
        boolean hasOneTop = form.hasOneSteepestPlace()
                && OneTop.shows(window, from, to)
                && form.gradient(from - window / 2) > 0
                && form.gradient(to + window / 2) > 0;
        return hasOneTop ? new OneTop(form, window, from, to) : new GradientScan(form, window, from, to);
    }

    /** The gradient of a form about a position, averaged over a window; without a window the gradient there. */
    static double averaged(CurveForm form, double window, double x) {
        return window == 0 ? form.gradient(x) : (form.density(x + window / 2) - form.density(x - window / 2)) / window;
    }

    /** The first fall below a level, if the gradient has no extreme but at places that rise. */
    static double firstFall(
            GradientSearch search, double[] places, double[] gradients, double level, double start, int direction) {
        double above = start;
        double atAbove = search.gradient(start);
        for (int i = direction > 0 ? 0 : places.length - 1; i >= 0 && i < places.length; i += direction) {
            if (direction * (places[i] - above) > 0) {
                if (gradients[i] < level) {
                    return crossing(search, level, above, atAbove, places[i], gradients[i]);
                }
                above = places[i];
                atAbove = gradients[i];
            }
        }
        return Double.NaN;
    }

    /** The position between two others where the gradient crosses a level. */
    static double crossing(
            GradientSearch search, double level, double notBelow, double atNotBelow, double below, double atBelow) {
        return Roots.crossing(
                x -> search.gradient(x) - level, notBelow, atNotBelow - level, below, atBelow - level, EXACT);
    }

    /** A search over a part of the same form, with another window. */
    GradientSearch ofPart(double otherWindow, double start, double end);

    /** The averaged gradient about a position. */
    double gradient(double x);

    /** The position of the greatest gradient. */
    double steepest();

    /** The first position from a start, in one direction, where the gradient is below a level; NaN if there is none. */
    double fallsBelow(double level, double start, int direction);
}
