// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * The verdict on a densitometer: whether it passed, the outcome of each step, the findings, and the correction that its
 * readings need.
 *
 * <p>Immutable and thread safe.
 */
public final class DensitometerVerdict implements Recorded {

    private final ReadingsSummary summary;
    private final ReadingsSummary realigned;
    private final DensityTolerance tolerance;
    private final DecisionRule rule;
    private final List<StepVerdict> steps;
    private final List<Finding> findings;
    private final CertificateComparison comparison;
    private final CertificateComparison optical;
    private final boolean arithmeticIsWrong;
    private final CheckOutcome outcome;
    private final boolean soFar;

    DensitometerVerdict(
            ReadingsSummary summary,
            ReadingsSummary realigned,
            DensityTolerance tolerance,
            DecisionRule rule,
            List<StepVerdict> steps,
            List<Finding> findings,
            CertificateComparison comparison,
            CertificateComparison optical,
            boolean arithmeticIsWrong,
            CheckOutcome outcome,
            boolean soFar) {
        this.summary = summary;
        this.realigned = realigned;
        this.tolerance = tolerance;
        this.rule = rule;
        this.steps = steps;
        this.findings = findings;
        this.comparison = comparison;
        this.optical = optical;
        this.arithmeticIsWrong = arithmeticIsWrong;
        this.outcome = outcome;
        this.soFar = soFar;
    }

    /**
     * Tells whether the densitometer can be trusted as it is.
     *
     * @return true if every step to be judged passed and no fault was found
     */
    public boolean isPassed() {
        return outcome == CheckOutcome.PASSED;
    }

    /**
     * Returns the outcome of the check.
     *
     * @return passed, failed or undecided
     */
    public CheckOutcome outcome() {
        return outcome;
    }

    /**
     * Tells whether more readings are expected.
     *
     * @return true for a verdict {@linkplain DensitometerCheck#judgeSoFar so far}
     */
    public boolean isSoFar() {
        return soFar;
    }

    /**
     * Returns the verdict on each step.
     *
     * @return the steps that were to be judged, from the clear end
     */
    public List<StepVerdict> steps() {
        return steps;
    }

    /**
     * Returns the findings.
     *
     * @return the findings, in the order of the examination
     */
    public List<Finding> findings() {
        return findings;
    }

    /**
     * Returns the readings that were judged.
     *
     * @return the summary
     */
    public ReadingsSummary summary() {
        return summary;
    }

    /**
     * Returns the readings by which the instrument itself was judged. If the verdict names {@linkplain
     * FindingKind#STEP_SKIPPED steps that were skipped or read twice}, the readings behind them are moved to their own
     * steps. A user who knows that it was so may have these judged in place of the log, and take the correction of that
     * verdict: {@code check.judge(verdict.realignedSummary())}.
     *
     * @return the readings in their places; {@link #summary()} if no such step is named
     */
    public ReadingsSummary realignedSummary() {
        return realigned;
    }

    /**
     * Returns the tolerance.
     *
     * @return how far a mean may be from the certificate
     */
    public DensityTolerance tolerance() {
        return tolerance;
    }

    /**
     * Returns the decision rule.
     *
     * @return how the uncertainty of the comparison counts
     */
    public DecisionRule rule() {
        return rule;
    }

    /**
     * Returns the comparison of the densities as the instrument states them.
     *
     * @return the comparison by which the steps were judged
     */
    public CertificateComparison comparison() {
        return comparison;
    }

    /**
     * Returns the comparison of the densities without a fault of the firmware's arithmetic, and each at its own step.
     *
     * @return the comparison of the recomputed densities if the arithmetic is wrong, and of the {@linkplain
     *     #realignedSummary() realigned readings}; if neither is needed, {@link #comparison()}
     */
    public CertificateComparison opticalComparison() {
        return optical;
    }

    /**
     * Tells whether the correction applies to densities recomputed from the counts, because the printed ones are wrong.
     *
     * @return true if the firmware's arithmetic must be corrected first
     */
    public boolean isArithmeticWrong() {
        return arithmeticIsWrong;
    }

    /**
     * Returns what makes a correction dangerous: a fault that spoils the readings themselves, such as swapped steps or
     * a drift, and that the correction would carry on. Scatter is none: the means are corrected, and the uncertainty of
     * the correction contains it.
     *
     * @return the finding, or empty if the readings may be corrected
     */
    public Optional<Finding> obstacleToCorrection() {
        return findings.stream()
                .filter(found ->
                        found.barsCorrection() || (found.kind() == FindingKind.ARITHMETIC && isArithmeticWrong()))
                .findFirst();
    }

    /**
     * Returns why no correction should be written, and what to do.
     *
     * @return the {@linkplain #obstacleToCorrection() obstacle} and its remedy in words; empty if there is none
     */
    public Optional<String> correctionWithheld() {
        return obstacleToCorrection().map(obstacle -> withheld(obstacle).getMessage());
    }

    private static DensitometerInputException withheld(Finding obstacle) {
        return new DensitometerInputException(
                Fault.UNSUITABLE,
                "correction",
                0,
                "withheld because " + obstacle.message(),
                obstacle.remedy()
                        + (obstacle.kind() == FindingKind.CERTIFICATE_TOO_UNCERTAIN
                                ? "; if U is right, DensityCorrection.of(summary) corrects with that uncertainty"
                                : ", and check again"));
    }

    /**
     * Returns the correction that its readings need, also if the verdict is failed for offset, slope, stray light or
     * scatter. If the firmware's arithmetic is wrong, it applies to the densities
     * recomputed from the counts.
     *
     * @param kind the form of the correction
     * @return the correction of the {@linkplain #opticalComparison() optical comparison}
     * @throws DensitometerInputException if there are too few steps for this form, the form does not describe the readings,
     *     or there is an {@linkplain #obstacleToCorrection() obstacle} other than wrong arithmetic
     */
    public DensityCorrection correction(CorrectionKind kind) {
        findings.stream().filter(Finding::barsCorrection).findFirst().ifPresent(obstacle -> {
            throw withheld(obstacle);
        });
        if (kind != CorrectionKind.MONOTONE && isBent()) {
            throw new DensitometerInputException(
                    Fault.UNSUITABLE,
                    "correction",
                    0,
                    "the readings are less linear than the form " + kind + " allows",
                    "take the form " + CorrectionKind.MONOTONE);
        }
        return DensityCorrection.of(kind, optical, summary.tablet().name());
    }

    private boolean isBent() {
        return findings.stream()
                .anyMatch(found -> found.kind() == FindingKind.NON_LINEAR && found.severity() == Severity.FAULT);
    }

    /**
     * Returns the correction in the simplest form that fits: a monotone table if the readings are not linear, a line
     * with leak if the leak is significant, otherwise a line.
     *
     * @return the correction
     * @throws DensitometerInputException as {@link #correction(CorrectionKind)}
     */
    public DensityCorrection correction() {
        if (isBent()) {
            return correction(CorrectionKind.MONOTONE);
        }
        return correction(
                optical.isLeakSignificant() ? CorrectionKind.OFFSET_SLOPE_AND_LEAK : CorrectionKind.OFFSET_AND_SLOPE);
    }

    /**
     * Returns the verdict in words.
     *
     * @return passed, failed or undecided, with the number of steps and of faults
     */
    @Override
    public String toString() {
        long failed = steps.stream()
                .filter(step -> step.outcome() != StepOutcome.PASS)
                .count();
        long faults = findings.stream()
                .filter(finding -> finding.severity() == Severity.FAULT)
                .count();
        return outcome.name().toLowerCase(Locale.ROOT) + (soFar ? " so far" : "") + ": " + (steps.size() - failed)
                + " of " + steps.size() + " steps " + tolerance + ", " + faults
                + (faults == 1 ? " fault found" : " faults found");
    }

    /**
     * Returns the verdict as named values: {@code outcome}; for each step {@code step.N.certified}, {@code .outcome},
     * {@code .error} and {@code .allowed}; for each finding {@code finding.N}, {@code .severity} and {@code .words}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("outcome", outcome.name()));
        for (StepVerdict each : steps) {
            String name = "step." + each.step().number();
            records.add(ResultRecord.ofNumber(
                    name + ".certified", each.step().density().value(), "density"));
            records.add(ResultRecord.ofText(name + ".outcome", each.outcome().name()));
            each.error().ifPresent(error -> records.add(ResultRecord.ofNumber(name + ".error", error, "density")));
            records.add(ResultRecord.ofNumber(name + ".allowed", each.allowed(), "density"));
        }
        int number = 1;
        for (Finding finding : findings) {
            String name = "finding." + number++;
            records.add(ResultRecord.ofText(name, finding.kind().name()));
            records.add(
                    ResultRecord.ofText(name + ".severity", finding.severity().name()));
            records.add(ResultRecord.ofText(name + ".words", finding.toString()));
        }
        return List.copyOf(records);
    }
}
