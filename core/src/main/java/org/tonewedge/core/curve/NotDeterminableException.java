// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Objects;

/**
 * The curve at hand cannot give this figure. The message names the curve, the value and what to do; {@link #reason()} and
 * the subclasses say why.
 */
public class NotDeterminableException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Why a figure cannot be had; a minor version may add constants. */
    public enum Reason {
        /** A point lies outside the measured exposures or densities. */
        OUTSIDE_MEASURED_RANGE,
        /** The curve reaches the density at several exposures. */
        AMBIGUOUS_DENSITY,
        /** No curve can be fitted to the readings. */
        NO_FIT,
        /** The development series does not give the figure. */
        NO_DEVELOPMENT,
        /** The method does not apply to this curve, or its readings do not suffice. */
        METHOD_NOT_APPLICABLE
    }

    /** Why. */
    private final Reason reason;

    /**
     * Creates the exception for a method that does not apply.
     *
     * @param message the curve, the value and what to do
     */
    public NotDeterminableException(String message) {
        this(Reason.METHOD_NOT_APPLICABLE, message);
    }

    /**
     * Creates the exception.
     *
     * @param reason why
     * @param message the curve, the value and what to do
     */
    public NotDeterminableException(Reason reason, String message) {
        super(Objects.requireNonNull(message, "message"));
        this.reason = Objects.requireNonNull(reason, "reason");
    }

    /**
     * Returns why the figure cannot be had.
     *
     * @return the reason
     */
    public Reason reason() {
        return reason;
    }
}
