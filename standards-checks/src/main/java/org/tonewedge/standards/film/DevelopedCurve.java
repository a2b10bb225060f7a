// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.time.Duration;
import java.util.Objects;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.Strip;

/**
 * One strip of a development series: its curve and its time of development.
 *
 * @param time the time of development, above 0
 * @param curve the curve
 */
public record DevelopedCurve(Duration time, CharacteristicCurve curve) {

    /**
     * Checks the time.
     *
     * @param time the time of development, above 0
     * @param curve the curve
     * @throws IllegalArgumentException if the time is not above 0
     */
    public DevelopedCurve {
        Objects.requireNonNull(curve, "curve");
        Checks.positive("time of development of " + curve.name() + " in seconds", time.toMillis() / 1000.0);
    }

    /**
     * Returns the monotone cubic through a strip, with the strip's own time of development.
     *
     * @param strip a strip whose processing states the time
     * @return the curve with its time
     * @throws IllegalArgumentException if the strip does not state its time
     * @throws org.tonewedge.core.curve.NotDeterminableException as {@link CharacteristicCurve#through(Strip)} does
     */
    public static DevelopedCurve through(Strip strip) {
        Duration time = strip.processing()
                .time()
                .orElseThrow(() -> new IllegalArgumentException(
                        strip + " does not state its time of development; enter it in the column minutes"));
        return new DevelopedCurve(time, CharacteristicCurve.through(strip));
    }

    double minutes() {
        return time.toMillis() / 60_000.0;
    }
}
