// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

/** The outcome of one step of the tablet. */
public enum StepOutcome {

    /** The mean reading is within the tolerance. */
    PASS,

    /** The mean reading is not within the tolerance. */
    FAIL,

    /** The uncertainty leaves open whether the mean reading is within the tolerance. */
    UNDECIDED,

    /** The step was to be judged, but the log has no density for it; the check fails. */
    NOT_READ
}
