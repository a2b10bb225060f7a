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
    private final double[][] projected = new double[MOST_SHAPE_PARAMETERS][0];
    private final double[][] partials = new double[MOST_SHAPE_PARAMETERS][0];
    private final double[] gradient = new double[MOST_SHAPE_PARAMETERS];
    private final double[] partialMean = new double[MOST_SHAPE_PARAMETERS];
    private final double[] partialByValue = new double[MOST_SHAPE_PARAMETERS];
    private final double[][] normal = new double[MOST_SHAPE_PARAMETERS][MOST_SHAPE_PARAMETERS];
    private SoftnessPenalty penalty;
    private double fixedOffset;
    private double totalWeight;
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
            for (int k = 0; k < partials.length; k++) {
                partials[k] = new double[count];
                projected[k] = new double[count];
            }
        }
        System.arraycopy(x, 0, this.x, 0, exposed);
        System.arraycopy(observed, 0, this.observed, 0, count);
        reweigh(weights);
        for (int k = shape.size(); k < projected.length; k++) {
            Arrays.fill(projected[k], 0, count, 0);
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
        for (int i = 0; i < count; i++) {
            weights[i] = newWeights[i];
            totalWeight += newWeights[i];
        }
    }

    /** Adds a penalty on shape parameters; null for none. */
    void penalise(SoftnessPenalty newPenalty) {
        penalty = newPenalty;
    }

    /** Holds the offset instead of fitting it. */
    void holdOffset(double value) {
        fixedOffset = value;
    }

    private boolean holdsOffset() {
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
        double valueSum = 0;
        double observedSum = 0;
        for (int i = 0; i < count; i++) {
            valueSum += weights[i] * values[i];
            observedSum += weights[i] * observed[i];
        }
        // With the offset held, φ is counted from 0 and densities from the offset instead of from their means.
        valueMean = holdsOffset() ? 0 : valueSum / totalWeight;
        double observedMean = holdsOffset() ? fixedOffset : observedSum / totalWeight;
        valueSpread = 0;
        double together = 0;
        for (int i = 0; i < count; i++) {
            double c = values[i] - valueMean;
            centred[i] = c;
            valueSpread += weights[i] * c * c;
            together += weights[i] * c * (observed[i] - observedMean);
        }
        scale = together / valueSpread;
        offset = observedMean - scale * valueMean;
        double sum = 0;
        for (int i = 0; i < count; i++) {
            double residual = scale * centred[i] - (observed[i] - observedMean);
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
        formNormalEquations(n);
        if (penalty != null) {
            penalty.addTo(q, normal, gradient);
        }
        factorise(n, triangle, rotated);
    }

    /** The normal equations of the shape parameters with offset and scale eliminated, and the gradient. */
    private void formNormalEquations(int n) {
        for (int k = 0; k < n; k++) {
            project(k);
        }
        // One pass with every sum in a register; a shape with fewer parameters leaves the other columns at 0.
        double[] a = projected[0];
        double[] b = projected[1];
        double[] c = projected[2];
        double[] d = projected[3];
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
            double ai = a[i];
            double bi = b[i];
            double ci = c[i];
            double di = d[i];
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
        double[][] sums = {{aa, ab, ac, ad}, {ab, bb, bc, bd}, {ac, bc, cc, cd}, {ad, bd, cd, dd}};
        for (int k = 0; k < n; k++) {
            for (int l = 0; l < n; l++) {
                normal[k][l] = square * sums[k][l];
            }
        }
    }

    /** Takes from a partial derivative what offset and scale make up for, and forms its gradient. */
    private void project(int k) {
        double[] partial = partials[k];
        double[] rest = projected[k];
        double sum = 0;
        double withValue = 0;
        double withResidual = 0;
        for (int i = 0; i < count; i++) {
            double weighted = weights[i] * partial[i];
            sum += weighted;
            withValue += weighted * centred[i];
            withResidual += weighted * residuals[i];
        }
        double mean = holdsOffset() ? 0 : sum / totalWeight;
        double byValue = withValue / valueSpread;
        for (int i = 0; i < count; i++) {
            rest[i] = partial[i] - mean - byValue * centred[i];
        }
        partialMean[k] = mean;
        partialByValue[k] = byValue;
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
