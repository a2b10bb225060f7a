package org.tonewedge.standards.densitometer.verdict;

/**
 * How the uncertainty of the comparison counts in a verdict.
 *
 * @source the terms of JCGM 106:2012, from memory
 */
public enum DecisionRule {

    /** A step passes if its error is within the tolerance. */
    SIMPLE_ACCEPTANCE,

    /** A step passes if its error and the expanded uncertainty of the comparison together are within the tolerance. */
    GUARDED_ACCEPTANCE
}
