// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

/** The outcome of a densitometer check. */
public enum CheckOutcome {

    /** Every step to be judged passed, and no fault was found. */
    PASSED,

    /** A step failed or was not read, or a fault was found. */
    FAILED,

    /** No step failed, but the uncertainty leaves open whether some are within the tolerance, or steps are still to be read. */
    UNDECIDED
}
