// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntFunction;
import java.util.function.IntToDoubleFunction;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Each named fault at its limits, worked by hand. Ten steps 0, 0.3 … 2.7 are allowed 0.02 each; a reading belongs to the
 * step that is closer than 0.3 of the spacing, 0.09. The limits are those of {@link NamedFaults}, the project's own.
 */
class NamedFaultsTest {

    private static final int STEPS = 10;
    private static final double[] EVEN = tablet(STEPS);

    private static double[] tablet(int steps) {
        double[] densities = new double[steps];
        for (int i = 0; i < steps; i++) {
            densities[i] = 0.3 * i;
        }
        return densities;
    }

    private static List<Finding> named(double[] certified, List<LogReading> readings) {
        return named(certified, 0.02, readings);
    }

    private static List<Finding> named(double[] certified, double allowed, List<LogReading> readings) {
        ReadingsSummary summary = ReadingsSummary.of(StepTablet.calibrated("steps", 0.0005, certified), readings);
        return NamedFaults.of(
                        summary,
                        CertificateComparison.of(
                                summary.densities(), summary.resolution().orElse(0)),
                        new DensityTolerance(allowed, 0),
                        Set.of())
                .found();
    }

    private static LogReading reading(int step, double density) {
        return LogReading.of(Density.of(density), 6).withStep(step);
    }

    /** One reading of each step; NaN where it is not read. */
    private static List<LogReading> pass(int steps, IntToDoubleFunction density) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= steps; step++) {
            double read = density.applyAsDouble(step);
            if (!Double.isNaN(read)) {
                readings.add(reading(step, read));
            }
        }
        return readings;
    }

    private static List<Finding> passed(IntToDoubleFunction density) {
        return named(EVEN, pass(STEPS, density));
    }

    private static void assertNamed(FindingKind kind, int step, String words, List<Finding> found) {
        assertEquals(1, found.size(), found.toString());
        assertEquals(kind, found.get(0).kind(), found.toString());
        assertEquals(Severity.FAULT, found.get(0).severity());
        assertEquals(step > 0, found.get(0).step().isPresent(), found.toString());
        assertEquals(step, found.get(0).step().orElse(0));
        assertTrue(found.get(0).message().contains(words), found.toString());
    }

    private static void assertNotNamed(FindingKind kind, List<Finding> found) {
        assertTrue(found.stream().noneMatch(one -> one.kind() == kind), found.toString());
    }

    private static void assertNamedOrNot(boolean is, FindingKind kind, int step, String words, List<Finding> found) {
        if (is) {
            assertNamed(kind, step, words, found);
        } else {
            assertNotNamed(kind, found);
        }
    }

    @ParameterizedTest
    @CsvSource({"0.089, true", "-0.089, true", "0.091, false", "-0.091, false"})
    void stepsAreSwappedIfEachIsReadAsTheOther(double off, boolean is) {
        List<Finding> found = passed(
                step -> off * (step == 4 || step == 5 ? 1 : 0) + EVEN[(step == 4 ? 5 : step == 5 ? 4 : step) - 1]);
        assertNamedOrNot(is, FindingKind.STEPS_SWAPPED, 4, "steps 4 and 5 are swapped", found);
    }

    /** Steps 5 and 6 are 0.1 apart and 0.3 from the others: 0.03 is the limit for both. */
    @ParameterizedTest
    @CsvSource({"0.029, 0, true", "0.031, 0, false", "0, 0.029, true", "0, 0.031, false"})
    void theNearerNeighbourLimitsWhatAReadingMayBe(double atFive, double atSix, boolean is) {
        double[] uneven = {0, 0.3, 0.6, 0.9, 1.2, 1.3, 1.6, 1.9, 2.2, 2.5};
        List<Finding> found = named(
                uneven, pass(STEPS, step -> step == 5 ? 1.3 + atFive : step == 6 ? 1.2 + atSix : uneven[step - 1]));
        assertNamedOrNot(is, FindingKind.STEPS_SWAPPED, 5, "steps 5 and 6", found);
    }

    @ParameterizedTest
    @CsvSource({"0", "1"})
    void theRunWithTheSwappedStepsIsTold(int faulty) {
        List<LogReading> readings = new ArrayList<>();
        for (int run = 0; run < 2; run++) {
            for (int step = 1; step <= STEPS; step++) {
                int read = run != faulty ? step : step == 4 ? 5 : step == 5 ? 4 : step;
                readings.add(reading(step, EVEN[read - 1]).withRun("run " + run));
            }
        }
        assertNamed(
                FindingKind.STEPS_SWAPPED,
                4,
                "steps 4 and 5 are swapped in run " + (faulty + 1),
                named(EVEN, readings));
    }

    /** Of the second run only steps 4 and 5 were read, and 6 or not. */
    @ParameterizedTest
    @CsvSource({"5, false", "6, true"})
    void aRunOfTwoStepsTellsNothing(int last, boolean is) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            readings.add(reading(step, EVEN[step - 1]).withRun("one"));
        }
        for (int step = 4; step <= last; step++) {
            readings.add(reading(step, EVEN[(step == 4 ? 5 : step == 5 ? 4 : step) - 1])
                    .withRun("two"));
        }
        assertNamedOrNot(is, FindingKind.STEPS_SWAPPED, 4, "in run 2", named(EVEN, readings));
    }

    /** From a step on the readings are those of another; steps that would be beyond the tablet are not read. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1 | 1 | STEPS_MISNUMBERED | 1 | each step is read as the one after it: the numbers of the steps are off"
                        + " by one, as when they are counted from 0",
                "1 | 2 | STEPS_MISNUMBERED | 1 | each step is read as the one after it: the numbers of the steps are off"
                        + " by two",
                "1 | -1 | STEPS_MISNUMBERED | 2 | each step is read as the one before it: the numbers of the steps are off"
                        + " by one",
                "1 | -2 | STEPS_MISNUMBERED | 3 | each step is read as the one before it: the numbers of the steps are off"
                        + " by two",
                "2 | 1 | STEP_SKIPPED | 2 | from step 2 on the readings are those of the step after, as if one had been"
                        + " skipped",
                "5 | 2 | STEP_SKIPPED | 5 | from step 5 on the readings are those of the second step after, as if two had been"
                        + " skipped",
                "5 | -1 | STEP_SKIPPED | 5 | from step 5 on the readings are those of the step before, as if one had been"
                        + " read twice",
                "5 | -2 | STEP_SKIPPED | 5 | from step 5 on the readings are those of the second step before, as if two had been"
                        + " read twice",
            })
    void stepsAreSkippedOrMisnumbered(int first, int shift, FindingKind kind, int step, String words) {
        List<Finding> found = passed(i -> {
            int read = i < first ? i : i + shift;
            return read < 1 || read > STEPS ? Double.NaN : EVEN[read - 1];
        });
        assertNamed(kind, step, words, found);
        assertEquals(words, found.get(0).message());
    }

    /**
     * All readings are those of a neighbour; the one at the end would be beyond the tablet and counts as explained; some are half-way between two. Of the
     * ten, 0.85 must be explained: nine are enough, eight are not.
     */
    @ParameterizedTest
    @CsvSource({
        "1, 1, STEPS_MISNUMBERED, each step is read as the one after it",
        "1, 2, , ",
        "-1, 1, STALE_READINGS, 'each reading is that of the step before: stale, or the steps are numbered from 2'",
        "-1, 2, , "
    })
    void mostStepsMustBeThoseOfANeighbour(int shift, int between, FindingKind kind, String words) {
        List<Finding> found = passed(i -> {
            int read = i + shift;
            double half = i > 4 && i <= 4 + between ? 0.15 : 0;
            return read < 1 ? 2.4 : read > STEPS ? 3 : EVEN[read - 1] + half;
        });
        if (kind == null) {
            assertNotNamed(FindingKind.STEPS_MISNUMBERED, found);
            assertNotNamed(FindingKind.STALE_READINGS, found);
        } else {
            assertNamed(kind, 1, words, found);
        }
    }

    /** One step read as the next one is no shift; two are. */
    @Test
    void oneWrongStepIsNotASkippedOne() {
        assertEquals(List.of(), passed(step -> EVEN[step - (step == 5 ? 0 : 1)]));
        assertNotNamed(FindingKind.STEP_SKIPPED, passed(step -> step < 9 ? EVEN[step - 1] : 0.3 * step));
        assertNamed(
                FindingKind.STEP_SKIPPED,
                8,
                "from step 8 on",
                passed(step -> step < 8 ? EVEN[step - 1] : step < 10 ? EVEN[step] : Double.NaN));
    }

    /** Step 3 is skipped, and dust lies on one of the following: off by a step and a half, it belongs to none. */
    @ParameterizedTest
    @ValueSource(ints = {4, 6, 9})
    void aWildReadingDoesNotHideASkippedStep(int wild) {
        IntToDoubleFunction skipped = step -> step < 3 ? EVEN[step - 1] : step < STEPS ? EVEN[step] : Double.NaN;
        assertNamed(
                FindingKind.STEP_SKIPPED,
                3,
                "from step 3 on the readings are those of the step after, as if one had been skipped",
                passed(step -> skipped.applyAsDouble(step) + (step == wild ? 0.45 : 0)));
    }

    private static List<Finding> logarithm(int steps, double off, IntUnaryOperator wrong) {
        double[] densities = tablet(steps);
        return named(
                densities, pass(steps, step -> Math.log(10) * (densities[step - 1] + off) + wrong.applyAsInt(step)));
    }

    /**
     * The natural logarithm of the opacity is ln 10 = 2.302585 times the density. More than 0.9 of the steps must follow it:
     * nine of ten do not suffice, ten of eleven do. A certified density may be wrong by the 0.02 that are allowed; the steps of
     * the trial are 0.04/32, and two of them are let pass.
     */
    @Test
    void aFormulaMustExplainNearlyAllSteps() {
        String words = "the natural logarithm is used (NATURAL_LOGARITHM)";
        assertNamed(FindingKind.ARITHMETIC_SUSPECTED, 0, words, logarithm(10, 0, step -> 0));
        assertNamed(FindingKind.ARITHMETIC_SUSPECTED, 0, words, logarithm(11, 0, step -> step == 6 ? 1 : 0));
        assertNamed(FindingKind.ARITHMETIC_SUSPECTED, 0, words, logarithm(10, 0.0199, step -> 0));
        assertNamed(FindingKind.ARITHMETIC_SUSPECTED, 0, words, logarithm(10, -0.0199, step -> 0));
        for (List<Finding> none : List.of(
                logarithm(10, 0, step -> step == 6 ? 1 : 0),
                logarithm(10, 0.0227, step -> 0),
                logarithm(10, -0.0227, step -> 0))) {
            assertTrue(
                    none.stream().noneMatch(found -> found.kind() == FindingKind.ARITHMETIC_SUSPECTED),
                    none.toString());
        }
    }

    /** 1.05 printed as 1.5 (one step of ten) is the only difference: the formula explains one step more than the density. */
    @Test
    void aFormulaMayDifferAtOneStep() {
        double[] densities = {0.11, 0.31, 0.61, 0.91, 1.05, 1.31, 1.61, 1.91, 2.21, 2.51};
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < STEPS; i++) {
            readings.add(
                    LogReading.of(Density.of(i == 4 ? 1.5 : densities[i]), 2).withStep(i + 1));
        }
        List<Finding> found = named(densities, readings);
        assertNamed(FindingKind.ARITHMETIC_SUSPECTED, 0, "without leading zeros (1.5 for 1.05)", found);
        assertTrue(found.get(0).remedy().contains("%d.%02d"), found.get(0).remedy());
    }

    /** At twice the gain and half the time of the open gate, whose dark is 30. */
    private static LogReading counted(int step, double sample, double dark, double open) {
        return counted(step, new RawCounts(sample, dark, open, 30, 2, 0.5));
    }

    private static LogReading counted(int step, RawCounts counts) {
        return LogReading.of(Density.of(counts.density()), 6).withCounts(counts).withStep(step);
    }

    /** A converter of 15 bits ends at 32,767: the steps that would count more, 300,000 to 37,768, are all too dense. */
    @Test
    void theLastOfTheClippedStepsIsTold() {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double sample = Math.min(32_767, 300_000 * Math.pow(10, -EVEN[step - 1]));
            readings.add(counted(step, new RawCounts(sample, 0, 300_000, 0, 1, 1)));
        }
        assertNamed(FindingKind.SAMPLE_CLIPPED, 4, "up to step 4", named(EVEN, readings));
    }

    /** At full scale by chance, with the right density: nothing is clipped. The limit of a converter is 2^n − 1, n from 8. */
    @Test
    void aRightDensityAtFullScaleIsNotClipped() {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double open = 32_767 * Math.pow(10, 0.3);
            double counts = step == 2 ? 32_767 : open * Math.pow(10, -EVEN[step - 1] - (step == 9 ? 0.03 : 0));
            readings.add(counted(step, new RawCounts(counts, 0, open, 0, 1, 1)));
        }
        assertEquals(List.of(), named(EVEN, readings));
    }

    /**
     * Counts modulo a power of two, of a light that opens the gate with so many ranges and is 10^−D of it at a step. Up to seven
     * ranges are added; a step that still reads wrong speaks against it.
     */
    @ParameterizedTest
    @CsvSource({"65536, 7.9, 0, true", "65536, 8.1, 0, false", "65536, 7.9, 0.03, false", "256, 7.9, 0, true"})
    void countsRunOver(double range, double ranges, double offAtTheEnd, boolean is) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double light = ranges * range * Math.pow(10, -EVEN[step - 1]);
            double dark = range / 1600;
            double sample = (dark + light) % range * Math.pow(10, step == 9 ? offAtTheEnd : 0);
            readings.add(counted(step, sample, dark, ranges * range + 30));
        }
        List<Finding> found = named(EVEN, readings);
        assertNamedOrNot(is, FindingKind.COUNTS_OVERFLOW, 0, "with " + Math.round(range) + " or a multiple", found);
    }

    /**
     * The open gate counts 32,767 where it should count 50,000: log10 (32767/50000) = −0.1835 at every step but one, which
     * has an error of its own. A gate that is not always so is not clipped.
     */
    @ParameterizedTest
    @CsvSource({
        "32767, 32767, 50000, true",
        "32766, 32766, 50000, false",
        "32767, 32767, 20000, false",
        "32767, 32760, 50000, false"
    })
    void theOpenGateIsClipped(double open, double once, double light, boolean is) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 2; step <= STEPS; step++) {
            double sample = light * Math.pow(10, -EVEN[step - 1] - (step == 6 ? 0.25 : 0));
            readings.add(counted(step, new RawCounts(sample, 0, step == 8 ? once : open, 0, 1, 1)));
        }
        List<Finding> found = named(EVEN, readings);
        assertNamedOrNot(
                is, FindingKind.OPEN_GATE_CLIPPED, 0, "off: the detector is clipped with the gate open", found);
        assertTrue(!is || found.get(0).message().contains("are read −0.1835 off"), found.toString());
    }

    /** Steps read at a gain and a time, with the dark that the log gives and the one that is in the sample's counts. */
    private static List<Finding> dark(
            IntToDoubleFunction stated, IntToDoubleFunction real, IntToDoubleFunction gain, IntToDoubleFunction time) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double ratio = gain.applyAsDouble(step) * time.applyAsDouble(step);
            double light = 1_000_000 * ratio * Math.pow(10, -EVEN[step - 1]);
            readings.add(counted(
                    step,
                    new RawCounts(
                            light + real.applyAsDouble(step),
                            stated.applyAsDouble(step),
                            1_000_100,
                            100,
                            gain.applyAsDouble(step),
                            time.applyAsDouble(step))));
        }
        return named(EVEN, readings);
    }

    private static List<Finding> dark(IntToDoubleFunction stated, double real) {
        return dark(stated, step -> real, step -> 1, step -> 1);
    }

    /** A dark that would count −400 is clipped at 0 in all steps. */
    @Test
    void theDarkIsClipped() {
        assertNamed(FindingKind.DARK_CLIPPED, 0, "the dark always counts 0", dark(step -> 0, -400));
        assertNotNamed(FindingKind.DARK_CLIPPED, dark(step -> 0, 400));
        assertNotNamed(FindingKind.DARK_CLIPPED, dark(step -> 100, -300));
        assertNotNamed(FindingKind.DARK_CLIPPED, dark(step -> step == 1 ? 1 : 0, -400));
    }

    /** At 16 times the gain, or the time, the dark is 6,400, and the log gives 400 at all steps, to one part in twenty. */
    @ParameterizedTest
    @CsvSource({
        "16, 1, 16, true",
        "1, 16, 16, true",
        "16, 1, -16, true",
        "16, 1, 20, true",
        "16, 1, 25, false",
        "1, 1, 16, false"
    })
    void theDarkIsThatOfAnotherGain(double gain, double time, double uneven, boolean is) {
        List<Finding> found = dark(
                step -> 400 + (step == 4 ? uneven : 0),
                step -> step > 6 ? 6400 : 400,
                step -> step > 6 ? gain : 1,
                step -> step > 6 ? time : 1);
        assertNamedOrNot(is, FindingKind.DARK_OF_OTHER_GAIN, 0, "the dark counts are the same at every gain", found);
    }

    /** With the dark of 400 subtracted twice from the sample, the leak is −400/2,000,000; a quarter more or less is allowed. */
    @ParameterizedTest
    @CsvSource({"0, true", "90, true", "-90, true", "110, false", "-110, false"})
    void theDarkIsSubtractedTwice(double off, boolean is) {
        List<Finding> found = dark(step -> 400, step -> off, step -> 4, step -> 0.5);
        assertNamedOrNot(is, FindingKind.DARK_SUBTRACTED_TWICE, 0, "subtracted once too often", found);
    }

    /** The true ratio is 7.2 where the log says 8: log10 (8/7.2) = 0.045757 from step 6 on; 10^−0.045757 · 8 = 7.2. */
    @ParameterizedTest
    @CsvSource({"8, 1, 7.2, 7.200", "1, 8, 8.8, 8.800", "2, 4, 7.2, 7.200"})
    void theGainOfTheLogIsNotThatOfTheHardware(double gain, double time, double hardware, String words) {
        List<Finding> found = shiftedByGain(gain, time, hardware, step -> 0);
        assertNamed(FindingKind.GAIN_RATIO_WRONG, 0, "the true ratio for 8.000 is " + words, found);
    }

    /**
     * Beside an offset of 0.015 a shift is told from 0.01 on. Errors of ±0.005 beside a shift of 0.05 leave 0.00025 of squares,
     * less than 0.3 of what the line through the shifted steps leaves, 0.0018; errors of ±0.01 leave 0.001, more than 0.3 of 0.0025.
     */
    @ParameterizedTest
    @CsvSource({
        "0.0105, 0.015, 0, true",
        "0.0095, 0.015, 0, false",
        "-0.0105, -0.015, 0, true",
        "0.05, 0, 0.005, true",
        "0.05, 0, 0.01, false"
    })
    void aShiftByTheGainIsToldFromWhatElseIsWrong(double shift, double offset, double uneven, boolean is) {
        List<Finding> found =
                shiftedByGain(8, 1, 8 * Math.pow(10, -shift), step -> offset + (step % 2 == 0 ? uneven : -uneven));
        assertNamedOrNot(is, FindingKind.GAIN_RATIO_WRONG, 0, "the true ratio for 8.000", found);
    }

    private static List<Finding> shiftedByGain(double gain, double time, double hardware, IntToDoubleFunction off) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            boolean high = step > 5;
            double sample = 1_000_000 * (high ? hardware : 1) * Math.pow(10, -EVEN[step - 1] - off.applyAsDouble(step));
            readings.add(counted(step, new RawCounts(sample, 0, 1_000_000, 0, high ? gain : 1, high ? time : 1)));
        }
        return named(EVEN, readings);
    }

    /**
     * Errors that fall from step to step at the clear end, of steps that read alike: clipped. A single one may be. Steps that
     * rise by more than a fifth of what the certificate does, or errors beyond the clear end, speak against it.
     */
    @ParameterizedTest
    @CsvSource({
        "0.65, 0.64, 0.63, 0.9, 3",
        "0.35, 0.34, 0.6, 0.9, 2",
        "0.05, 0.3, 0.6, 0.9, 1",
        "0.35, 0.42, 0.6, 0.9, 0",
        "0.35, 0.405, 0.6, 0.9, 2",
        "0.65, 0.64, 0.63, 0.93, 0",
        "-0.05, 0.3, 0.6, 0.9, 0"
    })
    void theClearStepsAreClipped(double one, double two, double three, double four, int last) {
        double[] clear = {one, two, three, four};
        List<Finding> found = passed(step -> step <= 4 ? clear[step - 1] : EVEN[step - 1]);
        assertNamedOrNot(last > 0, FindingKind.SAMPLE_CLIPPED, last, "up to step " + last, found);
    }

    /** An error of 0.1 e^(−i/3) at step i, from 0, in a pass of one reading each. */
    @Test
    void errorsThatDieAwayInASinglePassAreAWarmUp() {
        IntToDoubleFunction error = i -> 0.1 * Math.exp(-(i - 1) / 3.0);
        assertNamed(
                FindingKind.LAMP_WARM_UP,
                1,
                "errors begin at +0.10 and die away in the single pass",
                passed(step -> EVEN[step - 1] + error.applyAsDouble(step)));
        assertNamed(
                FindingKind.LAMP_WARM_UP,
                1,
                "errors begin at −0.10 and die away",
                passed(step -> EVEN[step - 1] - error.applyAsDouble(step)));
        List<LogReading> twice = new ArrayList<>();
        for (int run = 0; run < 2; run++) {
            for (int step = 1; step <= STEPS; step++) {
                twice.add(reading(step, EVEN[step - 1] + error.applyAsDouble(step)));
            }
        }
        assertNotNamed(FindingKind.LAMP_WARM_UP, named(EVEN, twice));
        assertNotNamed(FindingKind.LAMP_WARM_UP, shifted(step -> error.applyAsDouble(step), 5));
        assertNamed(FindingKind.LAMP_WARM_UP, 1, "", shifted(step -> error.applyAsDouble(step), 6));
    }

    private static List<Finding> shifted(IntToDoubleFunction error, int steps) {
        double[] certified = tablet(steps);
        return named(certified, pass(steps, step -> certified[step - 1] + error.applyAsDouble(step)));
    }

    /** Four readings of each step while the readings rise by 0.002 each, or the lamp's error dies away over 12 readings. */
    @Test
    void aDriftIsSeenWhileAStepIsInTheGate() {
        assertNamed(
                FindingKind.DRIFT_WITH_TIME,
                1,
                "by a drift of +2.00e-03 per reading, which explains the errors of the single pass",
                repeated(n -> 0.002 * n));
        List<Finding> warming = repeated(n -> 0.1 * Math.exp(-n / 12));
        assertNamed(FindingKind.LAMP_WARM_UP, 1, "as while a lamp warms up", warming);
        assertTrue(warming.get(0).message().contains("while a step stays in the gate"), warming.toString());
    }

    /** A drift of 0.002 a reading beside errors of ±0.1 from step to step does not explain them. */
    @Test
    void aDriftThatExplainsLittleIsNotNamed() {
        List<Finding> found = repeated(n -> 0.002 * n + (Math.floor(n / 4) % 2 == 0 ? 0.1 : -0.1));
        assertNotNamed(FindingKind.DRIFT_WITH_TIME, found);
        assertNotNamed(FindingKind.LAMP_WARM_UP, found);
    }

    private static List<Finding> repeated(DoubleUnaryOperator drift) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            for (int repeat = 0; repeat < 4; repeat++) {
                int n = readings.size();
                readings.add(reading(step, EVEN[step - 1] + drift.applyAsDouble(n) + 0.00001 * Math.sin(7.0 * n)));
            }
        }
        return named(EVEN, readings);
    }

    /** A shift from step 6 on, of readings without counts; half of 0.02 is worth naming where some step is wrong. */
    @ParameterizedTest
    @CsvSource({"3, 0.05, true", "6, 0.05, true", "6, -0.05, true", "9, 0.05, true", "10, 0.05, false"})
    void aShiftBetweenTwoStepsIsAWrongGain(int from, double shift, boolean is) {
        List<LogReading> twice = new ArrayList<>();
        for (int run = 0; run < 2; run++) {
            twice.addAll(pass(STEPS, step -> EVEN[step - 1] + (step < from ? 0 : shift)));
        }
        List<Finding> found = named(EVEN, twice);
        assertNamedOrNot(is, FindingKind.GAIN_RATIO_WRONG, from, "from step " + from + " on all densities", found);
        if (is) {
            assertTrue(found.get(0).message().contains(shift > 0 ? "by +0.05," : "by −0.05,"), found.toString());
        }
    }

    /** Beside an offset of 0.0145, which makes the shifted steps wrong, a shift of half of 0.02 is worth naming. */
    @ParameterizedTest
    @CsvSource({"0.0105, true", "0.0095, false"})
    void aShiftOfHalfTheToleranceIsNamed(double shift, boolean is) {
        List<LogReading> twice = new ArrayList<>();
        for (int run = 0; run < 2; run++) {
            twice.addAll(pass(STEPS, step -> EVEN[step - 1] + 0.0145 + (step < 6 ? 0 : shift)));
        }
        assertNamedOrNot(is, FindingKind.GAIN_RATIO_WRONG, 6, "shifted by +0.0105", named(EVEN, twice));
    }

    /** Allowed is 0.02; a formula that rounds to hundredths must not explain 0.0225 by its rounding alone. */
    @ParameterizedTest
    @CsvSource({"0.0225", "0.0215", "-0.0225"})
    void aShiftNextToTheToleranceIsNoRounding(double shift) {
        List<LogReading> twice = new ArrayList<>();
        for (int run = 0; run < 2; run++) {
            twice.addAll(pass(STEPS, step -> EVEN[step - 1] + (step < 6 ? 0 : shift)));
        }
        assertNamed(FindingKind.GAIN_RATIO_WRONG, 6, "from step 6 on all densities", named(EVEN, twice));
    }

    /** One step of twenty is wrong: 0.95 follow the lost sign as well as the density itself, which is no reason to name it. */
    @Test
    void aFormulaThatExplainsNoMoreThanTheDensityIsNotNamed() {
        double[] densities = new double[20];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = 0.05 + 0.15 * i;
        }
        List<Finding> found = named(densities, pass(20, step -> densities[step - 1] + (step == 9 ? 0.04 : 0)));
        assertNotNamed(FindingKind.ARITHMETIC_SUSPECTED, found);
    }

    /** Each printed density is that of the mean transmittance of the last four readings, three of each step. */
    @Test
    void anAverageOverTheChangeOfStepsIsNamed() {
        List<LogReading> readings = new ArrayList<>();
        List<Double> last = new ArrayList<>();
        for (int i = 0; i < 6 * STEPS; i++) {
            int step = i / 3 % STEPS + 1;
            last.add(Math.pow(10, -EVEN[step - 1]));
            double mean = last.subList(Math.max(0, i - 3), i + 1).stream()
                    .mapToDouble(Double::doubleValue)
                    .average()
                    .orElseThrow();
            readings.add(reading(step, -Math.log10(mean)));
        }
        List<Finding> found = named(EVEN, readings);
        assertNamed(FindingKind.READINGS_AVERAGED, 0, "the mean transmittance of the last 4 readings, across", found);
        assertTrue(
                found.get(0).remedy().contains("the first 4 readings of each step"),
                found.get(0).remedy());
    }

    /** The first reading of a step is still that of the step before, at so many of nine changes of step. */
    @ParameterizedTest
    @CsvSource({"6, 1, false", "6, 2, true", "1, 4, false", "1, 5, true"})
    void firstReadingsAreStale(int decimals, int stale, boolean is) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            for (int repeat = 0; repeat < 5; repeat++) {
                boolean old = repeat == 0 && step > 1 && step <= 1 + stale;
                readings.add(LogReading.of(Density.of(EVEN[step - (old ? 2 : 1)]), decimals)
                        .withStep(step));
            }
        }
        List<Finding> found = named(EVEN, readings);
        assertNamedOrNot(is, FindingKind.STALE_READINGS, 0, stale + " of 9 times the first reading", found);
    }

    /** One count at step 10 is log10 (1 + 1/n) of density, and half of it counts: 0.0201 for n = 10.3, 0.0189 for 11. */
    @ParameterizedTest
    @CsvSource({"10.3, true", "11, false"})
    void theConverterHasTooFewBits(double counts, boolean is) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double open = counts * Math.pow(10, 2.7);
            readings.add(LogReading.of(RawCounts.of(open * Math.pow(10, -EVEN[step - 1]), 0, open))
                    .withStep(step));
        }
        assertNamedOrNot(is, FindingKind.RESOLUTION, 10, "too few bits", named(EVEN, readings));
    }

    /** Within the tolerance nothing is named, though the readings are shifted by a wrong gain. */
    @Test
    void nothingIsNamedWhereEveryStepIsWithinTheTolerance() {
        assertEquals(List.of(), passed(step -> EVEN[step - 1] + (step < 6 ? -0.019 : 0.019)));
        assertEquals(List.of(), passed(step -> EVEN[step - 1]));
    }

    /** Steps of 0.5 with 1/32 allowed: binary fractions, so that a reading can be exactly at a limit. */
    private static final double EXACT = 1 / 32.0;

    private static double half(int step) {
        return 0.5 * (step - 1);
    }

    private static List<Finding> exact(IntToDoubleFunction error, int runs) {
        double[] halves = new double[STEPS];
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < runs * STEPS; i++) {
            int step = i % STEPS + 1;
            halves[step - 1] = half(step);
            readings.add(reading(step, half(step) + error.applyAsDouble(step)));
        }
        return named(halves, EXACT, readings);
    }

    /** A shift of 1/32 is within a tolerance of 1/32; beside an offset, one of 1/64 is half of it and no more. */
    @Test
    void whatIsExactlyAllowedIsNotWrong() {
        assertEquals(List.of(), exact(step -> step < 6 ? 0 : EXACT, 2));
        assertNamed(FindingKind.GAIN_RATIO_WRONG, 6, "shifted by +0.04", exact(step -> step < 6 ? 0 : 1.28 * EXACT, 2));
        assertNotNamed(FindingKind.GAIN_RATIO_WRONG, exact(step -> step < 6 ? EXACT : 1.5 * EXACT, 2));
    }

    /** Readings of a step that differ by 1/16 have 1/32 on either side, which is allowed; those that differ by 5/64 have not. */
    @ParameterizedTest
    @CsvSource({"0.0625, false", "0.078125, true"})
    void halfOfAStepOfTheConverterMayBeAllThatIsAllowed(double change, boolean is) {
        double[] halves = new double[STEPS];
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            halves[step - 1] = half(step);
            for (int repeat = 0; repeat < 6; repeat++) {
                double off = step < 10 ? 0 : repeat % 2 == 0 ? change / 2 : -change / 2;
                readings.add(reading(step, half(step) + (step == 2 ? 0.001 : 0) + off));
            }
        }
        assertNamedOrNot(is, FindingKind.RESOLUTION, 10, "too few bits", named(halves, EXACT, readings));
    }

    /**
     * Densities printed to 0.1 are coarse where 0.02 is allowed and not where 0.1 is: then two stale readings of ten suffice.
     * Coarse densities may repeat by chance: five of ten are not more than half.
     */
    @ParameterizedTest
    @CsvSource({"0.1, 2, true", "0.02, 2, false", "0.02, 5, false", "0.02, 6, true"})
    void coarseDensitiesAreStaleIfMostRepeat(double allowed, int stale, boolean is) {
        double[] densities = tablet(11);
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= densities.length; step++) {
            for (int repeat = 0; repeat < 5; repeat++) {
                boolean old = repeat == 0 && step > 1 && step <= 1 + stale;
                readings.add(LogReading.of(Density.of(densities[step - (old ? 2 : 1)]), 1)
                        .withStep(step));
            }
        }
        assertNamedOrNot(
                is,
                FindingKind.STALE_READINGS,
                0,
                stale + " of 10 times the first reading",
                named(densities, allowed, readings));
    }

    /**
     * Each density is the mean of the last two readings, two of each step of 0.5: the first of a step is 0.25 too low, the
     * second right. Of the thirteen readings from the eighth on, six begin a step: −0.25 six times and 0 seven times have the
     * standard deviation √(0.25² · 6/13 · 7/13) = 0.124630. It counts if it is more than half of the tolerance.
     */
    @ParameterizedTest
    @CsvSource({"0.249, true", "0.2493, false"})
    void anAverageCountsFromHalfOfTheToleranceOn(double allowed, boolean is) {
        double[] halves = new double[STEPS];
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 2 * STEPS; i++) {
            int step = i / 2 + 1;
            halves[step - 1] = half(step);
            readings.add(reading(step, half(step) - (i % 2 == 0 && i > 0 ? 0.25 : 0)));
        }
        assertNamedOrNot(
                is,
                FindingKind.READINGS_AVERAGED,
                0,
                "the mean density of the last 2 readings",
                named(halves, allowed, readings));
    }

    /** A reading is that of another step within 0.3 · 0.5 = 0.15 exactly; and one that is just within the tolerance is not misread. */
    @Test
    void readingsAtTheLimitsOfSwappedSteps() {
        double[] halves = new double[STEPS];
        for (int i = 0; i < STEPS; i++) {
            halves[i] = half(i + 1);
        }
        assertNamed(
                FindingKind.STEPS_SWAPPED,
                1,
                "steps 1 and 2 are swapped",
                named(halves, pass(STEPS, step -> step == 1 ? 0.5 : step == 2 ? 0.15 : half(step))));
        assertNamed(
                FindingKind.STEPS_SWAPPED,
                4,
                "steps 4 and 5 are swapped",
                named(
                        halves,
                        0.25,
                        pass(STEPS, step -> step == 4 ? 2 : step == 5 ? 1.5 : half(step) + (step == 8 ? 0.25 : 0))));
    }

    /** Of twenty steps read as the next one, three or four half-way between two: 17 are 0.85 of them, 16 are not enough. */
    @ParameterizedTest
    @CsvSource({"3, true", "4, false"})
    void seventeenOfTwentyStepsAreEnough(int between, boolean is) {
        List<Finding> found = named(tablet(20), pass(20, i -> 0.3 * i + (i > 4 && i <= 4 + between ? 0.15 : 0)));
        assertNamedOrNot(is, FindingKind.STEPS_MISNUMBERED, 1, "each step is read as the one after it", found);
    }

    /** Printed densities of their own beside counts: a step at full scale that is read exactly as allowed is not clipped. */
    @ParameterizedTest
    @CsvSource({"0.03125, false", "0.032, true"})
    void aStepAtFullScaleIsClippedIfItReadsTooDense(double error, boolean is) {
        List<Finding> found = beside(
                step -> step == 2 ? error : step == 9 ? -0.1 : 0,
                step -> new RawCounts(step == 2 ? 32_767 : 1000, 0, 100_000, 0, 1, 1));
        assertNamedOrNot(is, FindingKind.SAMPLE_CLIPPED, 2, "up to step 2", found);
    }

    /** The open gate is at full scale, but most densities are right. */
    @Test
    void anOpenGateAtFullScaleMayBeRight() {
        assertNotNamed(
                FindingKind.OPEN_GATE_CLIPPED,
                beside(step -> step == 9 ? -0.1 : 0, step -> new RawCounts(1000, 0, 32_767, 0, 1, 1)));
    }

    private static List<Finding> beside(IntToDoubleFunction error, IntFunction<RawCounts> counts) {
        return beside(step -> half(step), error, counts);
    }

    private static List<Finding> beside(
            IntToDoubleFunction certified, IntToDoubleFunction error, IntFunction<RawCounts> counts) {
        double[] densities = new double[STEPS];
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            densities[step - 1] = certified.applyAsDouble(step);
            readings.add(reading(step, densities[step - 1] + error.applyAsDouble(step))
                    .withCounts(counts.apply(step)));
        }
        return named(densities, EXACT, readings);
    }

    /**
     * Of an open gate of 1,000,000, step 3 counts 34,464; with 65,536 added it is 100,000, which is D 1. Certified is 1 − 1/32:
     * exactly what is allowed. No other step may be wrong by more than is allowed, nor count 65,536 itself.
     */
    @ParameterizedTest
    @CsvSource({
        "0.96875, 0.03125, 1000, true",
        "0.96, 0, 1000, false",
        "0.96875, 0.04, 1000, false",
        "0.96875, 0, 65535, true",
        "0.96875, 0, 65536, false"
    })
    void countsRunOverUpToWhatIsAllowed(double certified, double atFive, double atSix, boolean is) {
        List<Finding> found = beside(
                step -> step == 3 ? certified : half(step),
                step -> step == 3 ? 1.4626 - certified : step == 5 ? atFive : 0,
                step -> new RawCounts(step == 3 ? 34_464 : step == 6 ? atSix : 1000, 0, 1_000_000, 0, 1, 1));
        assertNamedOrNot(is, FindingKind.COUNTS_OVERFLOW, 0, "with 65536 or a multiple", found);
    }

    /** Dark counts of 0.1 and 0.7 of the range belong to the counts of the sample and of the open gate. */
    @Test
    void theDarkIsSubtractedBeforeTheRangeIsAdded() {
        double range = 65_536;
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double sample = (0.1 * range + 1.7 * range * Math.pow(10, -EVEN[step - 1])) % range;
            readings.add(counted(step, new RawCounts(sample, 0.1 * range, 2.4 * range, 0.7 * range, 1, 1)));
        }
        assertNamed(FindingKind.COUNTS_OVERFLOW, 0, "with 65536 or a multiple", named(EVEN, readings));
    }

    /**
     * Where 0.04 is allowed, one range more must change the density by more than 0.08: log10 (5.5/4.5) = 0.087 does,
     * log10 (6.2/5.2) = 0.076 does not.
     */
    @ParameterizedTest
    @CsvSource({"4.5, true", "5.2, false"})
    void aRangeMustChangeTheDensity(double ranges, boolean is) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double light = ranges * 65_536 * Math.pow(10, -EVEN[step - 1]);
            readings.add(counted(step, new RawCounts(light % 65_536, 0, ranges * 65_536, 0, 1, 1)));
        }
        assertNamedOrNot(is, FindingKind.COUNTS_OVERFLOW, 0, "with 65536 or a multiple", named(EVEN, 0.04, readings));
    }

    /** The open gate counts 1,400,000, of which 400,000 are its dark: a dark of 400 is 400/1,000,000 of its light. */
    @Test
    void theDarkThatIsSubtractedTwiceIsAShareOfTheLight() {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double light = 1_000_000 * Math.pow(10, -EVEN[step - 1]);
            readings.add(counted(step, new RawCounts(light, 400, 1_400_000, 400_000, 1, 1)));
        }
        assertNamed(FindingKind.DARK_SUBTRACTED_TWICE, 0, "subtracted once too often", named(EVEN, readings));
    }

    /** Step 1 alone is read at the higher gain, 0.01 too thin or a little more, where 1/256 is allowed. */
    @ParameterizedTest
    @CsvSource({"-0.01, false", "-0.0101, true"})
    void aShiftByTheGainCountsFromAHundredthOn(double error, boolean is) {
        double[] densities = new double[STEPS];
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            densities[step - 1] = half(step);
            readings.add(reading(step, half(step) + (step == 1 ? error : 0))
                    .withCounts(new RawCounts(1000, 0, 100_000, 0, step == 1 ? 2 : 1, 1)));
        }
        List<Finding> found = named(densities, 1 / 256.0, readings);
        assertNamedOrNot(is, FindingKind.GAIN_RATIO_WRONG, 0, "the true ratio for 2.000", found);
    }

    /**
     * Errors of eight steps: 0.05 by the gain, + − − + + − − +, and u by + + − − − − + +. No line explains any of them. The gain
     * leaves u²/(u² + 0.05²) of their squares: 0.14 for u = 0.02, which is below a fifth, and 0.23 for 0.0275.
     */
    @ParameterizedTest
    @CsvSource({"0.02, true", "0.0275, false"})
    void theGainMustExplainFourFifths(double uneven, boolean is) {
        int[] high = {1, -1, -1, 1, 1, -1, -1, 1};
        int[] other = {1, 1, -1, -1, -1, -1, 1, 1};
        double[] densities = new double[high.length];
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < high.length; i++) {
            densities[i] = half(i + 1);
            readings.add(reading(i + 1, densities[i] + 0.05 * high[i] + uneven * other[i])
                    .withCounts(new RawCounts(1000, 0, 100_000, 0, high[i] > 0 ? 8 : 1, 1)));
        }
        List<Finding> found = named(densities, readings);
        assertNamedOrNot(is, FindingKind.GAIN_RATIO_WRONG, 0, "the true ratio for 8.000", found);
    }

    /** Clipped steps are a third of the tablet at most: four of twelve, not four of eleven. */
    @ParameterizedTest
    @CsvSource({"12, true", "11, false"})
    void noMoreThanAThirdOfTheStepsIsClipped(int steps, boolean is) {
        double[] clear = {1, 1.01, 1.02, 1.03};
        List<Finding> found = named(tablet(steps), pass(steps, step -> step <= 4 ? clear[step - 1] : 0.3 * (step - 1)));
        assertNamedOrNot(is, FindingKind.SAMPLE_CLIPPED, 4, "up to step 4", found);
    }

    /** Only step 1 is beyond its tolerance; step 2 is exactly at it. */
    @Test
    void aStepAtItsToleranceIsNotClipped() {
        assertNamed(
                FindingKind.SAMPLE_CLIPPED,
                1,
                "up to step 1",
                exact(step -> step == 1 ? 0.55 : step == 2 ? EXACT : 0, 1));
    }

    /** Steps 2 and 3 have the same error: a clipped detector would read the denser one less wrong. */
    @ParameterizedTest
    @CsvSource({"1.1875, false", "1.180, true"})
    void errorsOfClippedStepsFall(double third, boolean is) {
        double[] uneven = {0, 1, 1.125, 1.75, 2.25, 2.75, 3.25, 3.75, 4.25};
        double[] clear = {1, 1.0625, third};
        List<Finding> found = named(uneven, pass(9, step -> step <= 3 ? clear[step - 1] : uneven[step - 1]));
        assertNamedOrNot(is, FindingKind.SAMPLE_CLIPPED, 3, "up to step 3", found);
    }

    /** The certificate rises by 1.25, a fifth of which is 0.25: readings that rise by as much are not flat. */
    @ParameterizedTest
    @CsvSource({"1.625, false", "1.62, true"})
    void clippedStepsRiseByLessThanAFifth(double second, boolean is) {
        double[] wide = {0.25, 1.5, 2.75, 4, 5.25, 6.5};
        List<Finding> found = named(wide, pass(6, step -> step == 1 ? 1.375 : step == 2 ? second : wide[step - 1]));
        assertNamedOrNot(is, FindingKind.SAMPLE_CLIPPED, 2, "up to step 2", found);
    }

    /** An error of 0.03 e^(−i/3) is three times half of the 0.02 that are allowed. */
    @Test
    void aSmallWarmUpIsNamedFromHalfOfTheToleranceOn() {
        assertNamed(
                FindingKind.LAMP_WARM_UP,
                1,
                "errors begin at +0.03",
                passed(step -> EVEN[step - 1] + 0.03 * Math.exp(-(step - 1) / 3.0)));
    }

    /** All steps read 0.1 too dense, though readings rise while a step is in the gate: the drift explains no step's error. */
    @Test
    void aDriftThatLeavesEveryStepAsWrongIsNotNamed() {
        assertNotNamed(FindingKind.DRIFT_WITH_TIME, repeated(n -> 0.1 + 0.002 * (n % 4 - 1.5)));
    }
}
