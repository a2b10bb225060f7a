// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

/**
 * The geometries of reflection density.
 *
 * @source ISO 5-4:1995 and 2009, scope and abstract: light from all azimuths, with or without polarisation (verified);
 *     45° and 0° for the equivalent GOST 27794-88 (verified)
 */
public enum ReflectionGeometry implements DensityGeometry {
    /** Illuminated from all around at 45° and measured at right angles, or the reverse. */
    ANNULAR("annular 45°/0°"),
    /** The same with crossed polarisers, which remove surface reflection. */
    ANNULAR_POLARISED("annular 45°/0°, polarised");

    private final String description;

    ReflectionGeometry(String description) {
        this.description = description;
    }

    @Override
    public String symbol() {
        return "D_R";
    }

    @Override
    public String description() {
        return description;
    }
}
