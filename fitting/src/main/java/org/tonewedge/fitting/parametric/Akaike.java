// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.numeric.AkaikeCriterion;

/** Akaike's information criterion with the correction for small samples. */
final class Akaike {

    /** No densitometer resolves residuals of a millionth; rounding makes them. Such residuals count as equal. */
    static final double LEAST_MEAN_SQUARE = 1e-12;

    private Akaike() {}

    /**
     * AICc = n ln(RSS/n) + 2 k + 2 k (k + 1)/(n − k − 1), where k counts the variance too. If the variance is known,
     * RSS/σ² takes the place of the first term and k does not count the variance. All readings count, whatever the
     * family: a family that does not reach base plus fog has the mean of the unexposed readings as one more parameter.
     *
     * <p>With a robust loss all compared families share one variance. Twice the loss of a reading, 2ρ, takes the place
     * of its square, so a speck of dust counts the same in all families, and never for more than the loss allows.
     *
     * @param variance the variance of a reading of weight 1; used with a robust loss only
     * @source C. M. Hurvich and C.-L. Tsai, Biometrika 76 (1989), 297–307; E. Ronchetti, Robust model selection in
     *     regression, Statistics and Probability Letters 3 (1985), 21–23 (both from memory)
     */
    static double criterion(FitInput input, CurveFamily family, ShapeFit fit, RobustLoss loss, double variance) {
        boolean hasBase = hasBase(input, family);
        return AkaikeCriterion.corrected(
                input.readings().size(),
                parameters(input, fit, loss, hasBase),
                misfit(input, fit, loss, variance, hasBase));
    }

    /** The criterion without the correction: misfit + 2 k. It is finite however few the readings are. */
    static double uncorrected(FitInput input, CurveFamily family, ShapeFit fit, RobustLoss loss, double variance) {
        boolean hasBase = hasBase(input, family);
        return misfit(input, fit, loss, variance, hasBase) + 2 * parameters(input, fit, loss, hasBase);
    }

    private static boolean hasBase(FitInput input, CurveFamily family) {
        return !family.kind().shape().reachesBase() && input.basePlusFogReadings() > 0;
    }

    private static int parameters(FitInput input, ShapeFit fit, RobustLoss loss, boolean hasBase) {
        int fitted = fit.shape().length + 2 + (hasBase ? 1 : 0);
        return input.isVarianceKnown() || loss != RobustLoss.NONE ? fitted : fitted + 1;
    }

    private static double misfit(FitInput input, ShapeFit fit, RobustLoss loss, double variance, boolean hasBase) {
        if (loss == RobustLoss.NONE) {
            int n = input.readings().size();
            double sum = fit.sumOfSquares() + (hasBase ? input.basePlusFogScatter() : 0);
            return input.isVarianceKnown()
                    ? sum / input.knownVariance()
                    : AkaikeCriterion.misfit(n, sum, LEAST_MEAN_SQUARE);
        }
        double sum = 0;
        double[] weights = input.readings().weights();
        double[] residuals = fit.residuals();
        double perVariance = 1 / Math.max(variance, LEAST_MEAN_SQUARE);
        for (int i = 0; i < residuals.length; i++) {
            sum += loss.loss().deviance(residuals[i] * Math.sqrt(weights[i] * perVariance));
        }
        if (hasBase) {
            double base = input.basePlusFog(loss).orElseThrow().value();
            for (int i = input.readings().exposed(); i < weights.length; i++) {
                double residual = input.readings().densities()[i] - base;
                sum += loss.loss().deviance(residual * Math.sqrt(weights[i] * perVariance));
            }
        }
        return sum;
    }
}
