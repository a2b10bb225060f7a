// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import java.util.Comparator;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.NormOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.decomposition.SingularValueDecomposition_F64;
import org.ejml.interfaces.linsol.LinearSolverDense;

/** What is asked of a small matrix, given by rows. */
public final class Matrices {

    private Matrices() {}

    /**
     * Returns the condition number: the ratio of the greatest to the least singular value.
     *
     * @param matrix the matrix, not changed
     * @return 1 or more, infinite for a singular matrix; 1 for a matrix without elements
     */
    public static double condition(double[][] matrix) {
        return matrix.length == 0 ? 1 : NormOps_DDRM.conditionP2(new DMatrixRMaj(matrix));
    }

    /**
     * Returns the root of the condition number of the correlation matrix of a covariance; estimates without variance are
     * left out.
     *
     * @param covariance the covariance
     * @return 1 or more
     */
    public static double correlationCondition(double[][] covariance) {
        int[] varying = IntStream.range(0, covariance.length)
                .filter(k -> covariance[k][k] > 0)
                .toArray();
        int n = varying.length;
        double[][] correlation = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double scale = Math.sqrt(covariance[varying[i]][varying[i]] * covariance[varying[j]][varying[j]]);
                correlation[i][j] = covariance[varying[i]][varying[j]] / scale;
            }
        }
        return Math.sqrt(condition(correlation));
    }

    /**
     * Solves A x = b.
     *
     * @param matrix A, square, not changed
     * @param right b, not changed
     * @return x
     * @throws ArithmeticException if A is singular
     */
    public static double[] solve(double[][] matrix, double[] right) {
        LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.lu(right.length);
        DMatrixRMaj solution = new DMatrixRMaj(right.length, 1);
        if (!solver.setA(new DMatrixRMaj(matrix)) || solver.quality() == 0) {
            throw new ArithmeticException("the matrix is singular");
        }
        solver.solve(DMatrixRMaj.wrap(right.length, 1, right.clone()), solution);
        return solution.data;
    }

    /**
     * Returns independent errors that together have a covariance: the columns of its Cholesky factor L, L L<sup>T</sup> = C.
     *
     * @param covariance C, not changed; a parameter without variance has no error
     * @return L by columns: in each row what one standard uncertainty of an independent error adds to the parameters
     */
    public static double[][] independentErrors(double[][] covariance) {
        int n = covariance.length;
        double[][] columns = new double[n][n];
        for (int k = 0; k < n; k++) {
            double pivot = covariance[k][k];
            for (int j = 0; j < k; j++) {
                pivot -= columns[j][k] * columns[j][k];
            }
            if (!(pivot > 0)) {
                continue;
            }
            columns[k][k] = Math.sqrt(pivot);
            for (int i = k + 1; i < n; i++) {
                double rest = covariance[i][k];
                for (int j = 0; j < k; j++) {
                    rest -= columns[j][i] * columns[j][k];
                }
                columns[k][i] = rest / columns[k][k];
            }
        }
        return columns;
    }

    /**
     * Returns independent errors that together have a covariance, as few as they can be: its eigenvectors, each times the root of
     * its eigenvalue, the largest first.
     *
     * @param covariance C, symmetric without negative eigenvalues, not changed
     * @param negligible the part of the sum of all variances that may be left out
     * @return the errors, each with what it adds to every parameter; of the largest of these the sign is positive
     */
    public static double[][] principalErrors(double[][] covariance, double negligible) {
        int n = covariance.length;
        SingularValueDecomposition_F64<DMatrixRMaj> svd = DecompositionFactory_DDRM.svd(n, n, true, false, false);
        svd.decompose(new DMatrixRMaj(covariance));
        DMatrixRMaj axes = svd.getU(null, false);
        double[] values = svd.getSingularValues();
        int[] order = IntStream.range(0, n)
                .boxed()
                .sorted(Comparator.comparingDouble(k -> -values[k]))
                .mapToInt(k -> k)
                .toArray();
        double left = IntStream.range(0, n).mapToDouble(k -> values[k]).sum();
        double enough = negligible * left;
        int count = 0;
        while (count < n && left > enough) {
            left -= values[order[count++]];
        }
        double[][] errors = new double[count][n];
        for (int k = 0; k < count; k++) {
            int largest = 0;
            for (int i = 0; i < n; i++) {
                errors[k][i] = Math.sqrt(values[order[k]]) * axes.get(i, order[k]);
                largest = Math.abs(errors[k][i]) > Math.abs(errors[k][largest]) ? i : largest;
            }
            if (errors[k][largest] < 0) {
                for (int i = 0; i < n; i++) {
                    errors[k][i] = -errors[k][i];
                }
            }
        }
        return errors;
    }
}
