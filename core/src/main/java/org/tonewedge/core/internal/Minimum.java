// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.util.function.DoubleUnaryOperator;

/**
 * Where a function of one variable is least. A spline's smoothing is searched by a method of its own, which starts from the
 * scores of a grid: each costs a factorisation there.
 */
public final class Minimum {

    private static final double GOLDEN = 0.5 * (Math.sqrt(5) - 1);

    private Minimum() {}

    /**
     * Returns where a function is least, by golden section.
     *
     * @param function falls, then rises; where it has more lows than one, one of them is found
     * @param low the lower end of the bracket
     * @param high the upper end
     * @param tolerance the length of the bracket to stop at, above rounding
     * @return the middle of the last bracket
     */
    public static double between(DoubleUnaryOperator function, double low, double high, double tolerance) {
        double a = low;
        double b = high;
        double left = b - GOLDEN * (b - a);
        double right = a + GOLDEN * (b - a);
        double atLeft = function.applyAsDouble(left);
        double atRight = function.applyAsDouble(right);
        while (b - a > tolerance) {
            if (atLeft > atRight) {
                a = left;
                left = right;
                atLeft = atRight;
                right = a + GOLDEN * (b - a);
                atRight = function.applyAsDouble(right);
            } else {
                b = right;
                right = left;
                atRight = atLeft;
                left = b - GOLDEN * (b - a);
                atLeft = function.applyAsDouble(left);
            }
        }
        return 0.5 * (a + b);
    }
}
