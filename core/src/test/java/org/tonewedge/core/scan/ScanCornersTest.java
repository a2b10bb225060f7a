// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ScanCornersTest {

    private static final ScanCorners CORNERS = ScanCorners.of(90, 60, 440, 150, 360, 470, 40, 380);

    @Test
    void theCornersOfTheChartAreThoseGiven() {
        assertPlace(90, 60, 0, 0);
        assertPlace(440, 150, 1, 0);
        assertPlace(360, 470, 1, 1);
        assertPlace(40, 380, 0, 1);
    }

    /**
     * A flat chart keeps straight lines, so its middle is where the diagonals of its image cross: 90 + 270 t = 440 − 400 s
     * and 60 + 410 t = 150 + 230 s give t = 116,500/226,100.
     */
    @Test
    void theMiddleIsWhereTheDiagonalsCross() {
        double t = 116_500.0 / 226_100;
        assertPlace(90 + 270 * t, 60 + 410 * t, 0.5, 0.5);
    }

    @Test
    void aPixelBelongsToThePartThatItsMiddleLiesIn() {
        ScanCorners square = ScanCorners.of(new ScanRegion(10, 20, 4, 4));
        assertTrue(square.contains(10, 20));
        assertTrue(square.contains(13, 23));
        assertFalse(square.contains(14, 23));
        assertFalse(square.contains(9, 20));
        assertFalse(square.contains(13, 19));
        assertEquals(new ScanRegion(10, 20, 4, 4), square.bounds());
        assertEquals(new ScanRegion(40, 60, 400, 410), CORNERS.bounds());
    }

    /** The same chart with its rows the other way round, as on a film that was scanned from the back. */
    @Test
    void cornersMayGoAroundEitherWay() {
        ScanCorners mirrored = ScanCorners.of(440, 150, 90, 60, 40, 380, 360, 470);
        assertEquals(CORNERS.x(0.2, 0.7), mirrored.x(0.8, 0.7), 1e-9);
        assertEquals(CORNERS.y(0.2, 0.7), mirrored.y(0.8, 0.7), 1e-9);
        assertTrue(mirrored.contains(200, 200));
    }

    /**
     * A chart seen in perspective, x = (300 u + 40 v + 50)/w, y = (30 u + 260 v + 70)/w with w = 0.2 u + 0.1 v + 1, given by
     * its corners alone; a part of it is seen in the same perspective.
     */
    @Test
    void perspectiveIsThatOfTheWholeChart() {
        ScanCorners seen = ScanCorners.of(50, 70, 350 / 1.2, 100 / 1.2, 390 / 1.3, 360 / 1.3, 90 / 1.1, 330 / 1.1);
        assertEquals(164 / 1.12, seen.x(0.3, 0.6), 1e-9);
        assertEquals(235 / 1.12, seen.y(0.3, 0.6), 1e-9);
        ScanCorners part = seen.part(0.25, 0.5, 0.75, 1);
        assertEquals(230 / 1.175, part.x(0.5, 0.5), 1e-9);
        assertEquals(280 / 1.175, part.y(0.5, 0.5), 1e-9);
    }

    /** By hand: the right side is x = 100 − y/2, the lower one y = 40 + 2 x/3. */
    @Test
    void slantingSidesDividePixelsByTheirMiddles() {
        ScanCorners slanting = ScanCorners.of(0, 0, 100, 0, 60, 80, 0, 40);
        assertTrue(slanting.contains(79, 40));
        assertFalse(slanting.contains(80, 40));
        assertTrue(slanting.contains(30, 59));
        assertFalse(slanting.contains(30, 60));
    }

    /** Crossed, three in a line, one inside the triangle of the others, and two closer than four pixels. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "0,0, 100,0, 0,60, 100,80",
                "0,0, 50,25, 100,50, 0,80",
                "0,0, 100,0, 30,20, 0,100",
                "0,0, 3.9,0, 100,80, 0,80",
                "0,0, 100,0, 100,3.9, 0,80"
            })
    void cornersThatDoNotGoAroundAreRefused(String corners) {
        assertThrows(IllegalArgumentException.class, () -> ScanCorners.parse(corners, 1));
    }

    /** 12 pixels a millimetre, about 300 to the inch. */
    @Test
    void cornersMayBeInMillimetres() {
        ScanCorners corners = ScanCorners.parse("1,2, 5,2, 5,4, 1,4 mm", 12);
        assertEquals(ScanCorners.of(12, 24, 60, 24, 60, 48, 12, 48), corners);
        assertEquals("12,24,60,24,60,48,12,48", corners.toString());
    }

    @Test
    void fourPixelsAreASide() {
        assertEquals(
                new ScanRegion(10, 10, 4, 4),
                ScanCorners.of(10, 10, 14, 10, 14, 14, 10, 14).bounds());
    }

    private static void assertPlace(double x, double y, double along, double down) {
        assertEquals(x, CORNERS.x(along, down), 1e-9);
        assertEquals(y, CORNERS.y(along, down), 1e-9);
    }
}
