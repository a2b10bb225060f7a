// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

/** Whether an answer lies inside the tested range. */
enum Scope {
    TESTED,
    EXTRAPOLATED;

    Scope and(Scope other) {
        return this == EXTRAPOLATED ? this : other;
    }
}
