// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Objects;

/**
 * The readings or the curve at hand cannot give this figure. The message names the curve, the value and what to do; {@link #reason()} and
 * the subclasses say why.
 */
public class NotDeterminableException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Why a figure cannot be had; a minor version may add constants. */
    public enum Reason {
        /** A point lies outside the measured exposures or densities: read more steps at that end. */
        OUTSIDE_MEASURED_RANGE,
        /** The curve reaches the density at several exposures. */
        AMBIGUOUS_DENSITY,
        /** No curve can be fitted to the readings. */
        NO_FIT,
        /** The development series does not give the figure. */
        NO_DEVELOPMENT,
        /** There are too few readings, or too alike ones: read more steps, frames, times or patches. */
        TOO_FEW_READINGS,
        /** Base plus fog was not read: read an unexposed, processed part. */
        NO_BASE_PLUS_FOG,
        /** The readings exclude each other: look for swapped ones. */
        CONTRADICTORY_READINGS,
        /** The curve lacks the shape that the method needs: it has no straight line, no contrast, or turns back. */
        UNSUITABLE_CURVE,
        /** The scan is too small or too coarse, or does not show what was looked for. */
        UNSUITABLE_IMAGE,
        /** The figure can be read, but the readings do not say how well. */
        UNCERTAINTY_UNKNOWN,
        /** The method is for another kind of material, or none of the other reasons is the right one. */
        METHOD_NOT_APPLICABLE
    }

    /** Why. */
    private final Reason reason;

    /**
     * Creates the exception for {@link Reason#METHOD_NOT_APPLICABLE}.
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
