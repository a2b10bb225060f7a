// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.PiecewiseLinearCurve;

class RadiographicLimitsTest {

    /** ASTM E1815-08 (2013), table 1: the least gradients at 2.0 and 4.0, the least ratio, the greatest granularity. */
    @ParameterizedTest
    @CsvSource({
        "SPECIAL, 4.5, 7.5, 300, 0.018",
        "I, 4.1, 6.8, 150, 0.028",
        "II, 3.8, 6.4, 120, 0.032",
        "III, 3.5, 5.0, 100, 0.039",
        "W_A, 3.8, 5.7, 135, 0.027",
        "W_B, 3.5, 5.0, 110, 0.032"
    })
    void classesBeginAtTheirLimits(IndustrialFilmClass type, double at2, double at4, double ratio, double granularity) {
        assertTrue(met(type, 0, at2, at4, granularity));
        assertFalse(met(type, 0, Math.nextDown(at2), at4, granularity));
        assertTrue(met(type, 1, at2, at4, granularity));
        assertFalse(met(type, 1, at2, Math.nextDown(at4), granularity));
        assertTrue(met(type, 2, 5, at4, 5 / (ratio * (1 + 1e-9))));
        assertFalse(met(type, 2, 5, at4, 5 / (ratio * (1 - 1e-9))));
        // At the limit itself: a granularity of 1/32 divides exactly.
        assertTrue(met(type, 2, ratio / 32, at4, 1.0 / 32));
        assertTrue(met(type, 3, at2, at4, granularity));
        assertFalse(met(type, 3, at2, at4, Math.nextUp(granularity)));
    }

    /** Class W-C of the same table: its gradients have no least value, its ratio is 80, its granularity at most 0.039. */
    @Test
    void classWCLimitsOnlyGranularity() {
        assertTrue(
                met(IndustrialFilmClass.W_C, 0, 0.1, 0.1, 0.039) && met(IndustrialFilmClass.W_C, 1, 0.1, 0.1, 0.039));
        assertTrue(met(IndustrialFilmClass.W_C, 2, 80.0 / 32, 3, 1.0 / 32));
        assertFalse(met(IndustrialFilmClass.W_C, 2, Math.nextDown(80.0) / 32, 3, 1.0 / 32));
        assertTrue(met(IndustrialFilmClass.W_C, 3, 3.2, 4, 0.039));
        assertFalse(met(IndustrialFilmClass.W_C, 3, 3.2, 4, Math.nextUp(0.039)));
    }

    private static boolean met(IndustrialFilmClass type, int condition, double at2, double at4, double granularity) {
        return type.conditions(Gradient.of(at2), Gradient.of(at4), granularity)
                .get(condition)
                .isMet();
    }

    /**
     * ISO 5799: from 0.25 to 2.00 above base plus fog (from memory). Gradient 1 up to 0.30 net, then 2: 0.25 is reached 0.05
     * before the bend and 2.00 at 0.85 after it, so the mean is 1.75 / 0.90; from 0.30 it would be 2.
     */
    @Test
    void medicalGradientBeginsAtAQuarter() {
        CharacteristicCurve bent = PiecewiseLinearCurve.through(
                "bent", new double[] {-3, -2.7, -1.5}, new double[] {0.2, 0.5, 2.9}, 0.2, AirKerma.AXIS);
        assertEquals(1.75 / 0.90, RadiographicGradient.medical().determine(bent).figure(), 1e-9);
    }
}
