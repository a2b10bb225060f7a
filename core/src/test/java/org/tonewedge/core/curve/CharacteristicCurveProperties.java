// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

class CharacteristicCurveProperties {

    private static CharacteristicCurve rising(long seed, int steps) {
        Random random = new Random(seed);
        Strip.Builder strip = Strip.builder("random").basePlusFog(0.2);
        double density = 0.2;
        for (int i = 0; i < steps; i++) {
            strip.reading(LogExposure.ofLogLuxSeconds(-3 + 0.1 * i), Density.of(density));
            density += 0.005 + 0.1 * random.nextDouble();
        }
        return CharacteristicCurve.through(strip.build());
    }

    @Property(tries = 300, seed = "1")
    void theExposureOfADensityGivesThatDensity(
            @ForAll long seed,
            @ForAll @IntRange(min = 4, max = 31) int steps,
            @ForAll @DoubleRange(min = 0, max = 1) @Scale(6) double place) {
        CharacteristicCurve curve = rising(seed, steps);
        double from = curve.minimumDensity().value();
        double density = from + place * (curve.maximumDensity().value() - from);
        assertEquals(density, curve.density(curve.logExposure(density)), 1e-13);
    }

    @Property(tries = 300, seed = "1")
    void theDensityOfAnExposureGivesThatExposure(
            @ForAll long seed,
            @ForAll @IntRange(min = 4, max = 31) int steps,
            @ForAll @DoubleRange(min = 0, max = 1) @Scale(6) double place) {
        CharacteristicCurve curve = rising(seed, steps);
        double from = curve.lowestExposure().value();
        double exposure = from + place * (curve.highestExposure().value() - from);
        assertEquals(exposure, curve.logExposure(curve.density(exposure)), 1e-9);
    }

    @Property(tries = 100, seed = "1")
    void theOrderOfReadingsDoesNotMatter(@ForAll long seed) {
        Random random = new Random(seed);
        List<double[]> readings = new ArrayList<>();
        for (int step = 0; step < 15; step++) {
            readings.add(new double[] {-3 + 0.1 * step, 0.2 + random.nextDouble()});
            readings.add(new double[] {-3 + 0.1 * step, 0.2 + random.nextDouble()});
        }
        CharacteristicCurve inOrder = through(readings);
        Collections.shuffle(readings, random);
        CharacteristicCurve shuffled = through(readings);
        for (double x = -3; x < -1.6; x += 0.01) {
            // Only the order of adding up repeats differs.
            assertEquals(inOrder.density(x), shuffled.density(x), 1e-14);
        }
    }

    private static CharacteristicCurve through(List<double[]> readings) {
        Strip.Builder strip = Strip.builder("shuffled").basePlusFog(0.2);
        readings.forEach(reading -> strip.reading(LogExposure.ofLogLuxSeconds(reading[0]), Density.of(reading[1])));
        return CharacteristicCurve.through(strip.build());
    }
}
