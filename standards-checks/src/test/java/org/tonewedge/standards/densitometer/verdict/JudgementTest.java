// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.PassDrift;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Judgements worked by hand. Seven steps 0, 0.5 … 3 are allowed 0.02 or 2 %: 0.02, 0.02, 0.02, 0.03, 0.04, 0.05, 0.06. An effect
 * above half of that is a warning, above all of it a fault: the class documentation of {@link DensitometerCheck}.
 */
class JudgementTest {

    private static final int STEPS = 7;

    /** So little that every finding tells. */
    private static final DensityTolerance EXACTING = new DensityTolerance(1e-4, 0);

    /** What is read at a step in a run; each reading is made twice, this much above and below. */
    private interface Readings {
        double at(int step, int run);
    }

    private static double certified(int step) {
        return 0.5 * (step - 1);
    }

    private static DensitometerVerdict judged(double certificate, int runs, double scatter, Readings of) {
        List<LogReading> readings = new ArrayList<>();
        for (int run = 0; run < runs; run++) {
            for (int step = 1; step <= STEPS; step++) {
                for (int sign = -1; sign <= 1; sign += 2) {
                    readings.add(LogReading.of(Density.of(of.at(step, run) + sign * scatter), 9)
                            .withStep(step)
                            .withRun("run " + run)
                            .withSeconds(1200 * run + 60 * (step - 1)));
                }
            }
        }
        return judged(certificate, readings);
    }

    private static DensitometerVerdict judged(double certificate, List<LogReading> readings) {
        return judged(DensitometerCheck.withDefaults(), certificate, readings);
    }

    private static DensitometerVerdict judged(DensitometerCheck check, double certificate, List<LogReading> readings) {
        double[] densities = new double[STEPS];
        for (int i = 0; i < STEPS; i++) {
            densities[i] = certified(i + 1);
        }
        return check.judge(ReadingsSummary.of(StepTablet.calibrated("seven steps", certificate, densities), readings));
    }

    private static Optional<Finding> finding(DensitometerVerdict verdict, FindingKind kind) {
        return verdict.findings().stream().filter(found -> found.kind() == kind).findFirst();
    }

    private static void assertFound(
            DensitometerVerdict verdict, FindingKind kind, String severity, int step, double effect) {
        if (severity.equals("none")) {
            assertTrue(finding(verdict, kind).isEmpty(), verdict.findings().toString());
            return;
        }
        Finding found = finding(verdict, kind)
                .orElseThrow(() -> new AssertionError("no " + kind + " among " + verdict.findings()));
        assertEquals(Severity.valueOf(severity), found.severity());
        assertEquals(step, found.step().orElseThrow());
        assertEquals(effect, found.effect().orElseThrow(), 1e-6);
    }

    @ParameterizedTest
    @CsvSource({"0.0099, none", "0.0101, WARNING", "0.0199, WARNING", "0.0201, FAULT", "-0.0101, WARNING"})
    void anOffsetCountsAtTheFirstStep(double offset, String severity) {
        DensitometerVerdict verdict = judged(0.0005, 2, 0.0001, (step, run) -> certified(step) + offset);
        assertFound(verdict, FindingKind.ZERO_OFFSET, severity, 1, offset);
        assertTrue(finding(verdict, FindingKind.SLOPE).isEmpty());
    }

    @ParameterizedTest
    @CsvSource({"1.0099, none", "1.0101, WARNING", "1.0199, WARNING", "1.0201, FAULT", "0.9899, WARNING"})
    void aSlopeCountsAtTheDensestStep(double slope, String severity) {
        DensitometerVerdict verdict = judged(0.0005, 2, 0.0001, (step, run) -> slope * certified(step));
        assertFound(verdict, FindingKind.SLOPE, severity, STEPS, 3 * (slope - 1));
        assertTrue(finding(verdict, FindingKind.ZERO_OFFSET).isEmpty());
    }

    /** Departures 1, −1, −1, 2, −1, −1, 1 have no offset and no slope; the largest, at step 4, is allowed 0.03. */
    @ParameterizedTest
    @CsvSource({"0.0074, 0.0001, none", "0.0076, 0.0001, WARNING", "0.016, 0.0001, FAULT", "0.016, 0.03, none"})
    void aBendCountsWhereItIsLargestUnlessByChance(double size, double scatter, String severity) {
        double[] shape = {1, -1, -1, 2, -1, -1, 1};
        DensitometerVerdict verdict =
                judged(0.0005, 2, scatter, (step, run) -> certified(step) + size * shape[step - 1]);
        assertFound(verdict, FindingKind.NON_LINEAR, severity, 4, 2 * size);
        finding(verdict, FindingKind.NON_LINEAR)
                .ifPresent(found -> assertTrue(found.message().contains("from the line, an"), found.message()));
    }

    /**
     * Means of ten readings of seven steps, a leak of 0.001 and a bend that no offset, slope or leak imitates: the squares of its
     * sizes over their uncertainties add up to the noncentrality. The departures then follow a noncentral F of 7 − 3 and 7 · 9
     * degrees of freedom, which exceeds its limit for a chance of 1 % as often as stated; by SciPy 1.17.1,
     * {@code ncf.sf(f.isf(0.01, 4, 63), 4, 63, 12)}.
     */
    @ParameterizedTest
    @CsvSource({"0, 0.01", "12, 0.5329", "24, 0.9146"})
    void aBendBesideALeakIsFoundAsOftenAsItsSizeAllows(double noncentrality, double chance) {
        double scatter = 0.01;
        int count = 10;
        double[] bend = besideALeak(0.001);
        Random random = new Random(5);
        int instruments = 1000;
        int found = 0;
        for (int instrument = 0; instrument < instruments; instrument++) {
            List<LogReading> readings = new ArrayList<>();
            for (int step = 1; step <= STEPS; step++) {
                double read = -Math.log10(Math.pow(10, -certified(step)) + 0.001)
                        + Math.sqrt(noncentrality / count) * scatter * bend[step - 1];
                for (int i = 0; i < count; i++) {
                    readings.add(LogReading.of(Density.of(read + scatter * random.nextGaussian()), 9)
                            .withStep(step));
                }
            }
            DensitometerVerdict verdict =
                    judged(DensitometerCheck.withDefaults().with(EXACTING), 1e-6, readings);
            assertTrue(finding(verdict, FindingKind.STRAY_LIGHT).isPresent());
            found += finding(verdict, FindingKind.NON_LINEAR)
                            .filter(bent -> bent.message().contains("from the line with leak"))
                            .isPresent()
                    ? 1
                    : 0;
        }
        assertEquals(chance, found / (double) instruments, 3 * Math.sqrt(chance * (1 - chance) / instruments));
    }

    /** A shape of length 1 at right angles to what offset, slope and leak change at the steps. */
    private static double[] besideALeak(double leak) {
        double[][] shapes = new double[4][STEPS];
        for (int i = 0; i < STEPS; i++) {
            double seen = Math.pow(10, -certified(i + 1)) + leak;
            shapes[0][i] = 1;
            shapes[1][i] = Math.log10(seen);
            shapes[2][i] = 1 / seen;
            shapes[3][i] = Math.sin(2 * i);
        }
        for (int j = 0; j < 4; j++) {
            for (int k = 0; k < j; k++) {
                double along = product(shapes[j], shapes[k]);
                for (int i = 0; i < STEPS; i++) {
                    shapes[j][i] -= along * shapes[k][i];
                }
            }
            double length = Math.sqrt(product(shapes[j], shapes[j]));
            for (int i = 0; i < STEPS; i++) {
                shapes[j][i] /= length;
            }
        }
        return shapes[3];
    }

    private static double product(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    /** A pair ±w has the variance 2 w²; twice its root is the effect. Equal runs add none. */
    @ParameterizedTest
    @CsvSource({"0.0035, none", "0.0036, WARNING", "0.0070, WARNING", "0.0071, FAULT"})
    void scatterWithinRunsIsNotThatBetweenThem(double w, String severity) {
        DensitometerVerdict verdict = judged(0.0005, 2, w, (step, run) -> certified(step));
        assertFound(verdict, FindingKind.REPEATABILITY, severity, 1, 2 * Math.sqrt(2) * w);
        assertTrue(finding(verdict, FindingKind.REPRODUCIBILITY).isEmpty());
    }

    /** Runs ±c of pairs ±w: between them 2 c² − w², together with 2 w² within: w² + 2 c². */
    @ParameterizedTest
    @CsvSource({"0.0031, none", "0.0034, WARNING", "0.0068, WARNING", "0.0072, FAULT"})
    void scatterBetweenRunsIncludesThatWithin(double c, String severity) {
        double w = 0.002;
        DensitometerVerdict verdict = judged(0.0005, 2, w, (step, run) -> certified(step) + (run == 0 ? c : -c));
        assertFound(verdict, FindingKind.REPRODUCIBILITY, severity, 1, 2 * Math.sqrt(w * w + 2 * c * c));
        assertTrue(finding(verdict, FindingKind.REPEATABILITY).isEmpty());
    }

    /** E = e/U: at u = 0.002, an offset of 0.0099 exceeds U at all steps; 0.005 at one of seven is chance. */
    @Test
    void normalisedErrorsAboveOneAreNotedUnlessByChance() {
        DensitometerVerdict off = judged(0.002, 2, 0.0001, (step, run) -> certified(step) + 0.0099);
        Finding found = finding(off, FindingKind.NORMALISED_ERROR).orElseThrow();
        assertEquals(Severity.NOTE, found.severity());
        assertEquals(0.0099, found.effect().orElseThrow(), 1e-9);
        assertTrue(found.message().contains("exceeds 1 at 7 of 7 steps"), found.message());

        DensitometerVerdict chance = judged(0.002, 2, 0.0001, (step, run) -> certified(step) + (step == 4 ? 0.005 : 0));
        assertTrue(chance.steps().get(3).normalisedError().orElseThrow() > 1);
        assertTrue(finding(chance, FindingKind.NORMALISED_ERROR).isEmpty());
    }

    /** 2 u = 0.0102 is more than half of 0.02, at the three clearest steps; 0.0098 is not. */
    @Test
    void aCertificateThatTakesHalfOfTheToleranceIsTooUncertain() {
        DensitometerVerdict wide = judged(0.0051, 2, 0.0001, (step, run) -> certified(step));
        assertFound(wide, FindingKind.CERTIFICATE_TOO_UNCERTAIN, "WARNING", 1, 0.0102);
        Finding found = finding(wide, FindingKind.CERTIFICATE_TOO_UNCERTAIN).orElseThrow();
        assertTrue(found.message().contains("at 3 of 7 steps, largest at step 1"), found.message());
        DensitometerVerdict narrow = judged(0.0049, 2, 0.0001, (step, run) -> certified(step));
        assertTrue(finding(narrow, FindingKind.CERTIFICATE_TOO_UNCERTAIN).isEmpty());
    }

    /**
     * Four runs, 20 minutes apart, of steps a minute apart: 66 minutes. A drift over them is spread evenly about its middle:
     * a rectangular distribution of that width has the deviation width/√12 (JCGM 100:2008, 4.3.7).
     */
    @ParameterizedTest
    @CsvSource({"0.0090, none", "0.0092, WARNING", "-0.0183, FAULT"})
    void aDriftIsARectangularDistributionOfItsSpan(double perHour, String severity) {
        DensitometerVerdict verdict = judged(
                0.0005,
                4,
                0.00001,
                (step, run) -> certified(step) + perHour * ((1200 * run + 60 * (step - 1)) / 3600.0 - 0.55));
        assertFound(verdict, FindingKind.DRIFT_WITH_TIME, severity, 1, perHour * 1.1);
        Map<BudgetSource, UncertaintyBudget.Entry> budget =
                verdict.steps().get(2).budget().orElseThrow().entries();
        assertEquals(
                Math.abs(perHour) * 1.1 / Math.sqrt(12),
                budget.get(BudgetSource.DRIFT_WITH_TIME).standardUncertainty(),
                1e-7);
    }

    /** Four damaged lines in a hundred readings are a note, more a warning: 28 readings, one line or two. */
    @ParameterizedTest
    @CsvSource({"1, NOTE, '1 line may be a reading'", "2, WARNING, 2 lines may be readings"})
    void damagedLinesAreAWarningIfThereAreMany(int damaged, Severity severity, String words) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 4 * STEPS; i++) {
            int step = i % STEPS + 1;
            text.append(String.format(Locale.ROOT, "s=%d d=%.3f%n", step, certified(step)));
        }
        text.append("s=2 d=1.\n".repeat(damaged));
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(Logs.summarise("keys step=s density=d decimals=3", Logs.tablet(STEPS), text.toString()));
        Finding found = finding(verdict, FindingKind.DAMAGED_LINES).orElseThrow();
        assertEquals(severity, found.severity());
        assertTrue(found.message().startsWith(words), found.message());
    }

    @ParameterizedTest
    @CsvSource({"6, 'step 7 has no density'", "5, 'steps 6 and 7 have no density'"})
    void stepsWithoutDensityAreNamed(int last, String words) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= last; step++) {
            readings.add(LogReading.of(Density.of(certified(step)), 3).withStep(step));
        }
        Finding found =
                finding(judged(0.0005, readings), FindingKind.STEP_NOT_READ).orElseThrow();
        assertEquals(Severity.FAULT, found.severity());
        assertEquals(last + 1, found.step().orElseThrow());
        assertTrue(found.message().contains(words), found.message());
    }

    /** The slope of a wrong logarithm is recognised within 3 %: ln 10 = 2.302585, 1/log₁₀ 2 = 3.321928. */
    @ParameterizedTest
    @CsvSource({
        "2.302585, 1.029, the natural logarithm",
        "2.302585, 0.971, the natural logarithm",
        "2.302585, 1.031, none",
        "2.302585, 0.969, none",
        "3.321928, 0.971, the logarithm to base 2",
        "3.321928, 0.969, none"
    })
    void theSlopeOfAnotherLogarithmIsSuspected(double slope, double factor, String cause) {
        DensitometerVerdict verdict = judged(0.0005, 1, 0.0001, (step, run) -> slope * factor * certified(step));
        Optional<Finding> found = finding(verdict, FindingKind.ARITHMETIC_SUSPECTED);
        if (cause.equals("none")) {
            assertTrue(found.isEmpty(), verdict.findings().toString());
        } else {
            assertEquals(Severity.WARNING, found.orElseThrow().severity());
            assertTrue(found.get().message().contains(cause), found.get().message());
            assertTrue(finding(verdict, FindingKind.DRIFT_OR_SLOPE).isEmpty(), "the slope has its cause");
        }
        assertEquals(CheckOutcome.FAILED, verdict.outcome());
    }

    /** A leak l at D 3 is read as −log₁₀(0.001 + l): log₁₀ 2 = 0.30103 too thin for 0.001, as much too dense for −0.0005. */
    @ParameterizedTest
    @CsvSource({"0.001, STRAY_LIGHT, -0.30103", "-0.0005, DARK_OVERSUBTRACTED, 0.30103"})
    void aLeakCountsAtTheDensestStep(double leak, FindingKind kind, double effect) {
        DensitometerVerdict verdict =
                judged(0.0005, 2, 0.0001, (step, run) -> -Math.log10(Math.pow(10, -certified(step)) + leak));
        Finding found = finding(verdict, kind).orElseThrow();
        assertEquals(Severity.FAULT, found.severity());
        assertEquals(STEPS, found.step().orElseThrow());
        assertEquals(effect, found.effect().orElseThrow(), 0.0005);
        assertEquals(leak > 0, found.message().contains("nothing reads above D 3"), found.message());
        assertTrue(
                finding(verdict, FindingKind.NON_LINEAR).isEmpty(),
                verdict.findings().toString());
    }

    /** Four runs at 20, 24, 24 and 20 °C: temperature is not time. Its span of 4 K counts as that of a drift with time. */
    @ParameterizedTest
    @CsvSource({"0.0024, none", "0.0026, WARNING", "-0.0051, FAULT"})
    void aDriftWithTemperatureIsARectangularDistributionOfItsSpan(double perKelvin, String severity) {
        DensitometerVerdict verdict = judged(0.0005, heated(perKelvin, 20, 24, 24, 20));
        assertFound(verdict, FindingKind.DRIFT_WITH_TEMPERATURE, severity, 1, perKelvin * 4);
        assertTrue(finding(verdict, FindingKind.DRIFT_WITH_TIME).isEmpty());
        assertTrue(finding(verdict, FindingKind.DRIFT_NOT_SEPARABLE).isEmpty());
        assertEquals(
                Math.abs(perKelvin) * 4 / Math.sqrt(12),
                verdict.steps()
                        .get(2)
                        .budget()
                        .orElseThrow()
                        .entries()
                        .get(BudgetSource.DRIFT_WITH_TEMPERATURE)
                        .standardUncertainty(),
                1e-7);
    }

    @Test
    void timeAndTemperatureThatChangeTogetherAreNotTold() {
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 4 * STEPS; i++) {
            int step = i % STEPS + 1;
            for (int sign = -1; sign <= 1; sign += 2) {
                readings.add(LogReading.of(Density.of(certified(step) + 0.001 * i + sign * 0.00001), 9)
                        .withStep(step)
                        .withRun("run " + i / STEPS)
                        .withSeconds(120.0 * i)
                        .withCelsius(20 + 0.1 * i));
            }
        }
        DensitometerVerdict verdict = judged(0.0005, readings);
        assertEquals(
                Severity.NOTE,
                finding(verdict, FindingKind.DRIFT_NOT_SEPARABLE).orElseThrow().severity());
    }

    private static List<LogReading> heated(double perKelvin, double... celsius) {
        List<LogReading> readings = new ArrayList<>();
        for (int run = 0; run < celsius.length; run++) {
            for (int step = 1; step <= STEPS; step++) {
                for (int sign = -1; sign <= 1; sign += 2) {
                    double density = certified(step) + perKelvin * (celsius[run] - 22) + sign * 0.00001;
                    readings.add(LogReading.of(Density.of(density), 9)
                            .withStep(step)
                            .withRun("run " + run)
                            .withSeconds(1200 * run + 60 * (step - 1))
                            .withCelsius(celsius[run]));
                }
            }
        }
        return readings;
    }

    /** A single run has no scatter between runs; in a single pass an offset is no slope and no drift. */
    @Test
    void aSingleRunTellsNothingOfOthers() {
        DensitometerVerdict single = judged(0.0005, 1, 0.0001, (step, run) -> certified(step) + 0.0101);
        assertFound(single, FindingKind.ZERO_OFFSET, "WARNING", 1, 0.0101);
        assertTrue(finding(single, FindingKind.DRIFT_OR_SLOPE).isEmpty());
        assertTrue(finding(single, FindingKind.DRIFT_NOT_SEPARABLE).isEmpty());
        assertEquals(
                Set.of(BudgetSource.REPEATABILITY, BudgetSource.RESOLUTION, BudgetSource.CERTIFICATE),
                single.steps().get(0).budget().orElseThrow().entries().keySet());
        DensitometerVerdict twice = judged(0.0005, 2, 0.0001, (step, run) -> certified(step));
        assertTrue(twice.steps().get(0).budget().orElseThrow().entries().containsKey(BudgetSource.BETWEEN_RUNS));
        assertEquals(CheckOutcome.PASSED, twice.outcome());
    }

    /** One reading of each step: a slope of 1.0105 may be a drift of 0.0315. Pairs that stay level show it to be a slope. */
    @Test
    void aSlopeInASinglePassMayBeADrift() {
        DensitometerVerdict once = once(0, 1.0105, reading -> reading);
        Finding found = finding(once, FindingKind.DRIFT_OR_SLOPE).orElseThrow();
        assertEquals(Severity.WARNING, found.severity());
        assertEquals(STEPS, found.step().orElseThrow());
        assertEquals(0.0315, found.effect().orElseThrow(), 0.0004);
        assertTrue(finding(once, FindingKind.SLOPE).isEmpty());
        DensitometerVerdict pairs = judged(0.0005, 1, 0.0001, (step, run) -> 1.0101 * certified(step));
        assertFound(pairs, FindingKind.SLOPE, "WARNING", STEPS, 0.0303);
        assertTrue(finding(pairs, FindingKind.DRIFT_OR_SLOPE).isEmpty());
    }

    private static DensitometerVerdict once(double offset, double slope) {
        return once(offset, slope, reading -> reading.withRun("the only one"));
    }

    private static DensitometerVerdict once(double offset, double slope, UnaryOperator<LogReading> labelled) {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            double uneven = 0.0001 * Math.sin(5 * step);
            readings.add(labelled.apply(LogReading.of(Density.of(offset + slope * certified(step) + uneven), 9)
                    .withStep(step)));
        }
        return judged(0.0005, readings);
    }

    /**
     * At step 1, where 0.02 is allowed, an offset of 0.03 takes 1.5 of it and one of 0.004 a fifth; at step 7, where 0.06 is
     * allowed, the drift of 0.0315 takes half.
     */
    @Test
    void aDriftOrSlopeCountsWhereItTakesMore() {
        Finding clear = finding(once(0.03, 1.0105), FindingKind.DRIFT_OR_SLOPE).orElseThrow();
        assertEquals(1, clear.step().orElseThrow());
        assertEquals(0.03, clear.effect().orElseThrow(), 0.0004);
        assertTrue(clear.message().contains("meets density 0 at +0.03"), clear.message());
        Finding dense = finding(once(0.004, 1.0105), FindingKind.DRIFT_OR_SLOPE).orElseThrow();
        assertEquals(STEPS, dense.step().orElseThrow());
        assertEquals(0.0315, dense.effect().orElseThrow(), 0.0004);
        assertFalse(finding(once(0, 1.0105), FindingKind.DRIFT_OR_SLOPE)
                .orElseThrow()
                .message()
                .contains("meets density 0"));
        assertEquals(
                Severity.NOTE,
                finding(once(0, 1.003), FindingKind.DRIFT_NOT_SEPARABLE)
                        .orElseThrow()
                        .severity());
    }

    /** A slope of exactly 1 is no drift, and a slope that has its cause is none either. */
    @Test
    void whatIsNoSlopeIsNoDrift() {
        DensitometerVerdict offset = once(0.0105, 1);
        assertTrue(finding(offset, FindingKind.ZERO_OFFSET).isPresent());
        assertTrue(finding(offset, FindingKind.DRIFT_OR_SLOPE).isEmpty());
        assertTrue(finding(offset, FindingKind.DRIFT_NOT_SEPARABLE).isEmpty());
        DensitometerVerdict logarithm = once(0, Math.log(10));
        assertTrue(finding(logarithm, FindingKind.ARITHMETIC_SUSPECTED).isPresent());
        assertTrue(finding(logarithm, FindingKind.SLOPE).isEmpty());
        assertTrue(finding(logarithm, FindingKind.DRIFT_OR_SLOPE).isEmpty());
    }

    /**
     * Twelve readings ±w of each step, w from 0.002 at step 1 to 0.04 at step 7, have the deviation w √(12/11): twice that is a
     * fifth of 0.02 at step 1, but more than 0.06 at step 7, even pooled with the 0.024 of step 6.
     */
    @Test
    void scatterCountsWhereItTakesMostOfTheTolerance() {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            for (int i = 0; i < 12; i++) {
                double w = 0.002 * Math.pow(20, (step - 1) / 6.0);
                readings.add(LogReading.of(Density.of(certified(step) + (i % 2 == 0 ? w : -w)), 9)
                        .withStep(step)
                        .withRun("one"));
            }
        }
        Finding found =
                finding(judged(0.0005, readings), FindingKind.REPEATABILITY).orElseThrow();
        assertEquals(Severity.FAULT, found.severity());
        assertEquals(STEPS, found.step().orElseThrow());
    }

    /** 0.0102/(2·0.002) = 2.55 at the four densest steps; the mean of four readings ±0.0001 adds little. */
    @Test
    void onlyNormalisedErrorsAboveOneAreCounted() {
        DensitometerVerdict off =
                judged(0.002, 2, 0.0001, (step, run) -> certified(step) + (step > 3 ? 0.0102 : 0.0001 * step));
        String words = finding(off, FindingKind.NORMALISED_ERROR).orElseThrow().message();
        assertTrue(words.contains("exceeds 1 at 4 of 7 steps"), words);
        assertTrue(words.contains("+2.55"), words);
    }

    /**
     * First 2 u is 0.0102 at step 1, half of 0.02, and 0.08 at step 7, 1.33 of 0.06: step 7 counts. Then it is 0.03 at step 1,
     * 1.5 of 0.02, and 0.04 at step 7, 0.67 of 0.06: step 1 counts.
     */
    @ParameterizedTest
    @CsvSource({"0.0051, 0.04, 7, 0.08", "0.015, 0.02, 1, 0.03"})
    void theWidestCertificateIsTheOneThatTakesMostOfTheTolerance(
            double clear, double dense, int step, double expanded) {
        double[] densities = {0, 0.5, 1, 1.5, 2, 2.5, 3};
        double[] uncertainties = {clear, 0.001, 0.001, 0.001, 0.001, 0.001, dense};
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 2 * STEPS; i++) {
            readings.add(LogReading.of(Density.of(densities[i / 2]), 3).withStep(i / 2 + 1));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(ReadingsSummary.of(StepTablet.calibrated("uneven", densities, uncertainties), readings));
        assertFound(verdict, FindingKind.CERTIFICATE_TOO_UNCERTAIN, "WARNING", step, expanded);
    }

    /** e = 0 where T = u = 0.02: beyond either side of the tolerance, 2 Φ(−1) = 0.317311 (table of the normal distribution). */
    @Test
    void theRiskCountsBothSidesOfTheTolerance() {
        DensitometerVerdict verdict = judged(0.02, 2, 0.00001, (step, run) -> certified(step));
        assertEquals(
                0.317311, verdict.steps().get(0).probabilityOutOfTolerance().orElseThrow(), 1e-5);
    }

    @Test
    void stepsBeyondTheRangeAreCountedAndOtherLinesAreNot() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 40 * STEPS; i++) {
            int step = i % STEPS + 1;
            text.append(String.format(Locale.ROOT, "s=%d d=%.3f%n", step, certified(step)));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(Logs.summarise(
                        "keys step=s density=d decimals=3",
                        Logs.tablet(STEPS),
                        text + "s=6 d=OL\ns=6 d=OL\ns=3 d=99.9\n"));
        Finding over = finding(verdict, FindingKind.STEP_OVERRANGE).orElseThrow();
        assertEquals(6, over.step().orElseThrow());
        assertTrue(over.message().contains("2 times marked as beyond the range and 0 times"), over.message());
        assertTrue(finding(verdict, FindingKind.IMPLAUSIBLE_DENSITIES).isEmpty(), "one of 41 readings of step 3");
        assertTrue(finding(verdict, FindingKind.DAMAGED_LINES)
                .orElseThrow()
                .message()
                .startsWith("1 line may"));
    }

    /** One reading is beyond the printed range, another does not exceed its dark counts: both count. */
    @Test
    void aStepMayBeBeyondTheRangeInTwoWays() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 4 * STEPS; i++) {
            int step = i % STEPS + 1;
            text.append(String.format(
                    Locale.ROOT,
                    "s=%d d=%.3f c=%.0f k=100 o=1000100%n",
                    step,
                    certified(step),
                    100 + 1_000_000 * Math.pow(10, -certified(step))));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(Logs.summarise(
                        "keys step=s density=d decimals=3 sample=c dark=k open=o",
                        Logs.tablet(STEPS),
                        text + "s=7 d=OL c=1200 k=100 o=1000100\ns=7 d=4.000 c=100 k=100 o=1000100\n"));
        Finding over = finding(verdict, FindingKind.STEP_OVERRANGE).orElseThrow();
        assertEquals(7, over.step().orElseThrow());
        assertTrue(
                over.message().contains("1 times marked as beyond the range and 1 times not above the dark counts"),
                over.message());
    }

    /**
     * Pairs within the steps of a single pass leave room for a drift of so much a reading, within three standard uncertainties: a slope
     * that reads like a drift within that may be one, a slope beyond it on either side is one.
     */
    @ParameterizedTest
    @CsvSource({"2.9, DRIFT_OR_SLOPE", "-2.9, DRIFT_OR_SLOPE", "3.1, SLOPE", "-3.1, SLOPE"})
    void aSlopeIsNoDriftBeyondWhatThePairsLeaveRoomFor(double uncertainties, FindingKind kind) {
        PassDrift drift = paired(1).summary().passDrift().orElseThrow();
        double effect = drift.readings()
                * (drift.perReading().value()
                        + uncertainties * drift.perReading().standardUncertainty());
        DensitometerVerdict verdict = paired(1 + effect / certified(STEPS));
        assertEquals(effect, finding(verdict, kind).orElseThrow().effect().orElseThrow(), 0.003);
    }

    private static DensitometerVerdict paired(double slope) {
        List<LogReading> readings = new ArrayList<>();
        double[] changes = {0.004, 0.012, 0.006, 0.016, 0.004, 0.012, 0.016};
        for (int step = 1; step <= STEPS; step++) {
            for (int sign = -1; sign <= 1; sign += 2) {
                readings.add(LogReading.of(Density.of(slope * certified(step) + sign * changes[step - 1] / 2), 9)
                        .withStep(step));
            }
        }
        return judged(0.0005, readings);
    }

    /** Three densities of 99.9 are most of the four readings of step 3: a fault of its own, and no damaged lines. */
    @Test
    void impossibleDensitiesOfAStepAreAFault() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 4 * STEPS; i++) {
            int step = i % STEPS + 1;
            text.append(
                    String.format(Locale.ROOT, "s=%d d=%.3f%n", step, step == 3 && i > STEPS ? 99.9 : certified(step)));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(Logs.summarise("keys step=s density=d decimals=3", Logs.tablet(STEPS), text.toString()));
        Finding found = finding(verdict, FindingKind.IMPLAUSIBLE_DENSITIES).orElseThrow();
        assertEquals(Severity.FAULT, found.severity());
        assertTrue(found.message().startsWith("3 lines have densities outside"), found.message());
        assertTrue(found.message().contains("of step 3"), found.message());
        assertTrue(
                finding(verdict, FindingKind.DAMAGED_LINES).isEmpty(),
                verdict.findings().toString());
    }

    /** At the limits themselves: |e| ≤ T − w passes, |e| > T + w fails, and U = T/2 still needs no guard band. */
    @Test
    void limitsOfTheRule() {
        DecisionRule guarded = DecisionRule.GUARDED_ACCEPTANCE;
        assertEquals(StepOutcome.PASS, guarded.decide(-0.25, 0.5, 0.25));
        assertEquals(StepOutcome.UNDECIDED, guarded.decide(-0.75, 0.5, 0.25));
        assertEquals(StepOutcome.FAIL, guarded.decide(0.7501, 0.5, 0.25));
        assertEquals(0, DecisionRule.SIMPLE_ACCEPTANCE.guardBand(0.5, 0.25));
        assertEquals(0.26, DecisionRule.SIMPLE_ACCEPTANCE.guardBand(0.5, 0.26));
        assertEquals(0.06, new DensityTolerance(0, 0.02).at(3), 1e-12);
        assertEquals(0.02, new DensityTolerance(0.02, 0).at(3));
    }

    /** Half of 0.1 is 0.05: where 0.1 is allowed it is half of that and no more, where 0.05 is allowed it is all. */
    @ParameterizedTest
    @CsvSource({"0.1, none", "0.0999, WARNING", "0.05, WARNING", "0.0499, FAULT"})
    void resolutionIsJudgedAtItsLimits(double allowed, String severity) {
        double[] densities = {0.1, 0.4, 0.9, 1.2, 1.7};
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < densities.length; i++) {
            readings.add(LogReading.of(Density.of(densities[i]), 1).withStep(i + 1));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .with(new DensityTolerance(allowed, 0))
                .judge(ReadingsSummary.of(StepTablet.calibrated("five steps", 0.001, densities), readings));
        if (severity.equals("FAULT")) {
            assertEquals(
                    Severity.FAULT,
                    finding(verdict, FindingKind.RESOLUTION).orElseThrow().severity());
        } else {
            assertFound(verdict, FindingKind.RESOLUTION, severity, 1, 0.05);
        }
    }

    /** Twice 1/128 is 1/64, exactly half of 1/32. */
    @Test
    void aCertificateMayTakeHalfOfTheTolerance() {
        double[] densities = {0, 0.5, 1, 1.5, 2};
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < densities.length; i++) {
            readings.add(LogReading.of(Density.of(densities[i]), 3).withStep(i + 1));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .with(new DensityTolerance(1 / 32.0, 0))
                .judge(ReadingsSummary.of(StepTablet.calibrated("five steps", 1 / 128.0, densities), readings));
        assertTrue(finding(verdict, FindingKind.CERTIFICATE_TOO_UNCERTAIN).isEmpty());
    }

    /** One damaged line is 4 % of 25 readings, which are not many, and 4.2 % of 24. */
    @ParameterizedTest
    @CsvSource({"25, NOTE", "24, WARNING"})
    void fourOfAHundredDamagedLinesAreNotMany(int count, Severity severity) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < count; i++) {
            int step = i % STEPS + 1;
            text.append(String.format(Locale.ROOT, "s=%d d=%.3f%n", step, certified(step)));
        }
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(Logs.summarise("keys step=s density=d decimals=3", Logs.tablet(STEPS), text + "s=2 d=1.\n"));
        assertEquals(
                severity,
                finding(verdict, FindingKind.DAMAGED_LINES).orElseThrow().severity());
    }

    /** A log without counts says nothing of the dark of the open gate. */
    @Test
    void theOpenDarkIsNoMatterWithoutCounts() {
        DensitometerVerdict verdict = judged(0.0005, 2, 0.0001, (step, run) -> certified(step));
        assertTrue(finding(verdict, FindingKind.OPEN_DARK_NOT_STATED).isEmpty());
    }

    /**
     * A converter that ends at 32,767 clips steps 1 and 2, which would count 300,000 and 94,868. Its firmware prints the natural
     * logarithm, which is named first; a firmware that prints what no formula gives is named after the clipping.
     */
    @ParameterizedTest
    @CsvSource({"true, ARITHMETIC, SAMPLE_CLIPPED", "false, SAMPLE_CLIPPED, ARITHMETIC"})
    void anArithmeticThatIsNamedComesFirst(boolean logarithm, FindingKind first, FindingKind second) {
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 2 * STEPS; i++) {
            int step = i / 2 + 1;
            double sample = Math.min(32_767, 300_000 * Math.pow(10, -certified(step)));
            RawCounts counts = new RawCounts(sample, 0, 300_000, 0, 1, 1);
            double printed = logarithm ? Math.log(10) * counts.density() : 1 + 0.7 * Math.sin(9.0 * i);
            readings.add(
                    LogReading.of(Density.of(printed), 6).withCounts(counts).withStep(step));
        }
        List<Finding> found = judged(0.0005, readings).findings();
        assertEquals(first, found.get(0).kind(), found.toString());
        assertEquals(second, found.get(1).kind(), found.toString());
    }

    /** Decimals that are cut off are a warning and no cause of a slope of 1.03: that may be a drift of 0.09. */
    @Test
    void aWarningIsNoCauseOfASlope() {
        List<LogReading> readings = new ArrayList<>();
        for (int step = 1; step <= STEPS; step++) {
            RawCounts counts =
                    new RawCounts(1_000_000 * Math.pow(10, -1.03 * certified(step) - 0.006), 0, 1_000_000, 0, 1, 1);
            readings.add(LogReading.of(Density.of(Math.floor(100 * counts.density()) / 100), 2)
                    .withCounts(counts)
                    .withStep(step));
        }
        DensitometerVerdict verdict = judged(0.0005, readings);
        assertEquals(
                Severity.WARNING,
                finding(verdict, FindingKind.ARITHMETIC).orElseThrow().severity());
        assertTrue(
                finding(verdict, FindingKind.DRIFT_OR_SLOPE).isPresent(),
                verdict.findings().toString());
    }
}
