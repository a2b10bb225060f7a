// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.internal;

import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.ExposureAxis;

/** Guards of the exposure axis. */
public final class Absolute {

    private Absolute() {}

    /**
     * Refuses a curve whose exposures are not lux seconds.
     *
     * @param curve the curve
     * @param figure what is asked of it, such as {@code an ISO speed}
     * @return the curve
     * @throws IllegalArgumentException if the exposures are relative
     */
    public static CharacteristicCurve luxSeconds(CharacteristicCurve curve, String figure) {
        if (!curve.axis().equals(ExposureAxis.LUX_SECONDS)) {
            throw new IllegalArgumentException(curve.name() + ": " + figure
                    + " needs exposures in lux seconds, these are " + curve.axis()
                    + "; anchor the curve to a known exposure, or compare speed points in stops");
        }
        return curve;
    }
}
