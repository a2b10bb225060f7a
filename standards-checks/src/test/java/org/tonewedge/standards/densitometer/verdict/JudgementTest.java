// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Judgements worked by hand. Seven steps 0, 0.5 … 3 are allowed 0.02 or 2 %: 0.02, 0.02, 0.02, 0.03, 0.04, 0.05, 0.06. An effect
 * above half of that is a warning, above all of it a fault: the class documentation of {@link DensitometerCheck}.
 */
class JudgementTest {

    private static final int STEPS = 7;

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
        double[] densities = new double[STEPS];
        for (int i = 0; i < STEPS; i++) {
            densities[i] = certified(i + 1);
        }
        return DensitometerCheck.withDefaults()
                .judge(ReadingsSummary.of(StepTablet.calibrated("seven steps", certificate, densities), readings));
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
    @CsvSource({"6, 'step 7 has no density'", "5, 'steps [6, 7] have no density'"})
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
}
