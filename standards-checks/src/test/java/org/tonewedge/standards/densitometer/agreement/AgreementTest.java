// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.agreement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;

class AgreementTest {

    /** Bland and Altman 1986, table 1: peak expiratory flow of 17 persons by two meters, from secondary sources. */
    private static final double[] LARGE = {
        494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427
    };

    private static final double[] MINI = {
        512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451
    };

    /** The paper subtracts the second from the first: its limits are −(upper), −(lower). */
    private final LimitsOfAgreement limits = LimitsOfAgreement.of(MINI, LARGE);

    @Test
    void givesThePapersBiasAndDeviation() {
        assertEquals(-2.1, limits.bias().value(), 0.05);
        assertEquals(38.8, limits.deviation(), 0.05);
        // paper: 95 % interval of the bias -22.0 to 17.8
        assertEquals(-22.0, limits.bias().interval(0.95).lower(), 0.06);
        assertEquals(17.8, limits.bias().interval(0.95).upper(), 0.06);
    }

    /** NumPy 2.4.6 with d the 17 differences: {@code d.mean() + [-1.959964, 1.959964] * d.std(ddof=1)}. */
    @Test
    void givesTheLimitsOfAnotherProgram() {
        assertEquals(-78.0959, limits.lower().value(), 1e-4);
        assertEquals(73.8606, limits.upper().value(), 1e-4);
    }

    /** The paper takes two standard deviations: −79.7 and 75.5, with intervals −114.3…−45.1 and 40.9…110.1. */
    @Test
    void givesThePapersLimits() {
        LimitsOfAgreement two = limits.withShare(0.9544997);

        assertEquals(-79.7, two.lower().value(), 0.06);
        assertEquals(75.5, two.upper().value(), 0.1);
        // the paper approximates the variance of a limit by 3 s²/n, 2 % less here
        assertEquals(-114.3, two.lower().interval(0.95).lower(), 1);
        assertEquals(-45.1, two.lower().interval(0.95).upper(), 1);
        assertEquals(40.9, two.upper().interval(0.95).lower(), 1);
        assertEquals(110.1, two.upper().interval(0.95).upper(), 1);
    }

    /** scipy 1.17.1, scipy.odr with RealData(sx=1, sy=sqrt(ratio)), and the same with each pair left out in turn. */
    @ParameterizedTest
    @CsvSource({
        "1, 15.23154614, 69.47952805, 0.97088084, 0.13901709",
        "4, 30.28435959, 65.57887469, 0.93745636, 0.13215714",
    })
    void fitsTheLineOfAGeneralSolver(double ratio, double a, double ua, double b, double ub) {
        DemingRegression line = DemingRegression.of(LARGE, MINI, ratio);

        assertEquals(a, line.intercept().value(), 1e-4);
        assertEquals(b, line.slope().value(), 1e-7);
        assertEquals(ua, line.intercept().standardUncertainty(), 1e-3);
        assertEquals(ub, line.slope().standardUncertainty(), 1e-5);
        assertEquals(15, line.slope().degreesOfFreedom());
        Estimate difference = line.differenceAt(450);
        assertEquals(a + (b - 1) * 450, difference.value(), 1e-3);
        assertTrue(difference.standardUncertainty() < ua);
    }

    @Test
    void swappedInstrumentsGiveTheInverseLine() {
        DemingRegression there = DemingRegression.of(LARGE, MINI, 4);
        DemingRegression back = DemingRegression.of(MINI, LARGE, 0.25);

        assertEquals(1, there.slope().value() * back.slope().value(), 1e-12);
    }

    @Test
    void findsADifferenceThatGrowsWithDensity() {
        double[] first = new double[21];
        double[] second = new double[21];
        Random random = new Random(4);
        for (int i = 0; i < 21; i++) {
            first[i] = 0.05 + 0.15 * i + 0.002 * random.nextGaussian();
            second[i] = 0.97 * (0.05 + 0.15 * i) + 0.002 * random.nextGaussian();
        }
        Estimate slope = LimitsOfAgreement.of(first, second).slope();

        assertTrue(slope.interval(0.95).upper() < 0, slope.toString());
        assertFalse(LimitsOfAgreement.of(first, second).isWithin(0.02));
        assertTrue(LimitsOfAgreement.of(first, first.clone()).isWithin(1e-9));
    }

    @Test
    @Tag("slow")
    void intervalsContainTheTruthAsOftenAsDocumented() {
        double[] shares = AgreementSimulation.coverages(21, 1000, new Random(2));

        for (double share : shares) {
            assertEquals(0.95, share, 0.028, java.util.Arrays.toString(shares));
        }
    }

    @Test
    void refusesPairsThatCannotBeCompared() {
        assertThrows(IllegalArgumentException.class, () -> LimitsOfAgreement.of(new double[3], new double[4]));
        assertThrows(IllegalArgumentException.class, () -> LimitsOfAgreement.of(new double[2], new double[2]));
        double[] undefined = {1, 2, Double.NaN};
        assertThrows(IllegalArgumentException.class, () -> LimitsOfAgreement.of(undefined, new double[3]));
        assertThrows(IllegalArgumentException.class, () -> limits.isWithin(0));
        assertThrows(IllegalArgumentException.class, () -> limits.withShare(1));
        IllegalArgumentException flat =
                assertThrows(IllegalArgumentException.class, () -> DemingRegression.of(new double[5], new double[5]));
        assertTrue(flat.getMessage().contains("do not vary together"), flat.getMessage());
        assertThrows(IllegalArgumentException.class, () -> DemingRegression.of(LARGE, MINI, 0));
    }

    /**
     * s √(1/n + z²/(2 (n − 1))) with the paper's 38.8 and 17 pairs, by hand: 38.8 √(1/17 + 3.8415/32) = 16.41; 16 degrees of
     * freedom. The formula: Bland and Altman, Statistical Methods in Medical Research 8 (1999) 135–160, from memory.
     */
    @Test
    void limitsHaveTheUncertaintyOfMeanAndDeviation() {
        assertEquals(16.41, limits.lower().standardUncertainty(), 0.03);
        assertEquals(16.41, limits.upper().standardUncertainty(), 0.03);
        assertEquals(16, limits.upper().degreesOfFreedom());
    }

    /** The second reads a tenth more: the difference is 0.1 of the first, the mean 1.05 of it. */
    @Test
    void theSlopeIsAgainstTheMeanOfBoth() {
        double[] first = {0.5, 1, 1.5, 2, 2.5, 3};
        double[] second = Arrays.stream(first).map(density -> 1.1 * density).toArray();
        assertEquals(0.1 / 1.05, LimitsOfAgreement.of(first, second).slope().value(), 1e-12);
    }

    @Test
    void theRecordsTellTheLimits() {
        assertTrue(limits.records().contains(ResultRecord.ofEstimate("bias", limits.bias(), "density")));
        assertTrue(limits.records().contains(ResultRecord.ofEstimate("upper", limits.upper(), "density")));
        assertTrue(limits.records().contains(ResultRecord.ofEstimate("slope", limits.slope(), "")));
        ResultRecord slope = LimitsOfAgreement.of(new double[] {1, 1, 1}, new double[] {1, 1, 1})
                .records()
                .get(6);
        assertTrue(slope.value().isEmpty() && slope.text().contains("different densities"), slope::toString);
    }

    /** T = 10^−D: 100 · 10^−0.05 = 89.13 % at the clearest sample, 10^−3.05 = 0.0009 at the densest. */
    @Test
    void refusesAnotherUnitThanTheOtherInstruments() {
        double[] densities = {0.05, 0.8, 1.55, 2.3, 3.05};
        double[] percent =
                Arrays.stream(densities).map(d -> 100 * Math.pow(10, -d)).toArray();
        double[] light = Arrays.stream(densities).map(d -> Math.pow(10, -d)).toArray();

        IllegalArgumentException second =
                assertThrows(IllegalArgumentException.class, () -> LimitsOfAgreement.of(densities, percent));
        assertEquals(
                "second instrument's reading of sample 1 is 89.1251, the first instrument's 0.05: the printed numbers are"
                        + " those of a firmware in which the transmittance in per cent is printed for the density"
                        + " (PERCENT_TRANSMITTANCE); print 2 - log10 of it",
                second.getMessage());
        IllegalArgumentException first =
                assertThrows(IllegalArgumentException.class, () -> DemingRegression.of(light, densities));
        assertTrue(
                first.getMessage()
                        .startsWith("first instrument's reading of sample 5 is 0.0009, the second instrument's 3.05: "),
                first.getMessage());
        assertEquals(0, LimitsOfAgreement.of(percent, percent).bias().value(), "one unit for both");
    }
}
