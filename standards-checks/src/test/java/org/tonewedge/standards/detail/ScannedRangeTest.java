// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.ClosedFormCurve;

class ScannedRangeTest {

    /** D = 0.2 + 2 / (1 + e^(−2.4 x)), whose gradient is 4.8 p (1 − p) at p = (D − 0.2) / 2. */
    private static CharacteristicCurve logistic() {
        return ClosedFormCurve.of(
                "logistic",
                x -> 0.2 + 2 / (1 + Math.exp(-2.4 * x)),
                x -> 4.8 * Math.exp(-2.4 * x) / Math.pow(1 + Math.exp(-2.4 * x), 2),
                0.2);
    }

    @Test
    void endsWhereAThirdOfAStopIsThreeTimesTheNoise() {
        ScannedRange range = ScannedRange.withDefaults().determine(logistic(), density -> 0.01);
        // By hand: gradient 0.03 / (log 2 / 3) = 0.29897 = 4.8 p (1 − p), p = 0.06674; x = ln(p / (1 − p)) / 2.4.
        double p = 0.5 - Math.sqrt(0.25 - 0.03 / (Math.log10(2) / 3) / 4.8);
        double end = Math.log(p / (1 - p)) / 2.4;
        assertEquals(0.06674, p, 1e-5);
        assertEquals(end, range.lowest().value(), 1e-6);
        assertEquals(-2 * end, range.width().logUnits(), 1e-6);
        assertFalse(range.isLowerBound());
    }

    @Test
    void lessNoiseIsMoreSpeed() {
        ScannedRange coarse = ScannedRange.withDefaults().determine(logistic(), density -> 0.01);
        ScannedRange fine = ScannedRange.withDefaults().determine(logistic(), density -> 0.005);
        assertTrue(fine.speedAgainst(coarse).stops() > 0.5);
        ScannedRange faster = ScannedRange.withDefaults()
                .determine(logistic().shiftedBy(ExposureInterval.ofStops(-1)), density -> 0.01);
        assertEquals(1, faster.speedAgainst(coarse).stops(), 1e-5);
        assertTrue(ScannedRange.withDefaults()
                .determine(logistic(), density -> 1e-6)
                .isLowerBound());
    }

    @Test
    void whatTellsNothingApartIsRefused() {
        assertThrows(
                NotDeterminableException.class,
                () -> ScannedRange.withDefaults().determine(logistic(), density -> 0.1));
        assertThrows(
                IllegalArgumentException.class,
                () -> ScannedRange.withDefaults().determine(logistic(), density -> 0));
        assertThrows(
                IllegalArgumentException.class,
                () -> ScannedRange.withDefaults().withRatio(0));
    }
}
