// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;

class PrintExposureTest {

    /**
     * C. E. K. Mees, The Fundamentals of Photography (1920/21), "Positive Printing" (read in a copy): E = 5 O / P, so that
     * paper of speed 5 needs 1 candle-foot-second without a negative, and 20 behind a highlight that passes 1/20.
     */
    @Test
    void followsTheWorkedExampleOfMees() {

        ExposureInterval change = PrintExposure.forDensity(Density.ofTransmittance(1 / 20.0), Density.of(0));

        assertEquals(20, change.ratio(), 1e-9);
    }

    /** Density 0.30 doubles the time, 10^0.30 = 1.995: arithmetic on the same formula. */
    @Test
    void doublesTheTimeForThreeTenthsOfBasePlusFog() {
        ExposureInterval change = PrintExposure.forBasePlusFog(Density.of(0.55), Density.of(0.25));

        assertEquals(1.995, change.ratio(), 0.0005);
        assertEquals("+1 stop", change.toString());
        assertEquals(19.95, time(10).changedBy(change).seconds(), 0.005);
    }

    @Test
    void turnsTheChangeAroundAndIsZeroForItself() {
        assertEquals(
                -1,
                PrintExposure.forBasePlusFog(Density.of(0.22), Density.of(0.52)).stops(),
                0.005);
        assertEquals(
                0,
                PrintExposure.forBasePlusFog(Density.of(0.3), Density.of(0.3)).logUnits());
    }

    /**
     * By hand: H = q L t F²/(N² i²) with image distances i = F (1 + m), the form of ISO 12232:2006 given by a general imaging
     * library: (9/6)², (5/2)², 1 and (1.5/3)².
     */
    @ParameterizedTest
    @CsvSource({"8, 5, 2.25", "4, 1, 6.25", "1, 1, 1", "0.5, 2, 0.25"})
    void followsTheImageDistance(double magnification, double before, double factor) {
        assertEquals(
                factor, PrintExposure.forMagnification(magnification, before).ratio(), 1e-12);
    }

    /** Life size against infinity is two stops: twice the image distance (arithmetic). */
    @Test
    void needsTwoStopsFromVerySmallToLifeSize() {
        assertEquals(2, PrintExposure.forMagnification(1, 1e-12).stops(), 1e-9);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, 1001, Double.NaN})
    void refusesMagnificationsThatAreNone(double magnification) {
        assertThrows(IllegalArgumentException.class, () -> PrintExposure.forMagnification(magnification, 4));
    }

    /**
     * A power fit to a reciprocity test, t = 0.72538 m^1.06559 with metered seconds m: the exponent p is 1/1.06559. Common
     * practice, no source; its values have one decimal.
     */
    @ParameterizedTest
    @CsvSource({"160, 161.9", "240, 249.4", "480, 522", "960, 1092.6", "1920, 2286.7"})
    void followsAPowerFitToAReciprocityTest(double metered, double printed) {
        SchwarzschildExponent reciprocity = SchwarzschildExponent.of(1 / 1.06559);
        PrintTime shortest = time(0.72538 * Math.pow(80, 1.06559));

        PrintTime time = shortest.changedBy(ExposureInterval.ofRatio(metered / 80), reciprocity);

        assertEquals(77.4, shortest.seconds(), 0.05);
        assertEquals(printed, time.seconds(), 0.06 + 0.0001 * printed);
    }

    @Test
    void keepsTheTimeWhereReciprocityHolds() {
        PrintTime time = time(12.5);
        ExposureInterval change = ExposureInterval.ofStops(1);

        assertEquals(25, time.changedBy(change).seconds(), 1e-12);
        assertEquals(time.changedBy(change), time.changedBy(change, SchwarzschildExponent.RECIPROCITY_HOLDS));
        assertEquals("12.5 s", time.toString());
    }

    @Test
    void refusesTimesAndExponentsThatAreNone() {
        assertThrows(IllegalArgumentException.class, () -> time(0));
        assertThrows(IllegalArgumentException.class, () -> SchwarzschildExponent.of(0));
        assertThrows(IllegalArgumentException.class, () -> SchwarzschildExponent.of(1.01));
    }

    private static PrintTime time(double seconds) {
        return PrintTime.of(Duration.ofNanos(Math.round(1e9 * seconds)));
    }
}
