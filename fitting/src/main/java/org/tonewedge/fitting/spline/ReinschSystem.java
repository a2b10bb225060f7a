// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

/**
 * The banded equations of a penalised cubic spline: with the second divided differences z = Q<sup>T</sup>y, the second
 * derivatives γ at the inner knots solve (R + λ Q<sup>T</sup>W<sup>−1</sup>Q) γ = z, and the fitted values are y − λ
 * W<sup>−1</sup>Q γ.
 *
 * <p>Source: C. H. Reinsch, Smoothing by spline functions, Numerische Mathematik 10 (1967) 177–183; in the notation of
 * P. J. Green and B. W. Silverman, Nonparametric Regression and Generalized Linear Models (1994), chapter 2 (both from
 * memory).
 *
 * <p>Immutable. The arrays are shared within this package and never changed.
 */
final class ReinschSystem {

    final double[] x;
    final double[] y;
    final double[] weights;
    /** The number of inner knots. */
    final int size;
    /** The three entries of each column of Q. */
    final double[] q0;

    final double[] q1;
    final double[] q2;
    /** The diagonal of R and the band beside it. */
    final double[] r0;

    final double[] r1;
    /** The diagonal of Q<sup>T</sup>W<sup>−1</sup>Q and the two bands beside it. */
    final double[] m0;

    final double[] m1;
    final double[] m2;
    /** The second divided differences of y. */
    final double[] z;

    /** Takes knots that rise strictly, at least 4, with a value and a weight above 0 for each. */
    ReinschSystem(double[] x, double[] y, double[] weights) {
        this.x = x;
        this.y = y;
        this.weights = weights;
        size = x.length - 2;
        q0 = new double[size];
        q1 = new double[size];
        q2 = new double[size];
        r0 = new double[size];
        r1 = new double[size];
        m0 = new double[size];
        m1 = new double[size];
        m2 = new double[size];
        double h = x[1] - x[0];
        for (int j = 0; j < size; j++) {
            double next = x[j + 2] - x[j + 1];
            q0[j] = 1 / h;
            q2[j] = 1 / next;
            q1[j] = -(q0[j] + q2[j]);
            r0[j] = (h + next) / 3;
            r1[j] = next / 6;
            h = next;
        }
        z = secondDifferences(y);
        double v0 = 1 / weights[0];
        double v1 = 1 / weights[1];
        for (int j = 0; j < size; j++) {
            double v2 = 1 / weights[j + 2];
            m0[j] = q0[j] * q0[j] * v0 + q1[j] * q1[j] * v1 + q2[j] * q2[j] * v2;
            if (j + 1 < size) {
                m1[j] = q1[j] * q0[j + 1] * v1 + q2[j] * q1[j + 1] * v2;
            }
            if (j + 2 < size) {
                m2[j] = q2[j] * q0[j + 2] * v2;
            }
            v0 = v1;
            v1 = v2;
        }
    }

    /** Q<sup>T</sup> times values at the knots. */
    double[] secondDifferences(double[] values) {
        double[] differences = new double[size];
        for (int j = 0; j < size; j++) {
            // Differences of neighbours first: values that lie on a line then give a nought to the last bits.
            differences[j] = (values[j + 2] - values[j + 1]) * q2[j] - (values[j + 1] - values[j]) * q0[j];
        }
        return differences;
    }

    /** Adds a factor times Q times coefficients to values at the knots. */
    void addSecondDifferencesTransposed(double factor, double[] coefficients, double[] values) {
        for (int j = 0; j < size; j++) {
            double c = factor * coefficients[j];
            values[j] += q0[j] * c;
            values[j + 1] += q1[j] * c;
            values[j + 2] += q2[j] * c;
        }
    }

    /** γ<sup>T</sup> Q<sup>T</sup>W<sup>−1</sup>Q γ; times λ², the weighted residual sum of squares. */
    double roughness(double[] gamma) {
        double sum = 0;
        for (int j = 0; j < size; j++) {
            double row = m0[j] * gamma[j];
            if (j + 1 < size) {
                row += 2 * m1[j] * gamma[j + 1];
            }
            if (j + 2 < size) {
                row += 2 * m2[j] * gamma[j + 2];
            }
            sum += gamma[j] * row;
        }
        return sum;
    }

    /** The sign of the slope of the weighted least-squares line. */
    double trend() {
        double sum = 0;
        double moment = 0;
        for (int i = 0; i < x.length; i++) {
            sum += weights[i];
            moment += weights[i] * x[i];
        }
        double slope = 0;
        for (int i = 0; i < x.length; i++) {
            slope += weights[i] * (x[i] - moment / sum) * y[i];
        }
        return Math.signum(slope);
    }

    /** A smoothing that balances the two matrices; searches start from it. */
    double balancedSmoothing() {
        double r = 0;
        double m = 0;
        for (int j = 0; j < size; j++) {
            r += r0[j];
            m += m0[j];
        }
        return r / m;
    }

    /** A smoothing so great that the spline is a straight line: its slowest bend is damped about 10,000 times. */
    double straightLineSmoothing() {
        double sum = 0;
        for (double weight : weights) {
            sum += weight;
        }
        double length = x[x.length - 1] - x[0];
        return 20 * sum * length * length * length;
    }
}
