package org.tonewedge.standards.densitometer.verdict;

/** How much a finding matters, measured by the tolerance. */
public enum Severity {

    /** Worth knowing; the densitometer is as good as it is asked to be. */
    NOTE,

    /** The effect takes up more than half of the tolerance, or leaves the check on weak ground. */
    WARNING,

    /** The effect alone exceeds the tolerance, or the densities cannot be believed; the check fails. */
    FAULT
}
