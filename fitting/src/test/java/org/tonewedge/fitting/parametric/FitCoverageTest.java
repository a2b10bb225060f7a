// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;

/** A small slice of {@link FitCoverage}. */
@SuppressWarnings("EnumOrdinal") // tallies are arrays by figure
class FitCoverageTest {

    private static final int STRIPS = 240;

    /**
     * Required are 95 % of the intervals; 94 to 96 % are enough, and a count may stray from there by 2.5 standard deviations
     * of a binomial one: of 240 at least 90.2 %. More than 99.2 % is too much where the family is known. Ways that do not
     * know the family include their choice and may contain the truth always.
     */
    private static double limit(double required, double count) {
        return required + Math.copySign(2.5, required - 0.95) * Math.sqrt(required * (1 - required) / count);
    }

    @ParameterizedTest
    @CsvSource({
        "IN_FAMILY, DEFAULT, 0, true",
        "IN_FAMILY, DEFAULT, 3, true",
        "IN_FAMILY, HUBER, 0, true",
        "IN_FAMILY, HUBER, 3, true",
        "IN_FAMILY, TUKEY, 0, true",
        "IN_FAMILY, TUKEY, 3, true",
        "IN_FAMILY, BEST, 3, false",
        "IN_FAMILY, CHECKED, 0, false",
        "IN_FAMILY, CHECKED, 3, false",
        "IN_FAMILY, SPLINE, 3, false",
        "TWO_LAYERS, CHECKED, 3, false",
        "UPSWEPT, CHECKED, 3, false"
    })
    @Tag("slow")
    void intervalsOfTheSpeedPointContainTheTruth(
            FitCoverage.Truth truth, FitCoverage.Way way, int basePlusFogReadings, boolean isFamilyKnown) {
        FitCoverage.Tally tally = FitCoverage.measure(
                truth, way, basePlusFogReadings, FitCoverage.STEPS, STRIPS, 7, List.of(FitCoverage.Figure.SPEED_POINT))[
                FitCoverage.Figure.SPEED_POINT.ordinal()];
        assertTrue(tally.told() > 0.95, tally::toString);
        assertTrue(tally.coverage() >= limit(0.94, STRIPS), tally::toString);
        assertTrue(!isFamilyKnown || tally.coverage() <= limit(0.96, STRIPS), tally::toString);
    }

    /**
     * Upswept strips that do not show a shoulder, and of which nobody read base plus fog: only the choice of a family says where
     * the foot lies, so the other families that follow the readings count.
     */
    @Test
    @Tag("slow")
    void withoutBasePlusFogTheFootOfUpsweptStripsIsNotTakenAsCertain() {
        FitCoverage.Tally tally = FitCoverage.measure(
                FitCoverage.Truth.UPSWEPT,
                FitCoverage.Way.CHECKED,
                0,
                new int[] {21, 31},
                1_500,
                11,
                List.of(FitCoverage.Figure.SPEED_POINT))[FitCoverage.Figure.SPEED_POINT.ordinal()];
        assertTrue(tally.told() > 0.6, tally::toString);
        assertTrue(tally.coverage() >= limit(0.94, 1_500 * tally.told()), tally::toString);
    }

    /**
     * With nine steps AICc prefers families of fewer parameters to the true one, toe, straight line and shoulder. The intervals
     * count the figures of the true family all the same, and contain the truth.
     */
    @Test
    @Tag("slow")
    void theBestOfFewStepsAllowsForTheFamiliesOfMoreParameters() {
        List<FitCoverage.Figure> figures = List.of(FitCoverage.Figure.TOE_LENGTH, FitCoverage.Figure.SHOULDER_START);
        FitCoverage.Tally[] tallies = FitCoverage.measure(
                FitCoverage.Truth.IN_FAMILY, FitCoverage.Way.BEST, 0, new int[] {9}, STRIPS, 10, figures);
        for (FitCoverage.Figure figure : figures) {
            FitCoverage.Tally tally = tallies[figure.ordinal()];
            assertTrue(tally.coverage() >= limit(0.94, STRIPS), () -> figure + ": " + tally);
        }
    }

    /** Gamma, contrast and toe of strips of the family. */
    @ParameterizedTest
    @EnumSource(names = {"DEFAULT", "TUKEY", "CHECKED"})
    @Tag("slow")
    void intervalsOfOtherFiguresContainTheTruth(FitCoverage.Way way) {
        List<FitCoverage.Figure> figures =
                List.of(FitCoverage.Figure.GAMMA, FitCoverage.Figure.RISE_OVER_130, FitCoverage.Figure.TOE_LENGTH);
        FitCoverage.Tally[] tallies =
                FitCoverage.measure(FitCoverage.Truth.IN_FAMILY, way, 3, FitCoverage.STEPS, STRIPS, 8, figures);
        for (FitCoverage.Figure figure : figures) {
            FitCoverage.Tally tally = tallies[figure.ordinal()];
            assertTrue(tally.told() > 0.9, () -> figure + ": " + tally);
            assertTrue(tally.coverage() >= limit(0.94, STRIPS), () -> figure + ": " + tally);
        }
    }

    /**
     * Strips of the family whose readings do not show the shoulder are fitted without it. If that choice were taken as
     * certain, gamma would be contained in about half of them.
     */
    @Test
    @Tag("slow")
    void aPartOfTheFamilyAllowsForTheWhole() {
        Random random = new Random(9);
        int told = 0;
        int contained = 0;
        int containedIfCertain = 0;
        for (int i = 0; i < 2_500; i++) {
            CharacteristicCurve truth = FitCoverage.Truth.IN_FAMILY.draw(random);
            FittedCurve fit = CurveFits.toeShoulder(FitCoverage.strip(truth, 13, 3, random));
            if (fit.family() == CurveFamily.TOE_STRAIGHT_LINE) {
                try {
                    double gamma = FitCoverage.Figure.GAMMA.of(truth);
                    contained +=
                            fit.interval(FitCoverage.Figure.GAMMA::of, 0.95).contains(gamma) ? 1 : 0;
                    containedIfCertain += fit.ownEstimate(FitCoverage.Figure.GAMMA::of)
                                    .interval(0.95)
                                    .contains(gamma)
                            ? 1
                            : 0;
                    told++;
                } catch (NotDeterminableException e) {
                    // the gradient still rises
                }
            }
        }
        double share = contained / (double) told;
        double certain = containedIfCertain / (double) told;
        assertTrue(told > 50 && share >= limit(0.94, told), () -> "contained " + share);
        assertTrue(certain < 0.75, () -> "contained if the choice were certain " + certain);
    }
}
