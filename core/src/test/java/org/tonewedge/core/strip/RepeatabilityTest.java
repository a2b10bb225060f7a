// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

class RepeatabilityTest {

    private static Strip.Builder strip(double... basePlusFog) {
        return Strip.builder("S1")
                .basePlusFog(basePlusFog)
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.4))
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(1.0))
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(1.1));
    }

    /** By hand: 0.20, 0.22, 0.24 have the sum of squares 0.0008 about their mean, 1.0 and 1.1 have 0.005. */
    @Test
    void repeatsArePooledOverStepsBasePlusFogAndStrips() {
        Repeatability one =
                Repeatability.fromRepeats().over(List.of(strip(0.20, 0.22, 0.24).build()));
        assertEquals(Math.sqrt(0.0058 / 3), one.standardDeviationAt(Density.of(1)), 1e-15);
        assertEquals(3, one.degreesOfFreedom());
        assertTrue(one.toString().endsWith(" with 3 degrees of freedom"), one.toString());
        assertTrue(one.isKnown());

        Repeatability two = Repeatability.fromRepeats()
                .over(List.of(strip(0.20, 0.22, 0.24).build(), strip(0.2).build()));
        assertEquals(Math.sqrt(0.0108 / 4), two.standardDeviationAt(Density.of(0)), 1e-15);
        assertEquals(4, two.degreesOfFreedom());
        assertNotEquals(one, two);
    }

    @Test
    void aBracketIsPooledOverItsPatches() {
        Bracket bracket = Bracket.of(
                "film",
                List.of(Density.of(0.20), Density.of(0.22), Density.of(0.24)),
                List.of(new Frame(
                        "f1",
                        ExposureInterval.ZERO,
                        List.of(PatchReading.of(Patch.of("grey", PatchGroup.NEUTRAL, 0.18), 1.0, 1.1)))));
        Repeatability pooled = Repeatability.fromRepeats().over(bracket);
        assertEquals(Math.sqrt(0.0058 / 3), pooled.standardDeviationAt(Density.of(1)), 1e-15);
        assertEquals(bracket.repeatability().orElseThrow(), pooled.standardDeviationAt(Density.of(1)));
    }

    @Test
    void whatIsStatedStays() {
        Repeatability stated = Repeatability.of(0.01);
        assertEquals(stated, stated.over(List.of(strip(0.2, 0.3).build())));
        assertEquals(0.01, stated.standardDeviationAt(Density.of(3)));
        assertEquals(Double.POSITIVE_INFINITY, stated.degreesOfFreedom());
        DoubleUnaryOperator rising = density -> 0.005 + 0.005 * density;
        assertEquals(0.015, Repeatability.of(rising).standardDeviationAt(Density.of(2)), 1e-15);
        assertEquals(Repeatability.of(rising), Repeatability.of(rising));
        assertEquals(Repeatability.of(0.01).hashCode(), Repeatability.of(0.01).hashCode());
        assertNotEquals(Repeatability.of(0.01), Repeatability.fromRepeats());
        assertEquals("the stated repeatability 0.01", stated.toString());
    }

    @Test
    void refusesWhatIsNoRepeatability() {
        for (double bad : new double[] {-0.01, 1.1, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThrows(IllegalArgumentException.class, () -> Repeatability.of(bad));
            Repeatability varying = Repeatability.of(density -> bad == 1.1 ? -1 : bad);
            assertTrue(assertThrows(IllegalArgumentException.class, () -> varying.standardDeviationAt(Density.of(2.5)))
                    .getMessage()
                    .contains("D 2.50"));
        }
        assertFalse(Repeatability.fromRepeats().isKnown());
        assertThrows(
                IllegalStateException.class, () -> Repeatability.fromRepeats().standardDeviationAt(Density.of(1)));
    }

    @Test
    void refusesReadingsThatDoNotTell() {
        Strip once = Strip.builder("S7")
                .basePlusFog(0.2)
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.4))
                .build();
        assertTrue(refused(once).contains("S7") && refused(once).contains("no repeat readings"));
        Strip equal = Strip.builder("S8")
                .basePlusFog(0.2, 0.2)
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.4))
                .build();
        assertTrue(refused(equal).contains("all repeat readings are equal"));
        // Three times 0.2, added up and divided by 3, is not 0.2 in binary numbers.
        Strip thrice = Strip.builder("S9")
                .basePlusFog(0.2, 0.2, 0.2)
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.4))
                .build();
        assertTrue(refused(thrice).contains("all repeat readings are equal"));
        assertThrows(
                IllegalArgumentException.class,
                () -> Repeatability.fromRepeats().over(List.of()));
    }

    private static String refused(Strip strip) {
        return assertThrows(
                        IllegalArgumentException.class,
                        () -> Repeatability.fromRepeats().over(List.of(strip)))
                .getMessage();
    }
}
