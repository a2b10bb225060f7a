// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.fitting.internal.Resources;

class CurveFamilyTest {

    static ParametricForm example(CurveFamily family) {
        return switch (family) {
            case TOE_SHOULDER -> family.form(0.24, 0.65, -2.05, 0.18, -0.35, 0.22);
            case TOE_STRAIGHT_LINE -> family.form(0.24, 0.65, -2.05, 0.18);
            case STRAIGHT_LINE_SHOULDER -> family.form(2.2, 0.65, -0.35, 0.22, 0.24);
            case STRAIGHT_LINE -> family.form(2.1, 0.6, 0.24);
            case LOGISTIC -> family.form(0.2, 1.4, -1.1, 0.45);
            case FIVE_PARAMETER_LOGISTIC -> family.form(0.2, 1.4, -1.4, 0.45, 1.7);
            case RICHARDS -> family.form(0.2, 1.4, -1.1, 0.45, 0.6);
            case GOMPERTZ -> family.form(0.2, 1.4, -1.1, 0.5);
            case CUMULATIVE_NORMAL -> family.form(0.2, 1.4, -1.1, 0.7);
            case HURTER_DRIFFIELD -> family.form(0.2, 0.7, -2, 120);
        };
    }

    @ParameterizedTest
    @EnumSource(CurveFamily.class)
    void gradientIsTheDerivativeOfTheDensity(CurveFamily family) {
        ParametricForm form = example(family);
        for (double x = -3; x <= 1; x += 0.1) {
            double h = 1e-3;
            double difference = (8 * (form.density(x + h) - form.density(x - h))
                            - (form.density(x + 2 * h) - form.density(x - 2 * h)))
                    / (12 * h);
            assertEquals(difference, form.gradient(x), 1e-9, family + " at " + x);
        }
    }

    @ParameterizedTest
    @EnumSource(CurveFamily.class)
    void jacobianIsTheDerivativeByTheParameters(CurveFamily family) {
        double[] values = example(family).parameters();
        for (double x = -3; x <= 1; x += 0.25) {
            double[] row = family.form(values).densityByParameters(x);
            for (int k = 0; k < values.length; k++) {
                double h = 1e-3 * Math.abs(values[k]);
                double difference = (8 * (moved(family, values, k, h, x) - moved(family, values, k, -h, x))
                                - (moved(family, values, k, 2 * h, x) - moved(family, values, k, -2 * h, x)))
                        / (12 * h);
                assertEquals(
                        difference,
                        row[k],
                        1e-8,
                        family + " " + family.parameters().get(k) + " at " + x);
            }
        }
    }

    private static double moved(CurveFamily family, double[] values, int k, double h, double x) {
        double[] others = values.clone();
        others[k] += h;
        return family.form(others).density(x);
    }

    @ParameterizedTest
    @EnumSource(CurveFamily.class)
    void inverseGivesTheExposureBack(CurveFamily family) {
        ParametricForm form = example(family);
        for (double x = -2.6; x <= 0.2; x += 0.1) {
            double density = form.density(x);
            // The inverse is as good as the density can be read back; flat parts blur the exposure.
            assertEquals(density, form.density(form.logExposure(density)), 1e-14, family + " at " + x);
            assertEquals(x, form.logExposure(density), 1e-12 / Math.min(1, form.gradient(x)), family + " at " + x);
        }
    }

    @ParameterizedTest
    @EnumSource(CurveFamily.class)
    void manyDensitiesAreThoseOfEachByItself(CurveFamily family) {
        ParametricForm form = example(family);
        double[] x = TestStrips.grid(-40, 40, 321);
        double[] densities = x.clone();
        form.densities(densities, densities);
        for (int i = 0; i < x.length; i++) {
            assertEquals(form.density(x[i]), densities[i], 0);
        }
    }

    @Test
    void inverseRefusesDensitiesOutsideTheLimits() {
        for (CurveFamily family :
                List.of(CurveFamily.TOE_SHOULDER, CurveFamily.LOGISTIC, CurveFamily.HURTER_DRIFFIELD)) {
            ParametricForm form = example(family);
            assertThrows(IllegalArgumentException.class, () -> form.logExposure(0.05));
            assertThrows(IllegalArgumentException.class, () -> form.logExposure(4.2));
        }
    }

    /**
     * Closed-form reference curves by mpmath 1.3.0 at 40 digits: {@code reference_values.py}, which writes {@code
     * reference-values.csv} (definitions beside each).
     * Written out are one density in the toe, on the straight line and in the shoulder, and the exposure 0.10 above base plus
     * fog.
     */
    @Test
    void referenceCurves() {
        assertReference(logistic(), -2.0, 0.2169798089779839, -0.5, 0.5496358521668354, -1.165886071573426);
        assertReference(toe(), -2.0, 0.2831776616671934, -0.5, 1.100066351777043, -1.947377066370723);
        assertReference(toeShoulder(), -2.0, 0.2900823963316862, 1.25, 2.066177960068627, -1.970559176080022);
        assertReference(hurterDriffield(), -2.0, 0.4104930081970239, 1.25, 2.243808640513652, -2.408978373751996);
    }

    private static void assertReference(
            ParametricForm form, double x1, double density1, double x2, double density2, double speedPoint) {
        assertEquals(density1, form.density(x1), 1e-14);
        assertEquals(density2, form.density(x2), 1e-14);
        assertEquals(speedPoint, form.logExposure(0.3), 1e-14);
    }

    /** D = 0.20 + 1.40/(1 + exp(−2.20 x)). */
    private static ParametricForm logistic() {
        return CurveFamily.LOGISTIC.form(0.2, 1.4, 0, 1 / 2.2);
    }

    /** D = 0.20 + 0.60 ln(1 + exp(5 (x + 2)))/5. */
    private static ParametricForm toe() {
        return CurveFamily.TOE_STRAIGHT_LINE.form(0.2, 0.6, -2, 0.2);
    }

    /** D = 0.20 + 0.65 (ln(1 + exp(5 (x + 2)))/5 − ln(1 + exp(3 (x − 1)))/3). */
    private static ParametricForm toeShoulder() {
        return CurveFamily.TOE_SHOULDER.form(0.2, 0.65, -2, 0.2, 1, 1.0 / 3);
    }

    /** D = 0.20 + 0.70 log₁₀(O − (O − 1) exp(−X/O)), O = 1000, X = 10^(x + 2). */
    private static ParametricForm hurterDriffield() {
        return CurveFamily.HURTER_DRIFFIELD.form(0.2, 0.7, -2, 1000);
    }

    @Test
    void referenceCurvesInFull() throws IOException {
        List<String> lines = Resources.lines(CurveFamilyTest.class, "reference-values.csv");
        List<String> header = Arrays.asList(lines.get(0).split(",", -1));
        Map<String, ParametricForm> forms = Map.of(
                "logistic", logistic(),
                "softplus_toe", toe(),
                "softplus_toe_shoulder", toeShoulder(),
                "hd1890", hurterDriffield());
        for (String line : lines.subList(1, lines.size())) {
            double[] row = Arrays.stream(line.split(",", -1))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
            forms.forEach((name, form) ->
                    assertEquals(row[header.indexOf(name)], form.density(row[0]), 2e-14, () -> name + " at " + row[0]));
        }
    }

    @Test
    void richardsLiesBetweenGompertzAndTheLogisticCurves() {
        double[] x = TestStrips.grid(-3, 1, 21);
        ParametricForm gompertz = CurveFamily.GOMPERTZ.form(0.2, 1.4, -1.1, 0.5);
        ParametricForm nearly = CurveFamily.RICHARDS.form(0.2, 1.4, -1.1, 0.5, 1e-9);
        ParametricForm limit = CurveFamily.RICHARDS.form(0.2, 1.4, -1.1, 0.5, 0);
        ParametricForm logistic = CurveFamily.LOGISTIC.form(0.2, 1.4, -1.1, 0.5);
        ParametricForm one = CurveFamily.RICHARDS.form(0.2, 1.4, -1.1, 0.5, 1);
        // With ν = 1/k and the position moved by width · ln ν the power of the logistic curve is Richards's.
        ParametricForm power = CurveFamily.FIVE_PARAMETER_LOGISTIC.form(0.2, 1.4, -1.1, 0.5, 2.5);
        ParametricForm same = CurveFamily.RICHARDS.form(0.2, 1.4, -1.1 - 0.5 * Math.log(1 / 2.5), 0.5, 1 / 2.5);
        for (double at : x) {
            assertEquals(gompertz.density(at), nearly.density(at), 1e-8);
            assertEquals(gompertz.density(at), limit.density(at), 1e-14);
            assertEquals(logistic.density(at), one.density(at), 1e-14);
            assertEquals(power.density(at), same.density(at), 1e-14);
        }
    }

    /** Algebra of the equation: D is base without exposure, base + γ log₁₀ O in the end, and tends to γ log₁₀(H/i). */
    @Test
    void hurterDriffieldIdentities() {
        ParametricForm form = CurveFamily.HURTER_DRIFFIELD.form(0.1, 1.1, -2, 1e6);
        assertEquals(0.1, form.density(-18), 1e-9);
        assertEquals(0.1 + 1.1 * 6, form.density(8), 1e-12);
        assertEquals(0.1 + 1.1 * 3, form.density(1), 1e-3);
        assertEquals(1.1, form.gradient(1), 2e-3);
    }

    @Test
    void farAwayTheCurvesStayFinite() {
        for (CurveFamily family : CurveFamily.values()) {
            ParametricForm form = example(family);
            for (double x : new double[] {-20, 20}) {
                assertTrue(Double.isFinite(form.density(x)), () -> family + " at " + x);
                assertTrue(form.gradient(x) > -1e-15, () -> family + " at " + x);
                for (double derivative : form.densityByParameters(x)) {
                    assertTrue(Double.isFinite(derivative), () -> family + " at " + x);
                }
            }
        }
    }

    /** Where the two ramps are equally far from their positions in softnesses, the gradient is 0: algebra. */
    @Test
    void aSoftShoulderTurnsTheCurveBelowASharpToe() {
        ParametricForm form = CurveFamily.TOE_SHOULDER.form(0.2, 0.65, -2, 0.05, -0.5, 0.5);
        double[] turns = form.turningPoints(-4, 0);
        assertEquals(1, turns.length);
        assertEquals(-2 - 1.5 * 0.05 / 0.45, turns[0], 1e-12);
        assertEquals(0, form.gradient(turns[0]), 1e-15);
        assertTrue(form.gradient(turns[0] - 0.1) < 0 && form.gradient(turns[0] + 0.1) > 0);
        assertEquals(0, form.turningPoints(-2.1, 0).length);
        assertEquals(
                0, CurveFamily.TOE_SHOULDER.form(0.2, 0.65, -2, 0.2, -0.5, 0.2).turningPoints(-4, 4).length);
        assertEquals(0, example(CurveFamily.LOGISTIC).turningPoints(-4, 4).length);
    }

    @Test
    void refusesParametersThatMakeNoCurve() {
        assertRefused("6 parameters", CurveFamily.TOE_SHOULDER, 0.2, 0.6);
        assertRefused("gradient of a curve", CurveFamily.TOE_SHOULDER, 0.2, -0.6, -2, 0.2, 0, 0.2);
        assertRefused("must be above the toe position -2.0", CurveFamily.TOE_SHOULDER, 0.2, 0.6, -2, 0.2, -2.5, 0.2);
        assertRefused("must be above the toe position -2.0", CurveFamily.TOE_SHOULDER, 0.2, 0.6, -2, 0.2, -2, 0.2);
        assertEquals(
                "straight line: density at log exposure 0 0.50, gradient 0.30, base plus fog 0.20",
                CurveFamily.STRAIGHT_LINE.form(0.5, 0.3, 0.2).toString());
        assertRefused("shoulder softness", CurveFamily.TOE_SHOULDER, 0.2, 0.6, -2, 0.2, 0, 0);
        assertRefused("opacity", CurveFamily.HURTER_DRIFFIELD, 0.2, 0.6, -2, 1);
        assertRefused("position", CurveFamily.LOGISTIC, 0.2, 0.6, Double.NaN, 1);
        assertRefused("asymmetry", CurveFamily.FIVE_PARAMETER_LOGISTIC, 0.2, 0.6, 0, 1, 0);
    }

    private static void assertRefused(String says, CurveFamily family, double... values) {
        IllegalArgumentException thrown = assertThrows(IllegalArgumentException.class, () -> family.form(values));
        assertTrue(thrown.getMessage().contains(says), thrown::getMessage);
    }
}
