// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import java.util.Random;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The banded computations against the same quantities written out as full matrices (Commons Math 3.6.1). */
class DenseSplineTest {

    private static final double SMOOTHING = 0.013;

    private final double[] x = new double[13];
    private final double[] y = new double[13];
    private final double[] weights = new double[13];
    private final ReinschSystem system;
    private final BandedFactor factor;

    DenseSplineTest() {
        Random random = new Random(7);
        double at = -3;
        for (int i = 0; i < x.length; i++) {
            at += 0.05 + 0.3 * random.nextDouble();
            x[i] = at;
            y[i] = 0.2 + 1 / (1 + Math.exp(-2 * (at + 1.5))) + 0.05 * random.nextGaussian();
            weights[i] = 0.5 + random.nextInt(4);
        }
        system = new ReinschSystem(x, y, weights);
        factor = new BandedFactor(system);
        factor.factor(SMOOTHING);
    }

    private static RealMatrix inverse(RealMatrix matrix) {
        return new LUDecomposition(matrix).getSolver().getInverse();
    }

    private static double logDeterminant(RealMatrix matrix) {
        return Math.log(new LUDecomposition(matrix).getDeterminant());
    }

    /** (W + λ Q R⁻¹ Qᵀ)⁻¹, from the definitions of Q and R. */
    private RealMatrix covariance() {
        int n = x.length;
        RealMatrix q = MatrixUtils.createRealMatrix(n, n - 2);
        RealMatrix r = MatrixUtils.createRealMatrix(n - 2, n - 2);
        for (int j = 0; j < n - 2; j++) {
            double h = x[j + 1] - x[j];
            double next = x[j + 2] - x[j + 1];
            q.setEntry(j, j, 1 / h);
            q.setEntry(j + 1, j, -1 / h - 1 / next);
            q.setEntry(j + 2, j, 1 / next);
            r.setEntry(j, j, (h + next) / 3);
            if (j + 1 < n - 2) {
                r.setEntry(j, j + 1, next / 6);
                r.setEntry(j + 1, j, next / 6);
            }
        }
        RealMatrix penalty = q.multiply(inverse(r)).multiply(q.transpose());
        return inverse(MatrixUtils.createRealDiagonalMatrix(weights).add(penalty.scalarMultiply(SMOOTHING)));
    }

    @Test
    @Tag("slow")
    void fittedValuesAndTraceAreThoseOfTheSmootherMatrix() {
        RealMatrix smoother = covariance().multiply(MatrixUtils.createRealDiagonalMatrix(weights));
        double[] expected = smoother.operate(y);
        double[] fitted = factor.fittedValues();
        for (int i = 0; i < x.length; i++) {
            assertEquals(expected[i], fitted[i], 1e-12);
        }
        assertEquals(smoother.getTrace(), x.length - SMOOTHING * factor.trace(), 1e-11);
    }

    @Test
    void standardErrorsAreThoseOfTheCovarianceMatrix() {
        RealMatrix covariance = covariance();
        double variance = 0.0004;
        SplineSolution solution = SplineSolution.of(
                system,
                new WeightedReadings(weights, 20, 0, OptionalDouble.of(variance), Double.POSITIVE_INFINITY),
                SMOOTHING);
        for (int i = 0; i < x.length; i++) {
            assertEquals(Math.sqrt(variance * covariance.getEntry(i, i)), solution.standardErrorOfDensity(x[i]), 1e-12);
        }
        // Between knots: the functional of a position is found by interpolating each unit vector.
        SplineSpace space = new SplineSpace(system);
        for (double at : new double[] {x[0] + 0.01, 0.5 * (x[4] + x[5]), x[12] - 0.02}) {
            double[] value = new double[x.length];
            double[] slope = new double[x.length];
            for (int i = 0; i < x.length; i++) {
                double[] unit = new double[x.length];
                unit[i] = 1;
                value[i] = space.spline(unit).density(at);
                slope[i] = space.spline(unit).gradient(at);
            }
            assertEquals(quadratic(covariance, value, variance), solution.standardErrorOfDensity(at), 1e-12);
            assertEquals(quadratic(covariance, slope, variance), solution.standardErrorOfGradient(at), 1e-11);
        }
    }

    /**
     * The smoothing of a straight line leaves of each bend 1/(1 + 20 β⁴), β being those of a free beam: 4.7300, 7.8532, 10.9956,
     * 14.1372 (cos β cosh β = 1; any book on vibrations), the slowest of them one in 10,012.
     */
    @Test
    void aStraightLineDampsTheBendsOfAFreeBeam() {
        int n = 201;
        double[] at = new double[n];
        double[] densities = new double[n];
        double[] equal = new double[n];
        for (int i = 0; i < n; i++) {
            at[i] = -2 + 3.0 * i / (n - 1);
            equal[i] = 0.4;
        }
        ReinschSystem beam = new ReinschSystem(at, densities, equal);
        BandedFactor damped = new BandedFactor(beam);
        double smoothing = beam.straightLineSmoothing();
        damped.factor(smoothing);
        double left = 0;
        for (double beta : new double[] {4.7300, 7.8532, 10.9956, 14.1372}) {
            left += 1 / (1 + 20 * Math.pow(beta, 4));
        }
        assertEquals(left, n - 2 - smoothing * damped.trace(), 0.05 * left);
    }

    /** The sign of Σ w (x − x̄) y; by hand the sum is −1 for four equal weights and 1.08 where the last reading, the low one, counts a quarter. */
    @Test
    void theTrendIsThatOfTheWeightedLine() {
        double[] at = {0, 1, 2, 3};
        double[] densities = {2, 3, 4, 1};
        assertEquals(-1, new ReinschSystem(at, densities, new double[] {1, 1, 1, 1}).trend());
        assertEquals(1, new ReinschSystem(at, densities, new double[] {1, 1, 1, 0.25}).trend());
    }

    /** A natural spline has no bend beyond its ends. */
    @Test
    void beyondItsEndsTheSplineIsStraight() {
        NaturalSpline spline = new SplineSpace(system).spline(y);
        double first = x[0];
        double last = x[12];
        for (double beyond : new double[] {0.1, 0.7}) {
            assertEquals(y[0] - beyond * spline.gradient(first), spline.density(first - beyond), 1e-12);
            assertEquals(y[12] + beyond * spline.gradient(last), spline.density(last + beyond), 1e-12);
            assertEquals(spline.gradient(first), spline.gradient(first - beyond), 1e-12);
        }
    }

    @Test
    void unbiasedRiskIsResidualsPlusTwiceTheTrace() {
        RealMatrix smoother = covariance().multiply(MatrixUtils.createRealDiagonalMatrix(weights));
        double[] fitted = smoother.operate(y);
        double squares = 0.01;
        for (int i = 0; i < x.length; i++) {
            squares += weights[i] * (y[i] - fitted[i]) * (y[i] - fitted[i]);
        }
        SmoothingSearch search = new SmoothingSearch(
                system, new WeightedReadings(weights, 20, 0.01, OptionalDouble.of(0.0025), Double.POSITIVE_INFINITY));
        assertEquals(
                squares / 0.0025 + 2 * smoother.getTrace(),
                search.score(SmoothingCriterion.UNBIASED_RISK, SMOOTHING),
                1e-9);
        double free = 20 - 1.2 * smoother.getTrace();
        assertEquals(
                20 * squares / (free * free),
                search.score(SmoothingCriterion.PENALISED_CROSS_VALIDATION, SMOOTHING),
                1e-12);
    }

    private static double quadratic(RealMatrix covariance, double[] functional, double variance) {
        double[] response = covariance.operate(functional);
        double sum = 0;
        for (int i = 0; i < response.length; i++) {
            sum += functional[i] * response[i];
        }
        return Math.sqrt(variance * sum);
    }

    /** The residual likelihood of a line plus an integrated Wiener process of variance σ²/λ, written out densely. */
    @Test
    void restrictedLikelihoodIsThatOfAnIntegratedWienerProcess() {
        WeightedReadings readings =
                new WeightedReadings(weights, x.length, 0, OptionalDouble.empty(), Double.POSITIVE_INFINITY);
        SmoothingSearch search = new SmoothingSearch(system, readings);
        SmoothingCriterion criterion = SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD;
        double shift = denseRestrictedLikelihood(0.01) - search.score(criterion, 0.01);
        for (double smoothing : new double[] {1e-5, 1e-3, 0.1, 3}) {
            assertEquals(denseRestrictedLikelihood(smoothing), search.score(criterion, smoothing) + shift, 1e-7);
        }
    }

    private double denseRestrictedLikelihood(double smoothing) {
        int n = x.length;
        RealMatrix v = MatrixUtils.createRealMatrix(n, n);
        RealMatrix line = MatrixUtils.createRealMatrix(n, 2);
        for (int i = 0; i < n; i++) {
            line.setEntry(i, 0, 1);
            line.setEntry(i, 1, x[i] - x[0]);
            for (int j = 0; j < n; j++) {
                double less = Math.min(x[i], x[j]) - x[0];
                double more = Math.max(x[i], x[j]) - x[0];
                double wiener = less * less * (3 * more - less) / 6;
                v.setEntry(i, j, wiener / smoothing + (i == j ? 1 / weights[i] : 0));
            }
        }
        RealMatrix precision = inverse(v);
        RealMatrix information = line.transpose().multiply(precision).multiply(line);
        RealMatrix projected = precision.subtract(precision
                .multiply(line)
                .multiply(inverse(information))
                .multiply(line.transpose())
                .multiply(precision));
        double squares = Math.pow(quadratic(projected, y, 1), 2);
        return (n - 2) * Math.log(squares / (n - 2)) + logDeterminant(v) + logDeterminant(information);
    }
}
