// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;

/** A development cannot be predicted; the message names the strips, the values and what to do. */
public final class DevelopmentException extends NotDeterminableException {

    private static final long serialVersionUID = 1L;

    /** Why. */
    private final DevelopmentFailure failure;

    /**
     * Creates the exception.
     *
     * @param failure why
     * @param message the strips, the values and what to do
     */
    public DevelopmentException(DevelopmentFailure failure, String message) {
        super(Reason.NO_DEVELOPMENT, message);
        this.failure = Objects.requireNonNull(failure, "failure");
    }

    /**
     * Returns the reason why the development cannot be predicted.
     *
     * @return the reason
     */
    public DevelopmentFailure failure() {
        return failure;
    }
}
