// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/** Strips for measurements of speed: a toe, a straight line and a shoulder of many speeds and gradients, with noise. */
public final class InventedStrips {

    private InventedStrips() {}

    /**
     * Makes strips, the same in each run.
     *
     * @param count how many
     * @return the strips S0, S1 and so on
     */
    public static List<Strip> of(int count) {
        Random random = new Random(1);
        List<Strip> strips = new ArrayList<>();
        for (int s = 0; s < count; s++) {
            double toe = -2.4 + 0.8 * random.nextDouble();
            double gradient = 0.4 + 0.5 * random.nextDouble();
            double shoulder = toe + 2 + random.nextDouble();
            Strip.Builder strip = Strip.builder("S" + s).film("Invented " + s);
            for (int i = 0; i < 3; i++) {
                strip.basePlusFog(rounded(0.2 + 0.005 * random.nextGaussian()));
            }
            for (int i = 0; i < 21; i++) {
                double x = -3 + 0.15 * i;
                double density = 0.2 + gradient * (ramp(x - toe) - ramp(x - shoulder)) + 0.005 * random.nextGaussian();
                strip.reading(LogExposure.ofLogLuxSeconds(rounded(x)), Density.of(rounded(density)));
            }
            strips.add(strip.build());
        }
        return strips;
    }

    private static double ramp(double x) {
        return 0.2 * Math.log1p(Math.exp(x / 0.2));
    }

    private static double rounded(double value) {
        return Math.rint(1e3 * value) / 1e3;
    }
}
