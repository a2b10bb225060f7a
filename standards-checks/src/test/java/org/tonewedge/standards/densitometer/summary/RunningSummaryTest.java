// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.input.RawCounts;

/** What a log says beside its means, counted by hand on a few readings. */
class RunningSummaryTest {

    private static final StepTablet THREE = StepTablet.calibrated("three", 0.001, new double[] {0.1, 1.1, 2.1});

    private static LogReading read(int step, double density) {
        return LogReading.of(Density.of(density), 2).withStep(step);
    }

    private static ReadingsSummary of(LogReading... readings) {
        return ReadingsSummary.of(THREE, List.of(readings));
    }

    private static ReadingsSummary ofSteps(int... steps) {
        return ReadingsSummary.of(
                THREE,
                Arrays.stream(steps).mapToObj(step -> read(step, step - 0.9)).toList());
    }

    /**
     * Steps are 0.5 apart: a first reading within 0.05 of the one before is stale if the next of the same step moves more than
     * 0.25 away.
     */
    @ParameterizedTest
    @CsvSource({"0.1, 0.6, 1", "0.14, 0.6, 1", "0.16, 0.6, 0", "0.1, 0.37, 1", "0.1, 0.33, 0", "0.6, 0.6, 0"})
    void aFirstReadingMayStillBeThatOfTheStepBefore(double first, double second, int stale) {
        StepTablet narrow = StepTablet.calibrated("narrow", 0.001, new double[] {0.1, 0.6});
        ReadingsSummary summary = ReadingsSummary.of(
                narrow, List.of(read(1, 0.1), read(1, 0.1), read(2, first), read(2, second), read(2, 0.6)));
        assertEquals(1, summary.visits());
        assertEquals(stale, summary.staleVisits());
    }

    @Test
    void everyChangeOfStepIsAVisit() {
        ReadingsSummary summary =
                of(read(1, 0.1), read(2, 0.1), read(2, 1.1), read(3, 1.1), read(3, 2.1), read(1, 2.1), read(1, 0.1));
        assertEquals(3, summary.visits());
        assertEquals(3, summary.staleVisits());
    }

    /** A new run begins when a step is read again after another one. */
    @Test
    void runsWithoutLabelsBeginWithAStepReadBefore() {
        assertEquals(1, ofSteps(1, 1, 2, 2, 3).runsKept());
        assertEquals(2, ofSteps(1, 2, 3, 1, 2, 3).runsKept());
        assertEquals(3, ofSteps(1, 2, 1, 2, 2, 1).runsKept());
        ReadingsSummary two = of(read(1, 0.1), read(1, 0.14), read(2, 1.1), read(1, 0.2));
        assertEquals(0.12, two.runMean(0, 1).orElseThrow(), 1e-12);
        assertEquals(0.2, two.runMean(1, 1).orElseThrow(), 1e-12);
        assertTrue(two.runMean(1, 2).isEmpty());
    }

    /** Labels alone separate runs where they are stated; the first label begins no second run. */
    @Test
    void runsWithLabelsBeginWithAnother() {
        List<LogReading> readings = new ArrayList<>();
        for (String label : new String[] {"a", "a", "b"}) {
            for (int step = 1; step <= 3; step++) {
                readings.add(
                        read(step, step - 0.9 + (label.equals("b") ? 0.1 : 0)).withRun(label));
            }
        }
        ReadingsSummary summary = ReadingsSummary.of(THREE, readings);
        assertEquals(2, summary.runsKept());
        assertEquals(0.1, summary.runMean(0, 1).orElseThrow(), 1e-12);
        assertEquals(0.2, summary.runMean(1, 1).orElseThrow(), 1e-12);
        assertEquals(1, ReadingsSummary.of(THREE, readings.subList(0, 6)).runsKept());
        List<LogReading> many = IntStream.range(0, 9)
                .mapToObj(run -> read(1, 0.1 + 0.01 * run).withRun("run " + run))
                .toList();
        assertEquals(8, ReadingsSummary.of(THREE, many).runsKept(), "the means of eight runs are kept");
    }

    /** Two readings of each of three steps: six a pass, two passes, from the dense end. */
    @Test
    void aLogWithoutStepsFollowsTheirOrder() {
        RunningSummary running = RunningSummary.inOrder(THREE, ReadingOrder.FROM_DENSE_END, 2);
        double[] densities = {2.1, 2.1, 1.1, 1.1, 0.1, 0.1, 2.3, 2.3, 1.3, 1.3, 0.3, 0.3};
        for (int i = 0; i < densities.length; i++) {
            if (i % 6 != 0) {
                LogTally tally = LogTally.ofReadings(i);
                assertThrows(DensitometerInputException.class, () -> running.summary(tally));
            }
            running.accept(LogReading.of(Density.of(densities[i]), 2));
        }
        ReadingsSummary summary = running.summary(LogTally.ofReadings(12));
        assertEquals(2, summary.runsKept());
        assertEquals(2.1, summary.runMean(0, 3).orElseThrow(), 1e-12);
        assertEquals(0.3, summary.runMean(1, 1).orElseThrow(), 1e-12);
        assertEquals(1, running.lastStep().orElseThrow());
        RunningSummary labelled = RunningSummary.inOrder(THREE, ReadingOrder.FROM_CLEAR_END, 1);
        for (double density : new double[] {0.1, 1.1, 2.1, 0.1, 1.1, 2.1}) {
            labelled.accept(LogReading.of(Density.of(density), 2).withRun("one label"));
        }
        assertEquals(2, labelled.summary(LogTally.ofReadings(6)).runsKept(), "a pass is a run");
    }

    /** Steps at 0.1, 1.1 and 2.1: read from the other end, each reading lies nearer to its mirror image than to its step. */
    @ParameterizedTest
    @CsvSource({
        "FROM_CLEAR_END, '2.1 1.1 0.1 2.0 1.1 0.2', dense",
        "FROM_DENSE_END, '0.1 1.1 2.1 0.2 1.0 2.1', clear",
        // a line is not so exact that it could not be told: gain 0.7, offset 0.2
        "FROM_CLEAR_END, '1.67 0.97 0.27', dense",
        // as stated; up and down the tablet; the sign is missing; always the same; transmittances instead of densities
        "FROM_CLEAR_END, '0.1 1.1 2.1 0.2 1.0 2.1',",
        "FROM_DENSE_END, '2.1 1.1 0.1',",
        "FROM_CLEAR_END, '0.1 1.1 2.1 2.1 1.1 0.1',",
        "FROM_CLEAR_END, '-0.1 -1.1 -2.1',",
        "FROM_CLEAR_END, '1.2 1.2 1.2',",
        "FROM_CLEAR_END, '0.79 0.08 0.01',",
        // beyond the range, or no more light than dark, is dense: an offset of 1.6 makes no other end
        "FROM_CLEAR_END, '1.7 OL OL',",
        "FROM_CLEAR_END, '1.7 dark dark',",
        "FROM_CLEAR_END, 'OL 1.1 0.1', dense",
        "FROM_CLEAR_END, 'dark 1.1 0.1', dense"
    })
    void aLogWithoutStepsThatWasReadFromTheOtherEndIsRefused(ReadingOrder stated, String densities, String shown) {
        RunningSummary running = RunningSummary.inOrder(THREE, stated, 1);
        String[] each = densities.split(" ", -1);
        for (String density : each) {
            switch (density) {
                case "OL" -> running.refuse(1, LineKind.OVERRANGE, 0);
                case "dark" -> running.accept(LogReading.of(RawCounts.of(0, 0, 1000)));
                default ->
                    running.accept(
                            LogReading.of(RawCounts.of(1000 * Math.pow(10, -Double.parseDouble(density)), 0, 1000)));
            }
        }
        LogTally tally = LogTally.ofReadings(each.length);
        assertEquals(each.length, running.summarySoFar(tally).tally().lines());
        if (shown == null) {
            assertEquals(each.length, running.summary(tally).tally().lines());
        } else {
            String said = assertThrows(DensitometerInputException.class, () -> running.summary(tally))
                    .getMessage();
            assertTrue(said.contains("was read from its " + shown + " end"), said);
            assertTrue(said.contains("; state the order from-" + shown + "-end;"), said);
        }
    }

    /** 100 · 10^−D of the steps: 79.4, 7.94 and 0.794 fall, but 79.4 is no density of a dense end. */
    @Test
    void transmittancesInPercentAreJudgedAndNotTakenForTheOtherEnd() throws IOException {
        RunningSummary running = RunningSummary.inOrder(THREE, ReadingOrder.FROM_CLEAR_END, 1);
        LogTally tally = DensitometerLogReader.of(LogLayout.parse("bare decimals=3"))
                .read(new ByteArrayInputStream("79.433\n7.943\n0.794\n".getBytes(StandardCharsets.US_ASCII)), running);
        assertEquals(List.of(1), running.summary(tally).implausibleSteps());
    }

    /** Steps are 1.0 apart; readings that differ by less than 0.5 are of one step. */
    @ParameterizedTest
    @CsvSource({
        "1, '0.1 0.1 1.1 1.1 2.1 2.1', 2",
        "1, '0.1 0.5 1.1 1.0 2.1 2.2 0.1 0.1 1.1 1.2 2.1 2.1', 2",
        "2, '0.1 1.1 2.1 0.2 1.0 2.1', 1",
        "3, '0.1 1.1 2.1 0.2 1.0 2.1 0.1 1.1 2.1', 1",
        // correct as stated
        "2, '0.1 0.1 1.1 1.1 2.1 2.1', 0",
        "1, '0.1 1.1 2.1 0.1 1.1 2.1', 0",
        // each reading is repeated once by the firmware, and the steps were read in two passes
        "1, '0.1 0.1 2.1 2.1 1.1 1.1', 0",
        // not a whole number of readings each
        "1, '0.1 0.1 0.1 0.1 0.1 0.1 0.1 1.1 2.1', 0",
        // all but the first step lie beyond the range
        "1, '0.1 OL OL 0.1 OL OL', 0"
    })
    void aLogWithoutStepsThatWasReadOtherwiseThanStatedIsRefused(int stated, String densities, int shown) {
        RunningSummary running = RunningSummary.inOrder(THREE, ReadingOrder.FROM_CLEAR_END, stated);
        String[] each = densities.split(" ", -1);
        for (String density : each) {
            if (density.equals("OL")) {
                running.refuse(1, LineKind.OVERRANGE, 0);
            } else {
                running.accept(LogReading.of(Density.of(Double.parseDouble(density)), 2));
            }
        }
        LogTally tally = LogTally.ofReadings(each.length);
        if (shown == 0) {
            assertEquals(each.length, running.summary(tally).tally().lines());
        } else {
            String said = assertThrows(DensitometerInputException.class, () -> running.summary(tally))
                    .getMessage();
            assertTrue(said.contains("state readings per step: " + shown + ";"), said);
            assertTrue(
                    said.contains(shown == 1 ? "was read once before" : "was read " + shown + " times before"), said);
        }
    }

    @Test
    void linesBeyondTheRangeBelongToStepsOfTheTablet() {
        RunningSummary running = RunningSummary.byStepNumber(THREE);
        running.accept(read(1, 0.1));
        running.accept(read(3, 2.1));
        for (int step : new int[] {0, 1, 3, 3, 4}) {
            running.refuse(1, LineKind.OVERRANGE, step);
        }
        running.refuse(1, LineKind.UNREADABLE, 2);
        for (int step = 4; step < 40; step++) {
            running.accept(read(step, 1));
        }
        running.accept(read(4, 1));
        assertFalse(running.isComplete());
        ReadingsSummary summary = running.summarySoFar(LogTally.ofReadings(2));
        assertEquals(1, summary.overrange(1));
        assertEquals(0, summary.overrange(2));
        assertEquals(2, summary.overrange(3));
        assertEquals(IntStream.range(4, 24).boxed().toList(), summary.strangeSteps(), "the first twenty");
        assertEquals(1, running.count(3));
        running.accept(read(2, 1.1));
        assertTrue(running.isComplete());
    }

    /**
     * Readings that are all multiples of 0.05: for n steps by chance once in 5^(n−1). Beyond once in 1,000, from six steps on,
     * 0.05 is the unit. The steps of the tablet are 3.25 units apart.
     */
    @ParameterizedTest
    @CsvSource({"4, 0.01", "5, 0.01", "6, 0.05", "7, 0.05"})
    void aCoarseUnitNeedsEnoughSteps(int steps, double unit) {
        double[] certified = new double[steps];
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < steps; i++) {
            certified[i] = 0.05 + 0.1625 * i;
            readings.add(read(i + 1, Math.rint(certified[i] / 0.05) * 0.05));
        }
        StepTablet tablet = StepTablet.calibrated("uneven", 0.02, certified);
        assertEquals(unit, ReadingsSummary.of(tablet, readings).resolution().orElseThrow(), 1e-12);
    }

    /** One decimal, then two: 0.7, 1.7, 0.95, 1.2 … are 0.25 apart, which a tablet of such steps would explain. */
    @Test
    void unitsAreComparedAtTheMostDecimals() {
        double[] uneven = {0.66, 0.99, 1.23, 1.39, 1.77, 1.91, 2.22};
        double[] even = {0.7, 0.95, 1.2, 1.45, 1.7, 1.95, 2.2};
        List<LogReading> readings = new ArrayList<>();
        for (int i : new int[] {0, 4, 1, 2, 3, 5, 6}) {
            readings.add(LogReading.of(Density.of(even[i]), i % 4 == 0 ? 1 : 2).withStep(i + 1));
        }
        assertEquals(
                0.25,
                ReadingsSummary.of(StepTablet.calibrated("uneven", 0.02, uneven), readings)
                        .resolution()
                        .orElseThrow(),
                1e-12);
        assertEquals(
                0.01,
                ReadingsSummary.of(StepTablet.calibrated("even", 0.02, even), readings)
                        .resolution()
                        .orElseThrow(),
                1e-12);
    }

    /** The log spans an hour and 4 K, unless a reading does not say when or how warm. */
    @Test
    void timeAndTemperatureSpanTheLogIfAllReadingsStateThem() {
        LogReading early = read(1, 0.1).withSeconds(100).withCelsius(24);
        LogReading late = read(1, 0.11).withSeconds(3700).withCelsius(20);
        LogReading middle = read(1, 0.1).withSeconds(2000).withCelsius(23);
        assertEquals(1, of(early, late, middle).drift().hoursSpanned(), 1e-12);
        assertEquals(4, of(early, late, middle).drift().kelvinsSpanned(), 1e-12);
        assertEquals(0, of(early, late, read(1, 0.1)).drift().hoursSpanned());
        assertEquals(0, of(read(1, 0.1), early, late).drift().kelvinsSpanned());
    }

    /** 10,000 counts through the open gate, 100 in the dark: 1,090 counts are the density −log₁₀ (990/9,900) = 1. */
    @Test
    void countsGiveDensitiesAndTheirMeans() {
        ReadingsSummary summary = of(
                LogReading.of(RawCounts.of(1_089, 100, 9_991)).withStep(2),
                LogReading.of(RawCounts.of(1_091, 100, 10_009)).withStep(2),
                LogReading.of(RawCounts.of(90, 100, 10_000)).withStep(3));
        StepReadings step = summary.recomputed().get(0);
        assertEquals(1, step.mean(), 1e-7);
        assertEquals(1_090, step.meanCounts().orElseThrow().sample(), 1e-9);
        assertEquals(10_000, step.meanCounts().orElseThrow().openGate(), 1e-9);
        assertEquals(1, summary.belowDark(3));
    }

    /** Moved readings give the same figures as a log in which they have these numbers from the start. */
    @Test
    void movedReadingsAreThoseOfALogWithOtherNumbers() {
        double[] densities = {0.11, 1.13, 1.18, 2.12, 0.08, 1.04, 1.09, 2.07};
        int[] steps = {1, 2, 2, 3, 1, 2, 2, 3};
        for (int by : new int[] {1, -1}) {
            int shift = by;
            List<LogReading> log = new ArrayList<>();
            List<LogReading> right = new ArrayList<>();
            for (int i = 0; i < steps.length; i++) {
                LogReading reading =
                        read(steps[i], densities[i]).withSeconds(10.0 * i).withCelsius(20 + 0.1 * i * i);
                int to = i < 4 || steps[i] < 2 ? steps[i] : steps[i] + by;
                log.add(reading);
                // moved forwards, step 3 is beyond the tablet; moved back, step 2 has its own readings already
                if (to <= 3 && (to > 1 || i < 5)) {
                    right.add(reading.withStep(to));
                }
            }
            ReadingsSummary moved =
                    ReadingsSummary.of(THREE, log).withReadingsMoved(1, step -> step < 2 ? step : step + shift);
            ReadingsSummary expected = ReadingsSummary.of(THREE, right);
            for (int step = 0; step < expected.densities().size(); step++) {
                StepReadings of = expected.densities().get(step);
                StepReadings is = moved.densities().get(step);
                assertEquals(of.step(), is.step());
                assertEquals(of.count(), is.count());
                assertEquals(of.runs(), is.runs());
                assertEquals(of.mean(), is.mean(), 1e-12);
                assertEquals(of.lowest(), is.lowest());
                assertEquals(of.highest(), is.highest());
                assertEquals(of.repeatability().orElse(-1), is.repeatability().orElse(-1), 1e-12);
                assertEquals(of.varianceBetweenRuns(), is.varianceBetweenRuns(), 1e-12);
                assertEquals(of.smallestChange().orElse(-1), is.smallestChange().orElse(-1), 1e-12);
                assertEquals(expected.runMean(1, step + 1), moved.runMean(1, step + 1));
            }
            assertEquals(expected.densities().size(), moved.densities().size());
        }
    }

    @Test
    void readingsAreMovedWithinTheTabletAndItsRuns() {
        ReadingsSummary summary = ofSteps(1, 2, 3);
        assertThrows(IndexOutOfBoundsException.class, () -> summary.withReadingsMoved(1, step -> step));
        assertThrows(IndexOutOfBoundsException.class, () -> summary.withReadingsMoved(-1, step -> step));
        assertThrows(DensitometerInputException.class, () -> summary.withReadingsMoved(0, step -> step + 3));
        assertThrows(DensitometerInputException.class, () -> summary.withReadingsMoved(0, step -> step - 3));
    }
}
