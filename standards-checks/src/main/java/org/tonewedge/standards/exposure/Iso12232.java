// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

/**
 * Exposure index and saturation speed by ISO 12232, the digital counterparts of a film speed, for a digital camera that
 * serves as the densitometer or the reference.
 *
 * @source ISO 12232:2006 as carried by a general-purpose imaging library (verified, secondary)
 */
public final class Iso12232 {

    private Iso12232() {}

    /**
     * Returns the exposure index for a mean exposure at the sensor.
     *
     * @param mean the arithmetic mean exposure, on the absolute axis
     * @return 10 / H<sub>a</sub>
     * @throws IllegalArgumentException if the exposure is relative
     */
    public static double exposureIndex(LogExposure mean) {
        Objects.requireNonNull(mean, "mean");
        return overLuxSeconds(10, mean);
    }

    /**
     * Returns the saturation speed of a sensor.
     *
     * @param saturation the least exposure that saturates it, on the absolute axis
     * @return 78 / H<sub>sat</sub>; it leaves half a stop above a white of 100 %
     * @throws IllegalArgumentException if the exposure is relative
     */
    public static double saturationSpeed(LogExposure saturation) {
        Objects.requireNonNull(saturation, "saturation");
        return overLuxSeconds(78, saturation);
    }

    private static double overLuxSeconds(double constant, LogExposure exposure) {
        exposure.axis().requireSame(ExposureAxis.LUX_SECONDS, "take a digital speed");
        return constant / Checks.positive("exposure", exposure.exposure());
    }
}
