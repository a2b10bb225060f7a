// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A small slice of {@link FitCoverage}. */
@SuppressWarnings("EnumOrdinal") // tallies are arrays by figure
class FitCoverageTest {

    private static final int STRIPS = 400;

    /**
     * 95 % of 400 within three standard deviations of a count is 91.7 to 98.3 %. Ways that choose a family may contain the
     * truth more often, up to the limits measured: their uncertainty includes the choice. The page on fit quality has the
     * whole table.
     */
    @ParameterizedTest
    @CsvSource({
        "IN_FAMILY, DEFAULT, 3, 0.917, 0.983",
        "IN_FAMILY, HUBER, 3, 0.917, 0.983",
        "IN_FAMILY, TUKEY, 3, 0.917, 0.983",
        "IN_FAMILY, BEST, 3, 0.917, 0.99",
        "IN_FAMILY, CHECKED, 0, 0.94, 0.999",
        "IN_FAMILY, CHECKED, 3, 0.917, 0.985",
        "TWO_LAYERS, CHECKED, 3, 0.93, 1",
        "UPSWEPT, CHECKED, 3, 0.917, 0.99"
    })
    void intervalsOfTheSpeedPointContainTheTruth(
            FitCoverage.Truth truth, FitCoverage.Way way, int basePlusFogReadings, double least, double most) {
        FitCoverage.Tally tally = FitCoverage.measure(
                truth, way, basePlusFogReadings, FitCoverage.STEPS, STRIPS, 7, List.of(FitCoverage.Figure.SPEED_POINT))[
                FitCoverage.Figure.SPEED_POINT.ordinal()];
        assertTrue(tally.told() > 0.95, tally::toString);
        assertTrue(tally.coverage() >= least && tally.coverage() <= most, tally::toString);
    }

    /** Gamma, contrast and toe of strips of the family; the whole table is on the page on fit quality. */
    @ParameterizedTest
    @CsvSource({"DEFAULT, 0.90", "BEST, 0.87", "CHECKED, 0.91"})
    void intervalsOfOtherFiguresContainTheTruth(FitCoverage.Way way, double least) {
        List<FitCoverage.Figure> figures =
                List.of(FitCoverage.Figure.GAMMA, FitCoverage.Figure.RISE_OVER_130, FitCoverage.Figure.TOE_LENGTH);
        FitCoverage.Tally[] tallies =
                FitCoverage.measure(FitCoverage.Truth.IN_FAMILY, way, 3, FitCoverage.STEPS, STRIPS / 2, 8, figures);
        for (FitCoverage.Figure figure : figures) {
            FitCoverage.Tally tally = tallies[figure.ordinal()];
            assertTrue(tally.told() > 0.9, () -> figure + ": " + tally);
            assertTrue(tally.coverage() >= least, () -> figure + ": " + tally);
        }
    }
}
