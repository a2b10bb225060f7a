package org.tonewedge.core.tone;

import org.tonewedge.core.internal.Checks;

/**
 * How a paper departs from reciprocity: its exponent p in the effective exposure E t<sup>p</sup>, such as 0.94.
 *
 * <p>With p below 1 a dimmer light needs more than its share of time. One exponent describes a limited range of times;
 * measure it at the times used, from two exposures of the same print density: p = log(E<sub>1</sub>/E<sub>2</sub>) /
 * log(t<sub>2</sub>/t<sub>1</sub>).
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param exponent the exponent p, above 0 and at most 2; 1 where reciprocity holds
 * @source K. Schwarzschild's law, effective exposure E t<sup>p</sup>, and its limits, from an encyclopedia article
 */
public record PaperReciprocity(double exponent) {

    /** Reciprocity holds: time makes up for illuminance in full. */
    public static final PaperReciprocity HOLDS = new PaperReciprocity(1);

    private static final double HIGHEST = 2;

    /**
     * Checks the exponent.
     *
     * @param exponent the exponent p
     * @throws IllegalArgumentException if it is not above 0 and at most 2
     */
    public PaperReciprocity {
        Checks.within("reciprocity exponent", exponent, Double.MIN_VALUE, HIGHEST, "it is usually from 0.7 to 1");
    }

    /**
     * Returns a paper's departure from reciprocity.
     *
     * @param exponent the exponent p, above 0 and at most 2
     * @return the departure
     * @throws IllegalArgumentException if the exponent is out of range
     */
    public static PaperReciprocity ofExponent(double exponent) {
        return new PaperReciprocity(exponent);
    }
}
