package org.tonewedge.standards.comparison;

import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.DoubleSupplier;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;

/**
 * A figure read off a strip, or the reason why it cannot be had.
 *
 * <p>Immutable and thread safe.
 */
public final class Figure {

    private final double value;
    private final String reason;

    private Figure(double value, String reason) {
        this.value = value;
        this.reason = reason;
    }

    static Figure of(double value) {
        return new Figure(value, null);
    }

    /**
     * Returns a figure that cannot be had.
     *
     * @param reason why, and what to do
     * @return the figure
     */
    public static Figure missing(String reason) {
        return new Figure(Double.NaN, Objects.requireNonNull(reason));
    }

    /** Reads a figure; what the curve or the strip cannot give becomes the reason. */
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
     * @return the value; nothing if it cannot be had
     */
    public OptionalDouble value() {
        return reason == null ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    /**
     * Returns why the figure cannot be had.
     *
     * @return the reason, with what to do; empty if the figure is there
     */
    public String reason() {
        return reason == null ? "" : reason;
    }

    /**
     * Returns the figure as it is written beside a curve, or the reason in brackets.
     *
     * @return the text, with two to four decimals
     */
    @Override
    public String toString() {
        return reason == null ? Figures.plain(value) : "(" + reason + ")";
    }
}
