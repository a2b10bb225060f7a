// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.util.function.DoubleUnaryOperator;

/** Where a function of one variable is least. */
public final class Minimum {

    private static final double GOLDEN = 0.5 * (Math.sqrt(5) - 1);
    private static final int MOST_STEPS = 100;

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

    /**
     * Returns where a function that is costly to evaluate is least, near a value that is no higher than its neighbours: by
     * parabolas and golden sections.
     *
     * @param function a function of one variable
     * @param at three positions in rising order; the first or the last may be equal to the second
     * @param values the values of the function there, that of the second no higher than the others
     * @param tolerance how exact the position is to be
     * @return the position of the least value found
     * @source R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 5; citation from memory. There a
     *     place higher than the third best is forgotten; here the third is then the last tried.
     */
    public static double around(DoubleUnaryOperator function, double[] at, double[] values, double tolerance) {
        double a = at[0];
        double b = at[2];
        double x = at[1];
        double fx = values[1];
        int next = values[0] < values[2] ? 0 : 2;
        double w = at[next];
        double fw = values[next];
        double v = at[2 - next];
        double fv = values[2 - next];
        double step = b - a;
        double stepBefore = step;
        for (int k = 0; k < MOST_STEPS; k++) {
            double middle = 0.5 * (a + b);
            if (Math.abs(x - middle) <= 2 * tolerance - 0.5 * (b - a)) {
                break;
            }
            double r = (x - w) * (fx - fv);
            double q = (x - v) * (fx - fw);
            double p = (x - v) * q - (x - w) * r;
            q = 2 * (q - r);
            p = q > 0 ? -p : p;
            q = Math.abs(q);
            boolean parabola = Math.abs(stepBefore) > tolerance
                    && Math.abs(p) < Math.abs(0.5 * q * stepBefore)
                    && p > q * (a - x)
                    && p < q * (b - x);
            if (parabola) {
                stepBefore = step;
                step = p / q;
                if (x + step - a < 2 * tolerance || b - x - step < 2 * tolerance) {
                    step = Math.copySign(tolerance, middle - x);
                }
            } else {
                stepBefore = x < middle ? b - x : a - x;
                step = (1 - GOLDEN) * stepBefore;
            }
            double u = x + (Math.abs(step) >= tolerance ? step : Math.copySign(tolerance, step));
            double fu = function.applyAsDouble(u);
            if (fu <= fx) {
                if (u < x) {
                    b = x;
                } else {
                    a = x;
                }
                v = w;
                fv = fw;
                w = x;
                fw = fx;
                x = u;
                fx = fu;
            } else {
                if (u < x) {
                    a = u;
                } else {
                    b = u;
                }
                if (fu <= fw || w == x) {
                    v = w;
                    fv = fw;
                    w = u;
                    fw = fu;
                } else {
                    v = u;
                    fv = fu;
                }
            }
        }
        return x;
    }
}
