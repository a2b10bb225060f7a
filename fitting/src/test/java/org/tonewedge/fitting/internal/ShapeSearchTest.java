// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The separable search beside the general engine, which searches all parameters together. */
class ShapeSearchTest {

    private static final FitSettings PLAIN = new FitSettings(Loss.SQUARES, OptionalDouble.empty(), false, 0);

    /** Two emulsions, a fast one and a slow one: φ = Λ(z₁) + exp(q₄) Λ(z₂), z₂ = (x − q₀ − q₂)/exp q₃. */
    private static final class TwoEmulsions implements Shape {

        @Override
        public int size() {
            return 5;
        }

        @Override
        public double value(double x, double[] q) {
            return Softplus.logistic((x - q[0]) / Math.exp(q[1]))
                    + Math.exp(q[4]) * Softplus.logistic((x - q[0] - q[2]) / Math.exp(q[3]));
        }

        @Override
        public double slope(double x, double[] q) {
            throw new UnsupportedOperationException("a search does not ask for it");
        }

        @Override
        public double inverse(double value, double[] q) {
            throw new UnsupportedOperationException("a search does not ask for it");
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            for (int i = 0; i < count; i++) {
                double fastZ = (x[i] - q[0]) / Math.exp(q[1]);
                double slowZ = (x[i] - q[0] - q[2]) / Math.exp(q[3]);
                double fast = Softplus.logistic(fastZ);
                double slow = Math.exp(q[4]) * Softplus.logistic(slowZ);
                double fastSlope = fast * (1 - fast);
                double slowSlope = slow * (1 - Softplus.logistic(slowZ));
                values[i] = fast + slow;
                partials[0][i] = -fastSlope / Math.exp(q[1]) - slowSlope / Math.exp(q[3]);
                partials[1][i] = -fastSlope * fastZ;
                partials[2][i] = -slowSlope / Math.exp(q[3]);
                partials[3][i] = -slowSlope * slowZ;
                partials[4][i] = slow;
            }
        }
    }

    private static final ShapeKind TWO_EMULSIONS =
            new ShapeKind(
                    new TwoEmulsions(),
                    ShapeKind.Term.POSITION,
                    ShapeKind.Term.WIDTH,
                    ShapeKind.Term.RUN,
                    ShapeKind.Term.WIDTH,
                    ShapeKind.Term.WIDTH) {
                @Override
                void start(Landmarks at, double[] q) {
                    q[0] = at.foot + 0.3 * at.run();
                    q[1] = Math.log(0.2);
                    q[2] = 0.5 * at.run();
                    q[3] = Math.log(0.2);
                    q[4] = 0;
                }

                @Override
                void limit(double lowest, double highest, double[] lower, double[] upper) {
                    Arrays.fill(lower, -5);
                    Arrays.fill(upper, 5);
                }
            };

    private static Readings disturbed(Shape shape, double[] q, int steps, int unexposed, Random random) {
        double[] x = new double[steps];
        double[] d = new double[steps + unexposed];
        double[] weights = new double[steps + unexposed];
        for (int i = 0; i < d.length; i++) {
            double value = 0;
            if (i < steps) {
                x[i] = -3 + 4.0 * i / (steps - 1);
                value = shape.value(x[i], q);
            }
            d[i] = 0.2 + 0.9 * value + 0.005 * random.nextGaussian();
            weights[i] = 1 + random.nextDouble();
        }
        return new Readings(x, d, weights);
    }

    /** Offset, scale and shape parameters as one problem, its derivatives by differences. */
    private static LeastSquaresSolution byGeneralEngine(ShapeKind kind, Readings readings, double[] start) {
        LeastSquaresProblem problem = new LeastSquaresProblem() {
            @Override
            public int parameterCount() {
                return start.length;
            }

            @Override
            public int residualCount() {
                return readings.size();
            }

            @Override
            public void residuals(double[] p, double[] residuals) {
                double[] q = Arrays.copyOfRange(p, 2, p.length);
                for (int i = 0; i < residuals.length; i++) {
                    double value = i < readings.exposed() ? kind.shape().value(readings.logExposures()[i], q) : 0;
                    residuals[i] = Math.sqrt(readings.weights()[i]) * (p[0] + p[1] * value - readings.densities()[i]);
                }
            }
        };
        return LeastSquares.withDefaults().solve(problem, start);
    }

    private static void assertAgree(ShapeKind kind, Readings readings) {
        ShapeFit fit = ShapeSearch.fit(kind, readings, PLAIN, ShapeSearch.start(kind, readings));
        assertTrue(fit.search().stopReason().isConverged());
        double[] found = new double[fit.shape().length + 2];
        found[0] = fit.offset();
        found[1] = fit.scale();
        System.arraycopy(fit.shape(), 0, found, 2, fit.shape().length);
        double[] start = found.clone();
        for (int k = 0; k < start.length; k++) {
            start[k] += 0.02;
        }
        LeastSquaresSolution general = byGeneralEngine(kind, readings, start);
        double[] errors = general.standardErrors();
        for (int k = 0; k < found.length; k++) {
            assertEquals(general.parameters()[k], found[k], 0.001 * errors[k], "parameter " + k);
            double error = Math.sqrt(fit.variance() * fit.unscaledCovariance()[k][k]);
            assertEquals(errors[k], error, 0.001 * errors[k], "standard error of parameter " + k);
        }
        assertEquals(readings.size() - found.length, fit.degreesOfFreedom());
        assertEquals(general.residualSumOfSquares(), fit.sumOfSquares(), 1e-6 * fit.sumOfSquares());
    }

    @Test
    void familyWithFiveShapeParametersIsFitted() {
        double[] truth = {-1.8, Math.log(0.15), 1.3, Math.log(0.2), Math.log(1.2)};
        assertAgree(TWO_EMULSIONS, disturbed(TWO_EMULSIONS.shape(), truth, 41, 3, new Random(1)));
    }

    @Test
    void familyWithFourShapeParametersIsFitted() {
        double[] truth = {-2.1, Math.log(0.2), 1.8, Math.log(0.25)};
        assertAgree(ShapeKind.TOE_SHOULDER, disturbed(Shapes.TOE_SHOULDER, truth, 41, 3, new Random(2)));
    }

    /** The bad reading of a straight line is found wherever it is: leaving it out leaves the least sum of squares. */
    @Test
    void robustStraightLineLeavesOutItsBadReading() {
        for (int bad = 1; bad < 6; bad++) {
            Random random = new Random(3);
            double[] x = {-2, -1.6, -1.2, -0.8, -0.4, 0, 0.4};
            double[] d = new double[x.length];
            for (int i = 0; i < d.length; i++) {
                d[i] = 1.6 + 0.6 * x[i] + 0.004 * random.nextGaussian();
            }
            d[bad] += 0.3;
            double[] weights = new double[x.length];
            Arrays.fill(weights, 1);
            FitSettings robust = new FitSettings(Loss.TUKEY, OptionalDouble.empty(), true, 0);
            ShapeFit fit = ShapeSearch.fit(ShapeKind.STRAIGHT_LINE, new Readings(x, d, weights), robust, new double[0]);
            assertEquals(0.6, fit.scale(), 0.01, "gradient with reading " + bad + " bad");
            assertTrue(fit.lossWeights()[bad] < 0.01);
        }
    }

    /** Nothing of one fit reaches the next, whatever it was. */
    @Test
    void fitsDoNotDependOnOneAnother() {
        double[] truth = {-2.1, Math.log(0.2), 1.8, Math.log(0.25)};
        Readings readings = disturbed(Shapes.TOE_SHOULDER, truth, 21, 2, new Random(4));
        FitSettings robust = new FitSettings(Loss.TUKEY, OptionalDouble.empty(), true, 0);
        double[] start = ShapeSearch.start(ShapeKind.TOE_SHOULDER, readings);
        ShapeFit before = ShapeSearch.fit(ShapeKind.TOE_SHOULDER, readings, robust, start);
        Readings others = disturbed(TWO_EMULSIONS.shape(), new double[] {-1.8, -2, 1.3, -1.5, 0}, 61, 0, new Random(5));
        ShapeSearch.fit(TWO_EMULSIONS, others, PLAIN, ShapeSearch.start(TWO_EMULSIONS, others));
        ShapeFit after = ShapeSearch.fit(ShapeKind.TOE_SHOULDER, readings, robust, start);
        assertArrayEquals(before.shape(), after.shape(), 0);
        assertArrayEquals(before.residuals(), after.residuals(), 0);
        assertArrayEquals(before.lossWeights(), after.lossWeights(), 0);
    }

    /** Families of as many parameters share a workspace, and the second may begin where the first ended. */
    @Test
    void familiesDoNotDependOnOneAnother() {
        Readings readings = disturbed(Shapes.TOE, new double[] {-1.5, Math.log(0.3)}, 21, 0, new Random(6));
        Readings alike = new Readings(
                readings.logExposures().clone(), readings.densities().clone(), readings.weights());
        double[] end = ShapeSearch.fit(ShapeKind.TOE, readings, PLAIN, ShapeSearch.start(ShapeKind.TOE, readings))
                .shape();
        ShapeFit expected = ShapeSearch.fit(ShapeKind.LOGISTIC, alike, PLAIN, end);
        assertTrue(expected.search().stopReason().isConverged());
        assertArrayEquals(
                end, ShapeSearch.fit(ShapeKind.TOE, readings, PLAIN, end).shape(), 0);
        ShapeFit after = ShapeSearch.fit(ShapeKind.LOGISTIC, readings, PLAIN, end);
        assertEquals(expected.search(), after.search());
        assertArrayEquals(expected.shape(), after.shape(), 0);
        assertArrayEquals(expected.residuals(), after.residuals(), 0);
    }
}
