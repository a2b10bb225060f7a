// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;

/** A small slice of {@link FitCoverage}. */
@SuppressWarnings("EnumOrdinal") // tallies are arrays by figure
class FitCoverageTest {

    private static final int STRIPS = 400;

    /**
     * Required are 95 % of the intervals, and at least 94 % may be said to be enough: 94 % of 400, less 2.5 standard
     * deviations of such a count (1.19 %), is 91.0 %. More than 96 % is too much where the family is known: 96 % and 2.5
     * deviations (0.98 %) are 98.4 %. Ways that do not know the family include their choice and may contain the truth always.
     */
    @ParameterizedTest
    @CsvSource({
        "IN_FAMILY, DEFAULT, 0, 0.984",
        "IN_FAMILY, DEFAULT, 3, 0.984",
        "IN_FAMILY, HUBER, 0, 0.984",
        "IN_FAMILY, HUBER, 3, 0.984",
        "IN_FAMILY, TUKEY, 0, 0.984",
        "IN_FAMILY, TUKEY, 3, 0.984",
        "IN_FAMILY, BEST, 3, 1",
        "IN_FAMILY, CHECKED, 0, 1",
        "IN_FAMILY, CHECKED, 3, 1",
        "IN_FAMILY, SPLINE, 3, 1",
        "TWO_LAYERS, CHECKED, 3, 1",
        "UPSWEPT, CHECKED, 3, 1"
    })
    void intervalsOfTheSpeedPointContainTheTruth(
            FitCoverage.Truth truth, FitCoverage.Way way, int basePlusFogReadings, double most) {
        FitCoverage.Tally tally = FitCoverage.measure(
                truth, way, basePlusFogReadings, FitCoverage.STEPS, STRIPS, 7, List.of(FitCoverage.Figure.SPEED_POINT))[
                FitCoverage.Figure.SPEED_POINT.ordinal()];
        assertTrue(tally.told() > 0.95, tally::toString);
        assertTrue(tally.coverage() >= 0.910 && tally.coverage() <= most, tally::toString);
    }

    /**
     * Gamma, contrast and toe of strips of the family: 94 % less 2.5 standard deviations of a count of 200. The best of all
     * families is left out: at 9 and 13 steps it does not contain so many toes, as the page on fit quality tells.
     */
    @ParameterizedTest
    @EnumSource(names = {"DEFAULT", "TUKEY", "CHECKED"})
    void intervalsOfOtherFiguresContainTheTruth(FitCoverage.Way way) {
        List<FitCoverage.Figure> figures =
                List.of(FitCoverage.Figure.GAMMA, FitCoverage.Figure.RISE_OVER_130, FitCoverage.Figure.TOE_LENGTH);
        FitCoverage.Tally[] tallies =
                FitCoverage.measure(FitCoverage.Truth.IN_FAMILY, way, 3, FitCoverage.STEPS, STRIPS / 2, 8, figures);
        for (FitCoverage.Figure figure : figures) {
            FitCoverage.Tally tally = tallies[figure.ordinal()];
            assertTrue(tally.told() > 0.9, () -> figure + ": " + tally);
            assertTrue(tally.coverage() >= 0.898, () -> figure + ": " + tally);
        }
    }

    /**
     * Strips of the family whose readings do not show the shoulder are fitted without it. If that choice were taken as
     * certain, gamma would be contained in 20 to 70 of a hundred.
     */
    @Test
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
        assertTrue(told > 50 && share > 0.85, () -> "contained " + share);
        assertTrue(certain < 0.75, () -> "contained if the choice were certain " + certain);
    }
}
