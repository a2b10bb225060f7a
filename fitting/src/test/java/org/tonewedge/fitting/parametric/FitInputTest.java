// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/** What a fit is given, by hand, and the refusals at their stated limits. */
class FitInputTest {

    private static FitInput input(double[] logExposures, double[] densities, double... basePlusFog) {
        return FitInput.of("S1", ExposureAxis.LUX_SECONDS, logExposures, densities, basePlusFog, Optional.empty());
    }

    @Test
    void readingsAreSortedAndOneStepHasOneExposure() {
        double close = Strip.SAME_EXPOSURE;
        FitInput input = input(new double[] {1, 0, -1, close, 1 + 0.9 * close}, new double[] {0.9, 0.5, 0.3, 0.6, 0.8});
        assertArrayEquals(
                new double[] {-1, 0, 0, 1, 1}, input.readings().logExposures(), "exposures that differ by rounding");
        assertArrayEquals(
                new double[] {0.3, 0.5, 0.6, 0.9, 0.8}, input.readings().densities());
        assertEquals(3, input.readings().levels());
        double[] apart = input(new double[] {0, 1.01 * close}, new double[] {0.1, 0.2})
                .readings()
                .logExposures();
        assertArrayEquals(new double[] {0, 1.01 * close}, apart);
    }

    /** A log exposure is from −20 to 20, a density from −0.2 to 10 (own choice, no source). */
    @Test
    void impossibleReadingsAreRefusedByPlace() {
        double[] x = {-20, 20};
        double[] d = {-0.2, 10};
        assertDoesNotThrow(() -> input(x, d, -0.2, 10));
        assertRefused("S1, reading 2: log exposure must be", () -> input(new double[] {-1, 20.1}, d));
        assertRefused("S1, reading 1: log exposure must be", () -> input(new double[] {-20.1, 1}, d));
        assertRefused("S1, reading 1: density must be", () -> input(x, new double[] {-0.21, 1}));
        assertRefused("S1, reading 2: density must be", () -> input(x, new double[] {1, 10.1}));
        assertRefused("S1, reading 4: density must be", () -> input(x, d, 0.1, 10.1));
    }

    private static void assertRefused(String beginning, Runnable input) {
        String said = assertThrows(IllegalArgumentException.class, input::run).getMessage();
        assertTrue(said.startsWith(beginning), said);
    }

    private static double[] rising(int readings, int levels) {
        double[] x = new double[readings];
        for (int i = 0; i < readings; i++) {
            x[i] = Math.max(0, i - (readings - levels)) * 0.5;
        }
        return x;
    }

    /**
     * A toe-shoulder curve has 6 parameters, base plus fog among them; a line with a shoulder has 4, to which unexposed
     * readings add nothing. A fit needs more readings than parameters, and as many different exposures.
     */
    @ParameterizedTest
    @CsvSource({
        "TOE_SHOULDER, 7, 7, 0, true",
        "TOE_SHOULDER, 6, 6, 0, false",
        "TOE_SHOULDER, 7, 6, 0, true",
        "TOE_SHOULDER, 7, 5, 0, false",
        "TOE_SHOULDER, 6, 5, 1, true",
        "TOE_SHOULDER, 5, 5, 1, false",
        "TOE_SHOULDER, 7, 4, 3, false",
        "STRAIGHT_LINE_SHOULDER, 5, 4, 0, true",
        "STRAIGHT_LINE_SHOULDER, 5, 4, 2, true",
        "STRAIGHT_LINE_SHOULDER, 4, 4, 2, false",
        "STRAIGHT_LINE_SHOULDER, 5, 3, 2, false",
        "STRAIGHT_LINE, 3, 2, 1, true",
        "STRAIGHT_LINE, 3, 1, 1, false"
    })
    void aFitNeedsMoreReadingsThanParameters(
            CurveFamily family, int exposed, int levels, int unexposed, boolean enough) {
        double[] x = rising(exposed, levels);
        double[] d = new double[exposed];
        for (int i = 0; i < exposed; i++) {
            d[i] = 0.2 + 0.1 * i;
        }
        FitInput input = input(x, d, new double[unexposed]);
        assertEquals(enough, input.hasEnoughFor(family));
        if (enough) {
            assertDoesNotThrow(() -> input.requireFittable(family));
        } else {
            assertEquals(FitFailure.TOO_FEW_READINGS, failure(input, family));
        }
    }

    private static FitFailure failure(FitInput input, CurveFamily family) {
        return assertThrows(CurveFitException.class, () -> input.requireFittable(family))
                .failure();
    }

    @Test
    void tooFewReadingsAreCounted() {
        FitInput few = input(rising(5, 4), new double[] {0.1, 0.2, 0.4, 0.6, 0.8}, 0.1);
        String counted =
                "S1: 6 readings at 5 levels, base plus fog among them, are too few for the 6 parameters of a curve"
                        + " (toe, straight line and shoulder): read at least 7 steps, or fit a family with fewer parameters";
        assertEquals(
                counted,
                assertThrows(CurveFitException.class, () -> few.requireFittable(CurveFamily.TOE_SHOULDER))
                        .getMessage());
        FitInput none = input(rising(3, 3), new double[] {0.1, 0.2, 0.4}, 0.1);
        String said = assertThrows(
                        CurveFitException.class, () -> none.requireFittable(CurveFamily.STRAIGHT_LINE_SHOULDER))
                .getMessage();
        assertTrue(said.startsWith("S1: 3 readings at 3 exposures are too few for the 4 parameters"), said);
        assertTrue(said.contains("read at least 5 steps"), said);
    }

    /** A tenth of a log unit and 0.05 in density are just enough (own choice, no source). */
    @Test
    void rangesAreRefusedBelowTheirLimits() {
        double[] d = {0, 0.01, 0.03, 0.05};
        assertDoesNotThrow(
                () -> input(new double[] {0, 0.02, 0.05, 0.1}, d).requireFittable(CurveFamily.STRAIGHT_LINE));
        assertEquals(
                FitFailure.EXPOSURES_TOO_CLOSE,
                failure(input(new double[] {0, 0.02, 0.05, 0.0999}, d), CurveFamily.STRAIGHT_LINE));
        d[3] = 0.0499;
        assertEquals(
                FitFailure.NO_CONTRAST,
                failure(input(new double[] {0, 0.02, 0.05, 0.1}, d), CurveFamily.STRAIGHT_LINE));
    }

    /** The means of the first and the last third decide, so a bad reading in the middle does not. */
    @Test
    void aStripThatDoesNotRiseFromThirdToThirdIsRefused() {
        double[] x = {0, 0.5, 1, 1.5, 2, 2.5};
        assertDoesNotThrow(
                () -> input(x, new double[] {0.2, 0.2, 1.9, 0, 0.3, 0.3}).requireFittable(CurveFamily.STRAIGHT_LINE));
        assertEquals(
                FitFailure.FALLING_STRIP,
                failure(input(x, new double[] {0.2, 0.3, 0, 1.9, 0.25, 0.25}), CurveFamily.STRAIGHT_LINE));
        assertEquals(
                FitFailure.FALLING_STRIP,
                failure(input(x, new double[] {0.2, 0.2, 0.9, 0.9, 0.3, 0}), CurveFamily.STRAIGHT_LINE));
    }

    /**
     * Of n readings with the deviation s the mean varies by s/√n and the median by √(π/2) s/√n if they are many (any textbook);
     * of two readings they are the same.
     */
    @Test
    void basePlusFogIsAsUncertainAsItsReadings() {
        double[] x = {0, 0.5, 1, 1.5};
        double[] d = {0.5, 0.8, 1.1, 1.4};
        CurveFit line = CurveFit.of(CurveFamily.STRAIGHT_LINE).with(Repeatability.of(0.012));
        double[] four = {0.20, 0.21, 0.22, 0.29};
        assertBase(0.23, 0.006, line, x, d, four);
        assertBase(0.215, 0.006 * Math.sqrt(0.5 * Math.PI), line.with(RobustLoss.TUKEY), x, d, four);
        assertBase(0.205, 0.012 / Math.sqrt(2), line, x, d, 0.20, 0.21);
        assertBase(0.205, 0.012 / Math.sqrt(2), line.with(RobustLoss.HUBER), x, d, 0.20, 0.21);
    }

    private static void assertBase(double value, double u, CurveFit fit, double[] x, double[] d, double... base) {
        FittedCurve fitted = fit.fit("S1", ExposureAxis.LUX_SECONDS, x, d, base);
        assertEquals(value, fitted.parameter(CurveParameter.BASE_PLUS_FOG).value(), 1e-12);
        assertEquals(u, fitted.parameter(CurveParameter.BASE_PLUS_FOG).standardUncertainty(), 1e-12);
    }

    /** By hand: the mean of 0.20, 0.21 and 0.25 is 0.22, and the squares about it add up to 0.0014. */
    @Test
    void repeatsScatterAboutTheirMean() {
        FitInput input = input(new double[] {0, 1, 1}, new double[] {0.5, 0.7, 0.8}, 0.20, 0.21, 0.25);
        assertEquals(0.0014, input.basePlusFogScatter(), 1e-15);
        assertTrue(input.isSameLevel(1, 2) && input.isSameLevel(3, 5));
        assertFalse(input.isSameLevel(0, 1) || input.isSameLevel(2, 3));
        assertEquals("density", input.unitOfResiduals());
        FitInput stated = FitInput.of(
                "S1",
                ExposureAxis.LUX_SECONDS,
                new double[] {0, 1},
                new double[] {0.5, 0.7},
                new double[0],
                Optional.of(Repeatability.of(0.01)));
        assertEquals("", stated.unitOfResiduals());
        assertEquals(1e4, stated.readings().weights()[0], 1e-9);
        assertEquals(1, stated.knownVariance());
    }
}
