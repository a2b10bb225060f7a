// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import org.tonewedge.core.quantity.Estimate;

/** Whether a tone prints lighter or darker than another. */
public enum Shade {
    /** Lighter in the print: denser in the negative. */
    LIGHTER,
    /** Darker in the print: thinner in the negative. */
    DARKER,
    /** No difference beyond the uncertainty or tolerance. */
    ALIKE;

    private static final double COVERAGE_FACTOR = 2;

    /** The shade for a figure that is positive for lighter, judged against its expanded uncertainty. */
    static Shade of(Estimate lighterBy) {
        return of(lighterBy.value(), lighterBy.expandedUncertainty(COVERAGE_FACTOR));
    }

    /** The shade for a figure that is positive for lighter, judged against a limit of 0 or more. */
    static Shade of(double lighterBy, double limit) {
        if (Math.abs(lighterBy) <= limit) {
            return ALIKE;
        }
        return lighterBy > 0 ? LIGHTER : DARKER;
    }
}
