// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** A small slice of {@link StraightLineSimulation}. */
class StraightLineTest {

    private static final int STRIPS = 300;
    private static final int ONE_PERCENT = 1;
    private static final int TWO_PERCENT = 2;

    /**
     * An upswept film may pass as straight once in fifty strips, a straight one be refused once in four. Neither a higher
     * threshold nor a test of significance lets so few upswept ones pass.
     */
    @Test
    @Tag("slow")
    void gammaIsSeldomGivenWithoutAStraightLine() {
        StraightLineSimulation found = StraightLineSimulation.of(STRIPS, 0.01, false, 32);
        double given = found.wronglyGiven(ONE_PERCENT);
        assertTrue(given <= 0.02, () -> "given " + given);
        assertTrue(found.wronglyRefused(ONE_PERCENT) <= 0.25, () -> "refused " + found.wronglyRefused(ONE_PERCENT));
        assertTrue(found.wronglyGiven(TWO_PERCENT) > 2 * given, () -> "given " + found.wronglyGiven(TWO_PERCENT));
        double significant = found.wronglyGiven(StraightLineSimulation.SIGNIFICANCE);
        assertTrue(significant > 2 * given, () -> "given " + significant);
    }
}
