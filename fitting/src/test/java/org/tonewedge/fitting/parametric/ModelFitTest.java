// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.ExposureSeries;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * A model of somebody's own against the library's: B + R/2 (1 + tanh((x − m)/w)) is the logistic curve of width w/2, so
 * that both fits must agree in everything.
 */
class ModelFitTest {

    /** With a fault to choose. */
    private static class Hyperbolic implements CurveModel {

        @Override
        public String name() {
            return "hyperbolic tangent";
        }

        @Override
        public List<String> parameters() {
            return List.of("base plus fog", "range", "middle", "width");
        }

        @Override
        public double density(double x, double[] p) {
            return p[3] > 0 ? p[0] + 0.5 * p[1] * (1 + Math.tanh((x - p[2]) / p[3])) : Double.NaN;
        }

        @Override
        public double gradient(double x, double[] p) {
            double cosh = Math.cosh((x - p[2]) / p[3]);
            return 0.5 * p[1] / (p[3] * cosh * cosh);
        }

        @Override
        public void derivatives(double x, double[] p, double[] derivatives) {
            double gradient = gradient(x, p);
            derivatives[0] = 1;
            derivatives[1] = 0.5 * (1 + Math.tanh((x - p[2]) / p[3]));
            derivatives[2] = -gradient;
            derivatives[3] = -gradient * (x - p[2]) / p[3];
        }

        @Override
        public double[] start(double[] logExposures, double[] densities) {
            int last = densities.length - 1;
            double range = Math.max(0.1, densities[last] - densities[0]);
            return new double[] {densities[0], range, 0.5 * (logExposures[0] + logExposures[last]), 1};
        }
    }

    private static Strip strip(double noise) {
        Random random = new Random(7);
        double[] x = new double[21];
        double[] d = new double[21];
        for (int i = 0; i < x.length; i++) {
            x[i] = -3 + 0.15 * i;
            d[i] = 0.2 + 1.9 / (1 + Math.exp(-(x[i] + 1.4) / 0.35)) + noise * random.nextGaussian();
        }
        return Strip.builder("S1")
                .basePlusFog(0.2 + noise, 0.2 - noise)
                .readings(ExposureSeries.ofLogLuxSeconds(x), d)
                .build();
    }

    @Test
    void ownModelAgreesWithTheSameFamily() {
        Strip strip = strip(0.01);
        Repeatability stated = Repeatability.of(0.012);
        CurveFit logistic = CurveFit.of(CurveFamily.LOGISTIC);
        ModelFit hyperbolic = ModelFit.of(new Hyperbolic());
        Map<FittedCurve, FittedModel> pairs = Map.of(
                logistic.fit(strip),
                hyperbolic.fit(strip),
                logistic.with(stated).fit(strip),
                hyperbolic.with(stated).fit(strip),
                logistic.with(Repeatability.fromRepeats()).fit(strip),
                hyperbolic.with(Repeatability.fromRepeats()).fit(strip));
        pairs.forEach((family, own) -> {
            assertAlike(family.parameter(CurveParameter.BASE_PLUS_FOG), own.parameter("base plus fog"), 1);
            assertAlike(family.parameter(CurveParameter.DENSITY_RANGE), own.parameter("range"), 1);
            assertAlike(family.parameter(CurveParameter.POSITION), own.parameter("middle"), 1);
            assertAlike(family.parameter(CurveParameter.WIDTH), own.parameter("width"), 2);
            assertEquals(family.aicc(), own.aicc(), 1e-6 * Math.max(1, Math.abs(own.aicc())));
            assertEquals(family.residualStandardDeviation(), own.residualStandardDeviation(), 1e-9);
            assertEquals(family.curve().gradient(-1.4), own.curve().gradient(-1.4), 1e-6);
            assertEquals(own.parameter("middle"), own.parameters().get("middle"));
            assertTrue(own.records().contains(ResultRecord.ofEstimate("middle", own.parameter("middle"), "")));
            assertEquals(0.5, own.weightBeside(family), 1e-6);
            Estimate speedPoint = own.estimate(curve ->
                    curve.pointAbove(DensityDifference.of(0.1)).logExposure().value());
            Estimate expected = family.estimate(curve ->
                    curve.pointAbove(DensityDifference.of(0.1)).logExposure().value());
            assertEquals(expected.value(), speedPoint.value(), 1e-6);
            assertEquals(1, speedPoint.standardUncertainty() / expected.standardUncertainty(), 0.02);
            LogExposure middle = LogExposure.ofLogLuxSeconds(-1.4);
            assertEquals(
                    1,
                    own.confidenceBand(middle, 0.95).width()
                            / family.confidenceBand(middle, 0.95).width(),
                    0.02);
        });
    }

    private static void assertAlike(Estimate expected, Estimate own, double factor) {
        assertEquals(factor * expected.value(), own.value(), 1e-5);
        assertEquals(
                1,
                own.standardUncertainty() / (factor * expected.standardUncertainty()),
                0.02,
                () -> expected + " and " + own);
    }

    @Test
    void falseDerivativesAreNamed() {
        CurveModel wrong = new Hyperbolic() {
            @Override
            public void derivatives(double x, double[] p, double[] derivatives) {
                super.derivatives(x, p, derivatives);
                derivatives[3] *= -1;
            }
        };
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> ModelFit.of(wrong).fit(strip(0.01)));
        assertTrue(e.getMessage().contains("by width at log exposure"), e::getMessage);
        CurveModel steep = new Hyperbolic() {
            @Override
            public double gradient(double x, double[] p) {
                return 2 * super.gradient(x, p);
            }
        };
        e = assertThrows(
                IllegalArgumentException.class, () -> ModelFit.of(steep).fit(strip(0.01)));
        assertTrue(e.getMessage().contains("has the "), e::getMessage);
    }

    @Test
    void whatIsNotFiniteIsNamed() {
        CurveModel undefined = new Hyperbolic() {
            @Override
            public double density(double x, double[] p) {
                return x > -1 ? Double.NaN : super.density(x, p);
            }
        };
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> ModelFit.of(undefined).fit(strip(0.01)));
        assertTrue(e.getMessage().contains("gives NaN as density at log exposure"), e::getMessage);
        CurveModel outside = new Hyperbolic() {
            @Override
            public double[] upperBounds() {
                return new double[] {1, 10, 10, 0.5};
            }
        };
        e = assertThrows(
                IllegalArgumentException.class, () -> ModelFit.of(outside).fit(strip(0.01)));
        assertTrue(e.getMessage().contains("starts with width at 1.0, outside"), e::getMessage);
    }

    @Test
    void failuresHaveTheirReason() {
        Strip three = Strip.builder("S2")
                .readings(ExposureSeries.ofLogLuxSeconds(-2, -1, 0), 0.2, 0.8, 1.4)
                .build();
        CurveFitException few = assertThrows(
                CurveFitException.class, () -> ModelFit.of(new Hyperbolic()).fit(three));
        assertEquals(FitFailure.TOO_FEW_READINGS, few.failure());
        assertEquals(
                "strip 'S2' (hyperbolic tangent): 3 readings at 3 levels are too few for 4 parameters: read at least 5"
                        + " steps",
                few.getMessage());
        double[] levels = {-2, -1.6, -1.2, -0.8, -0.4};
        double[] densities = {0.46, 0.86, 1.41, 1.81, 2.01};
        assertTooFew(4, levels, densities);
        assertTooFew(5, new double[] {-2, -2, -1.2, -1.2, -0.8}, densities);
        ModelFit.of(new Hyperbolic()).fit("S3", ExposureAxis.LUX_SECONDS, levels, densities);
        ModelFit.of(new Hyperbolic())
                .fit("S3", ExposureAxis.LUX_SECONDS, new double[] {-2, -1.6, -1.2, -0.8, -0.8}, densities);
        CurveModel narrow = new Hyperbolic() {
            @Override
            public double[] lowerBounds() {
                return new double[] {0, 0, -10, 0.9};
            }
        };
        CurveFitException bound =
                assertThrows(CurveFitException.class, () -> ModelFit.of(narrow).fit(strip(0.01)));
        assertEquals(FitFailure.BOUND_HIT, bound.failure());
        assertThrows(
                IllegalArgumentException.class,
                () -> ModelFit.of(new Hyperbolic()).fit(strip(0.01)).parameter("gamma"));
    }

    private static void assertTooFew(int readings, double[] x, double[] d) {
        CurveFitException few = assertThrows(
                CurveFitException.class,
                () -> ModelFit.of(new Hyperbolic())
                        .fit("S3", ExposureAxis.LUX_SECONDS, Arrays.copyOf(x, readings), Arrays.copyOf(d, readings)));
        assertEquals(FitFailure.TOO_FEW_READINGS, few.failure());
    }

    @Test
    void whatDoesNotFitTheParametersIsNamed() {
        assertFault("has 4 parameters but 3 values of its start", new Hyperbolic() {
            @Override
            public double[] start(double[] logExposures, double[] densities) {
                return new double[] {0.2, 1.9, -1.4};
            }
        });
        assertFault("has 4 parameters but 5 values of its lower bounds", new Hyperbolic() {
            @Override
            public double[] lowerBounds() {
                return new double[5];
            }
        });
        assertFault("has 4 parameters but 1 value of its upper bounds", new Hyperbolic() {
            @Override
            public double[] upperBounds() {
                return new double[] {9};
            }
        });
        assertFault("gives Infinity as base plus fog at the start", new Hyperbolic() {
            @Override
            public double basePlusFog(double[] p) {
                return Double.POSITIVE_INFINITY;
            }
        });
        assertFault("gives NaN as derivative by middle at log exposure -3.0", new Hyperbolic() {
            @Override
            public void derivatives(double x, double[] p, double[] derivatives) {
                super.derivatives(x, p, derivatives);
                derivatives[2] = Double.NaN;
            }
        });
        assertFault("gives NaN as gradient at log exposure -3.0", new Hyperbolic() {
            @Override
            public double gradient(double x, double[] p) {
                return Double.NaN;
            }

            @Override
            public void derivatives(double x, double[] p, double[] derivatives) {
                new Hyperbolic().derivatives(x, p, derivatives);
            }
        });
        // A start may lie at a bound.
        CurveModel atBounds = new Hyperbolic() {
            @Override
            public double[] lowerBounds() {
                return new double[] {-1, -9, -9, 1};
            }

            @Override
            public double[] upperBounds() {
                return new double[] {0.5, 9, 9, 9};
            }

            @Override
            public double[] start(double[] logExposures, double[] densities) {
                return new double[] {0.5, 1, -1.4, 1};
            }
        };
        assertArrayEquals(
                new double[] {0.5, 1, -1.4, 1},
                ModelChecks.checkedStart(atBounds, new double[] {-2, -1, 0}, new double[] {0.2, 0.8, 1.4}));
    }

    private static void assertFault(String fault, CurveModel model) {
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> ModelFit.of(model).fit(strip(0.01)));
        assertEquals("model 'hyperbolic tangent' " + fault + ": correct the model", e.getMessage());
    }

    /** The criterion of other readings, weights or a robust loss is another number: it must not be compared. */
    @Test
    void onlyFitsOfTheSameReadingsAreCompared() {
        Strip strip = strip(0.005);
        FittedModel own = ModelFit.of(new Hyperbolic()).fit(strip);
        CurveFit logistic = CurveFit.of(CurveFamily.LOGISTIC);
        for (FittedCurve other : List.of(
                logistic.fit(strip(0.006)),
                logistic.with(Repeatability.of(0.01)).fit(strip),
                logistic.with(RobustLoss.TUKEY).fit(strip))) {
            IllegalArgumentException refused =
                    assertThrows(IllegalArgumentException.class, () -> own.weightBeside(other));
            assertTrue(refused.getMessage().contains("cannot be compared"), refused.getMessage());
        }
    }

    /** Six readings leave nothing for the correction of AIC with four parameters and the variance: 6 − 5 − 1 = 0. */
    @Test
    void tooFewReadingsAreNotCompared() {
        Strip whole = strip(0.005);
        Strip.Builder few = Strip.builder("S2").basePlusFog(0.2);
        for (int i = 2; i < 21; i += 4) {
            few.reading(whole.steps().get(i).exposure(), whole.steps().get(i).density());
        }
        FittedModel own = ModelFit.of(new Hyperbolic()).fit(few.build());
        FittedCurve family = CurveFit.of(CurveFamily.LOGISTIC).fit(few.build());
        assertThrows(NotDeterminableException.class, () -> own.weightBeside(family));
    }

    @Test
    void theScatterIsRecordedInItsUnit() {
        ModelFit fit = ModelFit.of(new Hyperbolic());
        assertEquals("density", unitOfScatter(fit.fit(strip(0.005))));
        assertEquals("", unitOfScatter(fit.with(Repeatability.of(0.005)).fit(strip(0.005))));
    }

    private static String unitOfScatter(FittedModel fit) {
        return fit.records().stream()
                .filter(each -> each.name().equals("residual_standard_deviation"))
                .findFirst()
                .orElseThrow()
                .unit();
    }
}
