// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Patch;

/**
 * How differently two films render one patch.
 *
 * @param patch the patch
 * @param stops how much lighter the patch is than on the reference film, in stops of exposure; negative for darker
 */
public record PatchDifference(Patch patch, Estimate stops) {
    /**
     * Checks that nothing is missing.
     *
     * @param patch the patch
     * @param stops how much lighter the patch is than on the reference film, in stops of exposure; negative for darker
     */
    public PatchDifference {
        Objects.requireNonNull(patch, "patch");
        Objects.requireNonNull(stops, "stops");
    }

    /**
     * Tells whether the patch is lighter or darker than on the reference film.
     *
     * @return the shade; alike if the difference does not exceed its expanded uncertainty (k = 2)
     */
    public Shade shade() {
        return Shade.of(stops);
    }
}
