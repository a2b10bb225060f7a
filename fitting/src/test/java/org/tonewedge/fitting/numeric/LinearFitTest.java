// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class LinearFitTest {

    private static final double[] X =
            IntStream.rangeClosed(0, 20).asDoubleStream().toArray();

    private static void assertRelative(double expected, double actual, double tolerance) {
        assertEquals(expected, actual, Math.abs(expected) * tolerance);
    }

    /**
     * NIST StRD Wampler1 and Wampler2: x = 0 … 20, y a polynomial of degree 5 without errors, all certified coefficients
     * 1, and 1, 0.1, …, 0.00001 (data and figures from memory; they follow from the formula).
     */
    @Test
    void fitsThePolynomialsOfWampler() {
        double[] ones = Arrays.stream(X)
                .map(x -> 1 + x * (1 + x * (1 + x * (1 + x * (1 + x)))))
                .toArray();
        double[] tenths = Arrays.stream(X)
                .map(x -> 1 + 0.1 * x * (1 + 0.1 * x * (1 + 0.1 * x * (1 + 0.1 * x * (1 + 0.1 * x)))))
                .toArray();
        LinearFit first = LinearFit.polynomial(X, ones, 5);
        LinearFit second = LinearFit.polynomial(X, tenths, 5);
        for (int j = 0; j <= 5; j++) {
            assertRelative(1, first.parameter(j), 1e-8);
            assertRelative(Math.pow(10, -j), second.parameter(j), 1e-11);
        }
        assertEquals(15, first.degreesOfFreedom());
    }

    /** A line through (0, 1), (1, 3), (2, 4), (3, 4) with weights 1, 1, 2, 2: by hand, as fractions. */
    @Test
    void fitsAWeightedLine() {
        double[] x = {0, 1, 2, 3};
        double[] y = {1, 3, 4, 4};
        double[] weights = {1, 1, 2, 2};
        double[][] rows = Arrays.stream(x).mapToObj(at -> new double[] {1, at}).toArray(double[][]::new);
        LinearFit fit = LinearFit.of(rows, y, weights);
        // Σw x = 11, Σw x² = 27, Σw y = 20, Σw x y = 43: slope = (6·43 − 11·20)/(6·27 − 11²) = 38/41.
        assertRelative(38.0 / 41, fit.parameter(1), 1e-14);
        assertRelative((20 - 11 * 38.0 / 41) / 6, fit.parameter(0), 1e-14);
        assertRelative(6.0 / 41, fit.cofactor(1, 1), 1e-14);
        assertRelative(27.0 / 41, fit.cofactor(0, 0), 1e-14);
        assertRelative(-11.0 / 41, fit.cofactor(0, 1), 1e-14);
        double squares = 0;
        for (int i = 0; i < 4; i++) {
            double residual = y[i] - fit.parameter(0) - fit.parameter(1) * x[i];
            squares += weights[i] * residual * residual;
        }
        assertRelative(squares, fit.weightedSquares(), 1e-13);
        assertRelative(Math.sqrt(squares / 2 * 6 / 41), fit.deviation(1), 1e-13);
    }

    @Test
    void refusesWhatItCannotTellApart() {
        double[] y = {1, 2, 3};
        assertThrows(ArithmeticException.class, () -> LinearFit.polynomial(new double[] {2, 2, 2}, y, 1));
        assertThrows(ArithmeticException.class, () -> LinearFit.polynomial(new double[] {1, 2, 1}, y, 2));
        double[][] alike = {{1, 2, 1}, {1, 4, 3}, {1, 6, 5}, {1, 9, 8}};
        assertThrows(
                ArithmeticException.class,
                () -> LinearFit.of(alike, new double[] {1, 2, 3, 4}, new double[] {1, 1, 1, 1}));
        assertThrows(
                ArithmeticException.class, () -> LinearFit.polynomial(new double[] {1, 2}, new double[] {1, 2}, 2));
    }

    /**
     * The straight line of JCGM 100:2008, H.3.3 (clause from memory), by hand: x = 0, 1, 2, 3 and y = 0, 1, 2, 4 give 1.3 x −
     * 0.2, residuals 0.2, −0.1, −0.4, 0.3, s² = 0.30/2, u²(slope) = s²/5, u²(intercept) = s² (1/4 + 1.5²/5), their covariance
     * −1.5 s²/5.
     */
    @Test
    void aStraightLineKnowsItsUncertainties() {
        LinearFit line = LinearFit.polynomial(new double[] {0, 1, 2, 3}, new double[] {0, 1, 2, 4}, 1);
        assertEquals(1.3, line.parameter(1), 1e-12);
        assertEquals(-0.2, line.parameter(0), 1e-12);
        assertEquals(Math.sqrt(0.15), line.residualDeviation(), 1e-12);
        assertEquals(Math.sqrt(0.03), line.deviation(1), 1e-12);
        assertEquals(Math.sqrt(0.105), line.deviation(0), 1e-12);
        assertEquals(-0.3, line.cofactor(0, 1), 1e-12);
    }
}
