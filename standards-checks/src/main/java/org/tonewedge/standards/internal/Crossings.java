// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Roots;

/** Where a function changes sign: bracketed on a grid, then narrowed down by bisection to the last bit. */
public final class Crossings {

    private static final int CELLS = 512;

    private Crossings() {}

    /**
     * Returns where a function falls below zero. Two changes of sign within a 512th of the range cancel out.
     *
     * @param function a continuous function
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the crossings from 0 or above to below 0, rising
     */
    public static List<Double> falling(DoubleUnaryOperator function, double from, double to) {
        List<Double> found = new ArrayList<>();
        double before = from;
        double valueBefore = function.applyAsDouble(from);
        for (int i = 1; i <= CELLS; i++) {
            double here = from + (to - from) * i / CELLS;
            double value = function.applyAsDouble(here);
            if (valueBefore >= 0 && value < 0) {
                found.add(Roots.boundary(at -> function.applyAsDouble(at) >= 0, before, here));
            }
            before = here;
            valueBefore = value;
        }
        return found;
    }
}
