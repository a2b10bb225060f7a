// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** The objective of a general problem: its Jacobian is brought to triangular form by Householder reflections. */
final class HouseholderObjective implements Objective {

    private final LeastSquaresProblem problem;
    private final double[] start;
    private final Bounds bounds;
    private final double[] residuals;
    private final double[] rotated;
    private final double[][] columns;

    HouseholderObjective(LeastSquaresProblem problem, double[] start, Bounds bounds) {
        this.problem = problem;
        this.start = start;
        this.bounds = bounds;
        residuals = new double[problem.residualCount()];
        rotated = new double[residuals.length];
        columns = new double[problem.parameterCount()][residuals.length];
    }

    @Override
    public int size() {
        return columns.length;
    }

    @Override
    public int degreesOfFreedom() {
        return residuals.length - columns.length;
    }

    double[] residuals() {
        return residuals;
    }

    @Override
    public double sumOfSquares(double[] parameters) {
        problem.residuals(parameters, residuals);
        double sum = 0;
        for (double residual : residuals) {
            sum += residual * residual;
        }
        return sum;
    }

    @Override
    public void linearise(double[] parameters, double[][] triangle, double[] projected) {
        if (!problem.jacobian(parameters, columns)) {
            NumericalJacobian.fill(problem, parameters, start, bounds, columns);
        }
        System.arraycopy(residuals, 0, rotated, 0, residuals.length);
        for (int k = 0; k < columns.length; k++) {
            double[] pivot = columns[k];
            double norm = norm(pivot, k);
            if (norm == 0) {
                triangle[k][k] = 0;
            } else {
                double diagonal = pivot[k] > 0 ? -norm : norm;
                pivot[k] -= diagonal;
                double factor = -1 / (diagonal * pivot[k]);
                for (int j = k + 1; j < columns.length; j++) {
                    reflect(pivot, factor, columns[j], k);
                }
                reflect(pivot, factor, rotated, k);
                triangle[k][k] = diagonal;
            }
            for (int j = k + 1; j < columns.length; j++) {
                triangle[k][j] = columns[j][k];
            }
            projected[k] = rotated[k];
        }
    }

    /** The length of a column from row k on, safe against overflow. */
    private static double norm(double[] column, int k) {
        double greatest = 0;
        for (int i = k; i < column.length; i++) {
            greatest = Math.max(greatest, Math.abs(column[i]));
        }
        if (greatest == 0) {
            return 0;
        }
        double sum = 0;
        for (int i = k; i < column.length; i++) {
            double scaled = column[i] / greatest;
            sum += scaled * scaled;
        }
        return greatest * Math.sqrt(sum);
    }

    private static void reflect(double[] pivot, double factor, double[] column, int k) {
        double sum = 0;
        for (int i = k; i < column.length; i++) {
            sum += pivot[i] * column[i];
        }
        sum *= factor;
        for (int i = k; i < column.length; i++) {
            column[i] -= sum * pivot[i];
        }
    }
}
