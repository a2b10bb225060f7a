// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A difference of two densities, such as 0.10 above base plus fog.
 *
 * <p>Either sign is accepted: noise sometimes makes a measured difference slightly negative.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param value the difference, from −11 to 11
 * @units decimal log units of opacity
 */
public record DensityDifference(double value) implements Comparable<DensityDifference>, Serializable {

    private static final double LIMIT = 11;

    /**
     * Checks the difference.
     *
     * @param value the difference, from −11 to 11
     * @throws IllegalArgumentException if it is NaN or outside −11 to 11
     */
    public DensityDifference {
        value = Checks.within("density difference", value, -LIMIT, LIMIT, "");
    }

    /**
     * Returns a difference of densities.
     *
     * @param value the difference, from −11 to 11
     * @return the difference
     * @throws IllegalArgumentException as the constructor does
     */
    public static DensityDifference of(double value) {
        return new DensityDifference(value);
    }

    /**
     * Returns the density that is higher than another by this difference.
     *
     * @param density the density to count from, such as base plus fog
     * @return density + this
     * @throws IllegalArgumentException if the sum is outside the limits of a density
     */
    public Density above(Density density) {
        return density.plus(this);
    }

    /**
     * Returns the sum of two differences.
     *
     * @param other the difference to add
     * @return this + other
     * @throws IllegalArgumentException as the constructor does
     */
    public DensityDifference plus(DensityDifference other) {
        return new DensityDifference(value + other.value);
    }

    /**
     * Returns the difference with the opposite sign.
     *
     * @return −this
     */
    public DensityDifference negated() {
        return new DensityDifference(-value);
    }

    @Override
    public int compareTo(DensityDifference other) {
        return Double.compare(value, other.value);
    }

    /**
     * Returns the difference with its sign.
     *
     * @return for example {@code ΔD +0.10}, with two to four decimals
     */
    @Override
    public String toString() {
        return "ΔD " + Figures.signed(value);
    }
}
