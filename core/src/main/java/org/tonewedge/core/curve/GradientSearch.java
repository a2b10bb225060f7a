// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** Searches the averaged gradient of a rising form for its greatest value and for where it falls below a level. */
interface GradientSearch {

    /**
     * Begins a search.
     *
     * @param form the form
     * @param window the width over which the gradient is averaged; 0 for the gradient itself
     * @param from the lower end of the search
     * @param to the upper end
     */
    static GradientSearch of(CurveForm form, double window, double from, double to) {
        boolean hasOneTop = window > 0
                && form.hasOneSteepestPlace()
                && form.gradient(from - window / 2) > 0
                && form.gradient(to + window / 2) > 0;
        return hasOneTop ? new OneTop(form, window, from, to) : new GradientScan(form, window, from, to);
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
