// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.contrast;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.standards.PiecewiseLinearCurve;

class ArcAndSpanTest {

    /**
     * Gradient 3/4 up to 1.00 net, then 2. About the point at 0.10 an arc of 1.5 meets the curve 1.2 further and 0.9 higher
     * (the triangle of sides 3, 4, 5), at the bend: 0.75. A span of 1.5 goes on for 0.3 at gradient 2: (0.9 + 0.6)/1.5 = 1.
     */
    @Test
    void anArcIsNotASpan() {
        double bend = -3 + 1.00 / 0.75;
        CharacteristicCurve curve = PiecewiseLinearCurve.through(
                "bent", new double[] {-3, bend, bend + 1}, new double[] {0.2, 1.2, 3.2}, 0.2);
        assertEquals(
                0.75,
                AverageGradient.withDefaults().withArc(1.5).determine(curve).figure(),
                1e-9);
        assertEquals(1.0, AverageGradient.withDefaults().determine(curve).figure(), 1e-9);
    }
}
