// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** A table as a conversion sees it: a function over a range. */
abstract class SampleMap {

    private final double lowest;
    private final double highest;

    SampleMap(double lowest, double highest) {
        this.lowest = lowest;
        this.highest = highest;
    }

    final double lowest() {
        return lowest;
    }

    final double highest() {
        return highest;
    }

    /** The result of a sample in the range. */
    abstract double value(double sample);

    /** What is wrong with a sample outside. */
    abstract OutsideMeasuredRangeException outside(double sample, String where);
}
