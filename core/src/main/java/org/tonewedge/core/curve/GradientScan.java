// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import org.tonewedge.core.internal.Minimum;

/**
 * Searches the averaged gradient of a rising form for its greatest value and for where it falls below a level, as if at
 * every point of a grid of 2,048 cells. It evaluates every 32nd point, then every eighth and those between only where the
 * curvature of the gradient says that they may matter.
 */
final class GradientScan {

    private static final int NODES = 256;
    /** A first look takes every fourth node. */
    private static final int STRIDE = 4;

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
    /** The gradients at the nodes; NaN where none was needed yet. */
    private final double[] atNodes = new double[NODES + 1];

    /**
     * Begins a scan.
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
        Arrays.fill(atNodes, Double.NaN);
    }

    private double atNode(int node) {
        if (Double.isNaN(atNodes[node])) {
            atNodes[node] = gradient(at(node * PLACES));
        }
        return atNodes[node];
    }

    /**
     * How far the gradient may leave the range of its values at both ends of a cell: eight times what a parabola with the
     * second differences there would need.
     */
    private double bend(int node, int stride) {
        return Math.max(
                secondDifference(Math.max(node, stride), stride),
                secondDifference(Math.min(node + stride, NODES - stride), stride));
    }

    private double secondDifference(int node, int stride) {
        return Math.abs(atNode(node - stride) - 2 * atNode(node) + atNode(node + stride));
    }

    /** Whether the gradient may be above a value between two nodes. */
    private boolean mayExceed(double value, int node, int stride) {
        return Math.max(atNode(node), atNode(node + stride)) + bend(node, stride) > value;
    }

    /** Whether the gradient is nowhere below a level between two nodes. */
    private boolean staysAbove(double level, int node, int stride) {
        return Math.min(atNode(node), atNode(node + stride)) - bend(node, stride) >= level;
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
        for (int node = STRIDE; node <= NODES; node += STRIDE) {
            best = atNode(node) > atNode(best) ? node : best;
        }
        double greatest = atNode(best);
        best *= PLACES;
        for (int node = 0; node < NODES; node++) {
            if (node % STRIDE == 0 && !mayExceed(greatest, node, STRIDE)) {
                node += STRIDE - 1;
            } else if (mayExceed(greatest, node, 1)) {
                for (int place = node * PLACES + 1; place <= (node + 1) * PLACES; place++) {
                    double here = place % PLACES == 0 ? atNode(place / PLACES) : gradient(at(place));
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
            int wide = cell - cell % STRIDE;
            double wideStart = direction > 0 ? at(wide * PLACES) : at((wide + STRIDE) * PLACES);
            if (above == wideStart && staysAbove(level, wide, STRIDE)) {
                above = direction > 0 ? at((wide + STRIDE) * PLACES) : at(wide * PLACES);
                continue;
            }
            boolean wholeCell = above == (direction > 0 ? at(cell * PLACES) : at((cell + 1) * PLACES));
            if (wholeCell && staysAbove(level, cell, 1)) {
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
