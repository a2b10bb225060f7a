// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleSupplier;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.standards.SystematicUncertainty;

/**
 * A figure read off a strip, or the reason why it is missing.
 *
 * <p>Immutable and thread safe.
 */
public final class Figure {

    private static final SystematicUncertainty NOTHING_STATED = SystematicUncertainty.ofContributions(Map.of());

    private final double value;
    private final Estimate estimate;
    /** How far the same figure lies from it on a curve of no family. */
    private final double disagreement;

    private final SystematicUncertainty stated;
    private final String reason;
    private final String assumption;

    private Figure(
            double value,
            Estimate estimate,
            double disagreement,
            SystematicUncertainty stated,
            String reason,
            String assumption) {
        this.value = value;
        this.estimate = estimate;
        this.disagreement = disagreement;
        this.stated = stated;
        this.reason = reason;
        this.assumption = assumption;
    }

    /** A figure whose uncertainty is not known. */
    static Figure of(double value) {
        return new Figure(value, null, 0, NOTHING_STATED, null, "");
    }

    static Figure of(Estimate estimate) {
        return new Figure(estimate.value(), estimate, 0, NOTHING_STATED, null, "");
    }

    /** The figure with the part of its uncertainty that errors stated of the strip add to what the readings give. */
    Figure withStatedErrors(SystematicUncertainty errors) {
        return new Figure(value, estimate, disagreement, errors, reason, assumption);
    }

    /**
     * The figure whose uncertainty includes how far it lies from that of a curve of no family: an error that other strips of the
     * film have as well.
     */
    Figure withDisagreement(double fromNoFamily) {
        return new Figure(value, estimate, fromNoFamily, stated, reason, assumption);
    }

    /** How far the same figure lies from it on a curve of no family; 0 if there is none. */
    double disagreement() {
        return disagreement;
    }

    /** The uncertainty that the readings give, without the stated errors. */
    Optional<Estimate> fromReadings() {
        return Optional.ofNullable(estimate);
    }

    /** The figure, marked as resting on an assumption. */
    Figure assuming(String what) {
        return new Figure(value, estimate, disagreement, stated, reason, what);
    }

    /**
     * Returns a missing figure.
     *
     * @param reason why, and what to do
     * @return the figure
     */
    public static Figure missing(String reason) {
        return new Figure(Double.NaN, null, 0, NOTHING_STATED, Objects.requireNonNull(reason, "reason"), "");
    }

    /** Reads a figure; if the curve or the strip cannot give it, the exception becomes the reason. */
    static Figure read(DoubleSupplier reading) {
        try {
            return of(reading.getAsDouble());
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return missing(e.getMessage());
        }
    }

    /**
     * Returns the figure.
     *
     * @return the value; empty if the figure is missing
     */
    public OptionalDouble value() {
        return reason == null ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    /**
     * Returns the figure with its standard uncertainty: that of the readings and, in squares, that of the errors stated of
     * the strip, which count as exactly known. The degrees of freedom of the readings are divided by their share in the
     * variance, or by its root if there is only 1: the project's own rule, whose coverage {@code FigureTest} of the tests checks.
     *
     * <p>For 10,000 simulated pairs of films read behind one tablet (u = 0.005 for each step, 0.06 for the exposure of
     * each film, 0.005 for a reading), 95 % intervals contained the true speed point in 96.3 % of cases, 62.9 % without the
     * stated errors, and the true stops from the reference in 96.3 %. Stated uncertainties were 1.03 to 1.09 times the true
     * ones, because errors of the tablet also scatter about the curve ({@code StatedErrorsTest} in the tests, run as a
     * program with {@code 1250} and the seeds 1 to 8).
     *
     * @return the estimate; empty if the figure is missing or its uncertainty is not known
     */
    public Optional<Estimate> estimate() {
        double systematic = stated.standardUncertainty();
        if (reason != null || systematic == 0) {
            return Optional.ofNullable(estimate);
        }
        if (estimate == null) {
            return Optional.of(Estimate.of(value, systematic));
        }
        double together = Math.hypot(estimate.standardUncertainty(), systematic);
        double share = estimate.standardUncertainty() / together;
        return Optional.of(
                Estimate.of(value, together, StudentT.besideStated(estimate.degreesOfFreedom(), share * share)));
    }

    /**
     * Returns what the errors stated of the strip, those of the tablet, the exposure or the correction of readings,
     * contribute to the uncertainty; beside the reference, what errors that both strips share leave of it.
     *
     * @return the contributions; none where no error was stated
     */
    public SystematicUncertainty statedErrors() {
        return stated;
    }

    /**
     * Returns the unmeasured assumption on which the figure rests.
     *
     * @return the assumption; empty for a figure that was measured
     */
    public String assumption() {
        return assumption;
    }

    /**
     * Returns why the figure is missing.
     *
     * @return the reason, with what to do; empty if the figure is present
     */
    public String reason() {
        return reason == null ? "" : reason;
    }

    /**
     * Returns the figure as written beside a curve, or the reason in brackets.
     *
     * @return the text, with two to four decimals, and with the standard uncertainty if it is known
     */
    @Override
    public String toString() {
        if (reason != null) {
            return "(" + reason + ")";
        }
        String text = estimate().map(Estimate::toString).orElseGet(() -> Figures.plain(value));
        return assumption.isEmpty() ? text : text + " (assumed: " + assumption + ")";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Figure that
                && Double.compare(value, that.value) == 0
                && Objects.equals(estimate, that.estimate)
                && Double.compare(disagreement, that.disagreement) == 0
                && stated.contributions().equals(that.stated.contributions())
                && Objects.equals(reason, that.reason)
                && Objects.equals(assumption, that.assumption);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(value, estimate, stated.contributions(), reason, assumption);
    }
}
