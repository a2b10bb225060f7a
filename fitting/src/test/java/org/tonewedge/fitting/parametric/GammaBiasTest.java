// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

/** Gamma at its defaults against the gradients that formulas have; the expected values are algebra. */
class GammaBiasTest {

    private static CharacteristicCurve curve(CurveForm form) {
        return CharacteristicCurve.of(
                "closed form", form, LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(2), Density.of(0.20));
    }

    private static double gamma(CurveForm form) {
        return CurveAnatomy.of(curve(form)).gamma().value();
    }

    /** The same curve, of which nobody knows a model. */
    private static CurveForm drawn(CurveForm form) {
        return CurveForm.of(form::density, form::gradient);
    }

    /** The steepest tangents: logistic R/4w, normal R/(w √2π), Gompertz R/(e w). From soft films to hard papers. */
    @ParameterizedTest
    @ValueSource(doubles = {0.15, 0.3, 0.45, 0.6})
    void onSigmoidsItIsLessThanOnePercentBelowTheSteepestTangent(double width) {
        double range = 1.6;
        assertBias(range / (4 * width), CurveFamily.LOGISTIC.form(0.2, range, -1, width));
        assertBias(range / (width * Math.sqrt(2 * Math.PI)), CurveFamily.CUMULATIVE_NORMAL.form(0.2, range, -1, width));
        assertBias(range / (Math.E * width), CurveFamily.GOMPERTZ.form(0.2, range, -1, width));
    }

    private static void assertBias(double truth, CurveForm form) {
        double percent = 100 * (gamma(form) / truth - 1);
        assertTrue(percent < 1e-6 && percent > -1, () -> form + ": bias " + percent + " %");
    }

    @ParameterizedTest
    @CsvSource({"0.15, 0.35, 0.28", "0.20, -0.20, 0.20", "0.15, -0.70, 0.25"})
    void onToeAndShoulderItIsTheSteepestTangentWhetherTheModelIsKnownOrNot(
            double toe, double shoulderAt, double shoulder) {
        ParametricForm form = CurveFamily.TOE_SHOULDER.form(0.2, 0.62, -2, toe, shoulderAt, shoulder);
        assertBias(steepest(form), form);
        assertEquals(gamma(form), gamma(drawn(form)), 1e-12);
    }

    @ParameterizedTest
    @ValueSource(doubles = {120, 1000, 1e6})
    void onTheEquationOf1890ItIsTheSteepestTangent(double opacity) {
        ParametricForm form = CurveFamily.HURTER_DRIFFIELD.form(0.2, 0.7, -2, opacity);
        assertBias(steepest(form), form);
    }

    private static double steepest(CurveForm form) {
        return DoubleStream.iterate(-3, x -> x < 2, x -> x + 1e-4)
                .map(form::gradient)
                .max()
                .orElseThrow();
    }

    /** Toe and shoulder 13 softnesses apart: half way the model's gradient is reached but for 2 / (1 + e^6.7), 0.25 %. */
    @Test
    void whereTheStraightLineIsLongItIsTheGradientOfTheModel() {
        ParametricForm form = CurveFamily.TOE_SHOULDER.form(0.2, 0.62, -2, 0.15, 0, 0.15);
        assertEquals(0.62, gamma(form), 0.01 * 0.62);
    }

    /** The gradient of a model whose toe and shoulder run together is nowhere on the curve: 1 − 2/(1 + e^(0.4/0.3)) of it. */
    @Test
    void aModelThatItsCurveNowhereReachesDoesNotRaiseGamma() {
        double reached = 0.62 * (1 - 2 / (1 + Math.exp(0.4 / 0.3)));
        assertBias(reached, CurveFamily.TOE_SHOULDER.form(0.2, 0.62, -2, 0.3, -1.2, 0.3));
    }

    /** Readings with errors of 0.01 about a toe and shoulder curve, fitted: the mean of gamma is that of the truth. */
    @Test
    void fittedReadingsHaveNoBiasOfOnePercent() {
        ParametricForm truth = CurveFamily.TOE_SHOULDER.form(0.2, 0.62, -2, 0.15, 0.0, 0.25);
        Random random = new Random(1);
        double[] x = DoubleStream.iterate(-3, at -> at + 0.2).limit(21).toArray();
        double sum = 0;
        int strips = 300;
        for (int i = 0; i < strips; i++) {
            double[] d = DoubleStream.of(x)
                    .map(at -> truth.density(at) + 0.01 * random.nextGaussian())
                    .toArray();
            sum += gamma(CurveFit.of(CurveFamily.TOE_SHOULDER)
                    .fit("simulated", ExposureAxis.LUX_SECONDS, x, d)
                    .form());
        }
        assertEquals(0, 100 * (sum / strips / steepest(truth) - 1), 1.0);
    }
}
