package org.tonewedge.standards.densitometer.internal;

/**
 * Weighted linear least squares with a few parameters, by normal equations scaled to unit diagonal. Columns must be well
 * conditioned; {@link #polynomial} centres and scales for that.
 */
public final class LeastSquares {

    private final double[] parameters;
    private final double[][] cofactors;
    private final double weightedSquares;
    private final int degreesOfFreedom;

    private LeastSquares(double[] parameters, double[][] cofactors, double weightedSquares, int degreesOfFreedom) {
        this.parameters = parameters;
        this.cofactors = cofactors;
        this.weightedSquares = weightedSquares;
        this.degreesOfFreedom = degreesOfFreedom;
    }

    /** Fits y = Σ p<sub>j</sub> · row<sub>j</sub>. */
    public static LeastSquares of(double[][] rows, double[] y, double[] weights) {
        int size = rows[0].length;
        double[][] normal = new double[size][size];
        double[] right = new double[size];
        for (int i = 0; i < y.length; i++) {
            for (int j = 0; j < size; j++) {
                right[j] += weights[i] * rows[i][j] * y[i];
                for (int k = 0; k < size; k++) {
                    normal[j][k] += weights[i] * rows[i][j] * rows[i][k];
                }
            }
        }
        double[][] cofactors = inverse(normal);
        double[] parameters = times(cofactors, right);
        double[] residuals = residuals(rows, y, parameters);
        // One step of refinement takes out the rounding of the normal equations.
        double[] rest = new double[size];
        for (int i = 0; i < y.length; i++) {
            for (int j = 0; j < size; j++) {
                rest[j] += weights[i] * rows[i][j] * residuals[i];
            }
        }
        double[] refinement = times(cofactors, rest);
        for (int j = 0; j < size; j++) {
            parameters[j] += refinement[j];
        }
        double squares = 0;
        double[] refined = residuals(rows, y, parameters);
        for (int i = 0; i < y.length; i++) {
            squares += weights[i] * refined[i] * refined[i];
        }
        return new LeastSquares(parameters, cofactors, squares, y.length - size);
    }

    /** Fits y = p<sub>0</sub> + p<sub>1</sub> x + … of a degree with equal weights. */
    public static LeastSquares polynomial(double[] x, double[] y, int degree) {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (double value : x) {
            least = Math.min(least, value);
            most = Math.max(most, value);
        }
        double centre = (least + most) / 2;
        double half = (most - least) / 2;
        double[][] rows = new double[x.length][degree + 1];
        double[] weights = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            weights[i] = 1;
            double power = 1;
            for (int j = 0; j <= degree; j++) {
                rows[i][j] = power;
                power *= (x[i] - centre) / half;
            }
        }
        return of(rows, y, weights).inPowersOf(centre, half);
    }

    /** Rewrites a polynomial in z = (x − centre)/half as one in x. */
    private LeastSquares inPowersOf(double centre, double half) {
        int size = parameters.length;
        double[][] map = new double[size][size];
        for (int k = 0; k < size; k++) {
            double binomial = 1;
            for (int j = k; j >= 0; j--) {
                map[j][k] = binomial * Math.pow(-centre, k - j) / Math.pow(half, k);
                binomial = binomial * j / (k - j + 1);
            }
        }
        double[][] mapped = new double[size][size];
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                for (int k = 0; k < size; k++) {
                    for (int m = 0; m < size; m++) {
                        mapped[i][j] += map[i][k] * cofactors[k][m] * map[j][m];
                    }
                }
            }
        }
        return new LeastSquares(times(map, parameters), mapped, weightedSquares, degreesOfFreedom);
    }

    private static double[] residuals(double[][] rows, double[] y, double[] parameters) {
        double[] residuals = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            double fitted = 0;
            for (int j = 0; j < parameters.length; j++) {
                fitted += rows[i][j] * parameters[j];
            }
            residuals[i] = y[i] - fitted;
        }
        return residuals;
    }

    private static double[] times(double[][] matrix, double[] vector) {
        double[] product = new double[vector.length];
        for (int i = 0; i < vector.length; i++) {
            for (int j = 0; j < vector.length; j++) {
                product[i] += matrix[i][j] * vector[j];
            }
        }
        return product;
    }

    /** The inverse of a symmetric positive definite matrix by Gauss and Jordan with pivots on the diagonal. */
    private static double[][] inverse(double[][] matrix) {
        int size = matrix.length;
        double[] scale = new double[size];
        double[][] work = new double[size][2 * size];
        for (int i = 0; i < size; i++) {
            scale[i] = 1 / Math.sqrt(matrix[i][i]);
        }
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                work[i][j] = matrix[i][j] * scale[i] * scale[j];
            }
            work[i][size + i] = 1;
        }
        for (int pivot = 0; pivot < size; pivot++) {
            if (!(work[pivot][pivot] > 1e-13)) {
                throw new ArithmeticException("the parameters of the fit cannot be told apart");
            }
            double divisor = work[pivot][pivot];
            for (int j = 0; j < 2 * size; j++) {
                work[pivot][j] /= divisor;
            }
            for (int i = 0; i < size; i++) {
                double factor = work[i][pivot];
                for (int j = 0; i != pivot && j < 2 * size; j++) {
                    work[i][j] -= factor * work[pivot][j];
                }
            }
        }
        double[][] inverse = new double[size][size];
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                inverse[i][j] = work[i][size + j] * scale[i] * scale[j];
            }
        }
        return inverse;
    }

    public double parameter(int index) {
        return parameters[index];
    }

    public int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    public double weightedSquares() {
        return weightedSquares;
    }

    public double residualDeviation() {
        return Math.sqrt(weightedSquares / degreesOfFreedom);
    }

    /** Covariance for weights that are 1 / variance. */
    public double cofactor(int row, int column) {
        return cofactors[row][column];
    }

    /** Standard deviation of a parameter, scaled by the residual deviation. */
    public double deviation(int index) {
        return residualDeviation() * Math.sqrt(cofactors[index][index]);
    }
}
