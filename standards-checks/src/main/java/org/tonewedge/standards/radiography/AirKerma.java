// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

/**
 * Exposures to X-rays as air kerma in gray. These are not lux seconds: the methods for light-sensitive films refuse
 * them.
 */
public final class AirKerma {

    /** The axis of log<sub>10</sub> air kerma in gray. */
    public static final ExposureAxis AXIS = ExposureAxis.relativeTo("1 Gy of air kerma");

    private AirKerma() {}

    /**
     * Returns an exposure.
     *
     * @param gray the air kerma in gray, above 0
     * @return the exposure on the axis of air kerma
     * @throws IllegalArgumentException if the air kerma is not a finite number above 0
     */
    public static LogExposure ofGray(double gray) {
        return new LogExposure(Math.log10(Checks.positive("air kerma in gray", gray)), AXIS);
    }

    static CharacteristicCurve required(CharacteristicCurve curve) {
        AXIS.requireSame(curve.axis(), "take a radiographic speed of " + curve.name());
        return curve;
    }
}
