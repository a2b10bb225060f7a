// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** Looks for samples outside a range. */
final class SampleRange {

    private SampleRange() {}

    /**
     * Returns the index of the first sample outside a range or NaN, −1 if there is none. One comparison a sample, with its
     * distance from the middle, is enough unless a sample lies within rounding of an end.
     */
    static int firstOutside(double[] samples, double lowest, double highest) {
        double middle = 0.5 * (lowest + highest);
        double rounding = 4 * Math.ulp(Math.max(Math.abs(lowest), Math.abs(highest)));
        if (areWithin(samples, middle, 0.5 * (highest - lowest) - rounding)) {
            return -1;
        }
        for (int i = 0; i < samples.length; i++) {
            if (!(samples[i] >= lowest && samples[i] <= highest)) {
                return i;
            }
        }
        return -1;
    }

    private static boolean areWithin(double[] samples, double middle, double distance) {
        for (double sample : samples) {
            if (!(Math.abs(sample - middle) <= distance)) {
                return false;
            }
        }
        return true;
    }
}
