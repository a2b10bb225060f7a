// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Expected values follow from the functions by hand. */
class RootsTest {

    /** x² = 2 at √2, whichever side the condition holds on, to the last bit. */
    @ParameterizedTest
    @CsvSource({"0, 2, 2", "2, 0, 2", "1, 1e6, 10", "1e6, 1, 10"})
    void aBoundaryIsFoundFromEitherSide(double inside, double outside, double square) {
        double found = Roots.boundary(x -> x * x < square == inside < outside, inside, outside);

        assertEquals(Math.sqrt(square), found, Math.ulp(found));
    }

    @ParameterizedTest
    @CsvSource({"0.1", "1e-6"})
    void aToleranceStopsTheSearch(double tolerance) {
        int[] asked = new int[1];
        double found = Roots.boundary(
                x -> {
                    asked[0]++;
                    return x < 0.3;
                },
                0,
                1,
                tolerance);

        assertEquals(0.3, found, tolerance / 2);
        assertEquals(Math.ceil(Math.log(1 / tolerance) / Math.log(2)), asked[0]);
    }

    /** x³ + x = 10 at 2. */
    @ParameterizedTest
    @CsvSource({"-5, 5, 0", "0, 1e9, 1e9"})
    void aRisingFunctionIsFollowedToItsRoot(double low, double high, double start) {
        assertEquals(2, Roots.ofRising(x -> x * x * x + x - 10, x -> 3 * x * x + 1, low, high, start), 1e-15);
    }

    /** x³ + x = 10 at 2, (x − 1)⁹ at 1, and a jump at 0.3; the bracket either way round. */
    @ParameterizedTest
    @CsvSource({"-5, 5, 1e-14", "5, -5, 1e-14", "0, 1e3, 1e-6"})
    void aCrossingIsFoundWithoutTheDerivative(double from, double to, double tolerance) {
        int[] asked = new int[1];
        DoubleUnaryOperator cubic = x -> {
            asked[0]++;
            return x * x * x + x - 10;
        };
        assertEquals(
                2,
                Roots.crossing(cubic, from, cubic.applyAsDouble(from), to, cubic.applyAsDouble(to), tolerance),
                tolerance);
        assertTrue(asked[0] < 30, asked[0] + " values");
        DoubleUnaryOperator flat = x -> Math.pow(x - 1, 9);
        assertEquals(
                1,
                Roots.crossing(flat, from, flat.applyAsDouble(from), to, flat.applyAsDouble(to), tolerance),
                tolerance);
        DoubleUnaryOperator jump = x -> x < 0.3 ? -1 : 2;
        assertEquals(
                0.3,
                Roots.crossing(jump, from, jump.applyAsDouble(from), to, jump.applyAsDouble(to), tolerance),
                tolerance);
    }

    @Test
    void aCrossingAtAnEndIsThatEnd() {
        assertEquals(3, Roots.crossing(x -> x - 3, 3, 0, 5, 2, 1e-12));
        assertEquals(3, Roots.crossing(x -> x - 3, 1, -2, 3, 0, 1e-12));
    }

    private static final Map<String, DoubleUnaryOperator> CROSSING = Map.of(
            "cubic", x -> x * x * x + x - 10,
            "exponential", x -> Math.exp(x) - 2,
            "cosine", x -> Math.cos(x) - x,
            "logarithm", x -> Math.log(x) - 0.5,
            "logistic", x -> 1 / (1 + Math.exp(-5 * (x - 1))) - 0.3,
            "ninth", x -> Math.pow(x - 1, 9),
            "root", x -> Math.copySign(Math.sqrt(Math.abs(x - 0.7)), x - 0.7));

    /**
     * The last column is what SciPy 1.17.1 counts with the same method, {@code elementwise.find_root(f, (a, b),
     * tolerances=dict(xatol=1e-12, xrtol=0, fatol=0, frtol=0)).nfev}, less 2 for the ends, whose values are given here. It
     * begins with the middle, the search here with the chord, so that single counts differ; two more, or a tenth, are allowed (own
     * choice, no source).
     */
    @ParameterizedTest
    @CsvSource({
        "cubic, -5, 5, 10",
        "exponential, -1, 3, 8",
        "cosine, 0, 2, 6",
        "logarithm, 0.1, 9, 8",
        "logistic, -2, 4, 10",
        "ninth, -5, 5.5, 44",
        "root, 0, 1.5, 34"
    })
    void aCrossingTakesAsManyStepsAsThePeer(String name, double from, double to, int peer) {
        DoubleUnaryOperator function = CROSSING.get(name);
        int[] asked = new int[1];
        Roots.crossing(
                x -> {
                    asked[0]++;
                    return function.applyAsDouble(x);
                },
                from,
                function.applyAsDouble(from),
                to,
                function.applyAsDouble(to),
                1e-12);
        assertTrue(asked[0] <= peer + Math.max(2, peer / 10), asked[0] + " values, the peer takes " + peer);
    }

    private static int newton(
            DoubleUnaryOperator function, DoubleUnaryOperator slope, double low, double high, double start) {
        int[] asked = new int[1];
        Roots.ofRising(
                x -> {
                    asked[0]++;
                    return function.applyAsDouble(x);
                },
                slope,
                low,
                high,
                start);
        return asked[0];
    }

    /** SciPy 1.17.1, {@code newton(f, start, fprime=slope, tol=1e-15, full_output=True)}, takes 6, 7 and 6 steps; one more is allowed (own choice, no source). */
    @Test
    void newtonsMethodTakesAsManyStepsAsThePeer() {
        assertTrue(newton(x -> x * x * x + x - 10, x -> 3 * x * x + 1, -5, 5, 4) <= 7);
        assertTrue(newton(x -> Math.exp(x) - 2, Math::exp, -5, 5, 3) <= 8);
        assertTrue(newton(x -> Math.log(x) - 0.5, x -> 1 / x, 0.1, 9, 0.5) <= 7);
    }

    /**
     * Newton's method alone comes nearer by 1/9 a step. Halving every other time, after twenty steps, takes 2 · 56 more to
     * the last bit of 10.5 units.
     */
    @Test
    void aMultipleRootTakesTwentyStepsAndTwiceABisectionAtMost() {
        int count = newton(x -> Math.pow(x - 1, 9), x -> 9 * Math.pow(x - 1, 8), -5, 5.5, 5.5);
        assertTrue(count <= 20 + 2 * 56, count + " values");
    }
}
