package org.tonewedge.core.tone;

import org.tonewedge.core.internal.Checks;

/**
 * How a film or paper departs from reciprocity: the exponent p in the effective exposure E t<sup>p</sup>, such as 0.94.
 *
 * <p>With p below 1 a dimmer light needs more than its share of time. One exponent describes a limited range of times;
 * measure it at the times used, from two exposures of the same print density: p = log(E<sub>1</sub>/E<sub>2</sub>) /
 * log(t<sub>2</sub>/t<sub>1</sub>). Above 1 long times would count for more than their share, which is not the failure of
 * reciprocity that the law describes.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param exponent the exponent p, from 0.1 to 1; 1 where reciprocity holds
 * @source K. Schwarzschild's law, effective exposure E t<sup>p</sup>, and its limits, from an encyclopedia article
 */
public record SchwarzschildExponent(double exponent) {

    /** Reciprocity holds: time makes up for illuminance in full. */
    public static final SchwarzschildExponent HOLDS = new SchwarzschildExponent(1);

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
                "it is usually from 0.7 to 1; look for exchanged times or exposures");
    }

    /**
     * Returns a departure from reciprocity.
     *
     * @param exponent the exponent p, from 0.1 to 1
     * @return the departure
     * @throws IllegalArgumentException if the exponent is out of range
     */
    public static SchwarzschildExponent of(double exponent) {
        return new SchwarzschildExponent(exponent);
    }
}
