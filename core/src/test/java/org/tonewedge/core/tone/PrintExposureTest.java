package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;

class PrintExposureTest {

    @Test
    void aDenserBaseNeedsTenToTheDifferenceTimesTheExposure() {
        // Mees 1920/21, "Positive Printing": exposure in proportion to opacity; D 0.30 doubles it (10^0.30 = 1.995).
        assertEquals(
                1.995,
                PrintExposure.forBasePlusFog(Density.of(0.52), Density.of(0.22)).ratio(),
                0.0005);
        assertEquals(
                -1,
                PrintExposure.forBasePlusFog(Density.of(0.22), Density.of(0.52)).stops(),
                0.005);
        assertEquals(
                0,
                PrintExposure.forBasePlusFog(Density.of(0.3), Density.of(0.3)).logUnits());
    }
}
