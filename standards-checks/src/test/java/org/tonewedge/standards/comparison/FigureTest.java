// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.standards.SystematicUncertainty;

/** The uncertainty of the readings together with that of stated errors (JCGM 100:2008, 5.1.2 and G.4.1). */
class FigureTest {

    private static final SystematicUncertainty STATED = SystematicUncertainty.ofContributions(Map.of("tablet", 0.04));

    /** By hand: √(0.03² + 0.04²) = 0.05; the readings have 0.6 of it, so 10/0.6⁴ = 77.16 degrees of freedom. */
    @Test
    void statedErrorsAddInSquares() {
        Estimate both = Figure.of(Estimate.of(1.5, 0.03, 10))
                .withStatedErrors(STATED)
                .estimate()
                .orElseThrow();
        assertEquals(1.5, both.value());
        assertEquals(0.05, both.standardUncertainty(), 1e-12);
        assertEquals(77.16, both.degreesOfFreedom(), 0.005);
    }

    @Test
    void statedErrorsAloneAreCertain() {
        Estimate exact = Figure.of(Estimate.of(1.5, 0, 10))
                .withStatedErrors(STATED)
                .estimate()
                .orElseThrow();
        assertEquals(0.04, exact.standardUncertainty(), 1e-12);
        assertEquals(Double.POSITIVE_INFINITY, exact.degreesOfFreedom());
        Estimate unknown = Figure.of(1.5).withStatedErrors(STATED).estimate().orElseThrow();
        assertEquals(0.04, unknown.standardUncertainty(), 1e-12);
        assertTrue(Figure.of(1.5).estimate().isEmpty());
    }

    @Test
    void figuresAreEqualByWhatTheyTell() {
        assertEquals(Figure.of(1.5), Figure.of(1.5));
        assertNotEquals(Figure.of(1.5), Figure.of(1.6));
        assertNotEquals(Figure.of(1.5), Figure.missing("not read"));
        assertEquals("1.50", Figure.of(1.5).toString());
    }
}
