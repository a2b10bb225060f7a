// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** Why a search for the least sum of squares ended. */
public enum StopReason {
    /** The residuals are at right angles to every direction the model can move in, to the tolerance asked for. */
    GRADIENT(true),
    /** Nothing more could be gained in double precision, and the residuals are nearly at right angles to the model. */
    PRECISION(true),
    /** The residuals are down to rounding: the model passes through every observation. */
    EXACT_FIT(true),
    /** The steps became too short to matter although the sum of squares should still fall: a cliff or a kink. */
    STALLED(false),
    /** The limit of iterations was reached. */
    ITERATION_LIMIT(false),
    /** The model has no finite residuals at the start. */
    UNDEFINED_START(false);

    private final boolean converged;

    StopReason(boolean converged) {
        this.converged = converged;
    }

    /**
     * Tells whether a least sum of squares was found.
     *
     * @return true for a minimum, false if the search gave up
     */
    public boolean isConverged() {
        return converged;
    }
}
