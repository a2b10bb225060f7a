// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * The sum of squares of a {@link Shape} fitted to readings, as a function of its shape parameters alone: for each of
 * their values the offset and the scale that fit best are found in closed form (variable projection).
 *
 * <p>The linear model has Kaufman's simplification: the gradient is exact, and the second derivatives lack the terms that
 * vanish with the residuals. Near the minimum, where the search would otherwise approach it by an equal fraction with each
 * step, {@link #bend} adds them for shapes that tell their second derivatives.
 *
 * <p>A shape may have any number of parameters; the normal equations of up to four are formed in registers.
 *
 * <p>A workspace for one thread: {@link #reset} it for each problem.
 *
 * @source G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10 (1973), 413–432; L. Kaufman, BIT 15 (1975), 49–57 (both
 *     from memory)
 */
final class SeparableObjective implements Objective {

    /** Normal equations of so many parameters are formed in registers. */
    private static final int UNROLLED = 4;

    private static final double LEAST_PIVOT = 1e-14;

    /** Second derivatives that change a pivot by more than this factor are not trusted: the minimum is not near. */
    private static final double MOST_CHANGE = 10;

    /** The shape where the first search began, which refits begin with too, and where the search now is. */
    private final Filled start;

    private final Filled moving;
    /** The one of the two that the last sum of squares was of. */
    private Filled filled;

    private boolean begins;
    private final double[] residuals;
    private final double[] centred;
    private final double[] risen;
    /** What offset and scale leave of the partial derivatives; only where the normal equations are not unrolled. */
    private final double[][] across;

    private final double[] gradient;
    private final double[] partialMean;
    private final double[] partialByValue;
    private final double[][] normal;
    /** Half the second derivatives of the sum of squares. */
    private final double[][] second;

    private final double[] withResiduals;
    private final double[] weightedResiduals;
    /** The pivots of the linear model. */
    private final double[] pivots;

    private ShapeProblem problem;
    private Shape shape;
    private int exposed;
    private int count;
    private double[] x;
    private double[] weights;
    private boolean holdsOffset;
    private double totalWeight;
    /** Densities are counted from here, as {@link #risen}: from their mean, or from the offset where that is held. */
    private double level;

    private double offset;
    private double scale;
    private double valueMean;
    private double valueSpread;

    /** A shape and its derivatives at the readings, at some of its parameters; other weights leave them as they are. */
    private static final class Filled {

        final double[] values;
        final double[][] partials;
        final double[] at;
        boolean isKnown;

        Filled(int parameters, int columns, int readings) {
            values = new double[readings];
            partials = new double[columns][readings];
            at = new double[parameters];
        }

        boolean isAt(double[] q) {
            return isKnown && Arrays.equals(q, at);
        }

        /** Unexposed readings have no shape. */
        void clear(int from, int to) {
            Arrays.fill(values, from, to, 0);
            for (double[] partial : partials) {
                Arrays.fill(partial, from, to, 0);
            }
        }
    }

    /** Room for so many shape parameters and readings. */
    SeparableObjective(int parameters, int readings) {
        int columns = Math.max(UNROLLED, parameters);
        start = new Filled(parameters, columns, readings);
        moving = new Filled(parameters, columns, readings);
        filled = start;
        residuals = new double[readings];
        centred = new double[readings];
        risen = new double[readings];
        across = parameters > UNROLLED ? new double[columns][readings] : new double[0][];
        gradient = new double[columns];
        partialMean = new double[columns];
        partialByValue = new double[columns];
        normal = new double[columns][columns];
        second = new double[columns][columns];
        withResiduals = new double[columns];
        weightedResiduals = new double[readings];
        pivots = new double[columns];
    }

    /** Lets go of the problem, so that nothing of it is kept alive; {@link #reset} comes next. */
    void forget() {
        start.isKnown = false;
        moving.isKnown = false;
        problem = null;
        shape = null;
        x = null;
        weights = null;
    }

    /** Takes what is to be made small: as many shape parameters as there is room for, and no more readings. */
    void reset(ShapeProblem next) {
        Readings readings = next.readings();
        start.isKnown &= x == readings.logExposures();
        moving.isKnown &= x == readings.logExposures();
        begins = true;
        problem = next;
        shape = next.kind().shape();
        exposed = readings.exposed();
        count = readings.size();
        x = readings.logExposures();
        weights = next.weights();
        holdsOffset = next.holdsOffset();
        double[] observed = readings.densities();
        totalWeight = 0;
        double sum = 0;
        for (int i = 0; i < count; i++) {
            totalWeight += weights[i];
            sum += weights[i] * observed[i];
        }
        level = holdsOffset ? next.leastOffset() : sum / totalWeight;
        for (int i = 0; i < count; i++) {
            risen[i] = observed[i] - level;
        }
        start.clear(exposed, count);
        moving.clear(exposed, count);
    }

    double offset() {
        return offset;
    }

    double scale() {
        return scale;
    }

    /** A copy of model − observed at the parameters of the last call of {@link #sumOfSquares(double[])}. */
    double[] residuals() {
        return Arrays.copyOf(residuals, count);
    }

    @Override
    public int size() {
        return shape.size();
    }

    @Override
    public int degreesOfFreedom() {
        return problem.degreesOfFreedom();
    }

    @Override
    public double sumOfSquares(double[] q) {
        fill(q);
        double[] values = filled.values;
        valueMean = 0;
        if (!holdsOffset) {
            double sum = 0;
            for (int i = 0; i < count; i++) {
                sum += weights[i] * values[i];
            }
            valueMean = sum / totalWeight;
        }
        valueSpread = 0;
        double together = 0;
        for (int i = 0; i < count; i++) {
            double c = values[i] - valueMean;
            centred[i] = c;
            double weighted = weights[i] * c;
            valueSpread += weighted * c;
            together += weighted * risen[i];
        }
        scale = together / valueSpread;
        offset = level - scale * valueMean;
        double sum = 0;
        for (int i = 0; i < count; i++) {
            double residual = scale * centred[i] - risen[i];
            residuals[i] = residual;
            sum += weights[i] * residual * residual;
        }
        if (!(scale > 0)) {
            return Double.POSITIVE_INFINITY; // the curve would fall, or toe and shoulder have changed places
        }
        SoftnessPenalty penalty = problem.penalty();
        return penalty.isNone() ? sum : sum + penalty.sumOfSquares(q);
    }

    private void fill(double[] q) {
        if (start.isAt(q)) {
            filled = start;
        } else if (moving.isAt(q)) {
            filled = moving;
        } else {
            filled = begins ? start : moving;
            shape.fill(x, exposed, q, filled.values, filled.partials);
            System.arraycopy(q, 0, filled.at, 0, q.length);
            filled.isKnown = true;
        }
        begins = false;
    }

    @Override
    public void linearise(double[] q, double[][] triangle, double[] rotated) {
        int n = shape.size();
        if (n <= UNROLLED) {
            formNormalEquations();
        } else {
            formNormalEquations(n);
        }
        if (!problem.penalty().isNone()) {
            problem.penalty().addTo(q, normal, gradient);
        }
        factorise(n, triangle, rotated);
    }

    @Override
    public boolean bend(double[] q, double[][] triangle, double[] rotated) {
        int n = shape.size();
        return formSecondDerivatives(q, n) && factoriseSecond(n, triangle, rotated);
    }

    /**
     * What the linear model leaves out: the bend of the shape at each reading, and that the scale follows the gradient; false
     * if the shape does not tell its bend.
     */
    private boolean formSecondDerivatives(double[] q, int n) {
        for (int i = 0; i < exposed; i++) {
            weightedResiduals[i] = weights[i] * residuals[i];
        }
        if (!shape.sumSecondPartials(x, exposed, q, filled.partials, weightedResiduals, second)) {
            return false;
        }
        for (int k = 0; k < n; k++) {
            double follow = withResiduals[k] / valueSpread;
            for (int l = k; l < n; l++) {
                double bend =
                        second[k][l] - partialByValue[k] * withResiduals[l] - partialByValue[l] * withResiduals[k];
                second[k][l] = normal[k][l] + scale * bend - follow * withResiduals[l];
            }
        }
        return true;
    }

    private boolean factoriseSecond(int n, double[][] triangle, double[] rotated) {
        for (int k = 0; k < n; k++) {
            double pivot = pivot(second, k, triangle);
            if (!(pivot * MOST_CHANGE > pivots[k] && pivot < MOST_CHANGE * pivots[k])) {
                return false;
            }
            fillRow(second, k, n, Math.sqrt(pivot), triangle, rotated);
        }
        return true;
    }

    /** The normal equations of the shape parameters with offset and scale eliminated, and the gradient. */
    private void formNormalEquations() {
        // Every sum in a register; a shape with fewer parameters leaves the other columns at 0.
        double[] a = filled.partials[0];
        double[] b = filled.partials[1];
        double[] c = filled.partials[2];
        double[] d = filled.partials[3];
        double sumA = 0;
        double sumB = 0;
        double sumC = 0;
        double sumD = 0;
        double valueA = 0;
        double valueB = 0;
        double valueC = 0;
        double valueD = 0;
        double residualA = 0;
        double residualB = 0;
        double residualC = 0;
        double residualD = 0;
        for (int i = 0; i < count; i++) {
            double w = weights[i];
            double value = centred[i];
            double residual = residuals[i];
            double wa = w * a[i];
            double wb = w * b[i];
            double wc = w * c[i];
            double wd = w * d[i];
            sumA += wa;
            sumB += wb;
            sumC += wc;
            sumD += wd;
            valueA += wa * value;
            valueB += wb * value;
            valueC += wc * value;
            valueD += wd * value;
            residualA += wa * residual;
            residualB += wb * residual;
            residualC += wc * residual;
            residualD += wd * residual;
        }
        eliminate(0, sumA, valueA, residualA);
        eliminate(1, sumB, valueB, residualB);
        eliminate(2, sumC, valueC, residualC);
        eliminate(3, sumD, valueD, residualD);
        double meanA = partialMean[0];
        double meanB = partialMean[1];
        double meanC = partialMean[2];
        double meanD = partialMean[3];
        double byValueA = partialByValue[0];
        double byValueB = partialByValue[1];
        double byValueC = partialByValue[2];
        double byValueD = partialByValue[3];
        double aa = 0;
        double ab = 0;
        double ac = 0;
        double ad = 0;
        double bb = 0;
        double bc = 0;
        double bd = 0;
        double cc = 0;
        double cd = 0;
        double dd = 0;
        for (int i = 0; i < count; i++) {
            double w = weights[i];
            double value = centred[i];
            double ai = a[i] - meanA - byValueA * value;
            double bi = b[i] - meanB - byValueB * value;
            double ci = c[i] - meanC - byValueC * value;
            double di = d[i] - meanD - byValueD * value;
            double wa = w * ai;
            double wb = w * bi;
            double wc = w * ci;
            aa += wa * ai;
            ab += wa * bi;
            ac += wa * ci;
            ad += wa * di;
            bb += wb * bi;
            bc += wb * ci;
            bd += wb * di;
            cc += wc * ci;
            cd += wc * di;
            dd += w * di * di;
        }
        double square = scale * scale;
        setNormal(0, 0, square * aa);
        setNormal(0, 1, square * ab);
        setNormal(0, 2, square * ac);
        setNormal(0, 3, square * ad);
        setNormal(1, 1, square * bb);
        setNormal(1, 2, square * bc);
        setNormal(1, 3, square * bd);
        setNormal(2, 2, square * cc);
        setNormal(2, 3, square * cd);
        setNormal(3, 3, square * dd);
    }

    /** The same for any number of parameters. */
    private void formNormalEquations(int n) {
        for (int k = 0; k < n; k++) {
            double[] partial = filled.partials[k];
            double sum = 0;
            double withValue = 0;
            double withResidual = 0;
            for (int i = 0; i < count; i++) {
                double weighted = weights[i] * partial[i];
                sum += weighted;
                withValue += weighted * centred[i];
                withResidual += weighted * residuals[i];
            }
            eliminate(k, sum, withValue, withResidual);
            for (int i = 0; i < count; i++) {
                across[k][i] = partial[i] - partialMean[k] - partialByValue[k] * centred[i];
            }
        }
        for (int k = 0; k < n; k++) {
            for (int l = k; l < n; l++) {
                double sum = 0;
                for (int i = 0; i < count; i++) {
                    sum += weights[i] * across[k][i] * across[l][i];
                }
                setNormal(k, l, scale * scale * sum);
            }
        }
    }

    private void setNormal(int row, int column, double value) {
        normal[row][column] = value;
        normal[column][row] = value;
    }

    /** What offset and scale make up for of a partial derivative, and its gradient, from weighted sums. */
    private void eliminate(int k, double sum, double withValue, double withResidual) {
        partialMean[k] = holdsOffset ? 0 : sum / totalWeight;
        partialByValue[k] = withValue / valueSpread;
        withResiduals[k] = withResidual;
        gradient[k] = scale * withResidual;
    }

    private void factorise(int n, double[][] triangle, double[] rotated) {
        for (int k = 0; k < n; k++) {
            pivots[k] = pivot(normal, k, triangle);
            double least = LEAST_PIVOT * normal[k][k];
            fillRow(normal, k, n, Math.sqrt(Math.max(pivots[k], least)), triangle, rotated);
        }
    }

    /** The square of the next diagonal element of Cholesky's triangle. */
    private static double pivot(double[][] matrix, int k, double[][] triangle) {
        double pivot = matrix[k][k];
        for (int i = 0; i < k; i++) {
            pivot -= triangle[i][k] * triangle[i][k];
        }
        return pivot;
    }

    /** The next row of Cholesky's triangle, and of the gradient rotated by it. */
    private void fillRow(double[][] matrix, int k, int n, double diagonal, double[][] triangle, double[] rotated) {
        double right = gradient[k];
        for (int i = 0; i < k; i++) {
            right -= triangle[i][k] * rotated[i];
        }
        triangle[k][k] = diagonal;
        rotated[k] = diagonal > 0 ? right / diagonal : 0;
        for (int j = k + 1; j < n; j++) {
            double sum = matrix[k][j];
            for (int i = 0; i < k; i++) {
                sum -= triangle[i][k] * triangle[i][j];
            }
            triangle[k][j] = diagonal > 0 ? sum / diagonal : 0;
        }
    }

    /**
     * The covariance of offset, scale and shape parameters, in this order, for readings of variance 1/weight.
     *
     * @param shapeCovariance that of the shape parameters, (R<sup>T</sup> R)<sup>−1</sup> at the minimum
     */
    double[][] covariance(double[][] shapeCovariance) {
        int n = shape.size();
        double[][] covariance = Triangle.square(n + 2);
        // How offset and scale follow a change of each shape parameter.
        double[] offsetBy = new double[n];
        double[] scaleBy = new double[n];
        for (int k = 0; k < n; k++) {
            scaleBy[k] = -scale * partialByValue[k];
            offsetBy[k] = -scale * partialMean[k] - scaleBy[k] * valueMean;
        }
        double scaleVariance = 1 / valueSpread;
        covariance[0][0] = (holdsOffset ? 0 : 1 / totalWeight) + valueMean * valueMean * scaleVariance;
        covariance[1][1] = scaleVariance;
        covariance[0][1] = -valueMean * scaleVariance;
        for (int k = 0; k < n; k++) {
            double offsetTogether = 0;
            double scaleTogether = 0;
            for (int l = 0; l < n; l++) {
                covariance[k + 2][l + 2] = shapeCovariance[k][l];
                offsetTogether += offsetBy[l] * shapeCovariance[l][k];
                scaleTogether += scaleBy[l] * shapeCovariance[l][k];
            }
            covariance[0][k + 2] = offsetTogether;
            covariance[k + 2][0] = offsetTogether;
            covariance[1][k + 2] = scaleTogether;
            covariance[k + 2][1] = scaleTogether;
            covariance[0][0] += offsetTogether * offsetBy[k];
            covariance[0][1] += offsetTogether * scaleBy[k];
            covariance[1][1] += scaleTogether * scaleBy[k];
        }
        covariance[1][0] = covariance[0][1];
        return covariance;
    }
}
