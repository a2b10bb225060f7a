// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import java.util.Arrays;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.special.Erf;

/** Probabilities and quantiles of distributions and of samples. */
public final class Distributions {

    /** To which quantiles are searched, absolutely. */
    private static final double ACCURACY = 1e-12;

    private static final double ROOT_HALF = Math.sqrt(0.5);

    private Distributions() {}

    /**
     * Returns a quantile of the χ² distribution.
     *
     * @param probability from 0 to 1
     * @param degreesOfFreedom above 0
     * @return the value that χ² stays below with the probability
     */
    public static double chiSquared(double probability, double degreesOfFreedom) {
        return new ChiSquaredDistribution(null, degreesOfFreedom, ACCURACY).inverseCumulativeProbability(probability);
    }

    /**
     * Returns the upper tail of the χ² distribution.
     *
     * @param value the value, 0 or more
     * @param degreesOfFreedom above 0
     * @return the probability that χ² exceeds the value
     */
    public static double chiSquaredExceeds(double value, double degreesOfFreedom) {
        return 1 - new ChiSquaredDistribution(null, degreesOfFreedom, ACCURACY).cumulativeProbability(value);
    }

    /**
     * Returns the upper tail of Fisher's F distribution.
     *
     * @param ratio the ratio of two mean squares, 0 or more
     * @param numerator degrees of freedom of the numerator, above 0
     * @param denominator degrees of freedom of the denominator, above 0
     * @return the probability that F exceeds the ratio
     */
    public static double fisherExceeds(double ratio, double numerator, double denominator) {
        // F(a, b) above x is 1/F, which is F(b, a), below 1/x: no digits cancel in a thin tail.
        return ratio == 0
                ? 1
                : new FDistribution(null, denominator, numerator, ACCURACY).cumulativeProbability(1 / ratio);
    }

    /**
     * Returns the lower tail of the standard normal distribution.
     *
     * @param z a number
     * @return the probability of less than z
     */
    public static double normalBelow(double z) {
        return 0.5 * Erf.erfc(-z * ROOT_HALF);
    }

    /**
     * Returns a quantile of a sample, interpolated between its order statistics.
     *
     * @param sample the sample, not changed
     * @param probability from 0 to 1
     * @return the quantile
     */
    public static double ofSample(double[] sample, double probability) {
        double[] sorted = sample.clone();
        Arrays.sort(sorted);
        double position = probability * (sorted.length - 1);
        int below = (int) Math.floor(position);
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
    }
}
