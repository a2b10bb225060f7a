// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import org.tonewedge.core.internal.Checks;

/**
 * The departure of a film or paper from reciprocity: the exponent p in the effective exposure E t<sup>p</sup>, such as
 * 0.94.
 *
 * <p>If p is below 1, a dimmer light needs more time than reciprocity predicts. One exponent describes a limited range
 * of times. Measure it at the times used, from two exposures that give the same print density: p =
 * log(E<sub>1</sub>/E<sub>2</sub>) / log(t<sub>2</sub>/t<sub>1</sub>). Values above 1 are refused: they would mean that
 * long times are more effective than reciprocity predicts, which is not the failure that the law describes.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param exponent the exponent p, from 0.1 to 1; 1 where reciprocity holds
 * @source K. Schwarzschild's law, effective exposure E t<sup>p</sup>, and its limits, from an encyclopedia article
 */
public record SchwarzschildExponent(double exponent) {

    /** Reciprocity holds: time makes up for illuminance in full. */
    public static final SchwarzschildExponent RECIPROCITY_HOLDS = new SchwarzschildExponent(1);

    private static final double LOWEST = 0.1;

    /**
     * Checks the exponent.
     *
     * @param exponent the exponent p
     * @throws IllegalArgumentException if it is not from 0.1 to 1
     */
    public SchwarzschildExponent {
        Checks.within(
                "Schwarzschild exponent",
                exponent,
                LOWEST,
                1,
                "it is usually from 0.7 to 1; look for swapped times or exposures");
    }

    /**
     * Returns an exponent.
     *
     * @param exponent the exponent p, from 0.1 to 1
     * @return the departure
     * @throws IllegalArgumentException if the exponent is out of range
     */
    public static SchwarzschildExponent of(double exponent) {
        return new SchwarzschildExponent(exponent);
    }
}
