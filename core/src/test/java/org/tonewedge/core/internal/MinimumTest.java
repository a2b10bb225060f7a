// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Expected values follow from the functions by hand. */
class MinimumTest {

    /** |x − 0.7| and x⁴ − 4x, least at 1, to half the tolerance; ends of the bracket included. */
    @ParameterizedTest
    @CsvSource({"-1, 3, 1e-3", "0.7, 1, 1e-3", "0, 1, 1e-6"})
    void theLowIsFoundToTheTolerance(double low, double high, double tolerance) {
        assertEquals(0.7, Minimum.between(x -> Math.abs(x - 0.7), low, high, tolerance), tolerance);
        assertEquals(1, Minimum.between(x -> x * x * x * x - 4 * x, low, high, tolerance), tolerance);
    }

    private static final Map<String, DoubleUnaryOperator> LEAST_AT_ONE = Map.of(
            "log", x -> x - Math.log(x),
            "sech", x -> -1 / Math.cosh(x - 1),
            "quartic", x -> Math.pow(x - 1, 4) + Math.pow(x - 1, 2) / 10,
            "cusp", x -> Math.pow(Math.abs(x - 1), 1.5),
            "corner", x -> Math.abs(x - 1),
            "square", x -> (x - 1) * (x - 1),
            "exponential", x -> Math.exp(4 * (x - 1)) - 4 * x);

    /**
     * The last column is what SciPy 1.17.1 counts, {@code minimize_scalar(f, bracket=(a, x, b), method='brent',
     * tol=1e-6).nfev}, less 3 for the bracket, whose values are given here. The search here begins
     * with other steps, so a single count may be half as high again (own choice, no source).
     */
    @ParameterizedTest
    @CsvSource({
        "cusp, 0.3, 0.8, 1.9, 15",
        "cusp, 0.5, 1.2, 1.6, 18",
        "cusp, 0.1, 0.55, 3.0, 15",
        "corner, 0.3, 0.8, 1.9, 15",
        "corner, 0.5, 1.2, 1.6, 18",
        "corner, 0.1, 0.55, 3.0, 21",
        "exponential, 0.1, 0.55, 3.0, 11",
        "log, 0.1, 0.55, 3.0, 11"
    })
    void parabolasFindTheLowInFewSteps(String name, double low, double middle, double high, int peer) {
        int count = evaluations(name, low, middle, high);
        assertTrue(count <= 1.5 * peer, count + " evaluations, the peer takes " + peer);
    }

    /** In the same way SciPy counts 112 evaluations in all: 11, 9, 11; 7, 7, 8; 8, 8, 10; 11, 11, 11. A parabola may take 5 (own choice, no source). */
    @Test
    void smoothLowsTakeAboutAsManyStepsAsThePeer() {
        int count = 0;
        for (String name : List.of("log", "sech", "quartic", "exponential")) {
            count += evaluations(name, 0.3, 0.8, 1.9)
                    + evaluations(name, 0.5, 1.2, 1.6)
                    + evaluations(name, 0.1, 0.55, 3.0);
        }
        assertTrue(count <= 112 + 5, count + " evaluations");
        assertTrue(evaluations("square", 0.3, 0.8, 1.9) <= 5);
        assertTrue(evaluations("square", 0.1, 1.2, 3.0) <= 5);
    }

    /** A low at an end of the grid: the bracket has two different positions only. */
    @ParameterizedTest
    @CsvSource({"1, 1, 2", "0, 1, 1", "0.5, 0.5, 1.5", "0.4, 1.2, 1.2", "0, 1, 2"})
    void lowsBesideAnEndAreFound(double low, double middle, double high) {
        for (String name : LEAST_AT_ONE.keySet()) {
            DoubleUnaryOperator function = LEAST_AT_ONE.get(name);
            double best = Math.min(function.applyAsDouble(low), function.applyAsDouble(high));
            if (function.applyAsDouble(middle) <= best) {
                evaluations(name, low, middle, high);
            }
        }
    }

    /** Brackets of any width and lopsidedness: where a parabola leads out of the bracket, it is not followed. */
    @Test
    void noBracketIsLeft() {
        Random random = new Random(1);
        for (int i = 0; i < 400; i++) {
            double low = 1 - Math.pow(10, -3 * random.nextDouble());
            double high = 1 + Math.pow(10, 1 - 4 * random.nextDouble());
            double middle = low + (high - low) * random.nextDouble();
            for (String name : LEAST_AT_ONE.keySet()) {
                DoubleUnaryOperator function = LEAST_AT_ONE.get(name);
                double best = Math.min(function.applyAsDouble(low), function.applyAsDouble(high));
                if (low > 0 && function.applyAsDouble(middle) <= best) {
                    evaluations(name, low, middle, high);
                }
            }
        }
    }

    /** Finds the low at 1 without a look beyond the bracket, and counts the evaluations beyond the three given. */
    private static int evaluations(String name, double low, double middle, double high) {
        int[] count = {0};
        DoubleUnaryOperator function = LEAST_AT_ONE.get(name);
        double[] at = {low, middle, high};
        double found = Minimum.around(
                x -> {
                    assertTrue(x >= low && x <= high, name + " at " + x);
                    count[0]++;
                    return function.applyAsDouble(x);
                },
                at,
                Arrays.stream(at).map(function).toArray(),
                1e-6);
        assertEquals(1, found, 2e-6, name);
        return count[0];
    }
}
