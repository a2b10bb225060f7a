package org.tonewedge.standards.densitometer.verdict;

import java.util.List;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * The verdict on a densitometer: whether it passed, step by step, what was found, and the correction that its readings
 * need.
 *
 * <p>Immutable and thread safe.
 */
public final class DensitometerVerdict {

    private final ReadingsSummary summary;
    private final DensityTolerance tolerance;
    private final DecisionRule rule;
    private final List<StepVerdict> steps;
    private final List<Finding> findings;
    private final CertificateComparison comparison;
    private final CertificateComparison optical;
    private final boolean passed;

    DensitometerVerdict(
            ReadingsSummary summary,
            DensityTolerance tolerance,
            DecisionRule rule,
            List<StepVerdict> steps,
            List<Finding> findings,
            CertificateComparison comparison,
            CertificateComparison optical,
            boolean passed) {
        this.summary = summary;
        this.tolerance = tolerance;
        this.rule = rule;
        this.steps = steps;
        this.findings = findings;
        this.comparison = comparison;
        this.optical = optical;
        this.passed = passed;
    }

    /**
     * Tells whether the densitometer may be trusted as it is.
     *
     * @return true if every step to be judged passed and nothing was found that is a fault
     */
    public boolean isPassed() {
        return passed;
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
     * Returns what was found.
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
     * Returns the tolerance.
     *
     * @return how far a mean may be from the certificate
     */
    public DensityTolerance tolerance() {
        return tolerance;
    }

    /**
     * Returns the rule of decision.
     *
     * @return how the uncertainty of the comparison counts
     */
    public DecisionRule rule() {
        return rule;
    }

    /**
     * Returns the comparison of the densities as the instrument states them.
     *
     * @return the comparison the steps were judged by
     */
    public CertificateComparison comparison() {
        return comparison;
    }

    /**
     * Returns the comparison of the densities freed from a fault of the firmware's arithmetic.
     *
     * @return the comparison of the densities computed anew if the arithmetic is wrong, else {@link #comparison()}
     */
    public CertificateComparison opticalComparison() {
        return optical;
    }

    /**
     * Tells whether the correction is for densities computed anew from the counts, because those printed are wrong.
     *
     * @return true if the arithmetic of the firmware must be put right first
     */
    public boolean isArithmeticWrong() {
        return optical != comparison;
    }

    /**
     * Returns the correction that its readings need.
     *
     * @param kind the form of the correction
     * @return the correction of the {@linkplain #opticalComparison() optical comparison}
     * @throws DensitometerInputException if there are too few steps for this form, or the readings do not rise
     */
    public DensityCorrection correction(CorrectionKind kind) {
        return DensityCorrection.of(kind, optical);
    }

    /**
     * Returns the correction in the simplest form that fits: with the leak if it is significant, else a line.
     *
     * @return the correction
     * @throws DensitometerInputException if the readings do not rise
     */
    public DensityCorrection correction() {
        return correction(
                optical.isLeakSignificant() ? CorrectionKind.OFFSET_SLOPE_AND_LEAK : CorrectionKind.OFFSET_AND_SLOPE);
    }

    /**
     * Returns the verdict in words.
     *
     * @return passed or failed, with the number of steps and of faults
     */
    @Override
    public String toString() {
        long failed = steps.stream()
                .filter(step -> step.outcome() != StepOutcome.PASS)
                .count();
        long faults = findings.stream()
                .filter(finding -> finding.severity() == Severity.FAULT)
                .count();
        return (passed ? "passed" : "failed") + ": " + (steps.size() - failed) + " of " + steps.size() + " steps "
                + tolerance + ", " + faults + " faults found";
    }
}
