// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The plate speeds of about 1900, computed from an {@link Inertia}, for example 170 for an inertia of 1/5
 * candle-metre-second.
 *
 * @source M. J. Martin, Wireless Transmission of Photographs, 2nd edition (1919), with the worked example 1/5, 170, 250
 *     and 101 (verified); 34 / inertia also in H. E. Ives, Airplane Photography (1920) (verified)
 */
public enum PlateSpeed {
    /** Hurter and Driffield: 34 / i. */
    HURTER_DRIFFIELD {
        @Override
        double ofLuxSeconds(double inertia) {
            return 34 / inertia;
        }
    },
    /** Watkins: 50 / i. */
    WATKINS {
        @Override
        double ofLuxSeconds(double inertia) {
            return 50 / inertia;
        }
    },
    /** Wynne: 6.4 times the square root of the Watkins number, so that it counts like f-numbers. */
    WYNNE {
        @Override
        double ofLuxSeconds(double inertia) {
            return 6.4 * Math.sqrt(WATKINS.ofLuxSeconds(inertia));
        }
    };

    abstract double ofLuxSeconds(double inertia);

    /**
     * Returns the plate speed for an inertia.
     *
     * @param inertia the inertia on the absolute axis; one candle-metre-second is one lux second
     * @return the speed
     * @throws IllegalArgumentException if the inertia is relative
     */
    public double speed(LogExposure inertia) {
        inertia.axis().requireSame(ExposureAxis.LUX_SECONDS, "take a plate speed");
        return ofLuxSeconds(Checks.positive("inertia", inertia.exposure()));
    }
}
