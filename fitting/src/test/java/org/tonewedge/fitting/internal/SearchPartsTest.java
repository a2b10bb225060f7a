// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a search begins with and weighs with, each by its formula. */
class SearchPartsTest {

    private static Readings readings(double[] x, double[] d) {
        double[] weights = new double[d.length];
        Arrays.fill(weights, 1);
        return new Readings(x, d, weights);
    }

    private static double softRamp(double x, double softness) {
        return softness * Math.log1p(Math.exp(-Math.abs(x) / softness)) + Math.max(0, x);
    }

    /** A toe and a shoulder far apart: D = 0.2 + 0.6 (r₁(x + 3) − r₂(x − 2)), wherever the axis begins. */
    @ParameterizedTest
    @CsvSource({"0, 0.3, 0.2", "0, 0.2, 0.4", "100, 0.3, 0.2", "-50, 0.25, 0.25"})
    void landmarksOfAToeShoulderCurveAreItsParameters(double zero, double toe, double shoulder) {
        double[] x = new double[120];
        double[] d = new double[120];
        for (int i = 0; i < x.length; i++) {
            double at = -6 + 0.1 * i;
            x[i] = zero + at;
            d[i] = 0.2 + 0.6 * (softRamp(at + 3, toe) - softRamp(at - 2, shoulder));
        }
        Landmarks found = Landmarks.of(readings(x, d));
        assertEquals(0.2, found.least, 1e-4);
        assertEquals(3.2, found.greatest, 1e-3);
        assertEquals(0.6, found.steepest, 0.005);
        assertEquals(zero - 3, found.foot, 0.01);
        assertEquals(zero + 2, found.top, 0.02);
        assertEquals(5, found.run(), 0.03);
        assertEquals(toe, found.toeSoftness(), 0.02);
        assertEquals(shoulder, found.shoulderSoftness(), 0.02);
    }

    /**
     * A broken line with unexposed readings of 0.20 and 0.22, so that its foot is 0.03/0.75 before the corner. It has no
     * softness; a search begins at 0.12 (own choice, no source).
     */
    @Test
    void landmarksOfABrokenLineAreItsCorners() {
        double[] x = new double[31];
        double[] d = new double[33];
        for (int i = 0; i < x.length; i++) {
            x[i] = -3 + 0.1 * i;
            d[i] = Math.max(0.24, Math.min(1.74, 0.24 + 0.75 * (x[i] + 2.5)));
        }
        d[31] = 0.20;
        d[32] = 0.22;
        Landmarks found = Landmarks.of(readings(x, d));
        assertEquals(0.21, found.least, 1e-12);
        assertEquals(1.74, found.greatest, 1e-12);
        assertEquals(0.75, found.steepest, 1e-12);
        assertEquals(-2.5 - 0.03 / 0.75, found.foot, 1e-9);
        assertEquals(-0.5, found.top, 1e-9);
        assertEquals(0.12, found.shoulderSoftness(), 1e-12);
    }

    /** Repeats that differ at one exposure have no slope; each other line through three readings has the slope 0.4. */
    @Test
    void repeatsOfOneStepHaveNoSlope() {
        double[] x = {-2, -1.5, -1, -1, -1, -0.5, 0};
        double[] d = {0.5, 0.75, 0.9, 1, 1.1, 1.25, 1.5};
        Landmarks found = Landmarks.of(readings(x, d));
        assertEquals(0.4, found.steepest, 1e-12);
    }

    /**
     * By hand. An end is the median of itself, its smoothed neighbour s₁ and 3 s₁ − 2 s₂ (J. W. Tukey, Exploratory Data
     * Analysis, 1977, from memory): in the first row that of 1, 2 and 3·2 − 2·3.
     */
    @Test
    void runningMediansAreThoseOfTheNeighbours() {
        assertArrayEquals(new double[] {1, 2, 3, 3, 3}, RunningMedian.of(new double[] {1, 9, 2, 3, 4}, 5));
        assertArrayEquals(new double[] {2, 2, 3, 3, 3}, RunningMedian.of(new double[] {10, 1, 2, 3, 4}, 5));
        assertArrayEquals(new double[] {-1, 1, 2, 3, 4}, RunningMedian.of(new double[] {-5, 1, 2, 3, 4}, 5));
        assertArrayEquals(new double[] {1, 2, 3, 4, 6}, RunningMedian.of(new double[] {1, 2, 3, 4, 9}, 5));
        assertArrayEquals(
                new double[] {1, 3, 4, 5, 7, 7, 8, 9},
                RunningMedian.of(new double[] {1, 3, 9, 4, 5, 7, 8, 9}, 8),
                "five neighbours inside");
        assertArrayEquals(
                new double[] {5, 5, 6, 0.4, 0.4, 0.4, 0.4},
                RunningMedian.of(new double[] {5, 1, 6, 0.5, 0.1, 0.3, 0.9}, 3),
                "three readings have no ends to predict");
    }

    /**
     * Huber's constant 1.345 and Tukey's 4.685 leave an efficiency of 95 % on normal errors, (∫ψ′φ)²/∫ψ²φ = 0.9500 for both by
     * SciPy 1.17.1; weights ψ(u)/u, slopes ψ′(u) and 2ρ(u) by their formulas.
     */
    @ParameterizedTest
    @CsvSource({
        "HUBER, 1.345, 1, 1, 1.809025",
        "HUBER, 1, 1, 1, 1",
        "HUBER, 2.69, 0.5, 0, 5.427075",
        "HUBER, -2.69, 0.5, 0, 5.427075",
        "TUKEY, 0, 1, 1, 0",
        "TUKEY, 2.3425, 0.5625, -0.1875, 4.229798568",
        "TUKEY, -2.3425, 0.5625, -0.1875, 4.229798568",
        "TUKEY, 4.685, 0, 0, 7.316408333",
        "TUKEY, 9, 0, 0, 7.316408333",
        "SQUARES, 3, 1, 1, 9"
    })
    void lossesFollowTheirFormulas(Loss loss, double residual, double weight, double slope, double deviance) {
        assertEquals(weight, loss.weight(residual), 1e-12);
        assertEquals(slope, loss.slope(residual), 1e-12);
        assertEquals(deviance, loss.deviance(residual), 1e-8);
    }

    @Test
    void boundsIncludeTheirLimits() {
        Bounds bounds = Bounds.of(new double[] {0, -1}, new double[] {2, 1});
        for (double value : new double[] {-1, 0, 1}) {
            assertTrue(bounds.allows(1, value));
        }
        assertFalse(bounds.allows(1, -1.01));
        assertFalse(bounds.allows(1, 1.01));
        assertTrue(bounds.isAtLower(0, 0) && bounds.isAtUpper(0, 2) && bounds.isAtUpper(0, 3));
        assertFalse(bounds.isAtLower(0, 0.01) || bounds.isAtUpper(0, 1.99));
        assertEquals(2, bounds.clamp(0, 7));
        assertEquals(0, bounds.clamp(0, -7));
        String said = assertThrows(
                        IllegalArgumentException.class, () -> Bounds.of(new double[] {0, 1}, new double[] {1, 1}))
                .getMessage();
        assertTrue(said.contains("parameter 2"), said);
    }

    /** ln s a unit above ln 0.2 adds the variance of a reading, 0.04, for each softness; a position adds nothing. */
    @Test
    void aSoftnessIsHeldByTheVarianceOfAReading() {
        SoftnessPenalty penalty = SoftnessPenalty.of(ShapeKind.TOE_SHOULDER, 0.04);
        double[] q = {-2, Math.log(0.2) + 1, 1.5, Math.log(0.2) - 2};
        assertEquals(0.2, penalty.root(), 1e-15);
        assertEquals(0.04 * (1 + 4), penalty.sumOfSquares(q), 1e-15);
        double[][] normal = new double[4][4];
        double[] gradient = new double[4];
        penalty.addTo(q, normal, gradient);
        assertArrayEquals(new double[] {0, 0.04, 0, -0.08}, gradient, 1e-15);
        assertEquals(0.04, normal[1][1], 1e-15);
        assertEquals(0.04, normal[3][3], 1e-15);
        assertEquals(0, normal[0][0] + normal[2][2] + normal[0][1]);
        assertFalse(penalty.isNone());
        assertTrue(SoftnessPenalty.none(ShapeKind.TOE_SHOULDER).isNone());
        assertTrue(ShapeKind.TOE_SHOULDER.isRun(2));
        assertFalse(ShapeKind.TOE_SHOULDER.isRun(1));
    }

    /**
     * φ = (1 + ν e^−z)^(−1/ν) and dφ/dν by mpmath 1.3.0 with 40 digits, {@code diff(lambda n: exp(-log(1+n*exp(-z))/n), nu)};
     * below ν e^−z = 1e−5 the shape goes on as a series.
     */
    @ParameterizedTest
    @CsvSource({
        "1e-6, -1, 0.0659882796399704479, 0.24379466646185",
        "1e-6, 0, 0.367879625111086266, 0.183939567302736",
        "1e-6, 2, 0.87342302649176626, 0.00799864893183165",
        "0.5, -1, 0.179676895380625398, 0.202805371512268",
        "0.5, 0, 0.444444444444444444, 0.128234266266366",
        "0.5, 2, 0.877259013158147749, 0.00736040238637984"
    })
    void richardsCurveAndItsAsymmetry(double asymmetry, double z, double value, double partial) {
        double[] q = {-1, Math.log(0.5), asymmetry};
        double[] x = {-1 + 0.5 * z};
        double[] values = new double[1];
        double[][] partials = new double[3][1];
        Shapes.RICHARDS.fill(x, 1, q, values, partials);
        assertEquals(value, values[0], 1e-14);
        assertEquals(partial, partials[2][0], 1e-10 * partial);
        assertEquals(value, Shapes.RICHARDS.value(x[0], q), 1e-14);
        assertEquals(x[0], Shapes.RICHARDS.inverse(value, q), 1e-9);
    }

    /** The inverse is searched for beyond its first bracket, and not at all outside 0 and 1. */
    @ParameterizedTest
    @ValueSource(doubles = {1e-40, 0.001, 0.5, 0.975})
    void theInverseOfTheCumulativeNormalIsFoundFarOut(double value) {
        double[] q = {-2, 0};
        double x = Shapes.CUMULATIVE_NORMAL.inverse(value, q);
        assertEquals(value, Shapes.CUMULATIVE_NORMAL.value(x, q), 1e-9 * value);
        assertTrue(Double.isNaN(Shapes.CUMULATIVE_NORMAL.inverse(0, q)));
        assertTrue(Double.isNaN(Shapes.CUMULATIVE_NORMAL.inverse(1, q)));
    }
}
