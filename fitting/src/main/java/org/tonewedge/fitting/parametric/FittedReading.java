// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;

/**
 * A reading compared with the curve fitted to it.
 *
 * <p>Immutable and thread safe; equal by value.
 */
public final class FittedReading {

    private final String strip;
    private final Optional<LogExposure> exposure;
    private final Density density;
    private final DensityDifference residual;
    private final double standardised;
    private final double weight;

    FittedReading(
            String strip,
            Optional<LogExposure> exposure,
            Density density,
            DensityDifference residual,
            double standardised,
            double weight) {
        this.strip = strip;
        this.exposure = exposure;
        this.density = density;
        this.residual = residual;
        this.standardised = standardised;
        this.weight = weight;
    }

    /**
     * Returns the name of what was fitted, such as {@code strip 'S07'}.
     *
     * @return the strip
     */
    public String strip() {
        return strip;
    }

    /**
     * Returns the exposure, or empty for a reading of base plus fog.
     *
     * @return the exposure
     */
    public Optional<LogExposure> exposure() {
        return exposure;
    }

    /**
     * Returns the gross density read.
     *
     * @return the density
     */
    public Density density() {
        return density;
    }

    /**
     * Returns the density read minus the density of the curve.
     *
     * @return the residual
     */
    public DensityDifference residual() {
        return residual;
    }

    /**
     * Returns the residual divided by the standard deviation of such a reading.
     *
     * @return the residual in standard deviations, with its sign
     */
    public double standardised() {
        return standardised;
    }

    /**
     * Returns the weight that a robust loss gave the reading, from 0 to 1.
     *
     * @return the weight; 1 without a robust loss
     */
    public double weight() {
        return weight;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if all parts are equal
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof FittedReading that
                && strip.equals(that.strip)
                && exposure.equals(that.exposure)
                && density.equals(that.density)
                && residual.equals(that.residual)
                && Double.compare(standardised, that.standardised) == 0
                && Double.compare(weight, that.weight) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(strip, exposure, density, residual, standardised, weight);
    }

    /**
     * Returns the reading in words.
     *
     * @return strip, exposure, density and residual
     */
    @Override
    public String toString() {
        return strip + ": " + density + " at "
                + exposure.map(LogExposure::toString).orElse("no exposure") + " is "
                + Figures.signed(residual.value()) + " off the curve ("
                + String.format(Locale.ROOT, "%.1f", Math.abs(standardised))
                + " standard deviations)";
    }
}
