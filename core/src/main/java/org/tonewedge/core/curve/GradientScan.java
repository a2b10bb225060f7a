// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import org.tonewedge.core.internal.Minimum;

/**
 * The search in a gradient of any shape on a grid of 2,048 cells. It looks at every eighth point, and at those between where
 * the second differences say that it may matter. A peak or dip that shows at no eighth point is missed.
 */
final class GradientScan implements GradientSearch {

    private static final int NODES = 256;
    private static final int PLACES = 8;
    private static final int CELLS = NODES * PLACES;
    /** The gradient is level at its greatest value, so its position need not be more exact. */
    private static final double NEAR = 2.5e-9;

    private final CurveForm form;
    private final double window;
    private final double from;
    private final double to;
    private final double[] atNodes = new double[NODES + 1];

    /**
     * Looks at the nodes, for which it asks the form at once.
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
        if (window == 0) {
            form.gradients(nodes(0), atNodes);
            return;
        }
        double[] before = nodes(-window / 2);
        form.densities(nodes(window / 2), atNodes);
        form.densities(before, before);
        for (int node = 0; node <= NODES; node++) {
            atNodes[node] = (atNodes[node] - before[node]) / window;
        }
    }

    private double[] nodes(double aside) {
        double[] nodes = new double[NODES + 1];
        Arrays.setAll(nodes, node -> at(node * PLACES) + aside);
        return nodes;
    }

    private double at(int place) {
        return place == CELLS ? to : from + (to - from) * place / CELLS;
    }

    @Override
    public GradientSearch ofPart(double otherWindow, double start, double end) {
        return new GradientScan(form, otherWindow, start, end);
    }

    @Override
    public double gradient(double x) {
        return GradientSearch.averaged(form, window, x);
    }

    /**
     * How far the gradient may leave the range of its values at a node and the next: eight times what a parabola with the
     * second differences there would need.
     */
    private double bend(int node) {
        return Math.max(
                Math.abs(secondDifference(Math.max(1, node))),
                Math.abs(secondDifference(Math.min(NODES - 1, node + 1))));
    }

    private double secondDifference(int node) {
        return atNodes[node - 1] - 2 * atNodes[node] + atNodes[node + 1];
    }

    @Override
    public double steepest() {
        int best = 0;
        for (int node = 1; node <= NODES; node++) {
            best = atNodes[node] > atNodes[best] ? node : best;
        }
        double greatest = atNodes[best];
        int steepest = best * PLACES;
        for (int node = 0; node < NODES; node++) {
            if (Math.max(atNodes[node], atNodes[node + 1]) + bend(node) > greatest) {
                for (int place = node * PLACES + 1; place < (node + 1) * PLACES; place++) {
                    double here = gradient(at(place));
                    if (here > greatest) {
                        greatest = here;
                        steepest = place;
                    }
                }
            }
        }
        double[] three = {at(Math.max(0, steepest - 1)), at(steepest), at(Math.min(CELLS, steepest + 1))};
        double[] down = Arrays.stream(three).map(x -> -gradient(x)).toArray();
        return Minimum.around(x -> -gradient(x), three, down, NEAR);
    }

    @Override
    public double fallsBelow(double level, double start, int direction) {
        double above = start;
        for (int i = 0; i < NODES; i++) {
            int node = direction > 0 ? i : NODES - 1 - i;
            boolean staysAbove = Math.min(atNodes[node], atNodes[node + 1]) - bend(node) >= level;
            for (int j = staysAbove ? PLACES : 1; j <= PLACES; j++) {
                double next = at(node * PLACES + (direction > 0 ? j : PLACES - j));
                if (direction * (next - above) > 0) {
                    if (!staysAbove && gradient(next) < level) {
                        return GradientSearch.crossing(this, level, above, gradient(above), next, gradient(next));
                    }
                    above = next;
                }
            }
        }
        return Double.NaN;
    }
}
