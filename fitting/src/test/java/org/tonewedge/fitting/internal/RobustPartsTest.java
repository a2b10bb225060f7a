// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a robust fit is made of, each part by its formula, and the equations that the whole has to satisfy. */
class RobustPartsTest {

    private static final double[] Q = {-2.1, Math.log(0.2), 1.8, Math.log(0.25)};

    private static Readings disturbed(int steps, int unexposed, long seed) {
        Random random = new Random(seed);
        double[] x = new double[steps];
        double[] d = new double[steps + unexposed];
        double[] weights = new double[d.length];
        for (int i = 0; i < d.length; i++) {
            if (i < steps) {
                x[i] = -3 + 4.0 * i / (steps - 1);
                d[i] = 0.9 * Shapes.TOE_SHOULDER.value(x[i], Q);
            }
            d[i] += 0.2 + 0.005 * random.nextGaussian();
            weights[i] = 0.5 + 2 * random.nextDouble();
        }
        return new Readings(x, d, weights);
    }

    private static FitSettings settings(Loss loss, double leastOffset) {
        return new FitSettings(loss, OptionalDouble.empty(), false, leastOffset);
    }

    private static ShapeMinimum line(double[] residuals, double[] weights) {
        double[] x = {-2, -1, 0, 1, 2};
        Readings readings = new Readings(x, new double[5], weights);
        return new ShapeMinimum(
                ShapeProblem.of(ShapeKind.STRAIGHT_LINE, readings, settings(Loss.HUBER, 0)),
                StopReason.GRADIENT,
                1,
                new double[0],
                0,
                1,
                0,
                residuals,
                new boolean[0],
                new double[0][]);
    }

    /**
     * By hand with Huber's 1.345: u = 0.5, −1, 1.5, −0.5 and, of weight 4, 10. ψ² adds up to 1.5 + 2 · 1.345², ψ′ has the mean 0.6
     * and the variance 0.24; three of five readings are free: 1 + 2/5 · 0.24/0.36.
     */
    @Test
    void covarianceFactorByHand() {
        ShapeMinimum minimum = line(new double[] {0.01, -0.02, 0.03, -0.01, 0.1}, new double[] {1, 1, 1, 1, 4});
        Reweighting.Settled fit = new Reweighting.Settled(minimum, new double[5], 0.02);
        double correction = 1 + 0.4 * 0.24 / 0.36;
        double expected = 0.0004 * correction * correction * (1.5 + 2 * 1.345 * 1.345) / 3 / 0.36;
        assertEquals(expected, RobustCovariance.factor(fit, Loss.HUBER, OptionalDouble.empty()), 1e-15);
        // Where the variance is known, that over the efficiency of 95 %.
        assertEquals(0.0001 / 0.95, RobustCovariance.factor(fit, Loss.HUBER, OptionalDouble.of(0.0001)), 1e-15);
    }

    /**
     * By hand: of sizes 0.01, 0.02, 0.03, 0.05 and 2 · 0.1 the least, one fewer than the two parameters, does not count; the median
     * of the rest is 0.04 (DuMouchel and O'Brien 1989, from memory).
     */
    @Test
    void deviationByHand() {
        double[] residuals = {0.05, -0.02, 0.1, -0.01, 0.03};
        ShapeProblem problem = line(residuals, new double[] {1, 1, 4, 1, 1}).problem();
        assertEquals(1.4826 * 0.04, Reweighting.deviation(problem, settings(Loss.HUBER, 0), residuals), 1e-15);
        FitSettings known = new FitSettings(Loss.HUBER, OptionalDouble.of(0.0009), false, 0);
        assertEquals(0.03, Reweighting.deviation(problem, known, residuals), 1e-15);
    }

    /** Of a straight line 1/n + (x − x̄)²/Sxx (any textbook); together they are the number of parameters. */
    @Test
    void leveragesAreThoseOfTheHatMatrix() {
        Readings straight = new Readings(
                new double[] {-2, -1, 0, 1, 2}, new double[] {0.1, 0.4, 0.6, 1, 1.2}, new double[] {1, 1, 1, 1, 1});
        double[] expected = {0.6, 0.3, 0.2, 0.3, 0.6};
        double[] leverages = leverages(ShapeKind.STRAIGHT_LINE, straight, new double[0]);
        for (int i = 0; i < 5; i++) {
            assertEquals(expected[i], leverages[i], 1e-12);
        }
        double[] all = leverages(ShapeKind.TOE_SHOULDER, disturbed(31, 3, 1), Q);
        assertEquals(6, Arrays.stream(all).sum(), 1e-9);
        assertTrue(Arrays.stream(all).allMatch(h -> h > 0 && h < 1), Arrays.toString(all));
    }

    private static double[] leverages(ShapeKind kind, Readings readings, double[] start) {
        ShapeMinimiser minimiser = new ShapeMinimiser(kind, readings);
        ShapeMinimum minimum =
                minimiser.minimise(ShapeProblem.of(kind, readings, settings(Loss.SQUARES, 0)), start, Effort.FULL);
        return minimum.leverages(minimiser.covariance(minimum));
    }

    /** At one and the same minimum both ways to the covariance agree: free, with a prior, and with the offset held. */
    @Test
    void bothCovariancesAgree() {
        Readings readings = disturbed(41, 3, 2);
        ShapeMinimiser minimiser = new ShapeMinimiser(ShapeKind.TOE_SHOULDER, readings);
        ShapeProblem free = ShapeProblem.of(ShapeKind.TOE_SHOULDER, readings, settings(Loss.SQUARES, 0));
        ShapeProblem[] problems = {
            free,
            free.penalised(SoftnessPenalty.of(ShapeKind.TOE_SHOULDER, 0.01)),
            ShapeProblem.of(ShapeKind.TOE_SHOULDER, readings, settings(Loss.SQUARES, 0.205))
        };
        for (ShapeProblem problem : problems) {
            ShapeMinimum minimum = minimiser.minimise(problem, Q, Effort.FULL);
            minimiser.minimise(free, new double[] {-2, -1.5, 1.7, -1.5}, Effort.FULL); // another in between
            double[][] expected = minimiser.covariance(minimum);
            double[][] found = RobustCovariance.unscaled(minimum);
            for (int i = 0; i < 6; i++) {
                for (int j = 0; j < 6; j++) {
                    double size = Math.sqrt(expected[i][i] * expected[j][j]);
                    assertEquals(expected[i][j], found[i][j], 1e-4 * size + 1e-12, i + ", " + j);
                }
            }
        }
        assertTrue(minimiser.minimise(problems[2], Q, Effort.FULL).search().offsetHeld());
    }

    /** The equations of an M-estimate: Σ √w ψ(u) ∂f/∂θ = 0, and the deviation is that of its own residuals. */
    @ParameterizedTest
    @EnumSource(
            value = Loss.class,
            names = {"HUBER", "TUKEY"})
    void aRobustFitSatisfiesItsEquations(Loss loss) {
        Readings readings = disturbed(31, 3, 3);
        readings.densities()[8] += 0.05;
        readings.densities()[20] -= 0.3;
        FitSettings robust = settings(loss, 0);
        ShapeFit fit = ShapeSearch.fit(
                ShapeKind.TOE_SHOULDER, readings, robust, ShapeSearch.start(ShapeKind.TOE_SHOULDER, readings));
        assertTrue(fit.search().stopReason().isConverged());
        double deviation = Math.sqrt(fit.readingVariance());
        double[] values = new double[31];
        double[][] partials = new double[4][31];
        Shapes.TOE_SHOULDER.fill(readings.logExposures(), 31, fit.shape(), values, partials);
        double[] sums = new double[6];
        double[] squares = new double[6];
        for (int i = 0; i < readings.size(); i++) {
            double root = Math.sqrt(readings.weights()[i]);
            double u = root * fit.residuals()[i] / deviation;
            assertEquals(loss.weight(u), fit.lossWeights()[i], 2e-3, "reading " + i);
            double[] row = new double[6];
            row[0] = root;
            if (i < 31) {
                row[1] = root * values[i];
                for (int k = 0; k < 4; k++) {
                    row[k + 2] = root * fit.scale() * partials[k][i];
                }
            }
            for (int k = 0; k < 6; k++) {
                sums[k] += loss.weight(u) * u * row[k];
                squares[k] += row[k] * row[k];
            }
        }
        for (int k = 0; k < 6; k++) {
            assertEquals(0, sums[k] / Math.sqrt(squares[k]), 0.01, "by parameter " + k);
        }
        assertTrue(fit.lossWeights()[20] < 0.2 && fit.lossWeights()[8] < 0.5, Arrays.toString(fit.lossWeights()));
        if (loss == Loss.HUBER) {
            ShapeProblem problem = ShapeProblem.of(ShapeKind.TOE_SHOULDER, readings, robust);
            assertEquals(deviation, Reweighting.deviation(problem, robust, fit.residuals()), 2e-3 * deviation);
        }
    }

    /** Six readings of a straight line, one of them bad: the line is that of the five others, wherever it lies. */
    @Test
    void aBadReadingAmongFewIsLeftOut() {
        for (int bad = 0; bad < 6; bad++) {
            for (double error : new double[] {-0.3, 0.2, 1}) {
                double[] x = {0, 0.4, 0.8, 1.2, 1.6, 2};
                double[] noise = {0.003, -0.004, 0.001, 0.004, -0.003, -0.001};
                double[] d = new double[6];
                Arrays.setAll(d, i -> 1.6 + 0.6 * x[i] + noise[i]);
                d[bad] += error;
                double[] weights = new double[6];
                Arrays.fill(weights, 1);
                ShapeFit fit = ShapeSearch.fit(
                        ShapeKind.STRAIGHT_LINE, new Readings(x, d, weights), settings(Loss.TUKEY, 0), new double[0]);
                assertEquals(0.6, fit.scale(), 0.01, "reading " + bad + ", error " + error);
                assertEquals(1.6, fit.offset(), 0.012, "reading " + bad + ", error " + error);
                assertEquals(0, fit.lossWeights()[bad], "reading " + bad + ", error " + error);
            }
        }
    }
}
