package org.tonewedge.standards.densitometer.verdict;

/** What a check of a densitometer came to. */
public enum CheckOutcome {

    /** Every step to be judged passed, and nothing was found that is a fault. */
    PASSED,

    /** A step failed or was not read, or a fault was found. */
    FAILED,

    /** No step failed, but the uncertainty leaves open whether some are within the tolerance, or steps are still to be read. */
    UNDECIDED
}
