// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.fitting.parametric.ParametricForm;
import org.tonewedge.standards.comparison.CurveDrawing;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripFigures;

/** What reading errors do to the length of the straight line, on simulated strips whose curve is known. */
class AnatomyOfReadingsTest {

    private static final int STRIPS = 300;
    private static final double FIRST = -3;
    private static final double LAST = 0.6;

    /**
     * −0.075 ± 0.003 by {@code demo_truth.py} (NumPy 2.4.6), which simulates and divides curves by itself; the mean of
     * 300 strips has a standard uncertainty of 0.007. The documentation of CurveAnatomy has the figure.
     */
    @Test
    void errorsShortenTheStraightLineOfACurveThroughTheReadings() {
        Random random = new Random(20);
        double throughReadings = 0;
        double fitted = 0;
        for (int i = 0; i < STRIPS; i++) {
            ParametricForm truth = CurveFamily.TOE_SHOULDER.form(
                    0.05 + 0.3 * random.nextDouble(),
                    0.4 + 0.8 * random.nextDouble(),
                    -2.1 + 0.6 * random.nextDouble(),
                    0.06 + 0.29 * random.nextDouble(),
                    -0.6 + 0.8 * random.nextDouble(),
                    0.06 + 0.29 * random.nextDouble());
            double length = straightLine(
                    StripFigures.of(strip(truth, 241, 0, random), CurveDrawing.throughReadings(Repeatability.of(0))));
            Strip strip = strip(truth, 31, 0.005, random);
            throughReadings +=
                    straightLine(StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(0)))) - length;
            fitted += straightLine(StripFigures.of(
                            strip, CurveDrawing.of(s -> CurveFits.toeShoulder(s).curve())))
                    - length;
        }
        assertEquals(-0.075, throughReadings / STRIPS, 0.02);
        assertEquals(0, fitted / STRIPS, 0.01);
    }

    private static double straightLine(StripFigures figures) {
        return figures.get(FilmFigure.STRAIGHT_LINE_LENGTH)
                .value()
                .orElseThrow(() -> new AssertionError(
                        figures.get(FilmFigure.STRAIGHT_LINE_LENGTH).reason()));
    }

    private static Strip strip(ParametricForm truth, int steps, double error, Random random) {
        Strip.Builder strip = Strip.builder("S").basePlusFog(truth.density(-10));
        for (int i = 0; i < steps; i++) {
            double logExposure = FIRST + (LAST - FIRST) * i / (steps - 1);
            strip.reading(
                    LogExposure.ofLogLuxSeconds(logExposure),
                    Density.of(truth.density(logExposure) + error * random.nextGaussian()));
        }
        return strip.build();
    }
}
