// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * How near splines come to the truth, and whether their standard errors say so, on seeded simulated strips with a toe, a
 * straight line and a shoulder.
 */
class SimulatedStripsTest {

    private static final int STRIPS = 400;
    private static final double FIRST = -3;
    private static final double LAST = 0.3;

    /** A true curve: D = base + g (s softplus((x − toe)/s) − t softplus((x − shoulder)/t)). */
    private static final class Truth {
        final double base;
        final double gradient;
        final double toe;
        final double toeSoftness;
        final double shoulder;
        final double shoulderSoftness;

        Truth(Random random) {
            base = 0.1 + 0.25 * random.nextDouble();
            gradient = 0.5 + 0.7 * random.nextDouble();
            toe = -2.2 + 0.6 * random.nextDouble();
            toeSoftness = 0.1 + 0.2 * random.nextDouble();
            shoulder = -0.6 + 0.8 * random.nextDouble();
            shoulderSoftness = 0.1 + 0.3 * random.nextDouble();
        }

        double density(double x) {
            return base + gradient * (ramp(x, toe, toeSoftness) - ramp(x, shoulder, shoulderSoftness));
        }

        double exposureAbove(double above) {
            double low = FIRST;
            double high = LAST;
            for (int i = 0; i < 60; i++) {
                double middle = 0.5 * (low + high);
                if (density(middle) < base + above) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            return low;
        }

        private static double ramp(double x, double at, double softness) {
            return softness * Math.log1p(Math.exp((x - at) / softness));
        }
    }

    /** What became of a kind of spline over all strips. */
    private static final class Outcome {
        double covered;
        double positions;
        double squares;
        double speedSquares;
        int speeds;
        double deviations;

        double coverage() {
            return covered / positions;
        }

        /** The root mean square error of the curve, in noise standard deviations. */
        double error() {
            return Math.sqrt(squares / positions);
        }

        double speedError() {
            return Math.sqrt(speedSquares / speeds);
        }
    }

    private static Outcome simulate(SmoothingSpline spline, int steps, double noise) {
        Outcome outcome = new Outcome();
        Random random = new Random(71);
        for (int s = 0; s < STRIPS; s++) {
            Truth truth = new Truth(random);
            double[] x = new double[steps];
            double[] y = new double[steps];
            for (int i = 0; i < steps; i++) {
                x[i] = FIRST + (LAST - FIRST) * i / (steps - 1);
                y[i] = truth.density(x[i]) + noise * random.nextGaussian();
            }
            double[] base = new double[3];
            Arrays.setAll(base, i -> truth.base + noise * random.nextGaussian());
            Strip strip = Strips.builder(x, y).basePlusFog(base).build();
            add(outcome, spline.fit(strip), truth, noise);
        }
        return outcome;
    }

    private static void add(Outcome outcome, SplineFit fit, Truth truth, double noise) {
        for (int k = 0; k <= 100; k++) {
            double x = FIRST + (LAST - FIRST) * k / 100;
            Estimate density = fit.densityAt(LogExposure.ofLogLuxSeconds(x));
            double error = density.value() - truth.density(x);
            outcome.positions++;
            outcome.covered += Math.abs(error) <= density.expandedUncertainty(1.96) ? 1 : 0;
            outcome.squares += error * error / (noise * noise);
        }
        outcome.deviations += fit.residualStandardDeviation() / noise / STRIPS;
        try {
            double speedPoint = fit.curve()
                    .pointAbove(DensityDifference.of(0.10))
                    .logExposure()
                    .value();
            outcome.speedSquares += Math.pow(speedPoint - truth.exposureAbove(0.10), 2);
            outcome.speeds++;
        } catch (NotDeterminableException e) {
            // Counted by its absence from speeds.
        }
    }

    private static final SmoothingSpline DEFAULT = SmoothingSpline.withDefaults();

    @Test
    @Tag("slow")
    void bandsCoverTheTruthWhereTheNoiseIsFoundFromTheReadings() {
        for (SplineShape shape : List.of(SplineShape.FREE, SplineShape.MONOTONE)) {
            assertCoverage(DEFAULT.with(shape), 21, 0.01);
            assertCoverage(DEFAULT.with(shape), 21, 0.02);
            assertCoverage(DEFAULT.with(shape), 31, 0.01);
            assertCoverage(DEFAULT.with(shape), 31, 0.02);
        }
    }

    @Test
    @Tag("slow")
    void bandsCoverTheTruthWhereTheRepeatabilityIsStated() {
        for (SplineShape shape : List.of(SplineShape.FREE, SplineShape.MONOTONE)) {
            for (double noise : new double[] {0.01, 0.02}) {
                assertCoverage(DEFAULT.with(shape).with(Repeatability.of(noise)), 11, noise);
                assertCoverage(DEFAULT.with(shape).with(Repeatability.of(noise)), 21, noise);
                assertCoverage(DEFAULT.with(shape).with(Repeatability.of(noise)), 31, noise);
            }
        }
    }

    private static void assertCoverage(SmoothingSpline spline, int steps, double noise) {
        Outcome outcome = simulate(spline, steps, noise);
        assertTrue(
                outcome.coverage() >= 0.93 && outcome.coverage() <= 0.97,
                () -> steps + " steps, noise " + noise + ": covered " + outcome.coverage());
    }

    /** A strip of few readings is followed too closely by the criteria that look for its noise: a known fault. */
    @Test
    void shortStripsHideTheirNoiseFromTheirReadings() {
        SmoothingSpline plain = DEFAULT.with(SmoothingCriterion.GENERALISED_CROSS_VALIDATION);
        SmoothingSpline likelihood = DEFAULT.with(SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD);
        assertTrue(simulate(plain, 11, 0.01).coverage() < 0.6);
        assertTrue(simulate(likelihood, 11, 0.01).coverage() < 0.6);
        assertTrue(simulate(plain.with(Repeatability.of(0.01)), 11, 0.01).coverage() > 0.93);
    }

    @Test
    @Tag("slow")
    void penaltyAndStatedRepeatabilityBringTheCurveNearerToTheTruth() {
        for (int steps : new int[] {21, 31}) {
            double plain = simulate(DEFAULT.with(SmoothingCriterion.GENERALISED_CROSS_VALIDATION), steps, 0.01)
                    .error();
            double penalised = simulate(DEFAULT, steps, 0.01).error();
            double stated =
                    simulate(DEFAULT.with(Repeatability.of(0.01)), steps, 0.01).error();
            assertTrue(penalised < 0.95 * plain, () -> "penalised " + penalised + ", plain " + plain);
            assertTrue(stated < 0.95 * plain, () -> "stated " + stated + ", plain " + plain);
            assertTrue(stated < 0.65, () -> "stated " + stated);
        }
    }

    @Test
    @Tag("slow")
    void monotoneCurveIsNearerToAMonotoneTruth() {
        for (int steps : new int[] {11, 21, 31}) {
            SmoothingSpline spline = DEFAULT.with(Repeatability.of(0.01));
            double free = simulate(spline, steps, 0.01).error();
            double monotone =
                    simulate(spline.with(SplineShape.MONOTONE), steps, 0.01).error();
            double fromBase = simulate(spline.with(SplineShape.MONOTONE_FROM_BASE_PLUS_FOG), steps, 0.01)
                    .error();
            assertTrue(monotone < free, () -> "monotone " + monotone + ", free " + free);
            assertTrue(fromBase < 1.01 * monotone, () -> "from base " + fromBase + ", monotone " + monotone);
        }
    }

    @Test
    @Tag("slow")
    void residualsShowTheNoise() {
        assertEquals(1, simulate(DEFAULT, 21, 0.01).deviations, 0.05);
        assertEquals(1, simulate(DEFAULT, 31, 0.01).deviations, 0.05);
    }

    @Test
    void speedPointIsFoundOnEveryStrip() {
        Outcome outcome = simulate(DEFAULT.with(SplineShape.MONOTONE), 21, 0.01);
        assertEquals(STRIPS, outcome.speeds);
        // A tenth of a stop.
        assertTrue(outcome.speedError() < 0.030, () -> "log units " + outcome.speedError());
    }
}
