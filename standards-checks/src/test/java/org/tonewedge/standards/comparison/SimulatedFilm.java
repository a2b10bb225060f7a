package org.tonewedge.standards.comparison;

import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;

/** An invented film whose curve is known, and strips of it read with errors. */
final class SimulatedFilm {

    private static final double FIRST = -3.3;
    private static final double LAST = 0.6;

    private final ParametricForm truth;

    private SimulatedFilm(ParametricForm truth) {
        this.truth = truth;
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
        return new SimulatedFilm(CurveFamily.TOE_SHOULDER.form(
                0.1 + 0.25 * random.nextDouble(),
                0.45 + 0.5 * random.nextDouble(),
                -2.3 + 0.5 * random.nextDouble(),
                0.10 + 0.15 * random.nextDouble(),
                shoulder,
                0.10 + 0.10 * random.nextDouble()));
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
                .basePlusFog(
                        truth.density(-20) + error * random.nextGaussian(),
                        truth.density(-20) + error * random.nextGaussian());
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
                        Density.of(truth.density(-20)))));
    }
}
