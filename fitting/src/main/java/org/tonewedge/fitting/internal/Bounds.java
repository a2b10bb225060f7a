// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/** The least and the greatest value of each parameter; both allowed. Infinite where there is no limit. */
public final class Bounds {

    private final double[] lower;
    private final double[] upper;

    private Bounds(double[] lower, double[] upper) {
        this.lower = lower;
        this.upper = upper;
    }

    /**
     * Returns no limits.
     *
     * @param parameters the number of parameters
     * @return the bounds
     */
    public static Bounds none(int parameters) {
        double[] lower = new double[parameters];
        double[] upper = new double[parameters];
        Arrays.fill(lower, Double.NEGATIVE_INFINITY);
        Arrays.fill(upper, Double.POSITIVE_INFINITY);
        return new Bounds(lower, upper);
    }

    /**
     * Returns stated limits.
     *
     * @param lower the least values
     * @param upper the greatest values, each above its least
     * @return the bounds
     * @throws IllegalArgumentException if the arrays differ in length or a greatest value is not above its least
     */
    public static Bounds of(double[] lower, double[] upper) {
        if (lower.length != upper.length) {
            throw new IllegalArgumentException(
                    "bounds need as many upper as lower limits, had " + upper.length + " and " + lower.length);
        }
        for (int i = 0; i < lower.length; i++) {
            if (!(lower[i] < upper[i])) {
                throw new IllegalArgumentException("the upper bound of parameter " + (i + 1)
                        + " must be above its lower one, was " + upper[i] + " with " + lower[i]);
            }
        }
        return new Bounds(lower.clone(), upper.clone());
    }

    boolean allows(int parameter, double value) {
        return value >= lower[parameter] && value <= upper[parameter];
    }

    double clamp(int parameter, double value) {
        return value < lower[parameter] ? lower[parameter] : value > upper[parameter] ? upper[parameter] : value;
    }

    boolean isAtLower(int parameter, double value) {
        return value <= lower[parameter];
    }

    boolean isAtUpper(int parameter, double value) {
        return value >= upper[parameter];
    }

    int size() {
        return lower.length;
    }
}
