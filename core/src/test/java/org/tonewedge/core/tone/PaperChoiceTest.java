// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.DensityDifference;

class PaperChoiceTest {

    /**
     * The middles of the grades of ANSI PH2.2-1966. Its outer limits 0.50 and 1.70 and the six grades were read in The
     * Focal Encyclopedia of Photography, p. 679; the inner limits are from memory.
     */
    private static final List<PaperRange> GRADES = List.of(
            PaperRange.ofLogUnits("0", 1.55),
            PaperRange.ofLogUnits("1", 1.275),
            PaperRange.ofLogUnits("2", 1.05),
            PaperRange.ofLogUnits("3", 0.875),
            PaperRange.ofLogUnits("4", 0.725),
            PaperRange.ofLogUnits("5", 0.575));

    /**
     * The paper's log exposure range equals the negative's effective density range (ISO 6846:1992, introduction, read in a
     * preview).
     */
    @ParameterizedTest
    @CsvSource({"1.05, 2, 0.00", "1.10, 2, 0.05", "0.60, 5, 0.025", "1.45, 0, -0.10", "2.10, 0, 0.55", "0.50, 5, -0.075"
    })
    void takesThePaperWhoseRangeIsNearest(double negative, String grade, double excess) {
        PaperChoice choice = PaperChoice.among(DensityDifference.of(negative), GRADES);

        assertEquals(grade, choice.paper().label());
        assertEquals(excess, choice.excess().value(), 1e-12);
    }

    @Test
    void takesTheLongerOfTwoEquallyNear() {
        PaperChoice choice = PaperChoice.among(
                DensityDifference.of(1.0), List.of(PaperRange.ofLogUnits("a", 0.75), PaperRange.ofLogUnits("b", 1.25)));

        assertEquals("b", choice.paper().label());
        assertEquals("paper 'b' (1.25) for a density range of 1.00, excess ΔD −0.25", choice.toString());
    }

    /** ISO R110 is a log exposure range of 1.10 (the factor of 100 from memory). */
    @Test
    void readsTheRangeOnTheBox() {
        assertEquals(1.10, PaperRange.ofIsoRange("R110", 110).logExposureRange().logUnits(), 1e-12);
    }

    @Test
    void refusesWhatIsNoRange() {
        assertThrows(IllegalArgumentException.class, () -> PaperChoice.among(DensityDifference.of(0), GRADES));
        assertThrows(IllegalArgumentException.class, () -> PaperChoice.among(DensityDifference.of(1), List.of()));
        assertThrows(IllegalArgumentException.class, () -> PaperRange.ofLogUnits("x", 0));
        for (Executable swapped :
                List.<Executable>of(() -> PaperRange.ofLogUnits("x", 105), () -> PaperRange.ofIsoRange("x", 1.05))) {
            String message =
                    assertThrows(IllegalArgumentException.class, swapped).getMessage();
            assertTrue(message.contains("the ISO range on the box, such as 110, is 100 times"), message);
        }
        assertThrows(IllegalArgumentException.class, () -> PaperRange.ofLogUnits(" ", 1));
    }
}
