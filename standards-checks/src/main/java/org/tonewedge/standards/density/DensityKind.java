// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import java.util.Objects;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.SpectralResponse;

/**
 * The kind of a density: its geometry and its spectral response, such as diffuse visual transmission density.
 *
 * @param geometry the geometry; its type distinguishes transmission from reflection
 * @param response the spectral response
 * @param <G> transmission or reflection
 */
public record DensityKind<G extends DensityGeometry>(G geometry, SpectralResponse response) {

    /**
     * Checks that both parts are there.
     *
     * @param geometry the geometry
     * @param response the spectral response
     */
    public DensityKind {
        Objects.requireNonNull(geometry, "geometry");
        Objects.requireNonNull(response, "response");
    }

    /**
     * Returns the kind in a notation after ISO 5-1.
     *
     * @return for example {@code D_T(diffuse; visual)}
     * @source the order of geometry before spectrum from memory; the full functional notation names influx and efflux
     * one by one
     */
    @Override
    public String toString() {
        return geometry.symbol() + "(" + geometry.description() + "; " + response.description() + ")";
    }
}
