// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Objects;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Judges whether a densitometer reads correctly, by its readings of a tablet with a certificate:
 *
 * <pre>{@code
 * DensitometerVerdict verdict = DensitometerCheck.withDefaults().judge(summary);
 * verdict.isPassed();
 * }</pre>
 *
 * <p>By default every step is judged, within 0.02 or 2 % of density, by {@linkplain DecisionRule#SIMPLE_ACCEPTANCE
 * simple acceptance}. The check is passed if every step to be judged passes and no {@linkplain Finding finding} is a
 * {@link Severity#FAULT}. An effect is a fault if it alone exceeds the tolerance at the step where it is largest, and a
 * warning if it exceeds half of it. An offset or a slope must also exceed its expanded uncertainty, and a drift its
 * expanded uncertainty for 99.9 %. These limits are the project's own.
 *
 * <p>If the log has printed densities and counts, the steps are judged by the printed densities. If these do not follow
 * from the counts, the fault in the arithmetic is named, and the optical findings come from the recomputed densities.
 *
 * <p>Immutable and thread safe.
 *
 * @source what is examined (repeatability, reproducibility, stability, bias, linearity, uncertainty) follows the terms of
 *     ISO 14807:2001 as remembered; its text could not be read
 */
public final class DensitometerCheck {

    private final DensityTolerance tolerance;
    private final DecisionRule rule;
    private final double lowest;
    private final double highest;

    private DensitometerCheck(DensityTolerance tolerance, DecisionRule rule, double lowest, double highest) {
        this.tolerance = tolerance;
        this.rule = rule;
        this.lowest = lowest;
        this.highest = highest;
    }

    /**
     * Returns the check with its defaults: all steps, {@link DensityTolerance#USUAL}, simple acceptance.
     *
     * @return the check
     */
    public static DensitometerCheck withDefaults() {
        return new DensitometerCheck(
                DensityTolerance.USUAL,
                DecisionRule.SIMPLE_ACCEPTANCE,
                Double.NEGATIVE_INFINITY,
                Double.POSITIVE_INFINITY);
    }

    /**
     * Returns this check with another tolerance.
     *
     * @param allowed how far a mean may be from the certificate
     * @return a changed copy
     */
    public DensitometerCheck with(DensityTolerance allowed) {
        Objects.requireNonNull(allowed, "allowed");
        return new DensitometerCheck(allowed, rule, lowest, highest);
    }

    /**
     * Returns this check with another decision rule.
     *
     * @param decision how the uncertainty of the comparison counts
     * @return a changed copy
     */
    public DensitometerCheck with(DecisionRule decision) {
        Objects.requireNonNull(decision, "decision");
        return new DensitometerCheck(tolerance, decision, lowest, highest);
    }

    /**
     * Returns this check for a range of densities; steps outside it are not judged and not used.
     *
     * @param from the lowest certified density to be judged
     * @param to the highest certified density to be judged
     * @return a changed copy
     * @throws IllegalArgumentException if the range is empty
     */
    public DensitometerCheck withDensities(Density from, Density to) {
        if (!(from.value() < to.value())) {
            throw new IllegalArgumentException(
                    "densities to be judged must rise from the first to the second, were " + from + " and " + to);
        }
        return new DensitometerCheck(tolerance, rule, from.value(), to.value());
    }

    /**
     * Returns the tolerance.
     *
     * @return how far a mean may be from the certificate
     */
    public DensityTolerance tolerance() {
        return tolerance;
    }

    DecisionRule rule() {
        return rule;
    }

    /**
     * Judges a densitometer.
     *
     * @param summary the readings of the tablet
     * @return the verdict
     * @throws DensitometerInputException if fewer than three of the steps to be judged were read
     */
    public DensitometerVerdict judge(ReadingsSummary summary) {
        return new Judgement(this, summary, false).verdict();
    }

    /**
     * Judges a densitometer by the readings so far, for example when a session was interrupted: a step that was not yet
     * read leaves the check undecided but does not fail it.
     *
     * @param summary the readings of the tablet so far
     * @return the verdict so far
     * @throws DensitometerInputException if fewer than three of the steps to be judged were read
     */
    public DensitometerVerdict judgeSoFar(ReadingsSummary summary) {
        return new Judgement(this, summary, true).verdict();
    }

    boolean isJudged(StepTablet.Step step) {
        return step.density().value() >= lowest && step.density().value() <= highest;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof DensitometerCheck that
                && Objects.equals(tolerance, that.tolerance)
                && Objects.equals(rule, that.rule)
                && Double.compare(lowest, that.lowest) == 0
                && Double.compare(highest, that.highest) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(tolerance, rule, lowest, highest);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return tolerance, rule and range
     */
    @Override
    public String toString() {
        return "densitometer check from " + Figures.plain(lowest) + " to " + Figures.plain(highest) + ", tolerance "
                + tolerance + ", " + rule;
    }
}
