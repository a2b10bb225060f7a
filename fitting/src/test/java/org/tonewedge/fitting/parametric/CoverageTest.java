// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.ExposureAxis;

/**
 * Fresh simulated strips with known truth: contrasts 0.4 to 1.2, softnesses 0.05 to 0.5, 11, 21 and 31 steps, errors of
 * standard deviation 0.005 to 0.02. A stated 95 % interval of the speed point is to contain the truth 93 to 97 % of the
 * time, with and without three readings of base plus fog.
 */
class CoverageTest {

    private static final int STRIPS = 1500;
    private static final int[] STEPS = {11, 21, 31};

    @ParameterizedTest
    @CsvSource({"0, 20261", "3, 20262"})
    @Tag("slow")
    void speedPointIntervalsContainTheTruth(int basePlusFogReadings, long seed) throws IOException {
        Random random = new Random(seed);
        int converged = 0;
        int told = 0;
        int contained = 0;
        double width = 0;
        for (int i = 0; i < STRIPS; i++) {
            ParametricForm truth = CurveFamily.TOE_SHOULDER.form(
                    between(0.05, 0.35, random),
                    between(0.4, 1.2, random),
                    between(-2.1, -1.5, random),
                    between(0.05, 0.5, random),
                    between(-0.8, 0.2, random),
                    between(0.05, 0.5, random));
            double deviation = between(0.005, 0.02, random);
            double base = truth.parameter(CurveParameter.BASE_PLUS_FOG);
            double[] x = TestStrips.grid(-3, 0, STEPS[i % STEPS.length]);
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), deviation, random);
            double[] unexposed = new double[basePlusFogReadings];
            java.util.Arrays.fill(unexposed, base);
            unexposed = TestStrips.disturbed(unexposed, deviation, random);
            try {
                FittedCurve fit =
                        CurveFit.of(CurveFamily.TOE_SHOULDER).fit("fresh", ExposureAxis.LUX_SECONDS, x, d, unexposed);
                converged++;
                CoverageInterval interval = fit.interval(TestStrips::speedPoint, 0.95);
                told++;
                width += interval.upper() - interval.lower();
                contained += interval.contains(truth.logExposure(base + 0.10)) ? 1 : 0;
            } catch (CurveFitException e) {
                // counted as not converged
            } catch (NotDeterminableException e) {
                // the speed point lies below the first step: the curve refuses
            }
        }
        double share = contained / (double) told;
        Files.writeString(
                Path.of("target", "coverage-" + basePlusFogReadings + "-base-plus-fog-readings.txt"),
                String.format(
                        Locale.ROOT,
                        "converged %d of %d; 95 %% intervals of the speed point told for %d, mean width %.3f,"
                                + " containing the truth %.1f %%%n",
                        converged,
                        STRIPS,
                        told,
                        width / told,
                        100 * share));
        assertTrue(converged >= 0.997 * STRIPS, "converged: " + converged);
        assertTrue(told >= 0.99 * STRIPS, "told: " + told);
        assertTrue(share >= 0.93 && share <= 0.97, "coverage " + share);
        String row = basePlusFogReadings == 0 ? "none" : "three";
        FitQualityPage.assertTells(row, 0, 100 * share, 0.3);
        FitQualityPage.assertTells(row, 1, width / told, 0.003);
    }

    private static double between(double low, double high, Random random) {
        return low + (high - low) * random.nextDouble();
    }
}
