// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * Derivatives by differences of fourth order: with steps of 10<sup>−4</sup> of the parameter both the truncation and the
 * rounding are near 10<sup>−12</sup> of the model. A parameter that has become small beside its start is stepped as if it
 * were a hundredth of it, lest the step drown in rounding.
 */
final class NumericalJacobian {

    private static final double RELATIVE_STEP = 1e-4;

    private static final double SMALL = 0.01;

    private NumericalJacobian() {}

    static void fill(
            LeastSquaresProblem problem, double[] parameters, double[] start, Bounds bounds, double[][] columns) {
        double[] p = parameters.clone();
        int m = problem.residualCount();
        double[] far = new double[m];
        double[] near = new double[m];
        for (int j = 0; j < p.length; j++) {
            double at = p[j];
            double size = RELATIVE_STEP * Math.max(Math.abs(at), start[j] == 0 ? SMALL : SMALL * Math.abs(start[j]));
            double h = (at + size) - at; // exactly representable
            double[] column = columns[j];
            // Offsets of the five-point formulas: central, or forward and backward beside a bound.
            int direction = bounds.allows(j, at - 2 * h) ? bounds.allows(j, at + 2 * h) ? 0 : -1 : 1;
            if (direction == 0) {
                difference(problem, p, j, at, 2 * h, far);
                difference(problem, p, j, at, h, near);
                for (int i = 0; i < m; i++) {
                    column[i] = (8 * near[i] - far[i]) / (12 * h);
                }
            } else {
                oneSided(problem, p, j, at, direction * h, column, near);
            }
            p[j] = at;
        }
    }

    /** f(at + h) − f(at − h). */
    private static void difference(
            LeastSquaresProblem problem, double[] p, int j, double at, double h, double[] result) {
        double[] below = new double[result.length];
        p[j] = at + h;
        problem.residuals(p, result);
        p[j] = at - h;
        problem.residuals(p, below);
        for (int i = 0; i < result.length; i++) {
            result[i] -= below[i];
        }
    }

    private static void oneSided(
            LeastSquaresProblem problem, double[] p, int j, double at, double h, double[] column, double[] work) {
        double[] factors = {-25.0 / 12, 4, -3, 4.0 / 3, -1.0 / 4};
        java.util.Arrays.fill(column, 0);
        for (int k = 0; k < factors.length; k++) {
            p[j] = at + k * h;
            problem.residuals(p, work);
            for (int i = 0; i < work.length; i++) {
                column[i] += factors[k] * work[i] / h;
            }
        }
    }
}
