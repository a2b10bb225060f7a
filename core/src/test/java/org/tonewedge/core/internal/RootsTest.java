// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

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
}
