// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** A shape fitted to readings by {@link ShapeSearch}, as plain numbers. The arrays are not to be changed. */
public final class ShapeFit {

    private final ShapeKind kind;
    private final double[] linear;
    private final double[] shape;
    private final double[][] unscaledCovariance;
    private final double[] residuals;
    private final double[] lossWeights;
    private final Search search;
    private final double sumOfSquares;
    private final int degreesOfFreedom;
    private final double variance;
    private final double readingVariance;

    /**
     * How the search went.
     *
     * @param stopReason why it ended
     * @param iterations the iterations, all stages together
     * @param penalised whether the penalty on softness was needed
     * @param offsetHeld whether the offset was held at its least value
     * @param heldParameter the index of a shape parameter at its bound, −1 if there is none
     */
    public record Search(
            StopReason stopReason, int iterations, boolean penalised, boolean offsetHeld, int heldParameter) {}

    ShapeFit(
            ShapeMinimum minimum,
            double[][] unscaledCovariance,
            double[] lossWeights,
            double sumOfSquares,
            double variance,
            double readingVariance) {
        kind = minimum.problem().kind();
        linear = new double[] {minimum.offset(), minimum.scale()};
        shape = minimum.shape();
        residuals = minimum.residuals();
        search = minimum.search();
        degreesOfFreedom = minimum.problem().degreesOfFreedom();
        this.unscaledCovariance = unscaledCovariance;
        this.lossWeights = lossWeights;
        this.sumOfSquares = sumOfSquares;
        this.variance = variance;
        this.readingVariance = readingVariance;
    }

    /**
     * Returns what was fitted.
     *
     * @return the kind of shape
     */
    public ShapeKind kind() {
        return kind;
    }

    /**
     * Returns the density where the shape is 0.
     *
     * @return the offset
     */
    public double offset() {
        return linear[0];
    }

    /**
     * Returns the density for each unit of the shape.
     *
     * @return the scale
     */
    public double scale() {
        return linear[1];
    }

    /**
     * Returns the shape parameters, positive ones as logarithms.
     *
     * @return the parameters
     */
    public double[] shape() {
        return shape;
    }

    /**
     * Returns the covariance of offset, scale and shape parameters for readings of weight 1 and variance 1.
     *
     * @return the matrix by rows
     */
    public double[][] unscaledCovariance() {
        return unscaledCovariance;
    }

    /**
     * Returns the residuals.
     *
     * @return model − observed, for each reading
     */
    public double[] residuals() {
        return residuals;
    }

    /** How far this curve lies from other readings; the unexposed ones count where the shape reaches them. */
    double[] residualsOf(Readings others) {
        double[] distances = new double[others.size()];
        for (int i = 0; i < distances.length; i++) {
            double value = i < others.exposed() ? kind.shape().value(others.logExposures()[i], shape) : 0;
            distances[i] = offset() + scale() * value - others.densities()[i];
        }
        return distances;
    }

    /**
     * Returns how much the loss trusts each reading.
     *
     * @return 1 for full trust, 0 for none
     */
    public double[] lossWeights() {
        return lossWeights;
    }

    /**
     * Returns how the search went.
     *
     * @return the search
     */
    public Search search() {
        return search;
    }

    /**
     * Returns the weighted sum of squared residuals, without penalty and without weights of the loss.
     *
     * @return the sum
     */
    public double sumOfSquares() {
        return sumOfSquares;
    }

    /**
     * Returns the readings less the fitted parameters.
     *
     * @return the degrees of freedom
     */
    public int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /**
     * Returns the factor from the unscaled covariance to the covariance: the variance of a reading, and for a robust loss
     * more.
     *
     * @return the factor
     */
    public double variance() {
        return variance;
    }

    /**
     * Returns the variance of a good reading of weight 1: the one stated, else that of the residuals, for a robust loss
     * from their median size.
     *
     * @return the variance
     */
    public double readingVariance() {
        return readingVariance;
    }
}
