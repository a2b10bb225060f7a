// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Random;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/** Invented strips. */
final class TestStrips {

    /** 21 steps 0.15 apart, read with an error of about 0.01. */
    static final double[] EXPOSURES = grid(-3, 0, 21);

    static final double[] DENSITIES = {
        0.241, 0.244, 0.240, 0.238, 0.251, 0.263, 0.306, 0.371, 0.423, 0.505, 0.606, 0.697, 0.787, 0.867, 0.961, 1.044,
        1.085, 1.140, 1.156, 1.181, 1.185
    };

    static final double[] BASE_PLUS_FOG = {0.244, 0.237, 0.242};

    private TestStrips() {}

    static double[] grid(double from, double to, int steps) {
        double[] x = new double[steps];
        for (int i = 0; i < steps; i++) {
            x[i] = Math.rint((from + (to - from) * i / (steps - 1)) * 1e6) / 1e6;
        }
        return x;
    }

    static Strip strip(String id, double[] logExposures, double[] densities, double... basePlusFog) {
        Strip.Builder builder = Strip.builder(id).basePlusFog(basePlusFog);
        for (int i = 0; i < logExposures.length; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(logExposures[i]), Density.of(densities[i]));
        }
        return builder.build();
    }

    static Strip s07() {
        return strip("S07", EXPOSURES, DENSITIES, BASE_PLUS_FOG);
    }

    static double[] densities(ParametricForm form, double[] logExposures) {
        double[] densities = new double[logExposures.length];
        form.densities(logExposures, densities);
        return densities;
    }

    /** Densities with normal errors of a seeded generator. */
    static double[] disturbed(double[] densities, double deviation, Random random) {
        double[] disturbed = densities.clone();
        for (int i = 0; i < disturbed.length; i++) {
            disturbed[i] += deviation * random.nextGaussian();
        }
        return disturbed;
    }

    /** A curve as films have them: toe at −2.1 to −1.5, shoulder from −0.6, soft or sharp. */
    static ParametricForm anyForm(Random random) {
        return CurveFamily.TOE_SHOULDER.form(
                0.05 + 0.3 * random.nextDouble(),
                0.4 + 0.8 * random.nextDouble(),
                -2.1 + 0.6 * random.nextDouble(),
                0.06 + 0.29 * random.nextDouble(),
                -0.6 + 0.5 * random.nextDouble(),
                0.06 + 0.29 * random.nextDouble());
    }

    static double speedPoint(org.tonewedge.core.curve.CharacteristicCurve curve) {
        return curve.pointAbove(DensityDifference.of(0.10)).logExposure().value();
    }
}
