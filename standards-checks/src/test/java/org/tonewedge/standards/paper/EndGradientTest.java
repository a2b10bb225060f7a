// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.paper;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.standards.PiecewiseLinearCurve;

/** The greatest gradient at the end that counts as level is 0.10, a choice of this library. */
class EndGradientTest {

    @ParameterizedTest
    @CsvSource({"0.099, true", "0.101, false"})
    void isATenth(double gradient, boolean level) {
        CharacteristicCurve paper = PiecewiseLinearCurve.through(
                "paper", new double[] {-0.5, 0, 1, 2}, new double[] {0.06, 0.10, 1.90, 1.90 + gradient}, 0.06);
        assertEquals(level, Iso6846.withDefaults().range(paper).conditionsMet());
    }

    /** "At most" includes the limit: density 1.875 to 2 over one log unit is a gradient of exactly 1/8. */
    @Test
    void theLimitItselfIsLevel() {
        CharacteristicCurve paper = PiecewiseLinearCurve.through(
                "paper", new double[] {-1, 0, 1, 2}, new double[] {0.0625, 0.125, 1.875, 2}, 0.0625);
        assertTrue(Iso6846.withDefaults()
                .withGreatestEndGradient(0.125)
                .range(paper)
                .conditionsMet());
        assertFalse(Iso6846.withDefaults()
                .withGreatestEndGradient(Math.nextDown(0.125))
                .range(paper)
                .conditionsMet());
    }
}
