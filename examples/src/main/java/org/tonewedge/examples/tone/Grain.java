// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.Random;
import org.tonewedge.core.tone.Granularity;

/**
 * Simulated grain: each pixel of a print takes the density of its place on the film with an error of its own, as large as
 * the granularity measured through another aperture asks for.
 *
 * <p>The standard deviation goes with the square root of area: G = σ √(2A) is a constant of the film (Selwyn 1935, as {@link
 * Granularity#selwyn()} has it). Its square goes with density above base plus fog, as for opaque grains that lie at random
 * (Nutting 1913, from memory). Grains are taken to be smaller than a pixel. Not thread safe.
 */
final class Grain {

    /** The width of a pixel on the print: 254 to the inch. */
    static final double PIXEL_MICROMETRES = 100;

    private final double atMeasured;
    private final double basePlusFog;
    private final double measuredAbove;
    private final double pitch;
    private final Random random;

    Grain(Granularity measured, double basePlusFog, double enlargement, long seed) {
        this.basePlusFog = basePlusFog;
        measuredAbove = measured.meanDensity().value() - basePlusFog;
        if (!(measuredAbove > 0)) {
            throw new IllegalArgumentException("granularity was measured at a density of "
                    + measured.meanDensity().value() + ", which is not above base plus fog, " + basePlusFog
                    + "; measure it on an exposed area");
        }
        pitch = PIXEL_MICROMETRES / enlargement;
        double aperture = Math.PI * measured.aperture() * measured.aperture() / 4;
        atMeasured = measured.standardDeviation().value() * Math.sqrt(aperture) / pitch;
        random = new Random(seed);
    }

    /** The width of a pixel on the film. */
    double pitchMicrometres() {
        return pitch;
    }

    /** The standard deviation of the density of a pixel. */
    double deviation(double density) {
        return atMeasured * Math.sqrt(Math.max(0, density - basePlusFog) / measuredAbove);
    }

    /** The density of the next pixel, whose mean is given. */
    double next(double density) {
        return density + deviation(density) * random.nextGaussian();
    }
}
