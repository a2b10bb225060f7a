// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;

/** Two speeds by a method of one's own. */
class FilmSpeedTest {

    private record OwnSpeed(double exact, Evidence evidence) implements FilmSpeed<OwnSpeed> {

        static OwnSpeed of(double exact) {
            return new OwnSpeed(
                    exact, Evidence.of(new Criterion("0.30 above base plus fog", "own"), List.of(), List.of()));
        }

        @Override
        public OwnSpeed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
            return new OwnSpeed(exact, evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
        }
    }

    /**
     * By hand: a doubled speed is one stop. With u of 0.3 and 0.4 degrees, u is 0.5 / 3.0103 stops, and the degrees of
     * freedom are 0.5⁴ / (0.3⁴ / 9 + 0.4⁴ / 16) = 25 (JCGM 100:2008, G.4.1, formula G.2b).
     */
    @Test
    void aDoubledSpeedIsOneStop() {
        OwnSpeed fast = OwnSpeed.of(200).withUncertainty(0.3, 9);
        OwnSpeed slow = OwnSpeed.of(100).withUncertainty(0.4, 16);
        Estimate difference = fast.stopsFasterThan(slow).orElseThrow();
        assertEquals(1, difference.value(), 1e-12);
        assertEquals(0.5 / 3.0103, difference.standardUncertainty(), 1e-5);
        assertEquals(25, difference.degreesOfFreedom(), 1e-9);
        assertEquals(-1, slow.stopsFasterThan(fast).orElseThrow().value(), 1e-12);
        assertTrue(fast.stopsFasterThan(OwnSpeed.of(100)).isEmpty(), "no uncertainty to combine");
    }
}
