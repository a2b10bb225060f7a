// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Objects;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * One finding of a densitometer check, such as a fault of kind {@link FindingKind#STRAY_LIGHT} at step 21 that costs
 * 0.31 of density where 0.06 is allowed.
 *
 * <p>Immutable and thread safe.
 */
public final class Finding {

    private final FindingKind kind;
    private final Severity severity;
    private final int step;
    private final double effect;
    private final double allowed;
    private final String words;
    private final String remedy;

    private Finding(
            FindingKind kind, Severity severity, int step, double effect, double allowed, String words, String remedy) {
        this.kind = kind;
        this.severity = severity;
        this.step = step;
        this.effect = effect;
        this.allowed = allowed;
        this.words = words;
        this.remedy = remedy;
    }

    static Finding of(FindingKind kind, Severity severity, String words) {
        return new Finding(kind, severity, 0, Double.NaN, Double.NaN, words, kind.remedy());
    }

    Finding atStep(int number) {
        return new Finding(kind, severity, number, effect, allowed, words, remedy);
    }

    Finding withEffect(double size, double limit) {
        return new Finding(kind, severity, step, size, limit, words, remedy);
    }

    Finding withRemedy(String other) {
        return new Finding(kind, severity, step, effect, allowed, words, other);
    }

    /**
     * Returns the kind of the finding.
     *
     * @return the kind
     */
    public FindingKind kind() {
        return kind;
    }

    /**
     * Returns how much it matters.
     *
     * @return the severity
     */
    public Severity severity() {
        return severity;
    }

    /**
     * Returns the step at which it shows most.
     *
     * @return the number of the step, if it has one
     */
    public OptionalInt step() {
        return step > 0 ? OptionalInt.of(step) : OptionalInt.empty();
    }

    /**
     * Returns how much it changes a density there.
     *
     * @return the effect, if it has a size
     * @units density
     */
    public OptionalDouble effect() {
        return Double.isNaN(effect) ? OptionalDouble.empty() : OptionalDouble.of(effect);
    }

    /**
     * Returns how much is allowed there.
     *
     * @return the limit with which the effect was compared, if there is one
     * @units density
     */
    public OptionalDouble allowed() {
        return Double.isNaN(allowed) ? OptionalDouble.empty() : OptionalDouble.of(allowed);
    }

    /**
     * Returns what was found.
     *
     * @return the finding in words, with its values
     */
    public String message() {
        return words;
    }

    /**
     * Returns what to do about it.
     *
     * @return the remedy in words
     */
    public String remedy() {
        return remedy;
    }

    /**
     * Whether a correction made from such readings would carry the fault on. Scatter alone does not: means of several
     * runs are corrected, and the scatter is part of the correction's uncertainty.
     */
    boolean barsCorrection() {
        return switch (kind) {
            case ARITHMETIC_SUSPECTED,
                    IMPLAUSIBLE_DENSITIES,
                    NOT_MONOTONE,
                    DRIFT_WITH_TIME,
                    DRIFT_WITH_TEMPERATURE,
                    UNKNOWN_STEP,
                    STALE_READINGS,
                    READINGS_AVERAGED,
                    DRIFT_OR_SLOPE,
                    STEPS_SWAPPED,
                    STEP_SKIPPED,
                    STEPS_MISNUMBERED,
                    COUNTS_OVERFLOW,
                    SAMPLE_CLIPPED,
                    OPEN_GATE_CLIPPED,
                    DARK_CLIPPED,
                    DARK_SUBTRACTED_TWICE,
                    DARK_OF_OTHER_GAIN,
                    GAIN_RATIO_WRONG,
                    LAMP_WARM_UP -> severity != Severity.NOTE;
            case CERTIFICATE_TOO_UNCERTAIN -> effect > allowed;
            default -> false;
        };
    }

    /**
     * Returns the finding on one line.
     *
     * @return severity, kind, words and remedy
     */
    @Override
    public String toString() {
        return severity + " " + kind + (step > 0 ? " (step " + step + ")" : "") + ": " + words + "; " + remedy;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Finding that
                && Objects.equals(kind, that.kind)
                && Objects.equals(severity, that.severity)
                && step == that.step
                && Double.compare(effect, that.effect) == 0
                && Double.compare(allowed, that.allowed) == 0
                && Objects.equals(words, that.words)
                && Objects.equals(remedy, that.remedy);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(kind, severity, step, effect, allowed, words, remedy);
    }
}
