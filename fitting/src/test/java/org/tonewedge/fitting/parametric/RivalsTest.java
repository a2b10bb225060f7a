// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

class RivalsTest {

    /**
     * By hand: of the weights 0.5, 0.25 and 0.25 the last does not count, because that curve does not give the figure.
     * u² = (0.5 · 0.03² + 0.25 · (0.06² + 0.09²)) / 0.75 = 0.0045, and the degrees of freedom are (0.5 · 12 + 0.25 · 6)/0.75
     * = 10.
     */
    @Test
    void aFigureHasTheUncertaintyOfAllCurvesThatGiveIt() {
        Rivals rivals = new Rivals(
                0.5,
                List.of(new Rivals.Rival(0.25, figure -> Estimate.of(0.69, 0.06, 6)), new Rivals.Rival(0.25, figure -> {
                    throw new NotDeterminableException("no such point");
                })),
                List.of());
        Estimate found = rivals.among(Estimate.of(0.60, 0.03, 12), curve -> 0);
        assertEquals(0.60, found.value());
        assertEquals(Math.sqrt(0.0045), found.standardUncertainty(), 1e-15);
        assertEquals(10, found.degreesOfFreedom(), 1e-12);
    }
}
