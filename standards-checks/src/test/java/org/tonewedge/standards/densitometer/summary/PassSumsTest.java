// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Two passes over two steps, added by hand. */
class PassSumsTest {

    private static void read(PassSums pass, int step, double density, boolean isPlausible) {
        pass.addPrinted(step, density, isPlausible, 1, 0, 20);
        pass.addStated(step, density);
    }

    private static double mean(StepAccumulator step) {
        return step.variances().mean();
    }

    /**
     * Of the first step's readings 0.1, 0.3 | 79, 79 half look like no density, which is no majority: 0.2 is judged. Of the
     * second step's 1.0 | 8, 9 two of three do: all are judged, 6.
     */
    @Test
    void passesAddUp() {
        PassSums first = new PassSums(2);
        read(first, 0, 0.1, true);
        read(first, 0, 0.3, true);
        read(first, 1, 1.0, true);
        first.addOverrange(1);
        first.addBelowDark(1);
        PassSums second = new PassSums(2);
        read(second, 0, 79, false);
        read(second, 0, 79, false);
        read(second, 1, 8, false);
        read(second, 1, 9, false);
        second.addOverrange(1);
        second.addOverrange(1);
        second.addBelowDark(1);

        PassSums both = PassSums.of(List.of(first, second), 2);

        assertEquals(List.of(2), both.implausibleSteps());
        assertEquals(0.2, mean(both.judged()[0]), 1e-12);
        assertEquals(6, mean(both.judged()[1]), 1e-12);
        assertEquals(158.4 / 4, mean(both.printed(0)), 1e-12);
        assertEquals(158.4 / 4, both.statedMean(0), 1e-12);
        assertEquals(3, both.overrange(1));
        assertEquals(2, both.belowDark(1));
        assertEquals(0, both.overrange(0));
    }

    /** A step was skipped before the second: its readings belong to the third, and those of the third to none. */
    @Test
    void readingsMoveToTheirOwnSteps() {
        PassSums pass = new PassSums(3);
        read(pass, 0, 0.1, true);
        read(pass, 1, 2.1, true);
        read(pass, 2, 3.1, true);
        pass.addOverrange(1);

        PassSums moved = pass.moved(step -> step == 1 ? 1 : step + 1);

        assertEquals(0.1, mean(moved.printed(0)), 1e-12);
        assertEquals(0, moved.printed(1).variances().count());
        assertEquals(2.1, mean(moved.printed(2)), 1e-12);
        assertEquals(1, moved.overrange(2));
        assertEquals(0, moved.overrange(1));
    }
}
