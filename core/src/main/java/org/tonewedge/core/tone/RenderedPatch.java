// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Patch;

/**
 * How one coloured patch was rendered in monochrome, such as a red half a stop darker than a grey of the same
 * reflectance.
 *
 * <p>Immutable and thread safe; equal by value.
 */
public final class RenderedPatch {

    private final Patch patch;
    private final Density density;
    private final LogExposure effective;
    private final Estimate stops;

    RenderedPatch(Patch patch, Density density, LogExposure effective, Estimate stops) {
        this.patch = patch;
        this.density = density;
        this.effective = effective;
        this.stops = stops;
    }

    /**
     * Returns the patch.
     *
     * @return the patch
     */
    public Patch patch() {
        return patch;
    }

    /**
     * Returns its gross density in the negative.
     *
     * @return the density
     */
    public Density density() {
        return density;
    }

    /**
     * Returns the position of its density.
     *
     * @return its effective exposure on the film's axis, or its effective reflectance on the neutral scale of the frame
     */
    public LogExposure effective() {
        return effective;
    }

    /**
     * Returns how much lighter it is rendered than a neutral of the same reflectance.
     *
     * @return the difference, negative for darker
     * @units stops of exposure
     */
    public Estimate stops() {
        return stops;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if all parts are equal
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof RenderedPatch that
                && patch.equals(that.patch)
                && density.equals(that.density)
                && effective.equals(that.effective)
                && stops.equals(that.stops);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(patch, density, effective, stops);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return patch, density and stops
     */
    @Override
    public String toString() {
        return patch.label() + ": " + density + ", " + stops + " stops";
    }

    /**
     * Tells whether the patch is lighter or darker than the neutral.
     *
     * @return the shade; alike if the difference is no more than its expanded uncertainty (k = 2)
     */
    public Shade shade() {
        return Shade.of(stops);
    }
}
