// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rounding of speeds. ISO 6:1993, table 1, was not read; each check names what it rests on. */
class IsoSpeedTest {

    /** Degrees and nominal speeds as printed in a public table of equivalents; 32° left out, printed there as 1300. */
    @ParameterizedTest
    @CsvSource(textBlock = """
            6,3    \n 7,4    \n 8,5    \n 9,6    \n 10,8   \n 11,10  \n 12,12  \n 13,16  \n 14,20
            15,25  \n 16,32  \n 17,40  \n 18,50  \n 19,64  \n 20,80  \n 21,100 \n 22,125 \n 23,160
            24,200 \n 25,250 \n 26,320 \n 27,400 \n 28,500 \n 29,640 \n 30,800 \n 31,1000
            33,1600\n 34,2000\n 35,2500\n 36,3200\n 37,4000\n 38,5000\n 39,6400\n 40,8000
            """)
    void nominalPairs(int degrees, double arithmetic) {
        assertEquals(new IsoSpeed(arithmetic, degrees), IsoSpeed.ofDegrees(degrees));
        assertEquals(degrees, IsoSpeed.ofArithmetic(arithmetic).degrees());
        assertEquals(degrees, IsoSpeed.nearest(arithmetic).degrees());
    }

    /**
     * The bins of log10 Hm with two decimals for S = 0.8 / Hm, derived from the formula and nearest whole degree; the
     * first and the last two-decimal value of each bin.
     */
    @ParameterizedTest
    @CsvSource(textBlock = """
            4,   -0.74, -0.65
            25,  -1.54, -1.45
            64,  -1.94, -1.85
            100, -2.14, -2.05
            125, -2.24, -2.15
            400, -2.74, -2.65
            1250,-3.24, -3.15
            6400,-3.94, -3.85
            """)
    void binsOfLogExposure(double arithmetic, double lowestLog, double highestLog) {
        assertEquals(arithmetic, IsoSpeed.nearest(0.8 / Math.pow(10, lowestLog)).arithmetic());
        assertEquals(
                arithmetic, IsoSpeed.nearest(0.8 / Math.pow(10, highestLog)).arithmetic());
        assertTrue(IsoSpeed.nearest(0.8 / Math.pow(10, lowestLog - 0.01)).arithmetic() > arithmetic);
        assertTrue(IsoSpeed.nearest(0.8 / Math.pow(10, highestLog + 0.01)).arithmetic() < arithmetic);
    }

    @Test
    void printedAsOnABox() {
        assertEquals("100/21°", IsoSpeed.nearest(104).toString());
        assertEquals("0.8/0°", IsoSpeed.ofDegrees(0).toString());
    }

    @Test
    void outsideTheScaleIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> IsoSpeed.nearest(0.7));
        assertThrows(IllegalArgumentException.class, () -> IsoSpeed.nearest(15_000));
        assertThrows(IllegalArgumentException.class, () -> IsoSpeed.nearest(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> IsoSpeed.ofDegrees(43));
        assertThrows(IllegalArgumentException.class, () -> IsoSpeed.ofArithmetic(110));
        assertThrows(IllegalArgumentException.class, () -> new IsoSpeed(100, 22));
    }

    /** 1 + 10 log S half a degree above a whole one goes to the slower speed (the rule of the class; no source was read). */
    @Test
    void halfADegreeGoesToTheSlowerSpeed() {
        for (int degrees = 0; degrees <= 42; degrees++) {
            double half = Math.pow(10, (degrees + 0.5 - 1) / 10);
            assertEquals(degrees, IsoSpeed.nearest(half).degrees());
            assertEquals(degrees, IsoSpeed.nearest(half * (1 - 1e-6)).degrees());
        }
    }

    /** The ends of the scale are from memory; see the class. */
    @Test
    void theScaleEndsWithItsFirstAndLastSpeed() {
        assertEquals(Optional.of(new IsoSpeed(0.8, 0)), IsoSpeed.nearestOnScale(0.8));
        assertEquals(Optional.of(new IsoSpeed(12500, 42)), IsoSpeed.nearestOnScale(12500));
        // 10^(−1.5 / 10) is half a degree below 0, 43 degrees are 10^(42 / 10).
        assertEquals(Optional.empty(), IsoSpeed.nearestOnScale(Math.pow(10, -0.15)));
        assertEquals(Optional.empty(), IsoSpeed.nearestOnScale(Math.pow(10, 4.2)));
        assertEquals(0, IsoSpeed.ofArithmetic(0.8).degrees());
        assertThrows(IllegalArgumentException.class, () -> new IsoSpeed(0.8, -1));
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> new IsoSpeed(16000, 43));
        assertTrue(e.getMessage().contains("from 0 to 42 degrees, was 43"), e.getMessage());
    }

    /** ISO 100/21°: S from 10^(19.5 / 10) = 89.13 to 10^(20.5 / 10) = 112.20, log Hm = log 0.8 − log S. */
    @Test
    void exposuresThatRoundToASpeed() {
        IsoSpeed speed = IsoSpeed.ofDegrees(21);
        assertEquals(100, speed.exact(), 1e-9);
        assertEquals(Math.log10(0.8) - 1.95, speed.highestExposure(0.8).value(), 1e-12);
        assertEquals(Math.log10(0.8) - 2.05, speed.lowestExposure(0.8).value(), 1e-12);
    }
}
