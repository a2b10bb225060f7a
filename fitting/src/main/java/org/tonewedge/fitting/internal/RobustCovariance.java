// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;
import java.util.OptionalDouble;

/** Huber's estimate of the covariance of a robust fit: a factor times that of a plain fit at the same parameters. */
final class RobustCovariance {

    private RobustCovariance() {}

    /**
     * The factor from {@link #unscaled} to the covariance: σ² κ² [Σ ψ²/(n − p)]/(mean ψ′)², κ = 1 + p/n · var ψ′/(mean
     * ψ′)²; the known variance over the efficiency of the loss where it is known.
     *
     * @source P. J. Huber, Robust Statistics (1981), 7.6 (from memory)
     */
    static double factor(Reweighting.Settled fit, Loss loss, OptionalDouble knownVariance) {
        if (knownVariance.isPresent()) {
            return knownVariance.getAsDouble() / Loss.EFFICIENCY;
        }
        ShapeProblem problem = fit.minimum().problem();
        double[] weights = problem.readings().weights();
        double[] residuals = fit.minimum().residuals();
        int n = weights.length;
        double squares = 0;
        double slopes = 0;
        double slopeSquares = 0;
        for (int k = 0; k < n; k++) {
            double u = residuals[k] * Math.sqrt(weights[k]) / fit.deviation();
            double score = loss.weight(u) * u;
            double slope = loss.slope(u);
            squares += score * score;
            slopes += slope;
            slopeSquares += slope * slope;
        }
        int freedom = Math.max(1, problem.degreesOfFreedom());
        double mean = slopes / n;
        double spread = slopeSquares / n - mean * mean;
        double correction = 1 + (n - freedom) / (double) n * spread / (mean * mean);
        return fit.readingVariance() * correction * correction * (squares / freedom) / (mean * mean);
    }

    /** The covariance of offset, scale and shape parameters for readings of variance 1, all trusted alike. */
    static double[][] unscaled(ShapeMinimum minimum) {
        int n = minimum.shape().length;
        double[] parameters = new double[n + 2];
        parameters[0] = minimum.offset();
        parameters[1] = minimum.scale();
        System.arraycopy(minimum.shape(), 0, parameters, 2, n);
        boolean[] held = new boolean[n + 2];
        held[0] = minimum.problem().holdsOffset();
        System.arraycopy(minimum.held(), 0, held, 2, n);
        HouseholderObjective linearised =
                new HouseholderObjective(new WholeProblem(minimum.problem()), parameters, Bounds.none(n + 2));
        double[][] triangle = new double[n + 2][n + 2];
        linearised.sumOfSquares(parameters);
        linearised.linearise(parameters, triangle, new double[n + 2]);
        return Triangle.ofFree(triangle, held).covariance();
    }

    /** All parameters together at a solution: the derivatives of the residuals, with rows for a penalty. */
    private static final class WholeProblem implements LeastSquaresProblem {

        private final ShapeKind kind;
        private final Readings readings;
        private final double penaltyRoot;

        WholeProblem(ShapeProblem problem) {
            kind = problem.kind();
            readings = problem.readings();
            penaltyRoot = problem.penalty().root();
        }

        @Override
        public int parameterCount() {
            return kind.shape().size() + 2;
        }

        @Override
        public int residualCount() {
            return readings.size() + kind.shape().size();
        }

        @Override
        public void residuals(double[] parameters, double[] residuals) {
            Arrays.fill(residuals, 0); // the derivatives alone are asked for
        }

        @Override
        public boolean jacobian(double[] parameters, double[][] columns) {
            int n = kind.shape().size();
            int exposed = readings.exposed();
            double[] values = new double[exposed];
            double[][] partials = new double[n][exposed];
            kind.shape()
                    .fill(readings.logExposures(), exposed, Arrays.copyOfRange(parameters, 2, n + 2), values, partials);
            for (double[] column : columns) {
                Arrays.fill(column, 0);
            }
            for (int i = 0; i < readings.size(); i++) {
                double root = Math.sqrt(readings.weights()[i]);
                columns[0][i] = root;
                if (i < exposed) {
                    columns[1][i] = root * values[i];
                    for (int k = 0; k < n; k++) {
                        columns[k + 2][i] = root * parameters[1] * partials[k][i];
                    }
                }
            }
            for (int k = 0; k < n; k++) {
                columns[k + 2][readings.size() + k] = kind.isSoftness(k) ? penaltyRoot : 0;
            }
            return true;
        }
    }
}
