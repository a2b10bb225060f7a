// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.List;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.numeric.AkaikeCriterion;
import org.tonewedge.fitting.spline.SplineFit;

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
        int n = input.readings().size();
        boolean hasBase = !family.kind().shape().reachesBase() && input.basePlusFogReadings() > 0;
        int fitted = fit.shape().length + 2 + (hasBase ? 1 : 0);
        boolean isVarianceGiven = input.isVarianceKnown() || loss != RobustLoss.NONE;
        int k = isVarianceGiven ? fitted : fitted + 1;
        return AkaikeCriterion.corrected(n, k, misfit(input, fit, loss, variance, hasBase));
    }

    /**
     * The criterion of a smoothing spline through the same readings. It is comparable with that of families fitted with the
     * same loss whose variance comes from the residuals. Its effective degrees of freedom count as parameters, and base
     * plus fog as one more.
     *
     * @param variance of a reading, that of the families; read with a robust loss only
     * @source C. M. Hurvich, J. S. Simonoff and C.-L. Tsai, Smoothing parameter selection in nonparametric regression using
     *     an improved Akaike information criterion, Journal of the Royal Statistical Society B 60 (1998), 271–293 (from
     *     memory)
     */
    static double criterion(SplineFit spline, RobustLoss loss, double variance) {
        return loss == RobustLoss.NONE ? criterion(spline) : robustCriterion(spline, loss, variance);
    }

    private static double robustCriterion(SplineFit spline, RobustLoss loss, double variance) {
        double perDeviation = 1 / Math.sqrt(Math.max(variance, LEAST_MEAN_SQUARE));
        Strip strip = spline.strip();
        double misfit = 0;
        int readings = 0;
        for (int i = 0; i <= strip.steps().size(); i++) {
            boolean isBase = i == strip.steps().size();
            List<Density> read =
                    isBase ? strip.basePlusFogReadings() : strip.steps().get(i).readings();
            double drawn = read.stream().mapToDouble(Density::value).average().orElseThrow()
                    - (isBase ? 0 : spline.residuals().get(i).value());
            for (Density density : read) {
                misfit += loss.loss().deviance((density.value() - drawn) * perDeviation);
                readings++;
            }
        }
        return AkaikeCriterion.corrected(readings, spline.degreesOfFreedom() + 1, misfit);
    }

    private static double criterion(SplineFit spline) {
        double exposed = spline.residualDegreesOfFreedom() + spline.degreesOfFreedom();
        List<Density> base = spline.strip().basePlusFogReadings();
        double mean = base.stream().mapToDouble(Density::value).average().orElseThrow();
        double squares = base.stream()
                .mapToDouble(reading -> (reading.value() - mean) * (reading.value() - mean))
                .sum();
        double sum = spline.residualStandardDeviation()
                        * spline.residualStandardDeviation()
                        * spline.residualDegreesOfFreedom()
                + squares;
        double n = exposed + base.size();
        double k = spline.degreesOfFreedom() + 2;
        return AkaikeCriterion.corrected(n, k, AkaikeCriterion.misfit(n, sum, LEAST_MEAN_SQUARE));
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
