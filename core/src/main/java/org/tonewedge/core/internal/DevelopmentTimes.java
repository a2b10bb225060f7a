// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.time.Duration;
import org.tonewedge.core.quantity.Temperature;

/** Times and temperatures of development as they are counted and written in a darkroom, such as 9 min 15 s. */
public final class DevelopmentTimes {

    private static final double NANOS_PER_MINUTE = 60e9;
    private static final double LONGEST_MINUTES = 1e8;

    private DevelopmentTimes() {}

    /**
     * Returns a time in minutes.
     *
     * @param minutes the time, from 0 to 10<sup>8</sup>
     * @return the time, rounded to a nanosecond
     * @throws IllegalArgumentException if it is out of range
     * @units minutes
     */
    public static Duration ofMinutes(double minutes) {
        Checks.within("time of development in minutes", minutes, 0, LONGEST_MINUTES, "");
        return Duration.ofNanos(Math.round(minutes * NANOS_PER_MINUTE));
    }

    /**
     * Returns a time as a number of minutes.
     *
     * @param time the time
     * @return minutes
     * @units minutes
     */
    public static double minutes(Duration time) {
        return time.toSeconds() / 60.0 + time.toNanosPart() / NANOS_PER_MINUTE;
    }

    /**
     * Returns a time rounded to a step of the darkroom clock.
     *
     * @param time the time, 0 or more
     * @param step the step, above 0
     * @return the nearest multiple of the step that is not 0
     * @throws IllegalArgumentException if the step is not above 0 or the time is negative
     */
    public static Duration rounded(Duration time, Duration step) {
        if (step.isZero() || step.isNegative() || time.isNegative()) {
            throw new IllegalArgumentException(
                    "the time must be 0 or more and the step above 0, were " + time + " and " + step);
        }
        return step.multipliedBy(Math.max(1, Math.round((double) time.toNanos() / step.toNanos())));
    }

    /**
     * Returns a time as it is written on a processing sheet.
     *
     * @param time the time, 0 or more
     * @return for example {@code 9 min 15 s}, rounded to a second; {@code 45 s} below a minute, {@code 9 min} where no
     *     second is left
     */
    public static String inWords(Duration time) {
        long seconds = Math.round(minutes(time) * 60);
        if (seconds < 60) {
            return seconds + " s";
        }
        return seconds / 60 + " min" + (seconds % 60 == 0 ? "" : " " + seconds % 60 + " s");
    }

    /**
     * Returns a temperature as it is written on a processing sheet.
     *
     * @param temperature the temperature
     * @return for example {@code 20 °C} or {@code 20.5 °C}, with at most one decimal
     */
    public static String inWords(Temperature temperature) {
        double tenths = Math.round(temperature.celsius() * 10) / 10.0;
        return (tenths == Math.rint(tenths) ? Long.toString((long) tenths) : Double.toString(tenths)) + " °C";
    }
}
