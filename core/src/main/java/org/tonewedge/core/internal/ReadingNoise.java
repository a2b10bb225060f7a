// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

/** How far readings of frames may disagree with what film can do before they are in doubt. */
public final class ReadingNoise {

    /** Differences of density up to this are noise; common practice, no source. */
    private static final double DENSITY = 0.05;

    private ReadingNoise() {}

    /**
     * Tells whether a density is thinner than another beyond doubt.
     *
     * @param density a density
     * @param than the other
     * @return true if it is less by more than noise
     */
    public static boolean isThinner(double density, double than) {
        return than - density > DENSITY;
    }
}
