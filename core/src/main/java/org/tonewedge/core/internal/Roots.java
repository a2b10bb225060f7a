// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.util.function.DoublePredicate;
import java.util.function.DoubleUnaryOperator;

/** Where a function crosses a level, or a condition ceases to hold: the one place that narrows a bracket down. */
public final class Roots {

    private static final int MOST_ITERATIONS = 200;
    /** Newton's method takes fewer; from here on the bracket is halved every other time. */
    private static final int PATIENCE = 20;

    private Roots() {}

    /**
     * Returns the root of a rising function by Newton's method, kept inside a shrinking bracket, to the last bits.
     *
     * @param function rises from low to high, below 0 or 0 at low and above 0 or 0 at high
     * @param slope its derivative
     * @param low the lower end of the bracket
     * @param high the upper end
     * @param start where to begin, in the bracket
     * @return the root
     */
    public static double ofRising(
            DoubleUnaryOperator function, DoubleUnaryOperator slope, double low, double high, double start) {
        double a = low;
        double b = high;
        double x = start;
        for (int k = 0; k < MOST_ITERATIONS; k++) {
            double value = function.applyAsDouble(x);
            if (value == 0) {
                return x;
            }
            if (value > 0) {
                b = x;
            } else {
                a = x;
            }
            double next = x - value / slope.applyAsDouble(x);
            if (!(next > a && next < b) || (k > PATIENCE && k % 2 == 0)) {
                next = 0.5 * (a + b);
            }
            if (next == x || Math.abs(next - x) <= Math.ulp(x)) {
                return next;
            }
            x = next;
        }
        return x;
    }

    /**
     * Returns where a function crosses 0 between two positions, without its derivative, by Chandrupatla's method: the
     * inverse parabola through three points where these allow it, a bisection where not.
     *
     * @param function a continuous function
     * @param from one end of the bracket
     * @param atFrom the function there
     * @param to the other end, on either side
     * @param atTo the function there, of the other sign or 0
     * @param tolerance how far off the result may be
     * @return the position
     * @source T. R. Chandrupatla, Advances in Engineering Software 28 (1997), 145–149 (from memory)
     */
    public static double crossing(
            DoubleUnaryOperator function, double from, double atFrom, double to, double atTo, double tolerance) {
        double newest = to;
        double opposite = from;
        double atNewest = atTo;
        double atOpposite = atFrom;
        // The first trial is where the chord crosses.
        double fraction = atNewest / (atNewest - atOpposite);
        for (int k = 0; k < MOST_ITERATIONS; k++) {
            double nearest = Math.abs(atNewest) < Math.abs(atOpposite) ? newest : opposite;
            double least = (2 * Math.ulp(nearest) + 0.5 * tolerance) / Math.abs(opposite - newest);
            if (!(least < 0.5) || atNewest == 0 || atOpposite == 0) {
                return nearest;
            }
            double x = newest + Math.max(least, Math.min(1 - least, fraction)) * (opposite - newest);
            double value = function.applyAsDouble(x);
            double before;
            double atBefore;
            if (value > 0 == atNewest > 0) {
                before = newest;
                atBefore = atNewest;
            } else {
                before = opposite;
                atBefore = atOpposite;
                opposite = newest;
                atOpposite = atNewest;
            }
            newest = x;
            atNewest = value;
            double xi = (newest - opposite) / (before - opposite);
            double phi = (atNewest - atOpposite) / (atBefore - atOpposite);
            fraction = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
                    ? atNewest / (atOpposite - atNewest) * atBefore / (atOpposite - atBefore)
                            + (before - newest)
                                    / (opposite - newest)
                                    * atNewest
                                    / (atBefore - atNewest)
                                    * atOpposite
                                    / (atBefore - atOpposite)
                    : 0.5;
        }
        return newest;
    }

    /**
     * Returns how far a condition holds, by bisection to the last bit.
     *
     * @param condition holds from inside up to one position on the way outside, and not beyond; where it changes more than
     *     once, one of the changes is found
     * @param inside where it holds
     * @param outside where it does not, on either side
     * @return the position where it ceases to hold
     */
    public static double boundary(DoublePredicate condition, double inside, double outside) {
        return boundary(condition, inside, outside, 0);
    }

    /**
     * Returns how far a condition holds, by bisection to a tolerance, where the condition is costly.
     *
     * @param condition as in {@link #boundary(DoublePredicate, double, double)}
     * @param inside where it holds
     * @param outside where it does not, on either side
     * @param tolerance the length of the bracket to stop at
     * @return the position where it ceases to hold
     */
    public static double boundary(DoublePredicate condition, double inside, double outside, double tolerance) {
        double in = inside;
        double out = outside;
        double middle = 0.5 * (in + out);
        while (Math.abs(out - in) > tolerance && middle != in && middle != out) {
            if (condition.test(middle)) {
                in = middle;
            } else {
                out = middle;
            }
            middle = 0.5 * (in + out);
        }
        return middle;
    }
}
