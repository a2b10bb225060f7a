package org.tonewedge.fitting.internal;

import java.util.Arrays;

/** Densities that a single bad reading, or two neighbours that changed places, cannot bend. */
final class RunningMedian {

    /** Readings on each side of one. */
    private static final int REACH = 2;

    private RunningMedian() {}

    /**
     * Replaces each exposed reading by the median of it and its neighbours on both sides, as many on one side as on the
     * other, three readings in all next to an end; and each unexposed one by the median of them all.
     *
     * @param densities those of the exposed readings by rising exposure, then those of the unexposed ones
     * @param exposed how many are exposed
     * @return the medians
     */
    static double[] of(double[] densities, int exposed) {
        double[] medians = densities.clone();
        for (int i = 0; i < exposed; i++) {
            int reach = Math.max(1, Math.min(REACH, Math.min(i, exposed - 1 - i)));
            int from = Math.max(0, Math.min(i - reach, exposed - 2 * reach - 1));
            medians[i] = median(densities, from, Math.min(exposed, from + 2 * reach + 1));
        }
        if (exposed < densities.length) {
            Arrays.fill(medians, exposed, densities.length, median(densities, exposed, densities.length));
        }
        return medians;
    }

    /** The median of a part of an array. */
    static double median(double[] values, int from, int to) {
        double[] sorted = Arrays.copyOfRange(values, from, to);
        Arrays.sort(sorted);
        int n = sorted.length;
        return 0.5 * (sorted[(n - 1) / 2] + sorted[n / 2]);
    }
}
