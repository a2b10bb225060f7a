// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

class MonotoneCubicProperties {

    private static double[] rising(Random random, int points, boolean strictly) {
        double[] values = new double[points];
        for (int i = 1; i < points; i++) {
            double step = random.nextDouble();
            values[i] = values[i - 1] + (strictly ? 0.01 + step : Math.max(0, step - 0.3));
        }
        return values;
    }

    @Property(tries = 300, seed = "1")
    void monotoneDataGiveAMonotoneCurveThroughEveryPoint(
            @ForAll long seed, @ForAll @IntRange(min = 2, max = 40) int points, @ForAll MonotoneSlopes rule) {
        Random random = new Random(seed);
        double[] x = rising(random, points, true);
        double[] y = rising(random, points, false);
        MonotoneCubic cubic = MonotoneCubic.through(x, y, rule);
        for (int i = 0; i < points; i++) {
            assertEquals(y[i], cubic.density(x[i]), 1e-12);
        }
        double end = x[points - 1];
        for (int i = 0; i <= 2000; i++) {
            assertTrue(cubic.gradient(end * i / 2000) >= -1e-9, "falls at sample " + i);
        }
    }

    @Property(tries = 300, seed = "1")
    void gradientIsTheDerivative(
            @ForAll long seed, @ForAll @IntRange(min = 3, max = 40) int points, @ForAll MonotoneSlopes rule) {
        Random random = new Random(seed);
        double[] x = rising(random, points, true);
        double[] y = random.doubles(points, 0, 3).toArray();
        MonotoneCubic cubic = MonotoneCubic.through(x, y, rule);
        double h = 1e-6;
        for (int i = 0; i + 1 < points; i++) {
            double middle = x[i] + (x[i + 1] - x[i]) * (0.1 + 0.8 * random.nextDouble());
            double difference = (cubic.density(middle + h) - cubic.density(middle - h)) / (2 * h);
            assertEquals(difference, cubic.gradient(middle), 1e-5 * (1 + Math.abs(difference)));
        }
    }
}
