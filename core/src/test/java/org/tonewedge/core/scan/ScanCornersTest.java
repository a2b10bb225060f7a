// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

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

    private static void assertPlace(double x, double y, double along, double down) {
        assertEquals(x, CORNERS.x(along, down), 1e-9);
        assertEquals(y, CORNERS.y(along, down), 1e-9);
    }
}
