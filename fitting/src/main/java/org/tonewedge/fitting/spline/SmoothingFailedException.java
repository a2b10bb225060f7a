// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import org.tonewedge.core.curve.NotDeterminableException;

/** No smoothing spline can be drawn through a strip as asked; the message says what to do. */
public final class SmoothingFailedException extends NotDeterminableException {

    private static final long serialVersionUID = 1L;

    /** The identifier of the strip. */
    private final String stripId;

    /** Why it failed. */
    private final Failure failure;

    /** The reasons why a spline cannot be drawn. */
    public enum Failure {

        /** The strip has too few different exposures. */
        TOO_FEW_EXPOSURES,

        /** The strip has no reading of its unexposed part. */
        NO_BASE_PLUS_FOG,

        /** Steps lie on the wrong side of base plus fog, at which the curve should begin. */
        BASE_PLUS_FOG_CONTRADICTED,

        /** The degrees of freedom asked for exceed what the strip's exposures allow. */
        DEGREES_OF_FREEDOM_OUT_OF_REACH,

        /** The criterion needs a stated repeatability, or the one asked for needs repeat readings that tell it. */
        NO_REPEATABILITY,

        /** The stated repeatability is not a finite number above 0 at a density of the strip. */
        REPEATABILITY_NOT_POSITIVE,

        /** The search for the monotone curve did not converge. */
        NO_MONOTONE_CURVE
    }

    SmoothingFailedException(String stripId, Failure failure, String message) {
        super(Reason.NO_FIT, message);
        this.stripId = stripId;
        this.failure = failure;
    }

    /**
     * Returns the identifier of the strip.
     *
     * @return its identifier
     */
    public String stripId() {
        return stripId;
    }

    /**
     * Returns the reason for the failure.
     *
     * @return the reason
     */
    public Failure failure() {
        return failure;
    }
}
