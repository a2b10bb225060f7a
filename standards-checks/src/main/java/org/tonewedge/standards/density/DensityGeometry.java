// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

/** How light falls on a sample and is collected from it: through the sample, or reflected by it. */
public sealed interface DensityGeometry permits TransmissionGeometry, ReflectionGeometry {

    /**
     * Returns the symbol of densities with this geometry.
     *
     * @return {@code D_T} for transmission, {@code D_R} for reflection
     * @source ISO 5-1, functional notation, from memory
     */
    String symbol();

    /**
     * Returns the geometry in words.
     *
     * @return for example {@code diffuse}
     */
    String description();
}
