// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Patch;

/**
 * How one coloured patch was rendered in monochrome, such as a red half a stop darker than a grey of the same
 * reflectance.
 *
 * @param patch the patch
 * @param density its gross density in the negative
 * @param effective the position of its density: its effective exposure on the film's axis, or its effective reflectance
 *     on the neutral scale of the frame
 * @param stops how much lighter it is rendered than a neutral of the same reflectance, in stops of exposure; negative
 *     for darker
 */
public record RenderedPatch(Patch patch, Density density, LogExposure effective, Estimate stops) {

    /**
     * Tells whether the patch is lighter or darker than the neutral.
     *
     * @return the shade; alike if the difference is no more than its expanded uncertainty (k = 2)
     */
    public Shade shade() {
        return Shade.of(stops);
    }
}
