// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;

class DetailPageTest {

    @Test
    void setsFiguresBesideThoseOfTheReference() {
        // 60/40 = 1.5; u(ln) = hypot(1/60, 1/40) = 0.030, ln 1.5 = 0.405, so the interval excludes 1
        assertEquals(" ×1.50*", DetailPage.ratio(Estimate.of(60, 1), Estimate.of(40, 1)));
        // 41.2/40 = 1.03; u(ln) = 0.035, ln 1.03 = 0.030
        assertEquals(" ×1.03", DetailPage.ratio(Estimate.of(41.2, 1), Estimate.of(40, 1)));
    }

    @Test
    void givesNoRatioOfDifferentSigns() {
        assertEquals("", DetailPage.ratio(Estimate.of(-0.01, 0.001), Estimate.of(0.02, 0.001)));
    }
}
