// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class UnequalRunsTest {

    /**
     * By hand: runs {1, 2} and {4, 6, 8}, means 1.5 and 6, of all 4.2. Between: 2 · 2.7² + 3 · 1.8² = 24.3 with 1 degree of
     * freedom; within: 0.5 + 8 = 8.5 with 3. The mean count is (5 − (2² + 3²)/5)/1 = 2.4, not the plain mean 2.5, so the
     * variance between runs is (24.3 − 8.5/3)/2.4. Formula of one-way analysis of variance with unequal groups, from memory.
     */
    @Test
    void countByTheirSizes() {
        Variances variances = new Variances();
        for (double reading : new double[] {1, 2}) {
            variances.add(reading);
        }
        variances.closeRun();
        for (double reading : new double[] {4, 6, 8}) {
            variances.add(reading);
        }
        variances.closeRun();
        assertEquals(24.3, variances.squaresBetween(), 1e-12);
        assertEquals(8.5, variances.squaresWithin(), 1e-12);
        assertEquals((24.3 - 8.5 / 3) / 2.4, variances.varianceBetweenRuns(), 1e-12);
    }
}
