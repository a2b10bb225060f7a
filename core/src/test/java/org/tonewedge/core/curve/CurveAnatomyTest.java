// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/** Parts of curves with a closed form; the expected values are algebra, shown beside each. */
class CurveAnatomyTest {

    private static CharacteristicCurve curve(
            DoubleUnaryOperator density, DoubleUnaryOperator gradient, double from, double to) {
        return CharacteristicCurve.of(
                "closed form",
                CurveForm.of(density, gradient),
                LogExposure.ofLogLuxSeconds(from),
                LogExposure.ofLogLuxSeconds(to),
                Density.of(0.20));
    }

    /** D = 0.20 + 1.40 / (1 + exp(−2.20 s x)); greatest gradient 0.77 at x = 0. */
    private static CharacteristicCurve logistic(double s, double from, double to) {
        return curve(
                x -> 0.20 + 1.40 / (1 + Math.exp(-2.20 * s * x)),
                x -> {
                    double p = 1 / (1 + Math.exp(-2.20 * s * x));
                    return 1.40 * 2.20 * s * p * (1 - p);
                },
                from,
                to);
    }

    /** Where the gradient of the logistic is a fraction f of its greatest: 4 p (1 − p) = f. */
    private static double logisticAt(double fraction) {
        double p = 0.5 + 0.5 * Math.sqrt(1 - fraction);
        return Math.log(p / (1 - p)) / 2.20;
    }

    private static final AnatomyCriterion AT_THE_POINT =
            AnatomyCriterion.withDefaults().withWindow(ExposureInterval.ZERO);

    @Test
    void partsOfTheLogistic() {
        CurveAnatomy parts = CurveAnatomy.of(logistic(1, -4, 4), AT_THE_POINT);
        double line = logisticAt(0.80);
        double end = logisticAt(0.10);
        assertEquals(0.77, parts.greatestGradient().value(), 1e-12);
        assertEquals(-line, parts.straightLine().thinEnd().logExposure().value(), 1e-9);
        assertEquals(line, parts.straightLine().denseEnd().logExposure().value(), 1e-9);
        assertEquals(end - line, parts.toe().orElseThrow().length().logUnits(), 1e-9);
        assertEquals(end - line, parts.shoulder().orElseThrow().length().logUnits(), 1e-9);
        // The steepest chord over three tenths of the line, about 0: 1.40 tanh(1.10 × 0.3 line) / (0.6 line).
        assertEquals(
                1.40 * Math.tanh(1.10 * 0.3 * line) / (0.6 * line),
                parts.gamma().value(),
                1e-9);
        assertEquals(
                0,
                parts.straightLineAt(Density.of(0.90)).value(),
                1e-6,
                "the chord passes through the middle of the curve");
        assertEquals(
                0.20 + 1.40 * (0.5 + 0.5 * Math.sqrt(0.2)),
                parts.shoulder().orElseThrow().thinEnd().density().value(),
                1e-9);
        assertTrue(parts.toe().orElseThrow().isComplete());
        assertTrue(parts.straightLine().isComplete());
        assertTrue(parts.shoulder().orElseThrow().isComplete());
    }

    /**
     * D = 0.2 + 0.2 x² up to x = 2: gradient 0.4 x, at four fifths of its greatest from x = 1.6, so that the spans are 0.12
     * long: 0.2 (4 − 1.88²) = 0.09312 over the last, 0.2 (1.88² − 1.76²) = 0.08736 over the one before: 6.593 % more.
     */
    @Test
    void aCurveThatStillRisesAtItsLastReadingHasNoGamma() {
        CurveAnatomy parts = CurveAnatomy.of(curve(x -> 0.2 + 0.2 * x * x, x -> 0.4 * x, 0, 2), AT_THE_POINT);
        assertFalse(parts.reachesStraightLine());
        NotDeterminableException e = assertThrows(NotDeterminableException.class, parts::requireStraightLine);
        assertEquals(
                "closed form: the gradient still rises at the last reading, D 1.00 at log H 2.00 lx·s: over the last 0.12 log"
                        + " units it is 6.6 % more than over those before, and 1 % is allowed. Gamma and the end of the toe"
                        + " are therefore unknown: expose and read further steps; or, if a family was fitted, draw a"
                        + " smoothing spline, which may find the end straight; or use an average gradient",
                e.getMessage());
        assertFalse(parts.toe().orElseThrow().isComplete());
        // The same, falling: the dense end is now at the least exposure.
        CurveAnatomy falling = CurveAnatomy.of(curve(x -> 0.2 + 0.2 * x * x, x -> 0.4 * x, -2, 0), AT_THE_POINT);
        assertTrue(assertThrows(NotDeterminableException.class, falling::requireStraightLine)
                .getMessage()
                .contains("D 1.00 at log H −2.00 lx·s"));
    }

    /** D = x + c x² on 0 to 1, all of it straight: the spans rise by 0.6 c / (1 + 1.1 c), 1.17 % and 0.89 %. */
    @Test
    void aRiseOfLessThanOnePercentIsAStraightLine() {
        assertFalse(CurveAnatomy.of(curve(x -> x + 0.020 * x * x, x -> 1 + 0.040 * x, 0, 1), AT_THE_POINT)
                .reachesStraightLine());
        CurveAnatomy straight = CurveAnatomy.of(curve(x -> x + 0.015 * x * x, x -> 1 + 0.030 * x, 0, 1), AT_THE_POINT);
        assertTrue(straight.requireStraightLine().reachesStraightLine());
        // A shoulder within the readings ends the straight line, however the curve rose before.
        assertTrue(CurveAnatomy.of(logistic(1, -4, 4)).reachesStraightLine());
    }

    @Test
    void theGradientIsAveragedOverTheWindow() {
        CurveAnatomy parts = CurveAnatomy.of(logistic(1, -4, 4));
        double half = 0.5 * Math.log10(2);
        // Averaged over a symmetric window about 0 the logistic has 1.40 tanh(1.1 × half) / (2 × half).
        assertEquals(
                1.40 * Math.tanh(1.1 * half) / (2 * half),
                parts.greatestGradient().value(),
                1e-9);
    }

    @Test
    void aFallingCurveHasItsToeAtTheThinEnd() {
        CurveAnatomy rising = CurveAnatomy.of(logistic(1, -4, 3), AT_THE_POINT);
        CurveAnatomy falling = CurveAnatomy.of(logistic(-1, -3, 4), AT_THE_POINT);
        assertEquals(-rising.gamma().value(), falling.gamma().value(), 1e-9);
        assertEquals(
                rising.toe().orElseThrow().length().logUnits(),
                falling.toe().orElseThrow().length().logUnits(),
                1e-9);
        assertTrue(falling.toe().orElseThrow().thinEnd().density().value()
                < falling.shoulder().orElseThrow().thinEnd().density().value());
        assertEquals(
                logisticAt(0.80), falling.straightLine().thinEnd().logExposure().value(), 1e-9);
        assertEquals(-0.77, falling.greatestGradient().value(), 1e-12);
    }

    @Test
    void aStraightLineIsAllStraightLine() {
        CurveAnatomy parts = CurveAnatomy.of(curve(x -> 0.20 + 0.65 * (x + 3), x -> 0.65, -3, 0));
        assertEquals(0.65, parts.gamma().value(), 1e-12);
        assertTrue(parts.toe().isEmpty());
        assertTrue(parts.shoulder().isEmpty());
        assertFalse(parts.straightLine().isComplete());
        assertEquals(3, parts.straightLine().length().logUnits(), 1e-12);
    }

    @Test
    void aPartThatWasNotMeasuredToItsEndIsNotComplete() {
        CurveAnatomy parts = CurveAnatomy.of(logistic(1, -1, 0.2), AT_THE_POINT);
        assertFalse(parts.toe().orElseThrow().isComplete());
        assertEquals(-1, parts.toe().orElseThrow().thinEnd().logExposure().value(), 1e-12);
        assertFalse(parts.straightLine().isComplete());
        assertTrue(parts.shoulder().isEmpty());
    }

    @Test
    void noContrastIsRefused() {
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> CurveAnatomy.of(curve(x -> 0.20 + 0.02 * (x + 3), x -> 0.02, -3, 0)));
        assertTrue(e.getMessage().contains("more exposure"), e.getMessage());
    }

    @Test
    void aCurveThatTurnsBackIsRefused() {
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> CurveAnatomy.of(curve(x -> 1 + Math.sin(x), Math::cos, -1.5, 2.5)));
        assertTrue(e.getMessage().contains("one branch"), e.getMessage());
    }

    @Test
    void aRangeNoLongerThanTheWindowIsRefused() {
        assertThrows(NotDeterminableException.class, () -> CurveAnatomy.of(logistic(1, 0, 0.3)));
    }

    @Test
    void fractionsAreChecked() {
        AnatomyCriterion criterion = AnatomyCriterion.withDefaults();
        assertThrows(IllegalArgumentException.class, () -> criterion.withFractions(0.1, 0.8));
        assertThrows(IllegalArgumentException.class, () -> criterion.withFractions(0.8, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> criterion.withFractions(1, 0.1));
        assertThrows(IllegalArgumentException.class, () -> criterion.withWindow(ExposureInterval.ofLogUnits(-0.1)));
        assertEquals(0.9, criterion.withFractions(0.9, 0.2).straightLineFraction());
    }

    /**
     * D = 0.1 + e^x rises to its end: averaged over 0.3 its greatest gradient is the last chord, (e^0.5 − e^0.2)/0.3. The form
     * refuses to be read outside its range, as a film is not known there. Its mirror image is the same curve.
     */
    @Test
    void theLastChordOfARisingGradientIsTheSteepest() {
        DoubleUnaryOperator inside = x -> {
            if (x < -2 - 1e-9 || x > 0.5 + 1e-9) {
                throw new IllegalStateException("read at " + x);
            }
            return Math.exp(x);
        };
        AnatomyCriterion wide = AnatomyCriterion.withDefaults().withWindow(ExposureInterval.ofLogUnits(0.3));
        double steepest = (Math.exp(0.5) - Math.exp(0.2)) / 0.3;
        CurveAnatomy rising = CurveAnatomy.of(curve(x -> 0.1 + inside.applyAsDouble(x), inside, -2, 0.5), wide);
        assertEquals(steepest, rising.greatestGradient().value(), 1e-7);
        assertFalse(rising.shoulder().isPresent());
        CurveAnatomy falling = CurveAnatomy.of(
                curve(x -> 0.1 + inside.applyAsDouble(-x), x -> -inside.applyAsDouble(-x), -0.5, 2), wide);
        assertEquals(-steepest, falling.greatestGradient().value(), 1e-7);
        // The straight line begins where the chord over 0.3, e^x times a constant, is 0.8 of the last.
        double from = 0.35 + Math.log(0.8);
        assertEquals(from, rising.straightLine().thinEnd().logExposure().value(), 1e-7);
        assertEquals(-from, falling.straightLine().thinEnd().logExposure().value(), 1e-7);
        // Its steepest chord over three tenths of it ends where the curve does.
        double span = 0.3 * (0.5 - from);
        double gamma = (Math.exp(0.5) - Math.exp(0.5 - span)) / span;
        assertEquals(gamma, rising.gamma().value(), 1e-6);
        assertEquals(-gamma, falling.gamma().value(), 1e-6);
    }

    @Test
    void fractionsAreInOrder() {
        AnatomyCriterion criterion = AnatomyCriterion.withDefaults();
        assertEquals(0.5, criterion.withFractions(0.9, 0.5).endFraction());
        for (double[] wrong : new double[][] {{0.8, 0}, {0.8, 0.8}, {1, 0.1}, {0.5, 0.6}}) {
            assertThrows(IllegalArgumentException.class, () -> criterion.withFractions(wrong[0], wrong[1]));
        }
    }
}
