// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import org.tonewedge.fitting.numeric.LinearFit;

/**
 * The straight line y = a + b x through points with uncertainty in both coordinates (Deming's problem), by York's
 * iteration: each point has the weight W = 1 / (u<sub>y</sub>² + b² u<sub>x</sub>²), and the adjusted points, not the
 * measured ones, give the slope. If x is certain it is the weighted least-squares line.
 *
 * <p>Source: D. York, N. Evensen, M. Martínez, J. De Basabe Delgado, Unified equations for the slope, intercept, and
 * standard errors of the best straight line, American Journal of Physics 72 (2004) 367–375, equations 13, from memory.
 */
final class ErrorsInBothLine {

    private static final int MOST_ITERATIONS = 200;
    private static final double PRECISION = 1e-15;

    private final double intercept;
    private final double slope;
    private final double interceptVariance;
    private final double slopeVariance;
    private final double covariance;
    private final double weightedSquares;
    private final int degreesOfFreedom;
    private final double[][] influences;

    private ErrorsInBothLine(
            double intercept,
            double slope,
            double interceptVariance,
            double slopeVariance,
            double covariance,
            double weightedSquares,
            int degreesOfFreedom,
            double[][] influences) {
        this.intercept = intercept;
        this.slope = slope;
        this.interceptVariance = interceptVariance;
        this.slopeVariance = slopeVariance;
        this.covariance = covariance;
        this.weightedSquares = weightedSquares;
        this.degreesOfFreedom = degreesOfFreedom;
        this.influences = influences;
    }

    /** Fits points; each must have at least one of the two uncertainties above 0. */
    static ErrorsInBothLine through(double[] x, double[] xUncertainty, double[] y, double[] yUncertainty) {
        int count = x.length;
        double[] weights = new double[count];
        double[] adjusted = new double[count];
        double slope = LinearFit.polynomial(x, y, 1).parameter(1);
        double meanX = 0;
        double meanY = 0;
        for (int iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
            double sum = 0;
            meanX = 0;
            meanY = 0;
            for (int i = 0; i < count; i++) {
                weights[i] = 1 / (square(yUncertainty[i]) + square(slope * xUncertainty[i]));
                sum += weights[i];
                meanX += weights[i] * x[i];
                meanY += weights[i] * y[i];
            }
            meanX /= sum;
            meanY /= sum;
            double numerator = 0;
            double denominator = 0;
            for (int i = 0; i < count; i++) {
                double u = x[i] - meanX;
                double v = y[i] - meanY;
                adjusted[i] = weights[i] * (square(yUncertainty[i]) * u + slope * square(xUncertainty[i]) * v);
                numerator += weights[i] * adjusted[i] * v;
                denominator += weights[i] * adjusted[i] * u;
            }
            double next = numerator / denominator;
            double change = Math.abs(next - slope);
            slope = next;
            if (change <= PRECISION * Math.abs(next)) {
                break;
            }
        }
        return withErrors(x, y, weights, adjusted, meanX, meanY, slope);
    }

    private static ErrorsInBothLine withErrors(
            double[] x, double[] y, double[] weights, double[] adjusted, double meanX, double meanY, double slope) {
        double sum = 0;
        double meanAdjusted = 0;
        for (int i = 0; i < x.length; i++) {
            sum += weights[i];
            meanAdjusted += weights[i] * adjusted[i];
        }
        meanAdjusted /= sum;
        double spread = 0;
        double squares = 0;
        double intercept = meanY - slope * meanX;
        for (int i = 0; i < x.length; i++) {
            spread += weights[i] * square(adjusted[i] - meanAdjusted);
            squares += weights[i] * square(y[i] - intercept - slope * x[i]);
        }
        double centre = meanX + meanAdjusted;
        double slopeVariance = 1 / spread;
        double[][] influences = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            double ofSlope = weights[i] * (adjusted[i] - meanAdjusted) * slopeVariance;
            influences[i] = new double[] {weights[i] / sum - centre * ofSlope, ofSlope};
        }
        return new ErrorsInBothLine(
                intercept,
                slope,
                1 / sum + centre * centre * slopeVariance,
                slopeVariance,
                -centre * slopeVariance,
                squares,
                x.length - 2,
                influences);
    }

    private static double square(double value) {
        return value * value;
    }

    double intercept() {
        return intercept;
    }

    double slope() {
        return slope;
    }

    double interceptVariance() {
        return interceptVariance;
    }

    double slopeVariance() {
        return slopeVariance;
    }

    double covariance() {
        return covariance;
    }

    /** The covariances of intercept and slope, for weights that are 1 / variance. */
    double[][] covariances() {
        return new double[][] {{interceptVariance, covariance}, {covariance, slopeVariance}};
    }

    /** By how much intercept and slope move where a point lies one unit higher. */
    double[][] influences() {
        return influences;
    }

    int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /** The factor by which the scatter exceeds what the stated uncertainties explain. */
    double residualDeviation() {
        return Math.sqrt(weightedSquares / degreesOfFreedom);
    }

    double at(double x) {
        return intercept + slope * x;
    }

    /** The variance of the line's height at x, for weights that are 1 / variance. */
    double varianceAt(double x) {
        return interceptVariance + x * x * slopeVariance + 2 * x * covariance;
    }
}
