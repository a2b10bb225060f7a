// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;

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
}
