package org.tonewedge.standards.comparison;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleSupplier;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/**
 * A figure read off a strip, or the reason why it is missing.
 *
 * <p>Immutable and thread safe.
 */
public final class Figure {

    private final double value;
    private final Estimate estimate;
    private final String reason;
    private final String assumption;

    private Figure(double value, Estimate estimate, String reason, String assumption) {
        this.value = value;
        this.estimate = estimate;
        this.reason = reason;
        this.assumption = assumption;
    }

    /** A figure whose uncertainty is not known. */
    static Figure of(double value) {
        return new Figure(value, null, null, "");
    }

    static Figure of(Estimate estimate) {
        return new Figure(estimate.value(), estimate, null, "");
    }

    /** The figure, marked as resting on an assumption. */
    Figure assuming(String what) {
        return new Figure(value, estimate, reason, what);
    }

    /**
     * Returns a missing figure.
     *
     * @param reason why, and what to do
     * @return the figure
     */
    public static Figure missing(String reason) {
        return new Figure(Double.NaN, null, Objects.requireNonNull(reason), "");
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
     * Returns the figure with its standard uncertainty.
     *
     * @return the estimate; empty if the figure is missing or its uncertainty is not known
     */
    public Optional<Estimate> estimate() {
        return Optional.ofNullable(estimate);
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
        String text = estimate == null ? Figures.plain(value) : estimate.toString();
        return assumption.isEmpty() ? text : text + " (assumed: " + assumption + ")";
    }
}
