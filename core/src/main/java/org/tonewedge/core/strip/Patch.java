// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Objects;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.Checks;

/**
 * A patch of the photographed subject, such as a red one that reflects 0.12 of the light.
 *
 * <p>Treat as a value: two patches are equal if all three parts agree.
 *
 * @param label the tester's name for the patch, unique on a frame
 * @param group the colour it belongs to
 * @param reflectance the luminous reflectance factor, above 0 and at most 1.2, or empty if it was not measured
 */
public record Patch(String label, PatchGroup group, OptionalDouble reflectance) {

    private static final double HIGHEST = 1.2;

    /**
     * Checks the parts.
     *
     * @param label the name of the patch
     * @param group the colour it belongs to
     * @param reflectance the luminous reflectance factor, above 0 and at most 1.2 (fluorescent whites exceed 1), or
     *     empty
     * @throws IllegalArgumentException if the label is blank or contains a control character, or the reflectance is out
     *     of range
     */
    public Patch {
        label = Checks.label("label of a patch", label);
        Objects.requireNonNull(group, "group");
        if (reflectance.isPresent()) {
            Checks.within(
                    "reflectance of patch '" + label + "'",
                    reflectance.getAsDouble(),
                    Double.MIN_VALUE,
                    HIGHEST,
                    "give the fraction of light reflected, such as 0.18 for 18 %");
        }
    }

    /**
     * Returns a patch of known reflectance.
     *
     * @param label the name of the patch
     * @param group the colour it belongs to
     * @param reflectance the luminous reflectance factor, above 0 and at most 1.2
     * @return the patch
     * @throws IllegalArgumentException as the constructor does
     */
    public static Patch of(String label, PatchGroup group, double reflectance) {
        return new Patch(label, group, OptionalDouble.of(reflectance));
    }

    /**
     * Returns a patch whose reflectance was not measured, such as a shadow in a scene.
     *
     * @param label the name of the patch
     * @param group the colour it belongs to
     * @return the patch
     * @throws IllegalArgumentException as the constructor does
     */
    public static Patch of(String label, PatchGroup group) {
        return new Patch(label, group, OptionalDouble.empty());
    }
}
