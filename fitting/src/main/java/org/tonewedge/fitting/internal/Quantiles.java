package org.tonewedge.fitting.internal;

import java.util.Arrays;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/** Quantiles of distributions and of samples. */
public final class Quantiles {

    private Quantiles() {}

    /**
     * Returns how many standard uncertainties a two-sided interval reaches to either side.
     *
     * @param confidence the confidence, between 0 and 1
     * @param degreesOfFreedom those of the standard uncertainty; infinite for the normal distribution
     * @return the quantile of Student's t distribution at (1 + confidence)/2
     */
    public static double student(double confidence, double degreesOfFreedom) {
        double probability = 0.5 * (1 + confidence);
        return Double.isInfinite(degreesOfFreedom)
                ? new NormalDistribution().inverseCumulativeProbability(probability)
                : new TDistribution(degreesOfFreedom).inverseCumulativeProbability(probability);
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
