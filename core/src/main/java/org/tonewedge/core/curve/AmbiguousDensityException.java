// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** The curve reaches the density at several exposures, because it reverses or is level there. */
public final class AmbiguousDensityException extends NotDeterminableException {

    private static final long serialVersionUID = 1L;

    /**
     * Creates the exception.
     *
     * @param message the curve, the density, the exposures and what to do
     */
    public AmbiguousDensityException(String message) {
        super(Reason.AMBIGUOUS_DENSITY, message);
    }
}
