// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

class SystematicUncertaintyTest {

    private static final int STEPS = 21;
    private static final double TABLET = 0.01;
    private static final double WHOLE = 0.03;

    private static double speedPoint(Strip strip) {
        return CharacteristicCurve.through(strip)
                .pointAbove(DensityDifference.of(0.10))
                .logExposure()
                .value();
    }

    /** An invented film: a softened line, 0.62 steep; its speed point lies where this gives 0.10. */
    private static double density(double exposure) {
        return 0.25 + 0.62 * 0.2 * Math.log1p(Math.exp((exposure + 2.2) / 0.2));
    }

    /** A strip whose exposures are believed to be those of the tablet, and were off by the errors. */
    private static Strip strip(String id, double speed, double whole, double[] tablet) {
        Strip.Builder strip = Strip.builder(id).basePlusFog(0.25).exposureError("exposure of " + id, WHOLE);
        for (int i = 0; i < STEPS; i++) {
            LogExposure believed = LogExposure.ofLogLuxSeconds(-0.2 - 0.15 * i);
            strip.reading(believed, Density.of(density(believed.value() + whole + tablet[i] + speed)));
            strip.exposureError("step " + (i + 1), believed, TABLET);
        }
        return strip.build();
    }

    @Test
    void anErrorOfTheWholeExposureMovesTheSpeedPointByItself() {
        Strip strip = strip("A", 0, 0, new double[STEPS]);
        Map<String, Double> found = SystematicUncertainty.of(List.of(strip), strips -> speedPoint(strips.get(0)))
                .contributions();
        assertEquals(WHOLE, found.get("exposure of A"), 1e-9);
        assertEquals(1 + STEPS, found.size());
        // A cubic through the readings is moved by the steps about the point, whose weights sum to 1.
        double sum = found.entrySet().stream()
                .filter(entry -> entry.getKey().startsWith("step"))
                .mapToDouble(Map.Entry::getValue)
                .sum();
        assertEquals(TABLET, sum, 1e-4);
    }

    @Test
    void theTabletsErrorIsCommonToFilmsBehindIt() {
        double[] none = new double[STEPS];
        List<Strip> equal = List.of(strip("A", 0, 0, none), strip("B", 0, 0, none));
        SystematicUncertainty between =
                SystematicUncertainty.of(equal, strips -> speedPoint(strips.get(1)) - speedPoint(strips.get(0)));
        between.contributions().forEach((source, contribution) -> {
            if (source.startsWith("step")) {
                assertEquals(0, contribution, 1e-12, source);
            }
        });
        assertEquals(WHOLE * Math.sqrt(2), between.standardUncertainty(), 1e-9);
        // Two films a stop apart are read at steps of their own.
        List<Strip> apart = List.of(equal.get(0), strip("B", 0.301, 0, none));
        SystematicUncertainty own =
                SystematicUncertainty.of(apart, strips -> speedPoint(strips.get(1)) - speedPoint(strips.get(0)));
        assertTrue(own.standardUncertainty() > between.standardUncertainty());
    }

    /** How often ±1.96 u about the speed point of a strip with simulated errors includes the true one. */
    private static double coverage(int strips, long seed) {
        Random random = new Random(seed);
        double truth = -2.2 + 0.2 * Math.log(Math.expm1(0.10 / (0.62 * 0.2)));
        // The cubic itself departs from the film between steps; that is no error of exposure.
        double drawn = speedPoint(strip("A", 0, 0, new double[STEPS])) - truth;
        int hits = 0;
        for (int n = 0; n < strips; n++) {
            double speed = random.nextDouble() * 0.6;
            double[] tablet = new double[STEPS];
            for (int i = 0; i < STEPS; i++) {
                tablet[i] = TABLET * random.nextGaussian();
            }
            Strip strip = strip("A", speed, WHOLE * random.nextGaussian(), tablet);
            double u = SystematicUncertainty.of(List.of(strip), moved -> speedPoint(moved.get(0)))
                    .standardUncertainty();
            hits += Math.abs(speedPoint(strip) - drawn - (truth - speed)) <= 1.96 * u ? 1 : 0;
        }
        return (double) hits / strips;
    }

    /** 600 strips: 95 % within four standard deviations of such a count, ±3.6 %. */
    @Test
    @Tag("slow")
    void theIntervalIncludesTheTruth() {
        assertEquals(0.95, coverage(600, 7), 0.036);
    }

    /** Prints the coverage over 10,000 strips. */
    public static void main(String[] args) {
        System.out.println(coverage(10_000, 1));
    }
}
