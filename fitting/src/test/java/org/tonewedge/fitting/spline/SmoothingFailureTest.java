// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingFailedException.Failure;

/** What a smoothing spline refuses, and how it says so. */
class SmoothingFailureTest {

    private static final double[] X = {-3, -2, -1, 0, 1};
    private static final double[] Y = {0.2, 0.4, 1.0, 1.7, 1.9};

    private static void assertFails(Failure reason, String part, SmoothingSpline spline, Strip strip) {
        SmoothingFailedException e = assertThrows(SmoothingFailedException.class, () -> spline.fit(strip));
        assertEquals(reason, e.failure());
        assertEquals("T1", e.stripId());
        assertTrue(e.getMessage().contains("strip 'T1'") && e.getMessage().contains(part), e.getMessage());
    }

    @Test
    void namesTheStripAndTheReason() {
        SmoothingSpline spline = SmoothingSpline.withDefaults();
        Strip strip = Strips.of(X, Y);
        assertFails(
                Failure.TOO_FEW_EXPOSURES, "has 3 exposures", spline, Strips.of(new double[] {-1, 0, 1}, new double[] {
                    0.1, 0.2, 0.3
                }));
        assertFails(
                Failure.NO_BASE_PLUS_FOG,
                "empty exposure",
                spline,
                Strips.builder(X, Y).build());
        assertFails(
                Failure.BASE_PLUS_FOG_CONTRADICTED,
                "D 0.20",
                spline.with(SplineShape.MONOTONE_FROM_BASE_PLUS_FOG),
                Strips.builder(X, Y).basePlusFog(1.2).build());
        assertFails(Failure.DEGREES_OF_FREEDOM_OUT_OF_REACH, "were 5.0", spline.withDegreesOfFreedom(5), strip);
        assertFails(Failure.NO_REPEATABILITY, "state one", spline.with(SmoothingCriterion.UNBIASED_RISK), strip);
        assertFails(
                Failure.REPEATABILITY_NOT_POSITIVE,
                "step 4",
                spline.with(Repeatability.of(density -> 1.5 - density)),
                strip);
        assertFails(Failure.REPEATABILITY_NOT_POSITIVE, "was 0.0", spline.with(Repeatability.of(0)), strip);
        assertFails(Failure.NO_REPEATABILITY, "repeat", spline.with(Repeatability.fromRepeats()), strip);
        assertFails(
                Failure.REPEATABILITY_NOT_POSITIVE,
                "was NaN",
                spline.with(Repeatability.of(density -> Double.NaN)),
                strip);
    }

    @Test
    void refusesOptionsOutOfRange() {
        SmoothingSpline spline = SmoothingSpline.withDefaults();
        for (double bad : new double[] {2, 1, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThrows(IllegalArgumentException.class, () -> spline.withDegreesOfFreedom(bad));
        }
        for (double bad : new double[] {0, -1, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThrows(IllegalArgumentException.class, () -> spline.withSmoothing(bad));
        }
    }

    @Test
    void refusesToAnswerOutsideTheStrip() {
        SplineFit fit = SmoothingSpline.withDefaults().fit(Strips.of(X, Y));
        LogExposure beyond = LogExposure.ofLogLuxSeconds(1.2);
        assertThrows(OutsideMeasuredRangeException.class, () -> fit.standardErrorAt(beyond));
        assertThrows(OutsideMeasuredRangeException.class, () -> fit.gradientAt(beyond));
    }

    @Test
    void saysHowItWent() {
        SplineFit fit = SmoothingSpline.withDefaults().withDegreesOfFreedom(3).fit(Strips.of(X, Y));
        assertTrue(fit.toString().startsWith("smoothing spline of strip 'T1': 3.0 degrees of freedom"), fit.toString());
        assertEquals(2, fit.residualDegreesOfFreedom(), 1e-8);
    }
}
