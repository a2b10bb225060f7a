package org.tonewedge.fitting.parametric;

import org.tonewedge.fitting.internal.ShapeFit;

/** Akaike's information criterion with the correction for small samples. */
final class Akaike {

    private static final double LEAST_MEAN_SQUARE = 1e-20;

    private Akaike() {}

    /**
     * AICc = n ln(RSS/n) + 2 k + 2 k (k + 1)/(n − k − 1), k counting the variance; where the variance is known, RSS/σ²
     * takes the place of the first term and k does not count it. All readings are in it, whatever the family: one that
     * does not reach base plus fog has the mean of the unexposed readings as a parameter more.
     *
     * @source C. M. Hurvich and C.-L. Tsai, Biometrika 76 (1989), 297–307 (from memory)
     */
    static double criterion(FitInput input, CurveFamily family, ShapeFit fit) {
        int n = input.readings().size();
        int fitted = fit.shape().length + 2;
        double sum = fit.sumOfSquares();
        if (!family.kind().shape().reachesBase() && input.basePlusFogReadings() > 0) {
            sum += input.basePlusFogScatter();
            fitted++;
        }
        int k = input.isVarianceKnown() ? fitted : fitted + 1;
        if (n - k - 1 <= 0) {
            return Double.POSITIVE_INFINITY;
        }
        double likelihood = input.isVarianceKnown()
                ? sum / input.knownVariance()
                : n * Math.log(Math.max(sum / n, LEAST_MEAN_SQUARE));
        return likelihood + 2 * k + 2.0 * k * (k + 1) / (n - k - 1);
    }
}
