// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A gross optical density, such as D 0.42: D = −log<sub>10</sub> of the transmittance or of the reflectance factor, read
 * against the open gate (or the perfect diffuser), with the base included.
 *
 * <p>A density counted from another density, such as 0.10 above base plus fog, is a {@link DensityDifference}. The
 * compiler keeps the two apart:
 *
 * <pre>{@code Density speedPoint = DensityDifference.of(0.10).above(basePlusFog);}</pre>
 *
 * <p>Values from −0.20 to 10 are accepted. Slightly negative values occur when a densitometer was zeroed on the base
 * instead of the open gate, or has drifted; anything lower means a wrong zero. Values above 10 are percentages or
 * counts, not densities.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param value the density
 * @units decimal log units of opacity
 * @source D = log<sub>10</sub> (Φ<sub>0</sub>/Φ), ISO 5-1 notation as given by BAM's reference procedure for X-ray films;
 *     the limits are common practice, no source
 */
public record Density(double value) implements Comparable<Density>, Serializable {

    private static final double LOWEST = -0.20;
    private static final double HIGHEST = 10;

    /**
     * Checks the density.
     *
     * @param value the density, from −0.20 to 10
     * @throws IllegalArgumentException if it is NaN or outside −0.20 to 10
     */
    public Density {
        value = Checks.within(
                "density",
                value,
                LOWEST,
                HIGHEST,
                value > HIGHEST
                        ? "a percentage, counts or a missing decimal point?"
                        : "zero the densitometer on the open gate and read again");
    }

    /**
     * Returns a density.
     *
     * @param value the density, from −0.20 to 10
     * @return the density
     * @throws IllegalArgumentException as the constructor does
     */
    public static Density of(double value) {
        return new Density(value);
    }

    /**
     * Returns the density of a transmittance, or of a reflectance factor.
     *
     * @param transmittance the fraction of light passed, above 0
     * @return −log<sub>10</sub> of the transmittance
     * @throws IllegalArgumentException if it is not above 0, or its density lies outside −0.20 to 10
     */
    public static Density ofTransmittance(double transmittance) {
        return new Density(-Math.log10(Checks.positive("transmittance", transmittance)));
    }

    /**
     * Returns the fraction of light passed.
     *
     * @return 10 to the power of −D
     */
    public double transmittance() {
        return Math.pow(10, -value);
    }

    /**
     * Returns the opacity.
     *
     * @return 10 to the power of D
     */
    public double opacity() {
        return Math.pow(10, value);
    }

    /**
     * Returns how much denser this is than another density.
     *
     * @param other the density to count from
     * @return this − other
     */
    public DensityDifference minus(Density other) {
        return new DensityDifference(value - other.value);
    }

    /**
     * Returns the density that is higher than this one by a difference.
     *
     * @param difference the difference, of either sign
     * @return this + difference
     * @throws IllegalArgumentException if the sum is outside the limits of a density
     */
    public Density plus(DensityDifference difference) {
        return new Density(value + difference.value());
    }

    /**
     * Tells whether two densities differ by no more than a tolerance.
     *
     * @param other the density to compare with
     * @param tolerance the greatest difference allowed
     * @return true if they differ by no more than the tolerance
     */
    public boolean isWithin(Density other, double tolerance) {
        return Math.abs(value - other.value) <= tolerance;
    }

    @Override
    public int compareTo(Density other) {
        return Double.compare(value, other.value);
    }

    /**
     * Returns the density as written on a curve sheet.
     *
     * @return for example {@code D 0.42}, with two to four decimals
     */
    @Override
    public String toString() {
        return "D " + Figures.plain(value);
    }
}
