// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import org.apache.commons.math3.exception.ConvergenceException;
import org.apache.commons.math3.exception.TooManyEvaluationsException;
import org.apache.commons.math3.exception.TooManyIterationsException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.fitting.leastsquares.MultivariateJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.util.Pair;
import org.tonewedge.fitting.internal.Readings;
import org.tonewedge.fitting.internal.ShapeKind;
import org.tonewedge.fitting.internal.ShapeSearch;

/**
 * Toe, straight line and shoulder fitted by Commons Math's Levenberg–Marquardt optimiser, with analytic derivatives. The
 * parameters are base plus fog, gradient, toe position and softness, shoulder position and softness.
 */
final class CommonsMathPeer {

    private static final int MOST_EVALUATIONS = 1000;
    private static final int FITTED = 6;
    /** What the optimiser takes where nothing is stated. */
    private static final double ITS_OWN_TOLERANCE = 1e-10;

    private static final double SINGULAR = 1e-14;
    private static final double PLAIN_SOFTNESS = 0.2;

    private CommonsMathPeer() {}

    /** The start of this library's own search, with offset and scale of its broken line. */
    static double[] start(double[] x, double[] densities) {
        double[] weights = new double[densities.length];
        Arrays.fill(weights, 1);
        double[] natural = ShapeKind.TOE_SHOULDER.natural(
                ShapeSearch.start(ShapeKind.TOE_SHOULDER, new Readings(x, densities, weights)));
        double least = Arrays.stream(densities).min().orElseThrow();
        double greatest = Arrays.stream(densities).max().orElseThrow();
        double gradient = (greatest - least) / (natural[2] - natural[0]);
        return new double[] {least, gradient, natural[0], natural[1], natural[2], natural[3]};
    }

    /** The same with both softnesses at 0.2 log units, as a user without a better guess would write it. */
    static double[] plainStart(double[] x, double[] densities) {
        double[] start = start(x, densities);
        start[3] = PLAIN_SOFTNESS;
        start[5] = PLAIN_SOFTNESS;
        return start;
    }

    static LeastSquaresOptimizer.Optimum fit(double[] x, double[] densities) {
        return fit(x, densities, start(x, densities));
    }

    /** The residual sum of squares after a fit with covariance; infinite if the optimiser gave up. */
    static double sumOrNothing(double[] x, double[] densities, double[] start) {
        return sumOrNothing(x, densities, start, ITS_OWN_TOLERANCE);
    }

    static double sumOrNothing(double[] x, double[] densities, double[] start, double tolerance) {
        try {
            LeastSquaresOptimizer.Optimum optimum = fit(x, densities, start, tolerance);
            double[][] covariance = optimum.getCovariances(SINGULAR).getData();
            double cost = optimum.getCost();
            return covariance[0][0] >= 0 ? cost * cost : Double.POSITIVE_INFINITY;
        } catch (TooManyEvaluationsException
                | TooManyIterationsException
                | ConvergenceException
                | SingularMatrixException e) {
            return Double.POSITIVE_INFINITY;
        }
    }

    static LeastSquaresOptimizer.Optimum fit(double[] x, double[] densities, double[] start) {
        return fit(x, densities, start, ITS_OWN_TOLERANCE);
    }

    /** A fit that ends when cost, parameters or the angle to the gradient change by less than a tolerance. */
    static LeastSquaresOptimizer.Optimum fit(double[] x, double[] densities, double[] start, double tolerance) {
        MultivariateJacobianFunction model = point -> {
            double[] p = point.toArray();
            double[] values = new double[x.length];
            double[][] jacobian = new double[x.length][FITTED];
            for (int i = 0; i < values.length; i++) {
                double toe = (x[i] - p[2]) / p[3];
                double e = Math.exp(-Math.abs(toe));
                double toeRamp = Math.max(toe, 0) + Math.log1p(e);
                double toeSlope = (toe >= 0 ? 1 : e) / (1 + e);
                double shoulder = (x[i] - p[4]) / p[5];
                e = Math.exp(-Math.abs(shoulder));
                double shoulderRamp = Math.max(shoulder, 0) + Math.log1p(e);
                double shoulderSlope = (shoulder >= 0 ? 1 : e) / (1 + e);
                double shape = p[3] * toeRamp - p[5] * shoulderRamp;
                values[i] = p[0] + p[1] * shape;
                double[] row = jacobian[i];
                row[0] = 1;
                row[1] = shape;
                row[2] = -p[1] * toeSlope;
                row[3] = p[1] * (toeRamp - toe * toeSlope);
                row[4] = p[1] * shoulderSlope;
                row[5] = -p[1] * (shoulderRamp - shoulder * shoulderSlope);
            }
            return new Pair<>(new ArrayRealVector(values, false), new Array2DRowRealMatrix(jacobian, false));
        };
        return new LevenbergMarquardtOptimizer()
                .withCostRelativeTolerance(tolerance)
                .withParameterRelativeTolerance(tolerance)
                .withOrthoTolerance(tolerance)
                .optimize(new LeastSquaresBuilder()
                        .start(start)
                        .target(densities)
                        .model(model)
                        .maxEvaluations(MOST_EVALUATIONS)
                        .maxIterations(MOST_EVALUATIONS)
                        .build());
    }
}
