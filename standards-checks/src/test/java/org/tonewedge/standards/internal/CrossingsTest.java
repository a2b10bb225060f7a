// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Crossings of functions whose zeros are algebra. */
class CrossingsTest {

    @Test
    void everyFallingZeroOfASineIsFound() {
        List<Double> found = Crossings.falling(Math::sin, 0.1, 20);
        // sin falls through zero at π, 3π and 5π.
        assertEquals(3, found.size());
        for (int i = 0; i < 3; i++) {
            assertEquals((2 * i + 1) * Math.PI, found.get(i), 1e-12);
        }
    }

    @Test
    void twoZerosBetweenTwoNodesAreFound() {
        // A parabola that dips below zero for 5/512 of the range, between two of the 65 nodes: it falls there at 0.5 +
        // 1/512.
        double from = 0.5 + 1.0 / 512;
        double to = 0.5 + 6.0 / 512;
        List<Double> found = Crossings.falling(x -> (x - from) * (x - to), 0, 1);
        assertEquals(1, found.size());
        assertEquals(from, found.get(0), 1e-15);
    }

    @Test
    void aZeroAtAKinkIsFound() {
        // |x − 0.3| − 1/512 falls through zero at 0.3 − 1/512 and rises again.
        List<Double> found = Crossings.falling(x -> Math.abs(x - 0.3) - 1.0 / 512, 0, 1);
        assertEquals(1, found.size());
        assertEquals(0.3 - 1.0 / 512, found.get(0), 1e-15);
    }

    @Test
    void aSmoothFunctionIsEvaluatedRarely() {
        AtomicInteger calls = new AtomicInteger();
        DoubleUnaryOperator counted = x -> {
            calls.incrementAndGet();
            return 0.4 - x;
        };
        Crossings.falling(counted, 0, 1);
        // 65 nodes, 7 places between two of them, and a bisection of 53 bits at most.
        assertTrue(calls.get() <= 65 + 7 + 53, calls::toString);
    }
}
