// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/** Strips read off a known curve, every 0.15 log units from −4 to 1, with two readings of base plus fog. */
public final class SampledStrips {

    /** The number of steps. */
    public static final int STEPS = 34;

    private SampledStrips() {}

    /** Readings without error. */
    public static Strip exact(CharacteristicCurve curve) {
        return noisy(curve, 0, new Random(0));
    }

    /** Readings with normal errors. */
    public static Strip noisy(CharacteristicCurve curve, double standardDeviation, Random random) {
        double base = curve.basePlusFog().value();
        Strip.Builder builder = Strip.builder(curve.name())
                .basePlusFog(
                        base + standardDeviation * random.nextGaussian(),
                        base + standardDeviation * random.nextGaussian());
        for (int i = 0; i < STEPS; i++) {
            double logExposure = exposure(i);
            builder.reading(
                    LogExposure.ofLogLuxSeconds(logExposure),
                    Density.of(curve.density(logExposure) + standardDeviation * random.nextGaussian()));
        }
        return builder.build();
    }

    /** The log exposure of a step. */
    public static double exposure(int step) {
        return -4 + 0.15 * step;
    }
}
