package org.tonewedge.fitting.development;

/** Whether an answer lies inside what was tested. */
enum Scope {
    TESTED,
    EXTRAPOLATED;

    Scope and(Scope other) {
        return this == EXTRAPOLATED ? this : other;
    }
}
