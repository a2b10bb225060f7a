// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.decomposition.QRDecomposition;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * Weighted linear least squares by QR decomposition, for a few parameters: y = Σ p<sub>j</sub> · x<sub>j</sub>.
 *
 * <p>Immutable and thread safe.
 */
public final class LinearFit {

    /** The least part of a column, squared, that no combination of the columns before it explains. */
    private static final double LEAST_INDEPENDENT = 1e-13;

    private final double[] parameters;
    private final double[][] cofactors;
    private final double weightedSquares;
    private final int degreesOfFreedom;

    private LinearFit(double[] parameters, double[][] cofactors, double weightedSquares, int degreesOfFreedom) {
        this.parameters = parameters;
        this.cofactors = cofactors;
        this.weightedSquares = weightedSquares;
        this.degreesOfFreedom = degreesOfFreedom;
    }

    /**
     * Fits a linear model.
     *
     * @param rows the x<sub>j</sub> of each reading
     * @param y the readings, as many as rows and at least as many as parameters
     * @param weights the weight of each reading, above 0; 1 / variance where that is known
     * @return the fit
     * @throws ArithmeticException if the readings cannot tell the parameters apart
     */
    public static LinearFit of(double[][] rows, double[] y, double[] weights) {
        int count = y.length;
        int size = rows[0].length;
        if (count < size) {
            throw new ArithmeticException("a fit of " + size + " parameters needs as many readings, had " + count);
        }
        DMatrixRMaj design = new DMatrixRMaj(count, size);
        DMatrixRMaj right = new DMatrixRMaj(count, 1);
        double[] norms = new double[size];
        for (int i = 0; i < count; i++) {
            double root = Math.sqrt(weights[i]);
            right.set(i, 0, root * y[i]);
            for (int j = 0; j < size; j++) {
                design.set(i, j, root * rows[i][j]);
                norms[j] = Math.hypot(norms[j], design.get(i, j));
            }
        }
        CommonOps_DDRM.divideCols(design, norms);
        LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.qr(count, size);
        solver.setA(design);
        QRDecomposition<DMatrixRMaj> qr = solver.getDecomposition();
        DMatrixRMaj r = qr.getR(null, true);
        for (int j = 0; j < size; j++) {
            if (!(r.get(j, j) * r.get(j, j) > LEAST_INDEPENDENT)) {
                throw new ArithmeticException("the parameters of the fit cannot be told apart");
            }
        }
        DMatrixRMaj scaled = new DMatrixRMaj(size, 1);
        solver.solve(right, scaled);
        DMatrixRMaj inverse = new DMatrixRMaj(size, size);
        CommonOps_DDRM.invert(r, inverse);
        DMatrixRMaj product = new DMatrixRMaj(size, size);
        CommonOps_DDRM.multTransB(inverse, inverse, product);
        double[] parameters = new double[size];
        double[][] cofactors = new double[size][size];
        for (int i = 0; i < size; i++) {
            parameters[i] = scaled.get(i, 0) / norms[i];
            for (int j = 0; j < size; j++) {
                cofactors[i][j] = product.get(i, j) / (norms[i] * norms[j]);
            }
        }
        return new LinearFit(parameters, cofactors, squares(rows, y, weights, parameters), count - size);
    }

    private static double squares(double[][] rows, double[] y, double[] weights, double[] parameters) {
        double squares = 0;
        for (int i = 0; i < y.length; i++) {
            double residual = y[i];
            for (int j = 0; j < parameters.length; j++) {
                residual -= rows[i][j] * parameters[j];
            }
            squares += weights[i] * residual * residual;
        }
        return squares;
    }

    /**
     * Fits a polynomial with equal weights: y = p<sub>0</sub> + p<sub>1</sub> x + ….
     *
     * @param x the positions
     * @param y the readings
     * @param degree the degree
     * @return the fit
     * @throws ArithmeticException if there are too few different positions
     */
    public static LinearFit polynomial(double[] x, double[] y, int degree) {
        double least = Arrays.stream(x).min().orElseThrow();
        double most = Arrays.stream(x).max().orElseThrow();
        double centre = (least + most) / 2;
        double half = (most - least) / 2;
        double[][] rows = new double[x.length][degree + 1];
        double[] weights = new double[x.length];
        Arrays.fill(weights, 1);
        for (int i = 0; i < x.length; i++) {
            double power = 1;
            for (int j = 0; j <= degree; j++) {
                rows[i][j] = power;
                power *= (x[i] - centre) / half;
            }
        }
        return of(rows, y, weights).inPowersOf(centre, half);
    }

    /** Rewrites a polynomial in z = (x − centre)/half as one in x. */
    private LinearFit inPowersOf(double centre, double half) {
        int size = parameters.length;
        DMatrixRMaj map = new DMatrixRMaj(size, size);
        for (int k = 0; k < size; k++) {
            double binomial = 1;
            for (int j = k; j >= 0; j--) {
                map.set(j, k, binomial * Math.pow(-centre, k - j) / Math.pow(half, k));
                binomial = binomial * j / (k - j + 1);
            }
        }
        DMatrixRMaj mapped = new DMatrixRMaj(size, 1);
        CommonOps_DDRM.mult(map, new DMatrixRMaj(parameters), mapped);
        DMatrixRMaj left = new DMatrixRMaj(size, size);
        CommonOps_DDRM.mult(map, new DMatrixRMaj(cofactors), left);
        DMatrixRMaj product = new DMatrixRMaj(size, size);
        CommonOps_DDRM.multTransB(left, map, product);
        double[][] rows = new double[size][];
        for (int i = 0; i < size; i++) {
            rows[i] = Arrays.copyOfRange(product.data, i * size, (i + 1) * size);
        }
        return new LinearFit(mapped.data, rows, weightedSquares, degreesOfFreedom);
    }

    /**
     * Returns a parameter.
     *
     * @param index from 0
     * @return p<sub>index</sub>
     */
    public double parameter(int index) {
        return parameters[index];
    }

    /**
     * Returns readings less parameters.
     *
     * @return the degrees of freedom
     */
    public int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /**
     * Returns the sum of the squared residuals, each times its weight.
     *
     * @return the sum
     */
    public double weightedSquares() {
        return weightedSquares;
    }

    /**
     * Returns the residual standard deviation of a reading of weight 1.
     *
     * @return the deviation; not a number if there are no degrees of freedom
     */
    public double residualDeviation() {
        return Math.sqrt(weightedSquares / degreesOfFreedom);
    }

    /**
     * Returns the covariance of two parameters for weights that are 1 / variance.
     *
     * @param row the index of one parameter
     * @param column the index of the other
     * @return the covariance
     */
    public double cofactor(int row, int column) {
        return cofactors[row][column];
    }

    /**
     * Returns the standard deviation of a parameter, scaled by the residual deviation.
     *
     * @param index from 0
     * @return the deviation
     */
    public double deviation(int index) {
        return residualDeviation() * Math.sqrt(cofactors[index][index]);
    }
}
