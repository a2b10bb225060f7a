package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * The sum of squares of a {@link Shape} fitted to readings, as a function of its shape parameters alone: for each of
 * their values the offset and the scale that fit best are found in closed form (variable projection).
 *
 * <p>Kaufman's simplification is used for the derivatives: the gradient is exact, and the second derivatives lack a term
 * that vanishes with the residuals.
 *
 * <p>An instance is a reusable workspace for one thread: {@link #reset} it for each fit.
 *
 * @source G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10 (1973), 413–432; L. Kaufman, BIT 15 (1975), 49–57 (both
 *     from memory)
 */
final class SeparableObjective implements Objective {

    /** The most parameters a {@link Shape} has. */
    static final int MOST_SHAPE_PARAMETERS = 4;

    private static final double LEAST_PIVOT = 1e-14;

    private Shape shape;
    private int exposed;
    private int count;
    private double[] x = new double[0];
    private double[] observed = new double[0];
    private double[] weights = new double[0];
    private double[] values = new double[0];
    private double[] residuals = new double[0];
    private double[] centred = new double[0];
    private double[] risen = new double[0];
    private final double[][] partials = new double[MOST_SHAPE_PARAMETERS][0];
    private final double[] gradient = new double[MOST_SHAPE_PARAMETERS];
    private final double[] partialMean = new double[MOST_SHAPE_PARAMETERS];
    private final double[] partialByValue = new double[MOST_SHAPE_PARAMETERS];
    private final double[][] normal = new double[MOST_SHAPE_PARAMETERS][MOST_SHAPE_PARAMETERS];
    private SoftnessPenalty penalty;
    private double fixedOffset;
    private double totalWeight;
    /** Densities are counted from here, as {@link #risen}: from their mean, or from the offset where that is held. */
    private double level;

    private double offset;
    private double scale;
    private double valueMean;
    private double valueSpread;

    /**
     * Takes the readings of a fit; the arrays are copied.
     *
     * @param shape the shape
     * @param x the log exposures
     * @param exposed how many readings are exposed; those after them are unexposed and have no x
     * @param observed the densities
     * @param weights the weight of each, 1/variance up to a common factor
     */
    void reset(Shape shape, double[] x, int exposed, double[] observed, double[] weights) {
        this.shape = shape;
        this.exposed = exposed;
        penalty = null;
        fixedOffset = Double.NaN;
        count = observed.length;
        if (this.x.length < count) {
            this.x = new double[count];
            this.observed = new double[count];
            this.weights = new double[count];
            values = new double[count];
            residuals = new double[count];
            centred = new double[count];
            risen = new double[count];
            for (int k = 0; k < partials.length; k++) {
                partials[k] = new double[count];
            }
        }
        System.arraycopy(x, 0, this.x, 0, exposed);
        System.arraycopy(observed, 0, this.observed, 0, count);
        reweigh(weights);
        for (int k = shape.size(); k < partials.length; k++) {
            Arrays.fill(partials[k], 0, count, 0);
        }
        for (int i = exposed; i < count; i++) {
            values[i] = 0;
            for (double[] partial : partials) {
                partial[i] = 0;
            }
        }
    }

    /** Replaces the weights. */
    void reweigh(double[] newWeights) {
        totalWeight = 0;
        double sum = 0;
        for (int i = 0; i < count; i++) {
            weights[i] = newWeights[i];
            totalWeight += newWeights[i];
            sum += newWeights[i] * observed[i];
        }
        countFrom(holdsOffset() ? fixedOffset : sum / totalWeight);
    }

    private void countFrom(double newLevel) {
        level = newLevel;
        for (int i = 0; i < count; i++) {
            risen[i] = observed[i] - newLevel;
        }
    }

    /** Adds a penalty on shape parameters; null for none. */
    void penalise(SoftnessPenalty newPenalty) {
        penalty = newPenalty;
    }

    /** Holds the offset instead of fitting it. */
    void holdOffset(double value) {
        fixedOffset = value;
        countFrom(value);
    }

    boolean holdsOffset() {
        return !Double.isNaN(fixedOffset);
    }

    double offset() {
        return offset;
    }

    double scale() {
        return scale;
    }

    double[] residuals() {
        return residuals;
    }

    @Override
    public int size() {
        return shape.size();
    }

    @Override
    public int degreesOfFreedom() {
        return count - size() - (holdsOffset() ? 1 : 2);
    }

    @Override
    public double sumOfSquares(double[] q) {
        shape.fill(x, exposed, q, values, partials);
        valueMean = 0;
        if (!holdsOffset()) {
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
        return penalty == null ? sum : sum + penalty.sumOfSquares(q);
    }

    @Override
    public void linearise(double[] q, double[][] triangle, double[] rotated) {
        int n = shape.size();
        formNormalEquations();
        if (penalty != null) {
            penalty.addTo(q, normal, gradient);
        }
        factorise(n, triangle, rotated);
    }

    /** The normal equations of the shape parameters with offset and scale eliminated, and the gradient. */
    private void formNormalEquations() {
        // Every sum in a register; a shape with fewer parameters leaves the other columns at 0.
        double[] a = partials[0];
        double[] b = partials[1];
        double[] c = partials[2];
        double[] d = partials[3];
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

    private void setNormal(int row, int column, double value) {
        normal[row][column] = value;
        normal[column][row] = value;
    }

    /** What offset and scale make up for of a partial derivative, and its gradient, from weighted sums. */
    private void eliminate(int k, double sum, double withValue, double withResidual) {
        partialMean[k] = holdsOffset() ? 0 : sum / totalWeight;
        partialByValue[k] = withValue / valueSpread;
        gradient[k] = scale * withResidual;
    }

    private void factorise(int n, double[][] triangle, double[] rotated) {
        for (int k = 0; k < n; k++) {
            double pivot = normal[k][k];
            for (int i = 0; i < k; i++) {
                pivot -= triangle[i][k] * triangle[i][k];
            }
            double least = LEAST_PIVOT * normal[k][k];
            double diagonal = Math.sqrt(Math.max(pivot, least));
            triangle[k][k] = diagonal;
            double right = gradient[k];
            for (int i = 0; i < k; i++) {
                right -= triangle[i][k] * rotated[i];
            }
            rotated[k] = diagonal > 0 ? right / diagonal : 0;
            for (int j = k + 1; j < n; j++) {
                double sum = normal[k][j];
                for (int i = 0; i < k; i++) {
                    sum -= triangle[i][k] * triangle[i][j];
                }
                triangle[k][j] = diagonal > 0 ? sum / diagonal : 0;
            }
        }
    }

    /**
     * The covariance of offset, scale and shape parameters, in this order, for readings of variance 1/weight.
     *
     * @param shapeCovariance that of the shape parameters, (R<sup>T</sup> R)<sup>−1</sup> at the minimum
     */
    double[][] covariance(double[][] shapeCovariance) {
        int n = shape.size();
        double[][] covariance = new double[n + 2][n + 2];
        // How offset and scale follow a change of each shape parameter.
        double[] offsetBy = new double[n];
        double[] scaleBy = new double[n];
        for (int k = 0; k < n; k++) {
            scaleBy[k] = -scale * partialByValue[k];
            offsetBy[k] = -scale * partialMean[k] - scaleBy[k] * valueMean;
        }
        double scaleVariance = 1 / valueSpread;
        covariance[0][0] = (holdsOffset() ? 0 : 1 / totalWeight) + valueMean * valueMean * scaleVariance;
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
