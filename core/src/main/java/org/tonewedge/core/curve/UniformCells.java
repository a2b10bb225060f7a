// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/**
 * Finds the cell of a uniform table without a conversion from double to int, which is slow: adding 1.5 · 2<sup>52</sup>
 * leaves the nearest whole number in the low bits of a small double.
 */
final class UniformCells {

    static final double ROUNDER = 0x1.8p52;

    private UniformCells() {}

    /** The whole number in a double to which {@link #ROUNDER} was added. */
    static int rounded(double shifted) {
        return (int) Double.doubleToRawLongBits(shifted);
    }
}
