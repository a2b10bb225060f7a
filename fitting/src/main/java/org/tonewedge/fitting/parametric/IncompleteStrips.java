package org.tonewedge.fitting.parametric;

/** What to do with a strip that does not show all that a family describes. */
public enum IncompleteStrips {
    /** Fit the part of the family that the strip shows, and say so in the result. */
    REDUCE,
    /** Fit the whole family, whatever its parameters come to. */
    KEEP_WHOLE_FAMILY
}
