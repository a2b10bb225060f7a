// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.contrast;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
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

    /** The curve ends 1.2 further and 0.9 higher than the point at 0.10, at the radius of 1.5; with less of it there is none. */
    @Test
    void anArcBeyondTheReadingsIsRefused() {
        double end = -3 + 1.00 / 0.75;
        assertEquals(
                0.75,
                AverageGradient.withDefaults()
                        .withArc(1.49)
                        .determine(line(end))
                        .figure(),
                1e-9);
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> AverageGradient.withDefaults().withArc(1.51).determine(line(end)));
        assertTrue(e.getMessage().startsWith("straight: an arc of radius 1.51 about"), e.getMessage());
        assertTrue(e.getMessage().endsWith("read more steps"), e.getMessage());
    }

    private static CharacteristicCurve line(double end) {
        return PiecewiseLinearCurve.through(
                "straight", new double[] {-3, -2.5, end}, new double[] {0.2, 0.575, 1.2}, 0.2);
    }
}
