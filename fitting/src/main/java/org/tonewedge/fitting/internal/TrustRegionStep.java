// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * The step δ that minimises ‖R δ + z‖ with ‖D δ‖ ≤ Δ: the Gauss–Newton step if it is short enough, else the damped one
 * whose length is Δ within a tenth, found by Newton's iteration on the damping.
 *
 * @source Moré 1978, as in {@link LevenbergMarquardt}
 */
final class TrustRegionStep {

    private static final int MOST_ITERATIONS = 10;
    private static final double SINGULAR = 1e-15;

    private final double[][] damped;
    private final double[] right;
    private final double[] row;
    private final double[] work;
    /** R<sup>T</sup> R and R<sup>T</sup> z, where the damped step is found from them. */
    private final double[][] normal;

    private final double[] gradient;
    /** 1/R<sub>jj</sub> of the triangle last solved with. */
    private final double[] perDiagonal;

    /**
     * Room for so many parameters.
     *
     * @param fromNormalEquations whether R comes from normal equations: the damped step then does too, in a fraction of the
     *     time, for there is no accuracy to lose
     */
    TrustRegionStep(int parameters, boolean fromNormalEquations) {
        normal = fromNormalEquations ? new double[parameters][parameters] : new double[0][];
        gradient = new double[parameters];
        perDiagonal = new double[parameters];
        damped = new double[parameters][parameters];
        right = new double[parameters];
        row = new double[parameters];
        work = new double[parameters];
    }

    /** Writes the step and returns the damping, 0 for a Gauss–Newton step. */
    double solve(double[][] r, double[] z, double[] scale, int n, double radius, double dampingBefore, double[] step) {
        double least = 0;
        double tooLong = Double.NaN;
        double length = 0;
        if (isRegular(r, scale, n)) {
            backSubstitute(r, z, n, step);
            length = scaledLength(step, scale, n);
            tooLong = length - radius;
            if (tooLong <= 0.1 * radius) {
                return 0;
            }
            least = tooLong / radius / inverseLength(r, step, scale, n, length);
        }
        double steepness = 0;
        for (int j = 0; j < n; j++) {
            double sum = 0;
            for (int i = 0; i <= j; i++) {
                sum += r[i][j] * z[i];
            }
            gradient[j] = sum;
            sum /= scale[j];
            steepness += sum * sum;
        }
        steepness = Math.sqrt(steepness);
        if (normal.length > 0) {
            formNormal(r, n);
        }
        double most = steepness / radius;
        if (most == 0) {
            most = Double.MIN_NORMAL / Math.min(radius, 0.1);
        }
        double damping = Math.max(least, Math.min(most, dampingBefore));
        if (damping == 0) {
            damping = length > 0 ? steepness / length : 1e-3 * most;
        }
        for (int k = 1; ; k++) {
            if (damping == 0) {
                damping = Math.max(Double.MIN_NORMAL, 0.001 * most);
            }
            if (normal.length > 0) {
                dampedStep(scale, n, damping, step);
            } else {
                dampedStep(r, z, scale, n, damping, step);
            }
            length = scaledLength(step, scale, n);
            double before = tooLong;
            tooLong = length - radius;
            if (Math.abs(tooLong) <= 0.1 * radius
                    || (least == 0 && tooLong <= before && before < 0)
                    || k == MOST_ITERATIONS) {
                return damping;
            }
            double correction = tooLong / radius / inverseLength(damped, step, scale, n, length);
            if (tooLong > 0) {
                least = Math.max(least, damping);
            } else {
                most = Math.min(most, damping);
            }
            damping = Math.max(least, damping + correction);
        }
    }

    private static boolean isRegular(double[][] r, double[] scale, int n) {
        for (int j = 0; j < n; j++) {
            if (!(Math.abs(r[j][j]) > SINGULAR * scale[j])) {
                return false;
            }
        }
        return true;
    }

    /** Solves R δ = −z. All reciprocals first: divisions that wait for one another are slow. */
    private void backSubstitute(double[][] r, double[] z, int n, double[] step) {
        for (int i = 0; i < n; i++) {
            perDiagonal[i] = 1 / r[i][i];
        }
        for (int i = n - 1; i >= 0; i--) {
            double sum = -z[i];
            double[] row = r[i];
            for (int j = i + 1; j < n; j++) {
                sum -= row[j] * step[j];
            }
            step[i] = sum * perDiagonal[i];
        }
    }

    private static double scaledLength(double[] step, double[] scale, int n) {
        double sum = 0;
        for (int j = 0; j < n; j++) {
            double scaled = scale[j] * step[j];
            sum += scaled * scaled;
        }
        return Math.sqrt(sum);
    }

    /** ‖T<sup>−T</sup> D² δ‖² / ‖D δ‖², the slope of the length by the damping, for the triangle last solved with. */
    private double inverseLength(double[][] t, double[] step, double[] scale, int n, double length) {
        double perLength = 1 / length;
        double total = 0;
        for (int i = 0; i < n; i++) {
            double sum = scale[i] * scale[i] * step[i] * perLength;
            for (int k = 0; k < i; k++) {
                sum -= t[k][i] * work[k];
            }
            work[i] = sum * perDiagonal[i];
            total += work[i] * work[i];
        }
        return total;
    }

    private void formNormal(double[][] r, int n) {
        for (int j = 0; j < n; j++) {
            for (int k = j; k < n; k++) {
                double sum = 0;
                for (int i = 0; i <= j; i++) {
                    sum += r[i][j] * r[i][k];
                }
                normal[j][k] = sum;
            }
        }
    }

    /** Solves (R<sup>T</sup> R + damping D²) δ = −R<sup>T</sup> z by Cholesky's method. */
    private void dampedStep(double[] scale, int n, double damping, double[] step) {
        for (int j = 0; j < n; j++) {
            double pivot = normal[j][j] + damping * scale[j] * scale[j];
            double sum = gradient[j];
            for (int i = 0; i < j; i++) {
                pivot -= damped[i][j] * damped[i][j];
                sum -= damped[i][j] * right[i];
            }
            double diagonal = Math.sqrt(Math.max(pivot, SINGULAR * normal[j][j]));
            double perDiagonal = 1 / diagonal;
            damped[j][j] = diagonal;
            right[j] = sum * perDiagonal;
            for (int k = j + 1; k < n; k++) {
                double element = normal[j][k];
                for (int i = 0; i < j; i++) {
                    element -= damped[i][j] * damped[i][k];
                }
                damped[j][k] = element * perDiagonal;
            }
        }
        backSubstitute(damped, right, n, step);
    }

    /** Solves min ‖R δ + z‖² + damping ‖D δ‖² by rotating the rows of √damping D into R. */
    private void dampedStep(double[][] r, double[] z, double[] scale, int n, double damping, double[] step) {
        double root = Math.sqrt(damping);
        for (int i = 0; i < n; i++) {
            System.arraycopy(r[i], i, damped[i], i, n - i);
            right[i] = z[i];
        }
        for (int k = 0; k < n; k++) {
            Arrays.fill(row, k, n, 0);
            row[k] = root * scale[k];
            double rowRight = 0;
            for (int i = k; i < n; i++) {
                if (row[i] == 0) {
                    continue;
                }
                double[] upper = damped[i];
                double radius = Math.sqrt(upper[i] * upper[i] + row[i] * row[i]);
                double cosine = upper[i] / radius;
                double sine = row[i] / radius;
                for (int j = i; j < n; j++) {
                    double above = upper[j];
                    upper[j] = cosine * above + sine * row[j];
                    row[j] = cosine * row[j] - sine * above;
                }
                double above = right[i];
                right[i] = cosine * above + sine * rowRight;
                rowRight = cosine * rowRight - sine * above;
            }
        }
        backSubstitute(damped, right, n, step);
    }
}
