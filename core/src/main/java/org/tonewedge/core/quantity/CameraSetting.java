// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import java.time.Duration;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A camera setting, such as f/8 and 1/250 s. The f-number is a number and the time a {@link Duration}, so the two
 * cannot be swapped.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param fNumber the f-number, above 0
 * @param time the exposure time, above 0
 */
public record CameraSetting(double fNumber, Duration time) implements Serializable {

    private static final double NANOS_PER_SECOND = 1e9;

    /**
     * Checks the setting.
     *
     * @param fNumber the f-number
     * @param time the exposure time
     * @throws IllegalArgumentException if the f-number is not a finite number above 0 or the time not above 0
     */
    public CameraSetting {
        Checks.positive("f-number", fNumber);
        Objects.requireNonNull(time, "time");
        if (time.isZero() || time.isNegative()) {
            throw new IllegalArgumentException("exposure time must be above 0, was " + time
                    + "; give a fraction of a second as Duration.ofNanos, such as 4,000,000 for 1/250 s");
        }
    }

    /**
     * Returns a setting.
     *
     * @param fNumber the f-number, above 0
     * @param time the exposure time, above 0
     * @return the setting
     * @throws IllegalArgumentException if the f-number is not a finite number above 0 or the time not above 0
     */
    public static CameraSetting of(double fNumber, Duration time) {
        return new CameraSetting(fNumber, time);
    }

    /**
     * Returns the exposure time in seconds.
     *
     * @return the time
     * @units seconds
     */
    public double seconds() {
        return time.toSeconds() + time.toNanosPart() / NANOS_PER_SECOND;
    }

    /**
     * Returns the exposure value of the setting.
     *
     * @return log<sub>2</sub>(N² / t), t in seconds
     */
    public double exposureValue() {
        return Math.log(fNumber * fNumber / seconds()) / Math.log(2);
    }

    /**
     * Returns the setting in words.
     *
     * @return for example {@code f/8.00, 1/250 s}
     */
    @Override
    public String toString() {
        return "f/" + Figures.plain(fNumber) + ", " + Figures.exposureTime(seconds());
    }
}
