// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.numeric.Matrices;

/**
 * The scatter between developments in a family of curves. Besides the independent errors of its readings, with standard
 * deviation σ, each strip has its own error δ, the relative error of its contrast, with standard deviation τ.
 *
 * <p>J contains the derivatives of the densities with respect to the parameters, H those with respect to the δ, one
 * column for each strip; U = (JᵀJ)⁻¹. The parameters found by least squares have the covariance σ² U + τ² K, K = U JᵀH
 * HᵀJ U. The residuals r, with ν degrees of freedom, have E(rᵀr) = ν σ² + τ² tr A and E(|Hᵀr|²) = σ² tr A + τ² tr A²
 * with A = HᵀH − HᵀJ U JᵀH, which determines both variances.
 */
final class StripScatter {

    private static final double CONFIDENCE = 0.95;
    /** The greatest τ²/σ², for noise-free readings. */
    private static final double MOST_RATIO = 1e8;

    private final double[][] unitCovariance;
    private final int degreesOfFreedom;
    private final double readingVariance;
    private final double variance;
    private final double criterion;
    private final double projected;
    private final double trace;
    private final double traceOfSquare;

    StripScatter(FamilyProblem problem, LeastSquaresSolution solution, int strips, int gradientParameters) {
        double[] p = solution.parameters();
        double[] r = solution.residuals();
        double[][] j = new double[p.length][r.length];
        problem.jacobian(p, j);
        double[][] h = problem.byStrip(p);
        double[][] u = solution.unscaledCovariance();
        double[][] jh = new double[strips][];
        double[][] ujh = new double[strips][];
        double[] hr = new double[strips];
        for (int s = 0; s < strips; s++) {
            hr[s] = dot(h[s], r);
            jh[s] = times(j, h[s]);
            ujh[s] = times(u, jh[s]);
        }
        unitCovariance = new double[p.length][p.length];
        for (double[] each : ujh) {
            for (int k = 0; k < p.length; k++) {
                for (int l = 0; l < p.length; l++) {
                    unitCovariance[k][l] += each[k] * each[l];
                }
            }
        }
        double[][] a = new double[strips][strips];
        double diagonal = 0;
        double squares = 0;
        for (int s = 0; s < strips; s++) {
            for (int t = 0; t < strips; t++) {
                a[s][t] = (s == t ? dot(h[s], h[s]) : 0) - dot(jh[s], ujh[t]);
                squares += a[s][t] * a[s][t];
            }
            diagonal += a[s][s];
        }
        int freedom = solution.degreesOfFreedom();
        double sum = solution.residualSumOfSquares();
        trace = diagonal;
        traceOfSquare = squares;
        projected = dot(hr, hr);
        degreesOfFreedom = freedom > strips ? Math.max(strips - gradientParameters, 0) : 0;
        variance = degreesOfFreedom > 0
                ? Math.max((projected - sum * trace / freedom) / (traceOfSquare - trace * trace / freedom), 0)
                : 0;
        readingVariance = Math.max(sum - variance * trace, 0) / freedom;
        criterion = criterion(r.length, p.length, sum, a, h, hr);
    }

    /** AICc with the likelihood of both variances: for residuals with covariance σ² I + τ² HHᵀ. */
    private double criterion(int n, int parameters, double sum, double[][] a, double[][] h, double[] hr) {
        if (variance == 0) {
            return ResponseFit.criterion(n, parameters, sum, false);
        }
        double ratio = Math.min(variance / readingVariance, MOST_RATIO);
        double logDeterminant = 0;
        double[][] penalised = new double[a.length][];
        for (int s = 0; s < a.length; s++) {
            penalised[s] = a[s].clone();
            penalised[s][s] += 1 / ratio;
            logDeterminant += Math.log1p(ratio * dot(h[s], h[s]));
        }
        double[] shifts = Matrices.solve(penalised, hr);
        return ResponseFit.criterion(n, parameters, Math.max(sum - dot(hr, shifts), 0), false) + logDeterminant;
    }

    private static double[] times(double[][] rows, double[] vector) {
        double[] product = new double[rows.length];
        for (int k = 0; k < rows.length; k++) {
            product[k] = dot(rows[k], vector);
        }
        return product;
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    /** σ². */
    double readingVariance() {
        return readingVariance;
    }

    /** τ² as estimated from the strips; 0 if they are too few to estimate it. */
    double variance() {
        return variance;
    }

    /** The degrees of freedom of {@link #variance()}. */
    int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /** K. */
    double[][] unitCovariance() {
        return unitCovariance;
    }

    /** The criterion by which layouts are compared. */
    double criterion() {
        return criterion;
    }

    /** Whether the strips scatter more than a given τ² and their readings allow once in 20. */
    boolean exceeds(double stated) {
        return degreesOfFreedom > 0
                && projected
                        > (readingVariance * trace + stated * traceOfSquare)
                                * Distributions.chiSquared(CONFIDENCE, degreesOfFreedom)
                                / degreesOfFreedom;
    }
}
