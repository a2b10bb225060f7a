// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.tonewedge.core.tone.Brackets.AXIS;

import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

class UsefulRangeTest {

    /** D = 0.20 + 1.40 / (1 + exp(−2.20 x)): the curve 'logistic' of the closed-form reference curves. */
    private final CharacteristicCurve logistic = Brackets.logistic(0.20, 1.40, 2.20, 0, -4, 4);

    /** The exposure at 0.10 above base plus fog, −1.165886072, computed at 40 digits with mpmath 1.3.0. */
    @Test
    void beginsAtTheSpeedPoint() {
        UsefulRange range = UsefulRange.of(logistic);

        assertEquals(-1.165886072, range.thinEnd().logExposure().value(), 1e-9);
        assertEquals(UsefulRange.Completeness.WHOLE, range.completeness());
        assertEquals(
                range.denseEnd().density().value() - 0.30, range.densityRange().value(), 1e-9);
    }

    /** The gradient of a logistic is a tenth of its greatest where p (1 − p) = 0.025, x = ±ln(p/(1−p))/2.2. */
    @Test
    void endsWhereTheGradientIsATenthOfItsGreatest() {
        double share = (1 + Math.sqrt(0.9)) / 2;
        double end = Math.log(share / (1 - share)) / 2.2;

        UsefulRange range =
                UsefulRange.byAnatomy(logistic, AnatomyCriterion.withDefaults().withWindow(ExposureInterval.ZERO));

        assertEquals(end, range.denseEnd().logExposure().value(), 1e-6);
        assertEquals(-end, range.thinEnd().logExposure().value(), 1e-6);
        assertEquals(2 * end, range.logExposureRange().logUnits(), 1e-6);
    }

    @Test
    void saysThatAFilmMayBeUsefulBeyondWhatWasMeasured() {
        UsefulRange range = UsefulRange.of(Brackets.logistic(0.20, 1.40, 2.20, 0, -4, 0.5));

        assertEquals(UsefulRange.Completeness.AT_LEAST, range.completeness());
        assertEquals(0.5, range.denseEnd().logExposure().value(), 1e-9);
    }

    /** Straight line of gradient 0.6 from 0.10 to 1.30 above base plus fog: 2.0 log units. */
    @Test
    void leavesLatitudeForASubject() {
        UsefulRange range = UsefulRange.betweenDensities(
                Brackets.line(0.2, 0.6, 0, 0, 3), DensityDifference.of(0.10), DensityDifference.of(1.30));

        assertEquals(2.0, range.logExposureRange().logUnits(), 1e-9);
        assertEquals(1.2, range.densityRange().value(), 1e-9);
        assertEquals(0.5, range.latitude(ExposureInterval.ofLogUnits(1.5)).logUnits(), 1e-9);
        assertEquals(-0.2, range.latitude(ExposureInterval.ofLogUnits(2.2)).logUnits(), 1e-9);

        double thin = 0.1 / 0.6;
        ExposureLatitude placed = range.latitude(new LogExposure(thin + 0.1, AXIS), new LogExposure(thin + 1.6, AXIS));
        assertEquals(0.1, placed.under().logUnits(), 1e-9);
        assertEquals(0.4, placed.over().logUnits(), 1e-9);
        assertEquals(0.5, placed.total().logUnits(), 1e-9);
    }

    @Test
    void countsTheRangeOfAFallingCurveToo() {
        CharacteristicCurve reversal = Brackets.line(0.2, -1.5, 0, -2, -0.05);

        UsefulRange range = UsefulRange.betweenDensities(reversal, DensityDifference.of(0.15), DensityDifference.of(3));

        assertEquals(2.85 / 1.5, range.logExposureRange().logUnits(), 1e-9);
        assertEquals(
                0.4,
                range.latitude(new LogExposure(-1.6, AXIS), new LogExposure(-0.5, AXIS))
                        .under()
                        .logUnits(),
                1e-9);
    }

    @Test
    void refusesWhatIsNoRange() {
        assertThrows(
                IllegalArgumentException.class,
                () -> UsefulRange.betweenDensities(logistic, DensityDifference.of(0.5), DensityDifference.of(0.5)));
        assertThrows(
                OutsideMeasuredRangeException.class,
                () -> UsefulRange.betweenDensities(logistic, DensityDifference.of(0.5), DensityDifference.of(1.5)));
        UsefulRange range = UsefulRange.of(logistic);
        assertThrows(IllegalArgumentException.class, () -> range.latitude(ExposureInterval.ofLogUnits(-0.1)));
        assertThrows(
                IllegalArgumentException.class,
                () -> range.latitude(new LogExposure(1, AXIS), new LogExposure(0, AXIS)));
    }

    /** A logistic measured four log units either way shows both its ends; cut at either end it shows one. */
    @Test
    void isWholeOnlyWithBothEnds() {
        AnatomyCriterion criterion = AnatomyCriterion.withDefaults();
        assertEquals(
                UsefulRange.Completeness.WHOLE,
                UsefulRange.byAnatomy(Brackets.logistic(0.20, 1.40, 2.20, 0, -4, 4), criterion)
                        .completeness());
        assertEquals(
                UsefulRange.Completeness.AT_LEAST,
                UsefulRange.byAnatomy(Brackets.logistic(0.20, 1.40, 2.20, 0, -0.5, 4), criterion)
                        .completeness());
        assertEquals(
                UsefulRange.Completeness.AT_LEAST,
                UsefulRange.byAnatomy(Brackets.logistic(0.20, 1.40, 2.20, 0, -4, 0.5), criterion)
                        .completeness());
    }
}
