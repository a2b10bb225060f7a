// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;

/** An invented film whose curve is known, and strips of it read with errors. */
final class SimulatedFilm {

    private static final double FIRST = -3.3;
    private static final double LAST = 0.6;

    /** What kind of film. */
    enum Shape {
        /** Toe, straight line and a shoulder within the readings. */
        FAMILY {
            @Override
            SimulatedFilm film(Random random) {
                return withShoulder(random);
            }
        },
        /** A fast layer of small range under a slow one. */
        TWO_LAYERS {
            @Override
            SimulatedFilm film(Random random) {
                return twoLayers(random);
            }
        },
        /** The gradient rises up to the end of the strip. */
        UPSWEPT {
            @Override
            SimulatedFilm film(Random random) {
                return upswept(random);
            }
        };

        abstract SimulatedFilm film(Random random);
    }

    private final CurveForm truth;
    private final double base;

    private SimulatedFilm(CurveForm truth, double base) {
        this.truth = truth;
        this.base = base;
    }

    /** A film with toe, straight line and a shoulder within the readings. */
    static SimulatedFilm withShoulder(Random random) {
        return of(random, -0.9 + 0.5 * random.nextDouble());
    }

    /** A film whose straight line runs on far beyond the readings. */
    static SimulatedFilm withoutShoulder(Random random) {
        return of(random, 2.5);
    }

    private static SimulatedFilm of(Random random, double shoulder) {
        double base = 0.1 + 0.25 * random.nextDouble();
        ParametricForm form = CurveFamily.TOE_SHOULDER.form(
                base,
                0.45 + 0.5 * random.nextDouble(),
                -2.3 + 0.5 * random.nextDouble(),
                0.10 + 0.15 * random.nextDouble(),
                shoulder,
                0.10 + 0.10 * random.nextDouble());
        return new SimulatedFilm(form, base);
    }

    private static SimulatedFilm twoLayers(Random random) {
        double base = between(0.1, 0.3, random);
        double start = between(-2.2, -1.8, random);
        double middle = start + between(0.8, 1.1, random);
        ParametricForm fast = CurveFamily.TOE_SHOULDER.form(
                base, between(0.4, 0.7, random), start, between(0.08, 0.2, random), middle, between(0.08, 0.2, random));
        ParametricForm slow = CurveFamily.TOE_SHOULDER.form(
                0,
                between(0.6, 1.0, random),
                middle + between(-0.1, 0.2, random),
                between(0.08, 0.2, random),
                between(-0.3, 0.1, random),
                between(0.08, 0.2, random));
        return new SimulatedFilm(
                CurveForm.of(x -> fast.density(x) + slow.density(x), x -> fast.gradient(x) + slow.gradient(x)), base);
    }

    private static SimulatedFilm upswept(Random random) {
        double base = between(0.1, 0.3, random);
        double gradient = between(0.25, 0.45, random);
        double sweep = between(0.12, 0.25, random);
        ParametricForm toe =
                CurveFamily.TOE_STRAIGHT_LINE.form(0, 1, between(-2.1, -1.5, random), between(0.08, 0.3, random));
        return new SimulatedFilm(
                CurveForm.of(
                        x -> base + (gradient + sweep * toe.density(x)) * toe.density(x),
                        x -> (gradient + 2 * sweep * toe.density(x)) * toe.gradient(x)),
                base);
    }

    private static double between(double low, double high, Random random) {
        return low + (high - low) * random.nextDouble();
    }

    /** A strip with two readings of base plus fog and one of each step. */
    Strip strip(String id, int steps, double error, Random random) {
        return strip(id, steps, error, 0, random);
    }

    /** A strip that got more exposure than it is believed to have got. */
    Strip strip(String id, int steps, double error, double moreExposure, Random random) {
        Strip.Builder strip = Strip.builder(id)
                .film("simulated")
                .boxSpeed(100)
                .basePlusFog(base + error * random.nextGaussian(), base + error * random.nextGaussian());
        for (int i = 0; i < steps; i++) {
            double x = FIRST + (LAST - FIRST) * i / (steps - 1);
            strip.reading(
                    LogExposure.ofLogLuxSeconds(x),
                    Density.of(truth.density(x + moreExposure) + error * random.nextGaussian()));
        }
        return strip.build();
    }

    /** What the curve itself gives. */
    StripFigures truth() {
        return StripFigures.of(
                strip("truth", 40, 0, new Random(1)),
                CurveDrawing.of(strip -> CharacteristicCurve.of(
                        "truth",
                        truth,
                        LogExposure.ofLogLuxSeconds(FIRST),
                        LogExposure.ofLogLuxSeconds(LAST),
                        Density.of(base))));
    }
}
