// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntPredicate;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * What is said about an instrument whose log has steps that were skipped or read twice. The other findings must be those
 * of the same readings in a log whose numbers are right.
 */
class SkippedStepsTest {

    private static final int STEPS = Logs.TABLET.steps().size();

    /** What an instrument makes of densities, and the fault that it must be told. */
    enum Instrument {
        RIGHT(null),
        SLOPE(FindingKind.SLOPE),
        LEAK(FindingKind.STRAY_LIGHT),
        BEND(FindingKind.NON_LINEAR),
        GAIN(FindingKind.GAIN_RATIO_WRONG);

        private final FindingKind fault;

        Instrument(FindingKind fault) {
            this.fault = fault;
        }

        DoubleUnaryOperator optics() {
            return switch (this) {
                case RIGHT -> density -> density;
                case SLOPE -> density -> 1.06 * density;
                case LEAK -> SimulatedDensitometer.leaking(5e-4);
                case BEND -> density -> density + 0.06 * Math.sin(2 * density);
                case GAIN -> density -> density + (density < 1.5 ? 0 : 0.08);
            };
        }
    }

    /**
     * Passes in each of which a step is read three times.
     *
     * @param gates the step in the gate when it should be another, in the last pass; beyond the tablet nothing is read
     */
    private static List<LogReading> log(Instrument instrument, int runs, IntUnaryOperator gates) {
        SimulatedDensitometer densitometer = new SimulatedDensitometer(4);
        densitometer.optics = instrument.optics();
        densitometer.runs = runs;
        List<LogReading> right = densitometer.read(Logs.TABLET);
        int pass = 3 * STEPS;
        List<LogReading> log = new ArrayList<>(right.subList(0, pass * (runs - 1)));
        for (int step = 1; step <= STEPS; step++) {
            int gate = gates.applyAsInt(step);
            for (int i = 3 * (gate - 1); gate <= STEPS && i < 3 * gate; i++) {
                log.add(right.get(pass * (runs - 1) + i).withStep(step));
            }
        }
        return log;
    }

    private static List<LogReading> only(List<LogReading> log, IntPredicate steps) {
        return log.stream()
                .filter(reading -> steps.test(reading.step().orElseThrow()))
                .toList();
    }

    private static DensitometerVerdict judged(List<LogReading> log) {
        return DensitometerCheck.withDefaults().judge(ReadingsSummary.of(Logs.TABLET, log));
    }

    /** Without what is said about steps that are skipped or not read. */
    private static List<Finding> others(DensitometerVerdict verdict) {
        return verdict.findings().stream()
                .filter(found -> found.kind() != FindingKind.STEP_SKIPPED && found.kind() != FindingKind.STEP_NOT_READ)
                .toList();
    }

    private static List<FindingKind> faults(DensitometerVerdict verdict) {
        return verdict.findings().stream()
                .filter(found -> found.severity() == Severity.FAULT)
                .map(Finding::kind)
                .toList();
    }

    private static void assertJudgedAsIfNumberedRightly(
            Instrument instrument, List<LogReading> log, List<LogReading> right) {
        DensitometerVerdict verdict = judged(log);
        assertEquals(FindingKind.STEP_SKIPPED, faults(verdict).get(0));
        assertEquals(others(judged(right)), others(verdict));
        assertTrue(
                instrument.fault == null
                        ? faults(verdict).size() == 1
                        : faults(verdict).contains(instrument.fault),
                verdict.findings()::toString);
        assertEquals(
                judged(right).comparison().slope().value(),
                verdict.opticalComparison().slope().value(),
                1e-12);
        assertEquals(CheckOutcome.FAILED, verdict.outcome());
    }

    @ParameterizedTest
    @EnumSource
    void anInstrumentIsJudgedWithoutTheSkippedStep(Instrument instrument) {
        for (int runs : new int[] {1, 3}) {
            List<LogReading> log = log(instrument, runs, step -> step < 6 ? step : step + 1);
            List<LogReading> right = log(instrument, runs, step -> step);
            int last = 3 * STEPS * (runs - 1) + 3 * 5;
            List<LogReading> left = new ArrayList<>(right.subList(0, last));
            left.addAll(right.subList(last + 3, right.size()));
            assertJudgedAsIfNumberedRightly(instrument, log, left);
        }
    }

    /** The readings made of the step when it was in the gate again are left out, and the last step was not read. */
    @ParameterizedTest
    @EnumSource
    void anInstrumentIsJudgedWithoutTheSecondReadingsOfAStep(Instrument instrument) {
        for (int runs : new int[] {1, 3}) {
            List<LogReading> log = log(instrument, runs, step -> step < 14 ? step : step - 1);
            List<LogReading> right = log(instrument, runs, step -> step);
            assertJudgedAsIfNumberedRightly(instrument, log, right.subList(0, right.size() - 3));
        }
    }

    /** Step 6 is skipped, and step 14 read twice: what is numbered 13 and 14. Both are told, and nothing else. */
    @Test
    void aSkippedStepAndOneReadTwiceAreBothTold() {
        DensitometerVerdict verdict = judged(log(Instrument.RIGHT, 1, step -> step < 6 || step > 13 ? step : step + 1));
        assertEquals(List.of(FindingKind.STEP_SKIPPED, FindingKind.STEP_SKIPPED), faults(verdict));
        assertEquals(
                "from step 6 on the readings are those of the step after, as if one had been skipped",
                verdict.findings().get(0).message());
        assertEquals(
                "from step 14 on the readings are those of their own steps again, as if one more had been read twice",
                verdict.findings().get(1).message());
        assertEquals(STEPS - 1, verdict.realignedSummary().densities().size());
    }

    /** A step that was read twice moves the last one beyond the tablet. */
    @Test
    void aStepBeyondTheTabletIsExplained() {
        List<LogReading> log = new ArrayList<>(log(Instrument.RIGHT, 1, step -> step < 14 ? step : step - 1));
        log.add(LogReading.of(Logs.TABLET.steps().get(STEPS - 1).density(), 3).withStep(STEPS + 1));
        assertEquals(List.of(FindingKind.STEP_SKIPPED), faults(judged(log)));
        log.add(LogReading.of(Density.of(3), 3).withStep(STEPS + 2));
        DensitometerVerdict verdict = judged(log);
        assertEquals(List.of(FindingKind.STEP_SKIPPED, FindingKind.UNKNOWN_STEP), faults(verdict));
        assertTrue(verdict.findings().stream().anyMatch(found -> found.message().contains("the log has step 23,")));
    }

    /** A step that is not in the log is told by its own number: 15, whose readings would have been numbered 14. */
    @Test
    void aMissingStepIsToldBesideTheSkippedOne() {
        List<LogReading> log = log(Instrument.RIGHT, 1, step -> step < 6 ? step : step + 1);
        DensitometerVerdict verdict = judged(only(log, step -> step != 14));
        assertEquals(List.of(FindingKind.STEP_SKIPPED, FindingKind.STEP_NOT_READ), faults(verdict));
        assertEquals(
                OptionalInt.of(15),
                verdict.findings().stream()
                        .filter(found -> found.kind() == FindingKind.STEP_NOT_READ)
                        .findFirst()
                        .orElseThrow()
                        .step());
    }

    /**
     * Step 2 of nine is read as step 1. The others then look shifted, and shifted again once they are moved: without an end
     * if it were looked for in what was moved.
     */
    @Test
    void aLogIsMovedOnce() {
        double[] densities = {0.0759, 0.3800, 0.7450, 1.2024, 1.5593, 2.0216, 2.3506, 2.7452, 3.2269};
        StepTablet tablet = StepTablet.calibrated("nine steps", 0.004, densities);
        double[][] read = {
            {0.091, 0.060, 0.102},
            {0.070, 0.058, 0.044},
            {0.747, 0.721, 0.739},
            {1.216, 1.180, 1.227},
            {1.553, 1.567, 1.585},
            {2.023, 1.992, 2.005},
            {2.358, 2.320, 2.344},
            {2.764, 2.744, 2.754},
            {3.256, 3.204, 3.239},
        };
        List<LogReading> log = new ArrayList<>();
        for (int step = 1; step <= read.length; step++) {
            for (double density : read[step - 1]) {
                log.add(LogReading.of(Density.of(density), 3).withStep(step));
            }
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults().judge(ReadingsSummary.of(tablet, log));
        assertEquals(CheckOutcome.FAILED, verdict.outcome());
        assertEquals(
                1,
                faults(verdict).stream()
                        .filter(kind -> kind == FindingKind.STEP_SKIPPED)
                        .count());
    }

    @Test
    void readingsOfOtherStepsAreCorrectedOnlyIfTheUserPutsThemRight() {
        List<LogReading> log = log(Instrument.SLOPE, 3, step -> step < 6 ? step : step + 1);
        DensitometerVerdict verdict = judged(log);
        assertSame(
                FindingKind.STEP_SKIPPED,
                verdict.obstacleToCorrection().orElseThrow().kind());
        DensitometerInputException withheld = assertThrows(DensitometerInputException.class, verdict::correction);
        assertTrue(withheld.getMessage().contains("from step 6 on the readings are those of the step after"));
        assertTrue(withheld.remedy().contains("read the tablet again from that step on"), withheld::remedy);

        DensitometerVerdict right = DensitometerCheck.withDefaults().judge(verdict.realignedSummary());
        assertSame(right.summary(), right.realignedSummary());
        assertEquals(1.06, right.correction().slope().orElseThrow(), 0.003);
    }
}
