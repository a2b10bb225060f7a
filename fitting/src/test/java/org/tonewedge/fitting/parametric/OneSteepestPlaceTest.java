// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/** That the gradient of every family has one top, and that a search which relies on it finds what one that does not finds. */
class OneSteepestPlaceTest {

    private static final double FROM = -3.2;
    private static final double TO = 0.3;

    private static double between(Random random, double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    private static ParametricForm form(CurveFamily family, Random random) {
        double[] values = new double[family.parameters().size()];
        for (int i = 0; i < values.length; i++) {
            values[i] = switch (family.parameters().get(i)) {
                case BASE_PLUS_FOG -> 0.3 * random.nextDouble();
                case MAXIMUM_DENSITY, DENSITY_AT_ZERO -> 1 + 2 * random.nextDouble();
                case GRADIENT, DENSITY_RANGE -> between(random, 0.3, 4);
                case TOE_POSITION, POSITION, INERTIA -> -3 + 2 * random.nextDouble();
                case SHOULDER_POSITION ->
                    family == CurveFamily.TOE_SHOULDER ? values[2] + between(random, 0.1, 3) : -2 * random.nextDouble();
                case TOE_SOFTNESS, SHOULDER_SOFTNESS, WIDTH -> between(random, 0.02, 1);
                case ASYMMETRY -> between(random, 0.05, 10);
                case OPACITY -> 1 + between(random, 1, 1000);
            };
        }
        return family.form(values);
    }

    /** The same form, without the knowledge that its gradient has one top. */
    private static CurveForm unknowing(CurveForm form) {
        return new CurveForm() {
            @Override
            public double density(double logExposure) {
                return form.density(logExposure);
            }

            @Override
            public double gradient(double logExposure) {
                return form.gradient(logExposure);
            }
        };
    }

    private static double[] parts(CurveForm form, AnatomyCriterion criterion) {
        CurveAnatomy anatomy;
        try {
            anatomy = CurveAnatomy.of(
                    CharacteristicCurve.of(
                            "form",
                            form,
                            new LogExposure(FROM, ExposureAxis.LUX_SECONDS),
                            new LogExposure(TO, ExposureAxis.LUX_SECONDS),
                            Density.of(0.1)),
                    criterion);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return new double[0]; // it turns back, hardly rises, or leaves the limits of a density
        }
        return new double[] {
            anatomy.gamma().value(),
            anatomy.greatestGradient().value(),
            anatomy.straightLine().thinEnd().logExposure().value(),
            anatomy.straightLine().denseEnd().logExposure().value(),
            thinEnd(anatomy.toe()),
            anatomy.shoulder()
                    .map(part -> part.denseEnd().logExposure().value())
                    .orElse(TO),
            anatomy.reachesStraightLine() ? 1 : 0
        };
    }

    private static double thinEnd(Optional<CurveRegion> toe) {
        return toe.map(part -> part.thinEnd().logExposure().value()).orElse(FROM);
    }

    @ParameterizedTest
    @EnumSource(CurveFamily.class)
    void partsAreThoseOfASearchThatDoesNotRelyOnIt(CurveFamily family) {
        Random random = new Random(16);
        int divided = 0;
        for (int i = 0; i < 100; i++) {
            ParametricForm form = form(family, random);
            AnatomyCriterion criterion = AnatomyCriterion.withDefaults();
            if (i % 2 == 1) {
                criterion = criterion
                        .withWindow(ExposureInterval.ofLogUnits(between(random, 0.02, 0.9)))
                        .withFractions(0.3 + 0.6 * random.nextDouble(), 0.02 + 0.25 * random.nextDouble());
            }
            double[] parts = parts(form, criterion);
            assertArrayEquals(parts(unknowing(form), criterion), parts, 1e-9, form + " by " + criterion);
            divided += parts.length > 0 ? 1 : 0;
        }
        assertTrue(divided >= 25, divided + " of 100 curves were divided");
    }

    /**
     * In closed form: a logistic curve (asymmetry 1) rises by R tanh(w/4s) over a window w about its middle. It is so steep here that its
     * density is level to the last digit a tenth of a log unit from there.
     */
    @Test
    void aSteepFormIsNotMissedByANarrowWindow() {
        AnatomyCriterion criterion = AnatomyCriterion.withDefaults().withWindow(ExposureInterval.ofLogUnits(0.02));
        double greatest = 2 * Math.tanh(0.02 / (4 * 0.0025)) / 0.02;
        for (int i = 0; i < 250; i++) {
            double position = -1.6 + 0.001 * i;
            double[] parts = parts(CurveFamily.FIVE_PARAMETER_LOGISTIC.form(0.2, 2, position, 0.0025, 1), criterion);
            assertEquals(greatest, parts[1], 1e-9 * greatest, "middle at " + position);
        }
    }

    @ParameterizedTest
    @EnumSource(CurveFamily.class)
    void gradientAboveZeroRisesToOneTopAndFalls(CurveFamily family) {
        Random random = new Random(17);
        for (int i = 0; i < 30; i++) {
            ParametricForm form = form(family, random);
            boolean falls = false;
            for (int place = 0; place < 1000; place++) {
                double here = form.gradient(FROM + (TO - FROM) * place / 1000);
                double change = form.gradient(FROM + (TO - FROM) * (place + 1) / 1000) - here;
                if (here > 0 && Math.abs(change) > 1e-9) {
                    assertTrue(change < 0 || !falls, form + " has a second top");
                    falls = change < 0;
                }
            }
        }
    }

    /** A plain search reads two densities at each of 2,049 places. The limit has no source and only guards the saving. */
    @Test
    void fewDensitiesAreRead() {
        ParametricForm form = CurveFamily.LOGISTIC.form(0.2, 2, -1.3, 0.4);
        int[] read = {0};
        CurveForm counting = new CurveForm() {
            @Override
            public double density(double logExposure) {
                read[0]++;
                return form.density(logExposure);
            }

            @Override
            public double gradient(double logExposure) {
                read[0]++;
                return form.gradient(logExposure);
            }

            @Override
            public double[] turningPoints(double from, double to) {
                return new double[0];
            }

            @Override
            public boolean hasOneSteepestPlace() {
                return form.hasOneSteepestPlace();
            }
        };
        double[] parts = parts(counting, AnatomyCriterion.withDefaults());
        assertEquals(1, parts[6], "the straight line is reached");
        assertTrue(read[0] <= 220, read[0] + " densities and gradients were read");
    }
}
