// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;

/** A curve could not be fitted; the message names the strip, what was found and what to do. */
public final class CurveFitException extends NotDeterminableException {

    private static final long serialVersionUID = 1L;

    /** Why. */
    private final FitFailure failure;

    /**
     * Creates the exception.
     *
     * @param failure why
     * @param message the strip, what was found and what to do
     */
    public CurveFitException(FitFailure failure, String message) {
        super(Reason.NO_FIT, message);
        this.failure = Objects.requireNonNull(failure, "failure");
    }

    /**
     * Returns the reason why the curve could not be fitted.
     *
     * @return the reason
     */
    public FitFailure failure() {
        return failure;
    }
}
