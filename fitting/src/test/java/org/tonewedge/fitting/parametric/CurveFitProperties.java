// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.quantity.ExposureAxis;

/** Laws of the trade that every fit keeps. */
class CurveFitProperties {

    private static final double[] EXPOSURES = TestStrips.grid(-3, 0.6, 25);
    private static final CurveFit FIT = CurveFit.of(CurveFamily.TOE_SHOULDER);
    /**
     * How far two fits to the same readings may be apart, in standard errors. A search ends at a relative offset of
     * 1e-4: the four shape parameters are then about √4 times that from the minimum, in two searches on either side.
     */
    private static final double SEARCH = 1e-3;

    @Provide
    Arbitrary<ParametricForm> forms() {
        return Combinators.combine(
                        number(0.05, 0.35),
                        number(0.4, 1.2),
                        number(-2.1, -1.5),
                        number(0.06, 0.35),
                        number(-0.6, -0.1),
                        number(0.06, 0.35))
                .as((base, gradient, toe, toeSoftness, shoulder, shoulderSoftness) ->
                        CurveFamily.TOE_SHOULDER.form(base, gradient, toe, toeSoftness, shoulder, shoulderSoftness));
    }

    private static Arbitrary<Double> number(double low, double high) {
        return Arbitraries.doubles().between(low, high).ofScale(4);
    }

    private static FittedCurve fit(double[] x, double[] d) {
        return FIT.fit("any", ExposureAxis.LUX_SECONDS, x, d);
    }

    private static double[] read(ParametricForm form, long seed) {
        return TestStrips.disturbed(TestStrips.densities(form, EXPOSURES), 0.004, new Random(seed));
    }

    @Property(tries = 100, seed = "1")
    void exactReadingsGiveTheParametersBack(@ForAll("forms") ParametricForm form) {
        FittedCurve fit = fit(EXPOSURES, TestStrips.densities(form, EXPOSURES));
        for (CurveParameter parameter : form.family().parameters()) {
            assertEquals(form.parameter(parameter), fit.parameter(parameter).value(), 2e-5, parameter.toString());
        }
    }

    @Property(tries = 100, seed = "1")
    void moreLightShiftsTheCurve(
            @ForAll("forms") ParametricForm form,
            @ForAll @DoubleRange(min = -2, max = 2) @Scale(3) double shift,
            @ForAll long seed) {
        double[] d = read(form, seed);
        double[] moved = EXPOSURES.clone();
        for (int i = 0; i < moved.length; i++) {
            moved[i] += shift;
        }
        FittedCurve here = fit(EXPOSURES, d);
        FittedCurve there = fit(moved, d);
        double error = here.estimate(TestStrips::speedPoint).standardUncertainty();
        assertEquals(TestStrips.speedPoint(here.curve()) + shift, TestStrips.speedPoint(there.curve()), SEARCH * error);
        double deviation = here.residualStandardDeviation();
        for (int i = 0; i < moved.length; i++) {
            assertEquals(here.form().density(EXPOSURES[i]), there.form().density(moved[i]), SEARCH * deviation);
        }
    }

    @Property(tries = 100, seed = "1")
    void scaledDensitiesScaleTheCurve(
            @ForAll("forms") ParametricForm form,
            @ForAll @DoubleRange(min = 0.5, max = 2) @Scale(3) double factor,
            @ForAll long seed) {
        double[] d = read(form, seed);
        double[] scaled = d.clone();
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] *= factor;
        }
        FittedCurve one = fit(EXPOSURES, d);
        FittedCurve other = fit(EXPOSURES, scaled);
        double deviation = factor * one.residualStandardDeviation();
        for (double x : EXPOSURES) {
            assertEquals(factor * one.form().density(x), other.form().density(x), SEARCH * deviation);
        }
        assertEquals(deviation, other.residualStandardDeviation(), SEARCH * deviation);
    }

    @Property(tries = 60, seed = "1")
    void theOrderOfReadingDoesNotMatter(@ForAll("forms") ParametricForm form, @ForAll long seed) {
        double[] d = read(form, seed);
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < d.length; i++) {
            order.add(i);
        }
        Collections.shuffle(order, new Random(seed));
        double[] x = order.stream().mapToDouble(i -> EXPOSURES[i]).toArray();
        double[] shuffled = order.stream().mapToDouble(i -> d[i]).toArray();
        assertEquals(
                fit(EXPOSURES, d).form().toString(), fit(x, shuffled).form().toString());
    }

    @Property(tries = 100, seed = "1")
    void fittedCurvesRiseBetweenTheirTurningPoints(@ForAll("forms") ParametricForm form, @ForAll long seed) {
        ParametricForm fitted = fit(EXPOSURES, read(form, seed)).form();
        double[] turns = fitted.turningPoints(-3, 0.6);
        double from = turns.length == 1 && turns[0] < -1 ? turns[0] : -3;
        double to = turns.length == 1 && turns[0] > -1 ? turns[0] : 0.6;
        double before = fitted.density(from);
        for (int i = 1; i <= 100; i++) {
            double density = fitted.density(from + (to - from) * i / 100);
            assertTrue(density >= before - 1e-15, () -> fitted + " falls");
            before = density;
        }
    }

    @Property(tries = 200, seed = "1")
    void inverseOfDensityIsIdentity(
            @ForAll("forms") ParametricForm form, @ForAll @DoubleRange(min = 0.02, max = 0.98) @Scale(4) double share) {
        double base = form.parameter(CurveParameter.BASE_PLUS_FOG);
        double top = base
                + form.parameter(CurveParameter.GRADIENT)
                        * (form.parameter(CurveParameter.SHOULDER_POSITION)
                                - form.parameter(CurveParameter.TOE_POSITION));
        double density = base + share * (top - base);
        assertEquals(density, form.density(form.logExposure(density)), 1e-14);
    }
}
