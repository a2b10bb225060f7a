// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.fitting.numeric.Distributions;

/**
 * 1,000 simulated strips of 11, 21 and 31 steps with known truth and without base-plus-fog readings, made outside this
 * project. They come from the family that is fitted, so the errors are a best case.
 */
class SimulatedStripsTest {

    private static final CurveFit FIT = CurveFit.of(CurveFamily.TOE_SHOULDER).withWholeFamily();
    private static final int STRIPS = 1000;
    private static final int[] BASE_READINGS = {0, 3, 10, 30};

    private static List<SimulatedStrip> strips;

    @BeforeAll
    static void read() throws IOException {
        strips = SimulatedStrip.read();
        assertTrue(strips.size() == STRIPS);
    }

    @Test
    @Tag("slow")
    void convergesOnNearlyAllStrips() throws IOException {
        int withPrior = 0;
        int without = 0;
        int used = 0;
        for (SimulatedStrip strip : strips) {
            FittedCurve fit = strip.fit(FIT);
            withPrior += fit == null ? 0 : 1;
            used += fit != null && fit.usesSoftnessPrior() ? 1 : 0;
            without += strip.converges() ? 1 : 0;
        }
        report("convergence", "converged with prior %d (used on %d), without %d of 1000", withPrior, used, without);
        assertTrue(withPrior >= 997, "converged with prior: " + withPrior);
        assertTrue(without >= 970, "converged without prior: " + without);
        FitQualityPage.assertTells("fits that converge, with the softness prior if needed", 0, withPrior, 3);
        FitQualityPage.assertTells("strips on which the prior was needed", 0, used, 10);
        FitQualityPage.assertTells("fits that converge without the prior", 0, without, 10);
    }

    /** With the linear model alone the median strip of 21 steps takes eight steps and the mean 13. */
    @Test
    void searchesEndInFewSteps() {
        double[] steps = strips.stream()
                .filter(strip -> strip.x.length == 21)
                .map(strip -> strip.fit(FIT))
                .filter(fit -> fit != null)
                .mapToDouble(FittedCurve::iterations)
                .toArray();
        double median = Distributions.ofSample(steps, 0.5);
        double mean = Arrays.stream(steps).average().orElseThrow();
        assertTrue(median <= 6, "median " + median);
        assertTrue(mean <= 11, "mean " + mean);
    }

    /** The best residual is the least found by the plain fit, by refits from other starts and by the general engine. */
    @Test
    @Tag("slow")
    void findsTheLeastResidual() throws IOException {
        int best = 0;
        for (SimulatedStrip strip : strips) {
            double least = Double.POSITIVE_INFINITY;
            for (double[] start : strip.starts()) {
                least = Math.min(least, strip.refittedSum(start));
            }
            least = Math.min(least, strip.sumByGeneralEngine());
            best += strip.plainSum() <= 1.001 * least ? 1 : 0;
        }
        report("residuals", "within 0.1 %% of the best residual, without prior: %d of 1000", best);
        assertTrue(best >= 970, "within 0.1 % of the best residual: " + best);
        FitQualityPage.assertTells("within 0.1 % of the best residual found, without prior", 0, best, 5);
    }

    @Test
    @Tag("slow")
    void speedPointsAreCloserThanThoseOfTheMonotoneCubic() throws IOException {
        double[] fitted =
                strips.stream().mapToDouble(strip -> strip.speedError(FIT)).toArray();
        double[] drawn =
                strips.stream().mapToDouble(SimulatedStrip::cubicSpeedError).toArray();
        double median = Distributions.ofSample(fitted, 0.5);
        double cubic = Distributions.ofSample(drawn, 0.5);
        report(
                "speed points",
                "absolute error of the speed point, log units: median %.4f, 95th percentile %.3f; monotone cubic %.4f",
                median,
                Distributions.ofSample(fitted, 0.95),
                cubic);
        assertTrue(median <= 0.028, "median error " + median);
        assertTrue(median < cubic, "median error " + median + ", of the monotone cubic " + cubic);
        FitQualityPage.assertTells("median absolute error of the speed point, log units", 0, median, 0.0002);
        FitQualityPage.assertTells("the same for a monotone cubic through the readings", 0, cubic, 0.0002);
    }

    /** Ten readings of base plus fog about halve the error of the median strip, three that of the worst ones. */
    @Test
    @Tag("slow")
    void readingsOfBasePlusFogBringTheSpeedPointNearer() throws IOException {
        StringBuilder table = new StringBuilder();
        double[] medians = new double[BASE_READINGS.length];
        double[] bad = new double[BASE_READINGS.length];
        for (int i = 0; i < BASE_READINGS.length; i++) {
            int readings = BASE_READINGS[i];
            Random random = new Random(1);
            double[] errors = strips.stream()
                    .mapToDouble(strip -> strip.speedError(FIT, readings, random))
                    .toArray();
            medians[i] = Distributions.ofSample(errors, 0.5);
            bad[i] = Distributions.ofSample(errors, 0.95);
            table.append(String.format(Locale.ROOT, "; %d readings %.4f / %.3f", readings, medians[i], bad[i]));
        }
        report("base plus fog", "error of the speed point, median / 95th percentile%s", table);
        for (int i = 0; i < BASE_READINGS.length; i++) {
            int readings = BASE_READINGS[i];
            String row = readings == 0 ? "no reading of base plus fog" : readings + " readings of base plus fog";
            FitQualityPage.assertTells(row, 0, medians[i], 0.0003);
            FitQualityPage.assertTells(row, 1, bad[i], 0.004);
        }
        assertTrue(bad[1] < 0.55 * bad[0] && medians[1] > 0.6 * medians[0], () -> "three readings: " + table);
        assertTrue(medians[2] < 0.55 * medians[0], () -> "ten readings: " + table);
    }

    private static void report(String name, String format, Object... values) throws IOException {
        Files.writeString(
                Path.of("target", "simulated-strips-" + name.replace(' ', '-') + ".txt"),
                String.format(Locale.ROOT, format + "%n", values));
    }
}
