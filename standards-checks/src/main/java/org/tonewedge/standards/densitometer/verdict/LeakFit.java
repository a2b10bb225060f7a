// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Optional;
import org.tonewedge.core.internal.Minimum;
import org.tonewedge.fitting.numeric.DeltaMethod;
import org.tonewedge.fitting.numeric.LinearFit;

/**
 * A densitometer whose detector sees more than the light through the sample: D<sub>m</sub> = a − b · log<sub>10</sub>
 * (10<sup>−D</sup> + l). The leak l is a transmittance: stray light, or too little dark subtracted, if positive; too
 * much dark subtracted if negative. For a given l the rest is a line, so only l must be searched.
 */
final class LeakFit {

    static final int FEWEST_POINTS = 4;

    private static final double MOST_LEAK = 0.3;
    private static final double LEAST_LEAK = 1e-9;
    private static final int STEPS_PER_DECADE = 10;
    private static final int PASSES = 3;
    /** The part of the bracket to which a leak is searched. */
    private static final double NEAR = 3.5e-13;

    private final double[] x;
    private final double[] y;
    private final double[] weights;
    private double from;
    private double to;
    private double leak;
    private Line line;
    private double[][] covariance;

    /** A line and its weighted sum of squares. */
    private record Line(double offset, double slope, double weightedSquares) {}

    private LeakFit(double[] x, double[] y) {
        this.x = x;
        this.y = y;
        this.weights = new double[x.length];
    }

    /**
     * Fits certified densities x and measured densities y. The effect of an uncertainty in x depends on the slope of
     * the curve, so the weights follow the fit in a few passes. Empty if the densities are too similar to separate a
     * leak from an offset and a slope.
     */
    static Optional<LeakFit> through(double[] x, double[] xUncertainty, double[] y, double[] yUncertainty) {
        LeakFit fit = new LeakFit(x, y);
        for (int i = 0; i < x.length; i++) {
            fit.weights[i] = 1 / (square(yUncertainty[i]) + square(xUncertainty[i]));
        }
        fit.search();
        for (int pass = 0; pass < PASSES; pass++) {
            for (int i = 0; i < x.length; i++) {
                fit.weights[i] = 1 / (square(yUncertainty[i]) + square(fit.slopeAt(x[i]) * xUncertainty[i]));
            }
            fit.refine();
        }
        try {
            fit.covariance = fit.inverse();
        } catch (ArithmeticException e) {
            return Optional.empty();
        }
        return Optional.of(fit);
    }

    private static double square(double value) {
        return value * value;
    }

    private void search() {
        double least = Double.POSITIVE_INFINITY;
        for (double density : x) {
            least = Math.min(least, transmittance(density));
        }
        int decades = (int) Math.ceil(Math.log10(MOST_LEAK / LEAST_LEAK));
        int count = decades * STEPS_PER_DECADE;
        double[] trials = new double[2 * count + 3];
        double ratio = Math.pow(MOST_LEAK / LEAST_LEAK, 1.0 / count);
        double lowest = -0.98 * least;
        for (int i = 0; i <= count; i++) {
            trials[count + 2 + i] = LEAST_LEAK * Math.pow(ratio, i);
            trials[count - i] = lowest * Math.pow(LEAST_LEAK / -lowest, (double) (count - i) / count);
        }
        int best = 0;
        double bestSquares = Double.POSITIVE_INFINITY;
        for (int i = 0; i < trials.length; i++) {
            double squares = lineAt(trials[i]).weightedSquares();
            if (squares < bestSquares) {
                bestSquares = squares;
                best = i;
            }
        }
        from = trials[Math.max(0, best - 2)];
        to = trials[Math.min(trials.length - 1, best + 2)];
        refine();
    }

    private void refine() {
        leak = Minimum.between(trial -> lineAt(trial).weightedSquares(), from, to, NEAR * (to - from));
        line = lineAt(leak);
    }

    /** The weighted least-squares line for a leak; infinitely bad if all densities look the same. */
    private Line lineAt(double trial) {
        double[] seen = new double[x.length];
        double sum = 0;
        double meanSeen = 0;
        double meanRead = 0;
        for (int i = 0; i < x.length; i++) {
            seen[i] = seen(x[i], trial);
            sum += weights[i];
            meanSeen += weights[i] * seen[i];
            meanRead += weights[i] * y[i];
        }
        meanSeen /= sum;
        meanRead /= sum;
        double spread = 0;
        double product = 0;
        for (int i = 0; i < x.length; i++) {
            spread += weights[i] * square(seen[i] - meanSeen);
            product += weights[i] * (seen[i] - meanSeen) * (y[i] - meanRead);
        }
        double slope = product / spread;
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            squares += weights[i] * square(y[i] - meanRead - slope * (seen[i] - meanSeen));
        }
        return new Line(meanRead - slope * meanSeen, slope, Double.isNaN(squares) ? Double.POSITIVE_INFINITY : squares);
    }

    /** The inverse of the normal matrix of all three parameters at the solution. */
    private double[][] inverse() {
        double[][] rows = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            rows[i] = gradientAt(x[i]);
        }
        LinearFit all = LinearFit.of(rows, y, weights);
        double[][] made = new double[3][3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                made[i][j] = all.cofactor(i, j);
            }
        }
        return made;
    }

    /** The derivatives of the reading at a density with respect to offset, slope and leak. */
    double[] gradientAt(double density) {
        return new double[] {1, seen(density, leak), -slope() / (Math.log(10) * (transmittance(density) + leak))};
    }

    private static double transmittance(double density) {
        return Math.pow(10, -density);
    }

    private static double seen(double density, double leak) {
        return -Math.log10(transmittance(density) + leak);
    }

    double offset() {
        return line.offset();
    }

    double slope() {
        return line.slope();
    }

    double leak() {
        return leak;
    }

    double offsetVariance() {
        return covariance[0][0];
    }

    double slopeVariance() {
        return covariance[1][1];
    }

    double leakVariance() {
        return covariance[2][2];
    }

    int degreesOfFreedom() {
        return x.length - 3;
    }

    double weightedSquares() {
        return line.weightedSquares();
    }

    double residualDeviation() {
        return degreesOfFreedom() > 0 ? Math.sqrt(weightedSquares() / degreesOfFreedom()) : 0;
    }

    /** The measured density for a true one. */
    double at(double density) {
        return offset() + slope() * seen(density, leak);
    }

    double slopeAt(double density) {
        double transmittance = transmittance(density);
        return slope() * transmittance / (transmittance + leak);
    }

    double varianceAt(double density) {
        return DeltaMethod.variance(gradientAt(density), covariance);
    }

    /** The covariances of offset, slope and leak, for weights that are 1 / variance. */
    double[][] covariances() {
        return covariance;
    }

    /** By how much offset, slope and leak move where a point lies one unit higher. */
    double[][] influences() {
        double[][] influences = new double[x.length][3];
        for (int point = 0; point < x.length; point++) {
            double[] gradient = gradientAt(x[point]);
            for (int i = 0; i < 3; i++) {
                for (int j = 0; j < 3; j++) {
                    influences[point][i] += weights[point] * covariance[i][j] * gradient[j];
                }
            }
        }
        return influences;
    }
}
