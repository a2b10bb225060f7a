package org.tonewedge.standards.density;

/** How light falls on a sample and is gathered from it: through the sample or back from it. */
public sealed interface DensityGeometry permits TransmissionGeometry, ReflectionGeometry {

    /**
     * Returns the symbol of densities of this geometry.
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
