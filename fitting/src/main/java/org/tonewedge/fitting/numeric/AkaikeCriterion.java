// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

/** Akaike's information criterion: the smaller, the better a model explains the readings it was fitted to. */
public final class AkaikeCriterion {

    private AkaikeCriterion() {}

    /**
     * Returns the criterion with the correction for small samples: misfit + 2 k + 2 k (k + 1)/(n − k − 1).
     *
     * @param readings n
     * @param parameters k, counting the variance where it is fitted as well; effective ones need not be whole
     * @param misfit −2 times the logarithm of the likelihood, but for a constant: χ² or {@link #misfit}
     * @return the criterion; infinite where n is not above k + 1
     * @source C. M. Hurvich and C.-L. Tsai, Biometrika 76 (1989), 297–307 (from memory)
     */
    public static double corrected(double readings, double parameters, double misfit) {
        double spare = readings - parameters - 1;
        return spare > 0
                ? misfit + 2 * parameters + 2 * parameters * (parameters + 1) / spare
                : Double.POSITIVE_INFINITY;
    }

    /**
     * Returns the misfit of normal residuals of unknown variance: n ln(RSS/n).
     *
     * @param readings n
     * @param sumOfSquares RSS, the residual sum of squares
     * @param leastMeanSquare what takes the place of RSS/n where it is smaller, above 0
     * @return the misfit
     */
    public static double misfit(double readings, double sumOfSquares, double leastMeanSquare) {
        return readings * Math.log(Math.max(sumOfSquares / readings, leastMeanSquare));
    }
}
