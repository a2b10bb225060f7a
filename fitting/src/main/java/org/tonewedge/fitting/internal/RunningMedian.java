// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/** Densities that a single bad reading, or two neighbours that changed places, cannot bend. */
final class RunningMedian {

    /** Readings on each side of one. */
    private static final int REACH = 2;

    private RunningMedian() {}

    /**
     * Replaces each exposed reading by the median of it and its neighbours on both sides, as many on one side as on the
     * other; the first and the last by the median of the reading, the median next to it, and what this one and the next
     * but one foretell; and each unexposed one by the median of them all. Readings that rise or fall all along stay as
     * they are, except an end more than twice as far from its neighbour as that from the next.
     *
     * @param densities those of the exposed readings by rising exposure, then those of the unexposed ones
     * @param exposed how many are exposed
     * @return the medians
     * @source J. W. Tukey, Exploratory Data Analysis (1977), chapter 7: end-point smoothing (from memory)
     */
    static double[] of(double[] densities, int exposed) {
        double[] medians = densities.clone();
        int last = exposed - 1;
        for (int i = 1; i < last; i++) {
            int reach = Math.min(REACH, Math.min(i, last - i));
            medians[i] = median(densities, i - reach, i + reach + 1);
        }
        if (exposed > 3) {
            medians[0] = end(densities[0], medians[1], medians[2]);
            medians[last] = end(densities[last], medians[last - 1], medians[last - 2]);
        }
        if (exposed < densities.length) {
            Arrays.fill(medians, exposed, densities.length, median(densities, exposed, densities.length));
        }
        return medians;
    }

    private static double end(double reading, double next, double nextButOne) {
        double foretold = 3 * next - 2 * nextButOne;
        return Math.max(Math.min(reading, next), Math.min(Math.max(reading, next), foretold));
    }

    /** The median of a part of an array. */
    static double median(double[] values, int from, int to) {
        double[] sorted = Arrays.copyOfRange(values, from, to);
        Arrays.sort(sorted);
        int n = sorted.length;
        return 0.5 * (sorted[(n - 1) / 2] + sorted[n / 2]);
    }
}
