// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ControlChartTest {

    /** NIST/SEMATECH e-Handbook, 6.3.2.2: ten batches of a flow rate, as several public test suites repeat it. */
    @Test
    void setsTheLimitsOfTheHandbooksIndividualsChart() {
        ControlChart chart = ControlChart.fromBaseline(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);

        assertEquals(50.81, chart.centre(), 1e-9);
        assertEquals(1.8778, chart.deviation() * 1.128, 5e-5);
        assertEquals(55.8041, chart.upperLimit(), 5e-5);
        assertEquals(45.8159, chart.lowerLimit(), 5e-5);
        assertEquals(10, chart.baselineSessions());
    }

    /** NIST/SEMATECH e-Handbook, 6.3.2.4: 20 values, weight 0.3, μ = 50, s = 2.0539, as public test suites repeat it. */
    @Test
    void followsTheHandbooksMovingAverage() {
        double[] values = {
            52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
            53.6, 52.1
        };
        double[] averages = {
            50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
            49.92, 50.73, 51.23, 51.94, 51.99
        };
        ControlChart chart = ControlChart.of(50, 2.0539).withWeight(0.3);

        List<ControlPoint> points = chart.watch(values);

        for (int i = 0; i < values.length; i++) {
            assertEquals(averages[i], points.get(i).movingAverage(), 0.0051, "value " + (i + 1));
            assertFalse(points.get(i).signals().contains(ControlRule.MOVING_AVERAGE));
        }
        // the handbook rounds the square root to 0.4201
        assertEquals(52.5884 - 50, chart.movingAverageLimit(), 5e-4);
        assertEquals(chart.movingAverageLimit(), points.get(19).movingAverageLimit(), 1e-3);
    }

    /** The rules as {@link ControlRule} states them, with its sources. */
    @ParameterizedTest
    @CsvSource({
        "'0 0 3.1', BEYOND_LIMITS",
        "'2.1 0 -2.1 0 2.1', ",
        "'2.1 0 2.1', TWO_OF_THREE",
        "'-2.1 -2.2', TWO_OF_THREE",
        "'1.1 1.1 0 1.1 1.1', FOUR_OF_FIVE",
        "'1.1 1.1 -1.1 1.1 -1.2', ",
        "'0.1 0.2 0.1 0.2 0.1 0.2 0.1 0.2', EIGHT_ON_ONE_SIDE",
        "'0.1 0.2 0.1 0.2 0.1 0.2 0.1 -0.2', ",
        "'-0.5 -0.3 -0.2 0.1 0.2 0.3', TREND",
        "'0.5 0.3 0.2 -0.1 -0.2 -0.3', TREND",
        "'-0.5 -0.3 -0.2 0.1 0.1 0.3', ",
    })
    void signalsByTheRules(String values, ControlRule rule) {
        double[] numbers = Arrays.stream(values.split(" ", -1))
                .mapToDouble(Double::parseDouble)
                .toArray();
        // a moving average that never signals
        List<ControlPoint> points = ControlChart.of(0, 1).watch(numbers);
        ControlPoint last = points.get(numbers.length - 1);

        Set<ControlRule> other = new TreeSet<>(last.signals());
        other.remove(ControlRule.MOVING_AVERAGE);
        assertEquals(rule == null ? Set.of() : Set.of(rule), other, last.toString());
    }

    @Test
    void anAlarmIsOutOfControlAndAWarningIsNot() {
        ControlChart chart = ControlChart.of(1.5, 0.01);

        assertFalse(chart.watch(1.54).get(0).isInControl());
        ControlPoint warned = chart.watch(1.5, 1.522, 1.47, 1.522).get(3);
        assertTrue(warned.isInControl());
        assertEquals(Set.of(ControlRule.TWO_OF_THREE), warned.signals());
        assertTrue(warned.toString().contains("session 4: in control (two of three"), warned.toString());
    }

    @Test
    void aSmallShiftShowsInTheMovingAverageFirst() {
        double[] shifted = new double[20];
        Arrays.fill(shifted, 1.5 + 0.015);
        List<ControlPoint> points = ControlChart.of(1.5, 0.01).watch(shifted);

        assertTrue(points.stream().noneMatch(point -> point.signals().contains(ControlRule.BEYOND_LIMITS)));
        assertTrue(points.get(19).signals().contains(ControlRule.MOVING_AVERAGE));
    }

    @Test
    void refusesABaselineThatCannotSetLimits() {
        IllegalArgumentException few =
                assertThrows(IllegalArgumentException.class, () -> ControlChart.fromBaseline(1.5, 1.51));
        assertTrue(few.getMessage().contains("10 sessions"), few.getMessage());
        IllegalArgumentException equal =
                assertThrows(IllegalArgumentException.class, () -> ControlChart.fromBaseline(new double[12]));
        assertTrue(equal.getMessage().contains("record more decimals"), equal.getMessage());
        double[] undefined = {1, 2, 1, 2, 1, 2, 1, 2, 1, Double.NaN};
        assertThrows(IllegalArgumentException.class, () -> ControlChart.fromBaseline(undefined));
        assertThrows(IllegalArgumentException.class, () -> ControlChart.of(1, 0));
        assertThrows(IllegalArgumentException.class, () -> ControlChart.of(1, 1).withWeight(0));
        assertThrows(IllegalArgumentException.class, () -> ControlChart.of(1, 1).withMultiple(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> ControlChart.of(1, 1).watch(Double.NaN));
    }

    /** Three standard deviations: 1 in 370.4 values in control (normal distribution). */
    @Test
    void aValueInControlIsBeyondTheLimitsOnceIn370Sessions() {
        int beyond = ControlChartSimulation.beyondLimits(400_000, new Random(1));

        assertEquals(400_000 / 370.4, beyond, 4 * Math.sqrt(400_000 / 370.4));
    }

    /**
     * Average run lengths of a general statistical system, its manual's example "Computing Average Run Lengths" of the
     * function EWMAARL (three standard deviations, after Crowder 1987): fixed limits. One run in 20,000 is longer than ten
     * times the mean, where the simulation ends.
     */
    @ParameterizedTest
    @CsvSource({
        "0.5, 0.25, 48.453",
        "1.0, 0.25, 11.1543",
        "1.5, 0.25, 5.4697",
        "2.0, 0.25, 3.61677",
        "1.0, 0.50, 15.7378",
        "2.0, 0.50, 3.46850",
        "1.0, 1.00, 43.8947",
        "2.0, 1.00, 6.30296",
    })
    @Tag("slow")
    void theMovingAverageFindsAShiftAfterThePublishedRunLength(double shift, double weight, double published) {
        ControlChartSimulation.RunLengths found =
                ControlChartSimulation.movingAverage(shift, weight, 2000, (int) (10 * published), new Random(7));

        assertEquals(published, found.mean(), 4 * found.deviation());
    }

    /**
     * The four rules of Western Electric together: 91.75 sessions, C. W. Champ and W. H. Woodall, Technometrics 29 (1987),
     * as given by the e-Handbook, 6.3.2, from memory.
     */
    @Test
    @Tag("slow")
    void theRunRulesGiveAFalseSignalOnceIn92Sessions() {
        ControlChartSimulation.RunLengths found = ControlChartSimulation.westernElectric(2000, 1000, new Random(3));

        assertEquals(91.75, found.mean(), 4 * found.deviation());
    }

    /**
     * Shares of 100,000 charts by {@code method_results.py} (NumPy 2.4.6); a share of 600 lies within 0.06 of them but for
     * three times in a thousand.
     */
    @Test
    void limitsFromFewSessionsGiveMoreFalseAlarms() {
        double[] few = ControlChartSimulation.falseAlarms(10, 600, new Random(5));
        double[] many = ControlChartSimulation.falseAlarms(50, 600, new Random(5));

        assertEquals(0.490, few[1], 0.06);
        assertEquals(0.303, many[1], 0.06);
    }

    /** The variance of the average by hand: λ² σ² after one session, λ² σ² (1 + (1 − λ)²) after two; λ = 0.2, σ = 1. */
    @Test
    void theMovingAverageHasNarrowLimitsAtFirst() {
        List<ControlPoint> points = ControlChart.of(1.5, 1).watch(1.5, 1.5);
        assertEquals(3 * 0.2, points.get(0).movingAverageLimit(), 1e-12);
        assertEquals(3 * 0.2 * Math.sqrt(1.64), points.get(1).movingAverageLimit(), 1e-12);
    }

    @Test
    void runsBelowTheCentreCountAsThoseAbove() {
        double[] below = {1.4, 1.3, 1.4, 1.3, 1.4, 1.3, 1.4, 1.3};
        List<ControlPoint> points = ControlChart.of(1.5, 1).watch(below);
        assertFalse(points.get(6).signals().contains(ControlRule.EIGHT_ON_ONE_SIDE));
        assertTrue(points.get(7).signals().contains(ControlRule.EIGHT_ON_ONE_SIDE));
    }

    /** Two of three beyond two standard deviations warn at the second of them, not at a good session after it. */
    @Test
    void aGoodSessionDoesNotWarnOfThoseBeforeIt() {
        List<ControlPoint> points = ControlChart.of(1.5, 1).watch(4.0, 4.0, 1.6);
        assertTrue(points.get(1).signals().contains(ControlRule.TWO_OF_THREE));
        assertFalse(points.get(2).signals().contains(ControlRule.TWO_OF_THREE));
    }

    /** In doubles 1.52 − 1.5 is a little above 0.02, and 1.51 − 1.5 a little above 0.01. */
    @Test
    void aValueAtALimitIsNotBeyondIt() {
        ControlChart chart = ControlChart.of(1.5, 0.01);
        assertEquals(Set.of(), chart.watch(1.52, 1.48, 1.52).get(2).signals());
        ControlPoint fourth = chart.watch(1.51, 1.51, 1.51, 1.51).get(3);
        assertFalse(fourth.signals().contains(ControlRule.FOUR_OF_FIVE), fourth.toString());
    }

    @Test
    void equalSessionsBreakATrend() {
        ControlChart chart = ControlChart.of(1.5, 1);
        assertTrue(chart.watch(1.9, 1.8, 1.7, 1.6, 1.5, 1.4).get(5).signals().contains(ControlRule.TREND));
        assertFalse(chart.watch(1.9, 1.8, 1.7, 1.7, 1.6, 1.5).get(5).signals().contains(ControlRule.TREND));
        assertFalse(chart.watch(1.4, 1.5, 1.6, 1.6, 1.7, 1.8).get(5).signals().contains(ControlRule.TREND));
    }

    @Test
    void aBadSessionIsNamedByItsNumber() {
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> ControlChart.of(1.5, 1).watch(1.5, Double.NaN));
        assertTrue(e.getMessage().startsWith("value of session 2 "), e.getMessage());
    }
}
