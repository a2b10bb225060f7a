// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** A point lies outside the measured exposures or densities. */
public final class OutsideMeasuredRangeException extends NotDeterminableException {

    private static final long serialVersionUID = 1L;

    /**
     * Creates the exception.
     *
     * @param message the curve, the value, the range and what to do
     */
    public OutsideMeasuredRangeException(String message) {
        super(Reason.OUTSIDE_MEASURED_RANGE, message);
    }
}
