// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.tonewedge.core.tone.Brackets.AXIS;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.LogExposure;

class FlareGradientTest {

    /** d log(L + f) / d log L = L / (L + f), by calculus: a tenth of the metered tone over 0.01 of flare keeps 10/11. */
    @Test
    void flareTakesContrastFromShadows() {
        CameraExposure exposure =
                CameraExposure.metered(new LogExposure(0, AXIS)).withFlare(0.01);
        assertEquals(1 / 1.01, exposure.gradientAt(SubjectTone.METERED).value(), 1e-15);
        assertEquals(10 / 11.0, exposure.gradientAt(new SubjectTone(-1)).value(), 1e-15);
    }
}
