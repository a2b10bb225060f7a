// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;

/** Expanded and contracted development against the true times of a simulated film, found by bisection on its formula. */
class ExpansionsTest {

    private static final double Q10 = 2.5;

    private static List<PlannedDevelopment> lines(DevelopmentSeries series) {
        return series.expansions(ExpansionSimulation.NORMAL, ExpansionSimulation.RANGE, List.of())
                .developments();
    }

    @Test
    void timesSolveTheirDefinition() {
        double[] truth = ExpansionSimulation.trueMinutes();
        List<PlannedDevelopment> lines = lines(ExpansionSimulation.series(0, new Random(1)));
        assertEquals(
                List.of("N−2", "N−1", "N", "N+1", "N+2"),
                lines.stream().map(line -> line.target().name()).toList());
        double before = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < 5; i++) {
            PredictedTime time = lines.get(i).time().orElseThrow();
            // Readings without noise leave the rounding to 5 s: 5/√12 s (JCGM 100:2008, F.2.2.1).
            double u = time.standardUncertainty().orElseThrow().toNanos() / 1e9;
            assertTrue(u > 1.443 && u < 2.2, "u of " + time + " is " + u + " s");
            // Rounded to 5 s; the family follows the film within a second or two.
            assertEquals(
                    60.0 * truth[i],
                    (double) time.time().toSeconds(),
                    5,
                    lines.get(i).toString());
            double gain = lines.get(i).speedGain(lines.get(2)).orElseThrow().stops();
            assertTrue(gain > before, "expansion gains and contraction loses speed");
            before = gain;
        }
        // All have the range of densities of the normal subject.
        for (int i : new int[] {0, 1, 3, 4}) {
            assertEquals(
                    lines.get(0).target().value(),
                    lines.get(i).contrast().orElseThrow().value(),
                    0.01);
        }
        // Another equation, contrast times R/(R − n), would put N+2 elsewhere: the test can tell them apart.
        assertTrue(Math.abs(truth[4] / ratioTime(7.0 / 5) - 1) > 0.02, "N+2 after " + truth[4]);
    }

    private static double ratioTime(double ratio) {
        double low = 1;
        double high = 60;
        for (int i = 0; i < 80; i++) {
            double middle = 0.5 * (low + high);
            if (ContrastMeasure.RISE_OVER_130.contrastOf(ExpansionSimulation.truth(middle))
                    < ExpansionSimulation.NORMAL.value() * ratio) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** A slice of the simulation whose 10,000 tests are told in {@link DevelopmentSeries#expansions}. */
    @Test
    @Tag("slow")
    void intervalsHoldTheTrueTimes() {
        ExpansionSimulation result = ExpansionSimulation.run(150, 0.01, 7);
        for (int i = 0; i < 5; i++) {
            assertEquals(0, result.sumOfErrors[i] / result.tests, 0.004, "bias of N" + (i - 2));
            // Of 150 tests at 95 %, fewer than 132 come by chance once in 1,000 times (binomial).
            assertTrue(result.covered[i] >= 132, "N" + (i - 2) + ": " + result.covered[i]);
        }
    }

    /**
     * At N the contrast is given, so that the time is as uncertain as the contrast of the family at that time, over the slope of
     * contrast by ln t. The times of N−2 to N+2 scatter as they say, within 45 % in 20 tests, 2.8 times the relative standard error 1/√(2 · 19) (own limit).
     */
    @Test
    void timesAreAsUncertainAsTheySay() {
        Random random = new Random(12);
        double[][] logs = new double[5][20];
        double[] told = new double[5];
        for (int i = 0; i < 20; i++) {
            DevelopmentSeries series = ExpansionSimulation.series(0.01, random);
            List<PredictedTime> times = Expansions.times(series, ExpansionSimulation.NORMAL, ExpansionSimulation.RANGE);
            for (int n = 0; n < 5; n++) {
                double seconds = times.get(n).time().toNanos() / 1e9;
                logs[n][i] = Math.log(seconds);
                told[n] += times.get(n).standardUncertainty().orElseThrow().toNanos() / 1e9 / seconds / 20;
            }
            if (i == 0) {
                Duration normal = times.get(2).time();
                DevelopmentFamily family = series.family();
                PredictedFigure contrast = family.figureAt(normal, ContrastMeasure.RISE_OVER_130::contrastOf);
                assertEquals(ExpansionSimulation.NORMAL.value(), contrast.value(), 1e-6);
                double slope = (contrastAfter(family, normal, 1.01) - contrastAfter(family, normal, 0.99))
                        / Math.log(1.01 / 0.99);
                assertEquals(
                        contrast.standardUncertainty().orElseThrow() / slope,
                        times.get(2).standardUncertainty().orElseThrow().toNanos() / (double) normal.toNanos(),
                        1e-3 * contrast.standardUncertainty().orElseThrow() / slope);
            }
        }
        for (int n = 0; n < 5; n++) {
            assertEquals(1, SimulatedFilm.standardDeviation(logs[n]) / told[n], 0.45, "N" + (n - 2));
        }
    }

    private static double contrastAfter(DevelopmentFamily family, Duration time, double factor) {
        Duration other = Duration.ofNanos(Math.round(factor * time.toNanos()));
        return ContrastMeasure.RISE_OVER_130.contrastOf(family.curveAt(other));
    }

    @Test
    void aTimeThatWasNotTestedIsRefusedOrFlagged() {
        Random random = new Random(3);
        List<Strip> strips = List.of(
                SimulatedFilm.longStrip("A", 4.5, 0.004, random),
                SimulatedFilm.longStrip("B", 6, 0.004, random),
                SimulatedFilm.longStrip("C", 8, 0.004, random));
        List<PlannedDevelopment> lines = lines(DevelopmentSeries.of(strips));
        assertTrue(lines.get(2).time().isPresent());
        assertTrue(lines.get(4).time().isEmpty());
        assertTrue(
                lines.get(4).notes().get(0).contains("develop a strip longer"),
                lines.get(4).toString());
        assertTrue(lines.get(0).time().isEmpty());
        assertTrue(
                lines.get(0).notes().get(0).contains("develop a strip for less time"),
                lines.get(0).toString());
        assertEquals(DevelopmentFailure.OUTSIDE_TESTED_TIMES, failure(lines.get(0)));
        String later = lines.get(4).notes().get(0);
        assertTrue(
                later.startsWith("N+2: ΔD over 1.5051 of ")
                        && later.contains(" is not reached within the tested times: after 8 min at 20 °C it is "),
                later);
        assertTrue(lines.get(0).notes().get(0).contains("after 4 min 30 s at 20 °C it is"), lines.get(0)::toString);
        List<PlannedDevelopment> flagged = lines(DevelopmentSeries.of(strips).withExtrapolation());
        assertTrue(flagged.get(0).time().orElseThrow().isExtrapolated());
    }

    @Test
    void stripsThatWereNotExposedForTheRangeGiveNAlone() {
        Random random = new Random(5);
        DevelopmentSeries series = DevelopmentSeries.of(List.of(
                SimulatedFilm.strip("A", 5, 20, 0.004, random),
                SimulatedFilm.strip("B", 8, 20, 0.004, random),
                SimulatedFilm.strip("C", 12, 20, 0.004, random)));
        List<PlannedDevelopment> lines = lines(series);
        assertEquals(1, lines.size());
        assertEquals("N", lines.get(0).target().name());
        assertTrue(
                lines.get(0).notes().get(0).contains("range of densities at N over 7 stops from the speed point"),
                lines.get(0).toString());
        // N itself needs only the 1.30 log units of its target.
        PredictedTime normal = lines.get(0).time().orElseThrow();
        assertEquals(
                60 * ExpansionSimulation.trueMinutes()[2],
                (double) normal.time().toSeconds(),
                15);
        ContrastTarget iso = ContrastTarget.isoContrastCondition();
        String refused = assertThrows(
                        IllegalArgumentException.class,
                        () -> series.expansions(iso, ExposureInterval.ofStops(2), List.of()))
                .getMessage();
        assertTrue(refused.startsWith("the range of the normal subject must be above 2 stops"), refused);
        // The strips reach 3 log units; a target over 5 cannot be read on them.
        PlannedDevelopment none = series.expansions(
                        ContrastTarget.of("far", ContrastMeasure.riseOver(ExposureInterval.ofLogUnits(5)), 2),
                        ExpansionSimulation.RANGE,
                        List.of())
                .developments()
                .get(0);
        assertEquals(DevelopmentFailure.UNUSABLE_STRIPS, failure(none));
    }

    /** A stated law and a wish to extrapolate hold for every question to the series. */
    @Test
    void aStatedLawAnswersForAnotherTemperature() {
        Random random = new Random(4);
        TemperatureLaw law = TemperatureLaw.ofCoefficient(Q10, 10);
        List<Strip> strips = List.of(
                SimulatedFilm.longStrip("A", 2.5, 0.004, random),
                SimulatedFilm.longStrip("B", 4, 0.004, random),
                SimulatedFilm.longStrip("C", 6.5, 0.004, random),
                SimulatedFilm.longStrip("D", 10, 0.004, random),
                SimulatedFilm.longStrip("E", 16, 0.004, random));
        DevelopmentSeries stated = DevelopmentSeries.of(strips).with(law);
        Temperature warmer = Temperature.ofCelsius(21);
        assertThrows(
                DevelopmentException.class,
                () -> stated.contrast(ContrastMeasure.RISE_OVER_130)
                        .best()
                        .timeFor(ExpansionSimulation.NORMAL, warmer));
        DevelopmentSeries series = stated.withExtrapolation();
        // 20 °C to 21 °C by the definition of the coefficient: Q10^(−0.1) of the time (common practice, no source).
        double shorter = Math.pow(Q10, -0.1);
        ContrastFit fit = series.contrast(ContrastMeasure.RISE_OVER_130).best();
        assertEquals(
                shorter,
                seconds(fit.timeFor(ExpansionSimulation.NORMAL, warmer))
                        / seconds(fit.timeFor(ExpansionSimulation.NORMAL, Temperature.ofCelsius(20))),
                0.001);
        DevelopmentPlan plan = series.expansions(
                ExpansionSimulation.NORMAL, ExpansionSimulation.RANGE, List.of(Temperature.ofCelsius(20), warmer));
        for (int i = 0; i < plan.developments().size(); i += 2) {
            PredictedTime at20 = plan.developments().get(i).time().orElseThrow();
            PredictedTime at21 = plan.developments().get(i + 1).time().orElseThrow();
            assertEquals(shorter * seconds(at20), seconds(at21), 5, "rounded to 5 s: " + at21);
            assertTrue(at21.isExtrapolated());
            // The same contrast comes of it.
            assertEquals(
                    plan.developments().get(i).contrast().orElseThrow().value(),
                    plan.developments().get(i + 1).contrast().orElseThrow().value(),
                    0.01);
        }
        assertEquals(law, series.temperatureLaw().orElseThrow());
    }

    private static DevelopmentFailure failure(PlannedDevelopment line) {
        return assertThrows(DevelopmentException.class, () -> line.changeFrom(Duration.ofMinutes(8)))
                .failure();
    }

    private static double seconds(PredictedTime time) {
        return time.time().toMillis() * 1e-3;
    }
}
