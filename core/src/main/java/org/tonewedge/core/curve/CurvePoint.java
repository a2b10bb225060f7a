// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.io.Serializable;
import java.util.Objects;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/**
 * A point of a characteristic curve, such as (log H −2.10 lx·s, D 0.42).
 *
 * @param logExposure its position on the exposure axis
 * @param density the gross density there
 */
public record CurvePoint(LogExposure logExposure, Density density) implements Serializable {
    /**
     * Checks that nothing is missing.
     *
     * @param logExposure its position on the exposure axis
     * @param density the gross density there
     */
    public CurvePoint {
        Objects.requireNonNull(logExposure, "logExposure");
        Objects.requireNonNull(density, "density");
    }

    /**
     * Returns the point as it is written on a curve sheet.
     *
     * @return for example {@code (log H −2.10 lx·s, D 0.42)}
     */
    @Override
    public String toString() {
        return "(" + logExposure + ", " + density + ")";
    }
}
