// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Roots;

/** Where a function changes sign: bracketed on a grid, then narrowed down by bisection to the last bit. */
public final class Crossings {

    private static final int NODES = 64;
    private static final int PLACES = 8;
    private static final int CELLS = NODES * PLACES;

    private Crossings() {}

    /**
     * Returns where a function falls below zero, as if it were evaluated at every 512th of the range: two changes of sign
     * within one of them cancel out. Every eighth place is evaluated, and those between where the function comes near zero,
     * measured by its second differences; a dip below zero that is narrower than a 64th of the range may be overlooked.
     *
     * @param function a continuous function
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the crossings from 0 or above to below 0, rising
     */
    public static List<Double> falling(DoubleUnaryOperator function, double from, double to) {
        double[] atNodes = new double[NODES + 1];
        for (int node = 0; node <= NODES; node++) {
            atNodes[node] = function.applyAsDouble(at(node * PLACES, from, to));
        }
        List<Double> found = new ArrayList<>();
        for (int node = 0; node < NODES; node++) {
            double start = atNodes[node];
            double end = atNodes[node + 1];
            boolean mayCross = (start >= 0) != (end >= 0)
                    // Eight times what a parabola with these second differences would need.
                    || !(Math.min(Math.abs(start), Math.abs(end)) > bend(atNodes, node));
            double before = start;
            for (int place = node * PLACES + 1; mayCross && place <= (node + 1) * PLACES; place++) {
                double here = at(place, from, to);
                double value = place == (node + 1) * PLACES ? end : function.applyAsDouble(here);
                if (before >= 0 && value < 0) {
                    found.add(Roots.boundary(x -> function.applyAsDouble(x) >= 0, at(place - 1, from, to), here));
                }
                before = value;
            }
        }
        return found;
    }

    private static double at(int place, double from, double to) {
        return from + (to - from) * place / CELLS;
    }

    /** The greater of the second differences at the ends of a cell between two nodes. */
    private static double bend(double[] atNodes, int node) {
        return Math.max(
                secondDifference(atNodes, Math.max(node, 1)), secondDifference(atNodes, Math.min(node + 1, NODES - 1)));
    }

    private static double secondDifference(double[] atNodes, int node) {
        return Math.abs(atNodes[node - 1] - 2 * atNodes[node] + atNodes[node + 1]);
    }
}
