// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;

/**
 * Five readings of one step, about their means: hours −2, −1, 0, 1, 2; kelvins −1, −1, 0, 0, 2; density 0.002 an hour and
 * 0.003 a kelvin and errors 0, 2, −3, 0, 1 ten-thousandths, which are orthogonal to both. By hand: products 10, 7, 6 of
 * hours and kelvins, 0.041 and 0.032 with density, 1.7814e-4 of densities. Least squares with two variables, any textbook.
 */
class DriftFiguresTest {

    private static final double HOUR = 3600;
    private static final double ERROR_SQUARES = 14e-8;

    private static double[][] products(double hoursByKelvins, double kelvinsSquared) {
        return new double[][] {
            {10 * HOUR * HOUR, hoursByKelvins * HOUR, 0.041 * HOUR},
            {hoursByKelvins * HOUR, kelvinsSquared, 0.032},
            {0.041 * HOUR, 0.032, 1.7814e-4}
        };
    }

    private static void assertEstimate(double value, double u, Optional<Estimate> estimate) {
        assertEquals(value, estimate.orElseThrow().value(), 1e-9);
        assertEquals(u, estimate.orElseThrow().standardUncertainty(), 1e-9);
    }

    @Test
    void timeAndTemperatureAreFittedTogether() {
        DriftFigures drift = DriftFigures.of(products(7, 6), 4, 4 * HOUR, 3);
        double variance = ERROR_SQUARES / 2;
        assertEstimate(0.002, Math.sqrt(variance * 6 / 11), drift.perHour());
        assertEstimate(0.003, Math.sqrt(variance * 10 / 11), drift.perKelvin());
        assertEquals(4, drift.hoursSpanned());
        assertEquals(3, drift.kelvinsSpanned());
        assertTrue(drift.isSeparable());
    }

    /** Alone: 0.041/10 an hour leaves 1.7814e-4 − 0.041²/10 with 3 degrees of freedom; 0.032/6 a kelvin likewise. */
    @Test
    void eachAloneWhereTheOtherIsNotKnown() {
        DriftFigures time = DriftFigures.of(products(7, 6), 4, 4 * HOUR, 0);
        assertEstimate(0.0041, Math.sqrt((1.7814e-4 - 0.041 * 0.041 / 10) / 3 / 10), time.perHour());
        assertEquals(Optional.empty(), time.perKelvin());
        assertTrue(time.isSeparable());
        assertEquals(4, time.hoursSpanned());
        // Any table of Student's t: 12.924 for 99.9 %, two-sided, with 3 degrees of freedom.
        assertTrue(time.isSignificant(Estimate.of(0.0130, 0.001)));
        assertFalse(time.isSignificant(Estimate.of(0.0128, 0.001)));
        DriftFigures warmth = DriftFigures.of(products(7, 6), 4, 0, 3);
        assertEstimate(0.032 / 6, Math.sqrt((1.7814e-4 - 0.032 * 0.032 / 6) / 3 / 6), warmth.perKelvin());
        assertEquals(Optional.empty(), warmth.perHour());
    }

    /** Correlations of 9.4/10 and 9.6/10 lie on either side of 0.95. */
    @Test
    void closeCorrelationKeepsThemApart() {
        assertTrue(DriftFigures.of(products(9.4, 10), 4, 4 * HOUR, 3).isSeparable());
        for (double product : new double[] {9.6, -9.6}) {
            DriftFigures drift = DriftFigures.of(products(product, 10), 4, 4 * HOUR, 3);
            assertFalse(drift.isSeparable());
            assertEquals(0.0041, drift.perHour().orElseThrow().value(), 1e-12);
            assertEquals(0.0032, drift.perKelvin().orElseThrow().value(), 1e-12);
        }
    }

    @Test
    void tooFewReadingsHaveNoSlope() {
        assertEquals(
                0.0041,
                DriftFigures.of(products(7, 6), 2, 4 * HOUR, 3)
                        .perHour()
                        .orElseThrow()
                        .value(),
                1e-12);
        DriftFigures none = DriftFigures.of(products(7, 6), 1, 4 * HOUR, 3);
        assertEquals(Optional.empty(), none.perHour());
        assertEquals(Optional.empty(), none.perKelvin());
    }

    /** Any table of Student's t: 31.599 for 99.9 %, two-sided, with 2 degrees of freedom. */
    @Test
    void significantIsBeyondTheIntervalOf999InAThousand() {
        DriftFigures drift = DriftFigures.of(products(7, 6), 4, 4 * HOUR, 3);
        assertTrue(drift.isSignificant(Estimate.of(-0.0317, 0.001)));
        assertFalse(drift.isSignificant(Estimate.of(0.0315, 0.001)));
    }
}
