// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

/**
 * The geometries of transmission density.
 *
 * @source ISO 5-2:2009, abstract: diffuse, f/4.5 and f/1.6 projection densities and their uses (verified)
 */
public enum TransmissionGeometry implements DensityGeometry {
    /** Diffuse: for images seen on an illuminator, contact printed or projected with diffuse light. */
    DIFFUSE("diffuse"),
    /** Projection at f/4.5, through a condenser: half-angle 6.38°. */
    PROJECTION_F4_5("projection f/4.5"),
    /** Projection at f/1.6, through a condenser: half-angle 18.21°. */
    PROJECTION_F1_6("projection f/1.6"),
    /** Specular: a narrow beam and a narrow cone of collection, as in many homebrew densitometers; not one of ISO 5-2. */
    SPECULAR("specular");

    private final String description;

    TransmissionGeometry(String description) {
        this.description = description;
    }

    @Override
    public String symbol() {
        return "D_T";
    }

    @Override
    public String description() {
        return description;
    }
}
