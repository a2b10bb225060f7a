// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.OptionalDouble;

/**
 * Where a search for the least of a {@link ShapeProblem} ended. The arrays are not to be changed.
 *
 * @param problem what was made small; it holds the offset if that fell below its least value
 * @param stopReason why the search ended
 * @param iterations the iterations, those of earlier stages included
 * @param shape the shape parameters
 * @param offset the density where the shape is 0
 * @param scale the density for each unit of the shape
 * @param sumOfSquares the weighted squares of the residuals, and the penalty
 * @param residuals model − observed, for each reading
 * @param held which shape parameters are held at a bound
 * @param shapeCovariance that of the shape parameters for readings of weight 1 and variance 1
 */
@SuppressWarnings("ArrayRecordComponent") // handed on, never compared
record ShapeMinimum(
        ShapeProblem problem,
        StopReason stopReason,
        int iterations,
        double[] shape,
        double offset,
        double scale,
        double sumOfSquares,
        double[] residuals,
        boolean[] held,
        double[][] shapeCovariance) {

    boolean isConverged() {
        return stopReason.isConverged();
    }

    /** The same with the iterations of an earlier stage added. */
    ShapeMinimum after(ShapeMinimum earlier) {
        return plus(earlier.iterations);
    }

    /** The same with the iterations of another stage added. */
    ShapeMinimum plus(int others) {
        return new ShapeMinimum(
                problem,
                stopReason,
                others + iterations,
                shape,
                offset,
                scale,
                sumOfSquares,
                residuals,
                held,
                shapeCovariance);
    }

    /** The variance of a reading of weight 1: the one that is known, or that of the residuals. */
    double readingVariance(OptionalDouble known) {
        return known.orElse(sumOfSquares / Math.max(1, problem.degreesOfFreedom()));
    }

    /**
     * Whether the readings leave a softness open: its logarithm has a greater error than the penalty would allow it.
     *
     * @param readingVariance the variance of a reading of weight 1
     * @param isStated whether that was known, and not taken from the residuals
     */
    boolean isSoftnessOpen(double readingVariance, boolean isStated) {
        ShapeKind kind = problem.kind();
        if (!kind.hasSoftness()) {
            return false;
        }
        if (!isConverged()) {
            return true;
        }
        // A bend may be sharp, so that its softness is held at its least; readings that count as exact show that.
        boolean exact = stopReason == StopReason.EXACT_FIT && !isStated;
        double most = SoftnessPenalty.SPREAD * SoftnessPenalty.SPREAD;
        for (int k = 0; k < shape.length; k++) {
            boolean closed = held[k] ? exact : readingVariance * shapeCovariance[k][k] < most;
            if (kind.isSoftness(k) && !closed) {
                return true;
            }
        }
        return false;
    }

    /** The leverage of each reading, how far the curve follows it, from 0 to 1, by the covariance of all parameters. */
    double[] leverages(double[][] covariance) {
        Readings readings = problem.readings();
        int n = shape.length;
        int exposed = readings.exposed();
        double[] values = new double[exposed];
        double[][] partials = new double[n][exposed];
        problem.kind().shape().fill(readings.logExposures(), exposed, shape, values, partials);
        double[] leverages = new double[readings.size()];
        double[] row = new double[n + 2];
        for (int i = 0; i < leverages.length; i++) {
            row[0] = 1;
            row[1] = i < exposed ? values[i] : 0;
            for (int k = 0; k < n; k++) {
                row[k + 2] = i < exposed ? scale * partials[k][i] : 0;
            }
            double sum = 0;
            for (int k = 0; k < row.length; k++) {
                for (int l = 0; l < row.length; l++) {
                    sum += row[k] * covariance[k][l] * row[l];
                }
            }
            leverages[i] = problem.weights()[i] * sum;
        }
        return leverages;
    }

    /** The index of a shape parameter at its bound, −1 if there is none; one that stops the fit goes before a run. */
    int heldParameter() {
        int found = -1;
        for (int k = 0; k < held.length; k++) {
            if (held[k] && (found < 0 || problem.kind().isRun(found))) {
                found = k;
            }
        }
        return found;
    }

    ShapeFit.Search search() {
        return new ShapeFit.Search(
                stopReason, iterations, !problem.penalty().isNone(), problem.holdsOffset(), heldParameter());
    }
}
