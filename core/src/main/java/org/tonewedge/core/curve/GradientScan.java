// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import org.tonewedge.core.internal.Minimum;

/**
 * Searches the averaged gradient of a rising form for its greatest value and for where it falls below a level, as if at
 * every point of a grid of 2,048 cells. It evaluates every eighth point, and those between only where the curvature of
 * the gradient says that they may matter.
 */
final class GradientScan {

    private static final int NODES = 256;
    private static final int PLACES = 8;
    private static final int CELLS = NODES * PLACES;
    private static final int MOST_STEPS = 100;
    /** The gradient is level at its greatest value, so its position need not be more exact. */
    private static final double NEAR = 1e-8;

    private static final double EXACT = 1e-14;

    private final CurveForm form;
    private final double window;
    private final double from;
    private final double to;
    private final double[] atNodes = new double[NODES + 1];
    /** How far the gradient may leave the range of its values at both ends, in each cell between two nodes. */
    private final double[] bends = new double[NODES];

    /**
     * Evaluates the nodes.
     *
     * @param form the form
     * @param window the width over which the gradient is averaged; 0 for the gradient itself
     * @param from the lower end of the scan
     * @param to the upper end
     */
    GradientScan(CurveForm form, double window, double from, double to) {
        this.form = form;
        this.window = window;
        this.from = from;
        this.to = to;
        double[] x = new double[NODES + 1];
        for (int i = 0; i <= NODES; i++) {
            x[i] = at(i * PLACES) + window / 2;
        }
        if (window == 0) {
            form.gradients(x, atNodes);
        } else {
            double[] below = new double[NODES + 1];
            for (int i = 0; i <= NODES; i++) {
                below[i] = at(i * PLACES) - window / 2;
            }
            form.densities(x, atNodes);
            form.densities(below, below);
            for (int i = 0; i <= NODES; i++) {
                atNodes[i] = (atNodes[i] - below[i]) / window;
            }
        }
        for (int i = 0; i < NODES; i++) {
            // Eight times what a parabola with these second differences would need.
            bends[i] = Math.max(secondDifference(Math.max(i, 1)), secondDifference(Math.min(i + 1, NODES - 1)));
        }
    }

    private double secondDifference(int node) {
        return Math.abs(atNodes[node - 1] - 2 * atNodes[node] + atNodes[node + 1]);
    }

    private double at(int place) {
        return place == CELLS ? to : from + (to - from) * place / CELLS;
    }

    double gradient(double x) {
        return window == 0 ? form.gradient(x) : (form.density(x + window / 2) - form.density(x - window / 2)) / window;
    }

    /** The position of the greatest gradient. */
    double steepest() {
        int best = 0;
        for (int node = 1; node <= NODES; node++) {
            best = atNodes[node] > atNodes[best] ? node : best;
        }
        double greatest = atNodes[best];
        best *= PLACES;
        for (int node = 0; node < NODES; node++) {
            if (Math.max(atNodes[node], atNodes[node + 1]) + bends[node] > greatest) {
                for (int place = node * PLACES + 1; place < (node + 1) * PLACES; place++) {
                    double here = gradient(at(place));
                    if (here > greatest) {
                        greatest = here;
                        best = place;
                    }
                }
            }
        }
        double refined =
                Minimum.between(x -> -gradient(x), at(Math.max(0, best - 1)), at(Math.min(CELLS, best + 1)), NEAR);
        return gradient(refined) > greatest ? refined : at(best);
    }

    /** The first position from a start, in one direction, where the gradient is below a level; NaN if there is none. */
    double fallsBelow(double level, double start, int direction) {
        double end = direction > 0 ? to : from;
        double step = direction * (to - from) / CELLS;
        double above = start;
        while (above != end) {
            int cell = cellBeyond(above, direction);
            double cellEnd = direction > 0 ? at((cell + 1) * PLACES) : at(cell * PLACES);
            boolean wholeCell = above == (direction > 0 ? at(cell * PLACES) : at((cell + 1) * PLACES));
            if (wholeCell && Math.min(atNodes[cell], atNodes[cell + 1]) - bends[cell] >= level) {
                above = cellEnd;
                continue;
            }
            double next = Math.abs(cellEnd - above) <= Math.abs(step) ? cellEnd : above + step;
            if (gradient(next) < level) {
                return crossing(level, above, next);
            }
            above = next;
        }
        return Double.NaN;
    }

    /** The cell between two nodes that contains a position, or begins there in the given direction. */
    private int cellBeyond(double x, int direction) {
        int cell = (int) Math.max(0, Math.min(NODES - 1, Math.floor((x - from) / (to - from) * NODES)));
        if (direction > 0) {
            return cell < NODES - 1 && x >= at((cell + 1) * PLACES) ? cell + 1 : cell;
        }
        return cell > 0 && x <= at(cell * PLACES) ? cell - 1 : cell;
    }

    /**
     * The position between two others where the gradient crosses a level: by secants, with a bisection every third
     * time.
     */
    private double crossing(double level, double notBelow, double below) {
        double a = notBelow;
        double b = below;
        double atA = gradient(a) - level;
        double atB = gradient(b) - level;
        for (int i = 1; i < MOST_STEPS && Math.abs(b - a) > EXACT; i++) {
            double secant = b - atB * (b - a) / (atB - atA);
            boolean inside = (secant - a) * (secant - b) < 0;
            double middle = i % 3 != 0 && inside ? secant : 0.5 * (a + b);
            double here = gradient(middle) - level;
            if (here < 0) {
                b = middle;
                atB = here;
            } else {
                a = middle;
                atA = here;
            }
        }
        return 0.5 * (a + b);
    }
}
