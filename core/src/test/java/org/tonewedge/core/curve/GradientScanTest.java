// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The scan beside a look at every place of a fine grid, on cubics through readings with errors, which bend the most. */
class GradientScanTest {

    private static final double FROM = -2.8;
    private static final double TO = 0.1;
    private static final int PLACES = 29_000;

    private static CurveForm cubic(Random random) {
        int steps = 9 + random.nextInt(33);
        double[] x = new double[steps];
        double[] d = new double[steps];
        for (int i = 0; i < steps; i++) {
            x[i] = -3 + 3.3 * i / (steps - 1);
            d[i] = 0.2 + 2 / (1 + Math.exp(-2.5 * (x[i] + 1.3))) + 0.01 * random.nextGaussian();
        }
        return MonotoneCubic.through(x, d, MonotoneSlopes.FRITSCH_CARLSON);
    }

    private static double at(int place) {
        return FROM + (TO - FROM) * place / PLACES;
    }

    @Test
    @Tag("slow")
    void nothingSteeperAndNoEarlierFallIsMissed() {
        Random random = new Random(6);
        for (int i = 0; i < 60; i++) {
            CurveForm form = cubic(random);
            double window = i % 3 == 0 ? 0 : 0.1 * (i % 3);
            GradientScan scan = new GradientScan(form, window, FROM, TO);
            double steepest = scan.steepest();
            double greatest = scan.gradient(steepest);
            for (int place = 0; place <= PLACES; place++) {
                assertTrue(scan.gradient(at(place)) <= greatest + 1e-6, "steeper at " + at(place));
            }
            for (double fraction : new double[] {0.8, 0.1}) {
                double level = fraction * greatest;
                double fall = scan.fallsBelow(level, steepest, 1);
                double end = Double.isNaN(fall) ? TO : fall;
                for (int place = 0; place <= PLACES; place++) {
                    if (at(place) > steepest && at(place) < end - 1e-9) {
                        assertTrue(scan.gradient(at(place)) >= level - 1e-5, "falls below at " + at(place));
                    }
                }
                if (!Double.isNaN(fall)) {
                    assertEquals(level, scan.gradient(fall), 1e-9);
                }
            }
        }
    }

    @Test
    void smoothCurveIsReadAtFewPlaces() {
        int[] read = {0};
        CurveForm counting = CurveForm.of(
                x -> {
                    read[0]++;
                    return 0.2 + 2 / (1 + Math.exp(-2.5 * (x + 1.3)));
                },
                x -> Double.NaN);
        GradientScan scan = new GradientScan(counting, 0.3, FROM, TO);
        double steepest = scan.steepest();
        scan.fallsBelow(0.8 * scan.gradient(steepest), steepest, -1);
        scan.fallsBelow(0.8 * scan.gradient(steepest), steepest, 1);
        assertEquals(-1.3, steepest, 1e-6);
        assertTrue(read[0] < 1000, read[0] + " densities were read");
    }
}
