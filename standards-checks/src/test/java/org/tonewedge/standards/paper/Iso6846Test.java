// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.paper;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.PiecewiseLinearCurve;
import org.tonewedge.standards.paper.Iso6846.ShoulderRule;

/**
 * ISO 6846 on straight segments, where its points are plain arithmetic. The densities of points T and S: Focal Encyclopedia
 * of Photography, page 679; 0.60 and 1000 of the speed and the rounding of R and P from memory.
 */
class Iso6846Test {

    /** Base 0.06, toe up to 0.10 at log H 0, straight to 1.86 at 1.10, level at 2.06 from 1.60 on. */
    private static CharacteristicCurve paper() {
        return PiecewiseLinearCurve.through(
                "paper",
                new double[] {-0.5, 0, 1.10, 1.60, 2.00},
                new double[] {0.06, 0.10, 1.86, 2.06, 2.06001},
                0.06);
    }

    @Test
    void rangeSpeedAndGrade() {
        Iso6846Range range = Iso6846.withDefaults().range(paper());
        assertEquals(0, range.toe().logExposure().value(), 1e-9);
        assertEquals(0.06 + 0.9 * 2.00001, range.shoulder().density().value(), 1e-9);
        assertEquals(1.10, range.figure(), 1e-4);
        assertEquals(110, range.isoRange());
        assertEquals(Optional.of(PaperGrade.GRADE_2), range.grade());
        assertTrue(range.conditionsMet());
        assertEquals(
                "ISO R110, grade 2 (medium) (not stated: illuminant, exposure time, hold, storage)", range.toString());
        // 0.60 above base is 0.66: 0.56 / 1.6 of the way along the straight part.
        double speedPoint = 0.56 / 1.6;
        Iso6846Speed speed = Iso6846.withDefaults().speed(paper());
        assertEquals(speedPoint, speed.speedPoint().logExposure().value(), 1e-9);
        assertEquals(1000 / Math.pow(10, speedPoint), speed.exact(), 1e-6);
        assertEquals(400, speed.rounded());
        assertEquals("ISO P400 (not stated: illuminant, exposure time, hold, storage)", speed.toString());
    }

    /** The log exposures of a paper, divided by log10 2 = 0.30103. */
    private static CharacteristicCurve inStops(double range) {
        double stops = range / Math.log10(2);
        return PiecewiseLinearCurve.through(
                "paper", new double[] {-1, 0, stops, stops + 1}, new double[] {0, 0.04, 1.8, 2.0}, 0);
    }

    @ParameterizedTest
    @CsvSource({"1.65, 550, 0 (very soft)", "1.05, 350, 2 (medium)", "0.70, 230, 4 (very hard)"})
    void aPaperReadInStopsIsToldByItsGrade(double range, int published, String grade) {
        String told = Iso6846.withDefaults().range(inStops(range)).toString();
        assertTrue(
                told.contains(
                        "R" + published + ", no grade has this range; if the log exposures are stops, it is that of"
                                + " grade " + grade + ": multiply them by 0.301"),
                told);
    }

    /** The softest papers are not taken for stops, and the hardest in stops cannot be told from them. */
    @ParameterizedTest
    @ValueSource(doubles = {1.40, 1.60, 1.70, 1.80, 1.95})
    void softPapersAreNotTakenForStops(double range) {
        CharacteristicCurve soft = inStops(range * Math.log10(2));
        String told = Iso6846.withDefaults().range(soft).toString();
        assertFalse(told.contains("stops"), told);
    }

    @Test
    void theGrossReadingOfTheShoulderDiffersByATenthOfTheBase() {
        Iso6846 gross = Iso6846.withDefaults().with(ShoulderRule.OF_GROSS_DENSITY);
        assertEquals(
                0.006,
                Iso6846.withDefaults()
                        .range(paper())
                        .shoulder()
                        .density()
                        .minus(gross.range(paper()).shoulder().density())
                        .value(),
                1e-9);
    }

    @Test
    void readingsThatEndBeforeTheGreatestDensityAreNoIsoRange() {
        CharacteristicCurve cut = PiecewiseLinearCurve.through(
                "paper", new double[] {-0.5, 0, 1.10}, new double[] {0.06, 0.10, 1.86}, 0.06);
        Iso6846Range range = Iso6846.withDefaults().range(cut);
        assertFalse(range.conditionsMet());
        assertTrue(range.toString().contains("not an ISO range"), range.toString());
        assertTrue(range.conditions().get(0).remedy().contains("expose more"));
        assertTrue(Iso6846.withDefaults().withGreatestEndGradient(2).range(cut).conditionsMet());
    }

    /**
     * Readings that scatter by 0.005 at each 0.05 of log exposure: the end gradient alone scatters by more than 0.10, and
     * called half of the papers that were level for two stops not level. One that still rises by 0.5 is told apart.
     */
    @Test
    void scatterAtTheEndIsNotTakenForADensityThatStillRises() {
        Random random = new Random(6);
        int papers = 400;
        int level = 0;
        int rising = 0;
        for (int paper = 0; paper < papers; paper++) {
            level += scattered(random, 2.2).conditionsMet() ? 1 : 0;
            rising += scattered(random, 1.22).conditionsMet() ? 1 : 0;
        }
        assertTrue(level >= 0.98 * papers, level + " level papers of " + papers);
        assertEquals(0, rising, "papers that still rise");
    }

    /** D = 0.06 + 2 / (1 + exp(−(x − 0.8) / 0.12)), read up to an exposure, with scatter in its dense part. */
    private static Iso6846Range scattered(Random random, double highest) {
        Strip.Builder strip = Strip.builder("scattered").basePlusFog(0.06);
        for (int i = 0; -0.4 + 0.05 * i < highest; i++) {
            double x = -0.4 + 0.05 * i;
            double density = 0.06 + 2 / (1 + Math.exp(-(x - 0.8) / 0.12));
            strip.reading(
                    LogExposure.ofLogLuxSeconds(x), Density.of(density + (x > 1 ? 0.005 * random.nextGaussian() : 0)));
        }
        return Iso6846.withDefaults().range(CharacteristicCurve.through(strip.build()));
    }

    @Test
    void aPaperNotExposedEnoughHasNoSpeed() {
        CharacteristicCurve thin =
                PiecewiseLinearCurve.through("paper", new double[] {-0.5, 0}, new double[] {0.06, 0.10}, 0.06);
        assertThrows(
                NotDeterminableException.class, () -> Iso6846.withDefaults().speed(thin));
    }

    @ParameterizedTest
    @CsvSource({"1.0499, 100", "1.05, 110", "1.1499, 110", "1.15, 120", "0.55, 60", "0.5499, 50"})
    void rangesAreRoundedToTensAHalfUp(double range, int published) {
        CharacteristicCurve curve = PiecewiseLinearCurve.through(
                "paper", new double[] {-1, 0, range, range + 1}, new double[] {0, 0.04, 1.8, 2.0}, 0);
        assertEquals(published, Iso6846.withDefaults().range(curve).isoRange());
    }

    /** 0.35 and 1.70: Focal Encyclopedia of Photography, page 679; 1.40 from memory. */
    @Test
    void gradesEndAtTheirLimits() {
        assertEquals(Optional.empty(), PaperGrade.of(ExposureInterval.ofLogUnits(1.70)));
        assertEquals(Optional.empty(), PaperGrade.of(ExposureInterval.ofLogUnits(0.3499)));
        assertEquals(Optional.of(PaperGrade.GRADE_0), PaperGrade.of(ExposureInterval.ofLogUnits(1.40)));
    }

    /** The lower limits of grades 1 to 5, from memory. */
    @ParameterizedTest
    @CsvSource({
        "GRADE_1, 1.15, GRADE_2",
        "GRADE_2, 0.95, GRADE_3",
        "GRADE_3, 0.80, GRADE_4",
        "GRADE_4, 0.65, GRADE_5",
        "GRADE_5, 0.50, GRADE_6"
    })
    void aGradeBeginsWhereTheHarderOneEnds(PaperGrade grade, double limit, PaperGrade harder) {
        assertEquals(Optional.of(grade), PaperGrade.of(ExposureInterval.ofLogUnits(limit)));
        assertEquals(Optional.of(harder), PaperGrade.of(ExposureInterval.ofLogUnits(limit - 1e-4)));
        assertEquals(limit, harder.highestRange().logUnits());
    }
}
