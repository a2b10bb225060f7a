// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Objects;

/**
 * The readings or the curve at hand cannot give this figure. The message names the curve, the value and what to do;
 * {@link #reason()} and the subclasses say why.
 */
public class NotDeterminableException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Why a figure cannot be had; a minor version may add constants. */
    public enum Reason {
        /** A point lies outside the measured exposures or densities: read more steps at that end. */
        OUTSIDE_MEASURED_RANGE,
        /** The curve reaches the density at several exposures: restrict it to one branch. */
        AMBIGUOUS_DENSITY,
        /** No curve can be fitted to the readings: look for wrong ones, or draw a curve through them. */
        NO_FIT,
        /** The development series does not give the figure: develop more strips, or ask for what was tested. */
        NO_DEVELOPMENT,
        /** There are too few readings, or they are too alike: read more steps, frames, times or patches. */
        TOO_FEW_READINGS,
        /** Base plus fog was not read: read an unexposed, processed part. */
        NO_BASE_PLUS_FOG,
        /** The readings exclude each other: look for swapped ones. */
        CONTRADICTORY_READINGS,
        /**
         * The curve lacks the shape that the method needs, for example because it turns back or has no straight line or no
         * contrast: read steps over a longer range, or choose another method.
         */
        UNSUITABLE_CURVE,
        /** The scan is too small or too coarse, or does not show what was looked for: scan again, or choose another region. */
        UNSUITABLE_IMAGE,
        /** The figure can be read, but the readings do not say how well: read more steps, or do without its uncertainty. */
        UNCERTAINTY_UNKNOWN,
        /** The method is for another kind of material, or no other reason fits: choose another method, as the message says. */
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
