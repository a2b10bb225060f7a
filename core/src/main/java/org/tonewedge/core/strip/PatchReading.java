// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.quantity.Density;

/**
 * A patch with the densities read on one frame.
 *
 * @param patch the patch
 * @param readings the gross densities read, one or more
 */
public record PatchReading(Patch patch, List<Density> readings) {

    /**
     * Copies the readings.
     *
     * @param patch the patch
     * @param readings the gross densities read
     * @throws IllegalArgumentException if there is no reading
     */
    public PatchReading {
        Objects.requireNonNull(patch, "patch");
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("a patch needs at least one density, '" + patch.label() + "' had none");
        }
        readings = List.copyOf(readings);
    }

    /**
     * Returns a patch read once or several times.
     *
     * @param patch the patch
     * @param grossDensities the densities read
     * @return the reading
     * @throws IllegalArgumentException if there is no density or one is out of range
     */
    public static PatchReading of(Patch patch, double... grossDensities) {
        Objects.requireNonNull(grossDensities, "grossDensities");
        return new PatchReading(
                patch, Arrays.stream(grossDensities).mapToObj(Density::of).toList());
    }

    /**
     * Returns the mean of the readings.
     *
     * @return the mean gross density
     */
    public Density density() {
        return ExposedStep.mean(readings);
    }
}
