// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.DensityDifference;

/**
 * How differently two films print one tone of the subject.
 *
 * @param reproduced the tone as the film prints it
 * @param reference the tone as the reference film prints it
 */
public record ToneDifference(ReproducedTone reproduced, ReproducedTone reference) {
    /**
     * Checks that nothing is missing.
     *
     * @param reproduced the tone as the film prints it
     * @param reference the tone as the reference film prints it
     */
    public ToneDifference {
        Objects.requireNonNull(reproduced, "reproduced");
        Objects.requireNonNull(reference, "reference");
    }

    /**
     * Returns how much denser the tone is in the print than with the reference film.
     *
     * @return the print density minus that of the reference: positive for darker
     */
    public DensityDifference difference() {
        return reproduced.printDensity().minus(reference.printDensity());
    }

    /**
     * Tells whether the tone prints lighter or darker than with the reference film.
     *
     * @param tolerance the greatest difference of print density that counts as alike, 0 or more, such as 0.02
     * @return the shade
     * @throws IllegalArgumentException if the tolerance is negative
     */
    public Shade shade(double tolerance) {
        return Shade.of(
                -difference().value(),
                Checks.within("tolerance", tolerance, 0, 1, "give it as a density, such as 0.02"));
    }
}
