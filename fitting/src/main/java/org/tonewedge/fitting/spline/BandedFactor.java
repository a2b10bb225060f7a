// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

/**
 * The factors L D L<sup>T</sup> of B = R + λ Q<sup>T</sup>W<sup>−1</sup>Q, a positive definite matrix of five bands,
 * and what follows from them in a time proportional to the number of knots.
 *
 * <p>The bands of B<sup>−1</sup>, from which the trace of the smoother follows, are computed from the factors by the
 * recursion of M. F. Hutchinson and F. R. de Hoog, Smoothing noisy data with spline functions, Numerische Mathematik 47
 * (1985) 99–106 (citation from memory).
 *
 * <p>It owns the work arrays of a search; not thread safe until {@link #factor} is no longer called.
 */
final class BandedFactor {

    private final ReinschSystem system;
    private final int size;
    private final double[] inverseDiagonal;
    private final double[] lower1;
    private final double[] lower2;
    private double smoothing;

    BandedFactor(ReinschSystem system) {
        this.system = system;
        size = system.size;
        inverseDiagonal = new double[size];
        lower1 = new double[size];
        lower2 = new double[size];
    }

    double smoothing() {
        return smoothing;
    }

    /** log |B|. */
    double logDeterminant() {
        double logs = 0;
        for (double inverse : inverseDiagonal) {
            logs -= Math.log(inverse);
        }
        return logs;
    }

    /** Factors B for a smoothing. */
    void factor(double lambda) {
        smoothing = lambda;
        double beforeLower1 = 0; // L(j, j−1) · D(j−1)
        double l1 = 0; // L(j, j−1)
        double l2 = 0; // L(j, j−2)
        double l2Next = 0; // L(j+1, j−1)
        double scaled2 = 0; // L(j, j−2) · D(j−2)
        double scaled2Next = 0;
        for (int j = 0; j < size; j++) {
            double inverse = 1 / (system.r0[j] + lambda * system.m0[j] - l1 * beforeLower1 - l2 * scaled2);
            inverseDiagonal[j] = inverse;
            double b1 = system.r1[j] + lambda * system.m1[j] - beforeLower1 * l2Next;
            double b2 = lambda * system.m2[j];
            beforeLower1 = b1;
            l1 = b1 * inverse;
            lower1[j] = l1;
            l2 = l2Next;
            scaled2 = scaled2Next;
            l2Next = b2 * inverse;
            scaled2Next = b2;
            lower2[j] = l2Next;
        }
    }

    /** Solves B γ = right-hand side; both may be the same array. Returns right-hand side · γ. */
    double solve(double[] rightHandSide, double[] gamma) {
        double product = 0;
        double u1 = 0;
        double u2 = 0;
        for (int j = 0; j < size; j++) {
            double u = rightHandSide[j];
            if (j > 0) {
                u -= lower1[j - 1] * u1;
            }
            if (j > 1) {
                u -= lower2[j - 2] * u2;
            }
            product += u * u * inverseDiagonal[j];
            gamma[j] = u;
            u2 = u1;
            u1 = u;
        }
        double g1 = 0;
        double g2 = 0;
        for (int j = size - 1; j >= 0; j--) {
            double g = gamma[j] * inverseDiagonal[j] - lower1[j] * g1 - lower2[j] * g2;
            gamma[j] = g;
            g2 = g1;
            g1 = g;
        }
        return product;
    }

    /**
     * tr(B<sup>−1</sup> Q<sup>T</sup>W<sup>−1</sup>Q); times λ, it is the number of knots minus the degrees of freedom.
     */
    double trace() {
        double trace = 0;
        double next0 = 0; // B⁻¹(j+1, j+1)
        double next1 = 0; // B⁻¹(j+1, j+2)
        double afterNext0 = 0; // B⁻¹(j+2, j+2)
        for (int j = size - 1; j >= 0; j--) {
            double s1 = -lower1[j] * next0 - lower2[j] * next1;
            double s2 = -lower1[j] * next1 - lower2[j] * afterNext0;
            double s0 = inverseDiagonal[j] - lower1[j] * s1 - lower2[j] * s2;
            trace += s0 * system.m0[j] + 2 * (s1 * system.m1[j] + s2 * system.m2[j]);
            afterNext0 = next0;
            next0 = s0;
            next1 = s1;
        }
        return trace;
    }

    /** The free spline's values at the knots, y − λ W<sup>−1</sup>Q γ. */
    double[] fittedValues() {
        double[] gamma = new double[size];
        solve(system.z, gamma);
        double[] values = new double[system.y.length];
        system.addSecondDifferencesTransposed(-smoothing, gamma, values);
        for (int i = 0; i < values.length; i++) {
            values[i] = system.y[i] + values[i] / system.weights[i];
        }
        return values;
    }

    /**
     * Applies the covariance of the fitted values for noise of variance 1, (W + λ Q R<sup>−1</sup> Q<sup>T</sup>)<sup>−1</sup>
     * = W<sup>−1</sup> − λ W<sup>−1</sup>Q B<sup>−1</sup> Q<sup>T</sup>W<sup>−1</sup>, to weights of the knots.
     */
    double[] covarianceTimes(double[] functional) {
        double[] scaled = new double[functional.length];
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] = functional[i] / system.weights[i];
        }
        double[] gamma = system.secondDifferences(scaled);
        solve(gamma, gamma);
        double[] change = new double[scaled.length];
        system.addSecondDifferencesTransposed(-smoothing, gamma, change);
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] += change[i] / system.weights[i];
        }
        return scaled;
    }
}
