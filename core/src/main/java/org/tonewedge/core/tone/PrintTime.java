// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.time.Duration;
import java.util.Locale;
import java.util.Objects;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * A printing time, such as 12.5 s.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param time the time, above 0
 */
public record PrintTime(Duration time) {

    private static final double NANOS_PER_SECOND = 1e9;

    /**
     * Checks the time.
     *
     * @param time the time
     * @throws IllegalArgumentException if it is not above 0
     */
    public PrintTime {
        Objects.requireNonNull(time, "time");
        if (time.isZero() || time.isNegative()) {
            throw new IllegalArgumentException("printing time must be above 0, was " + time);
        }
    }

    /**
     * Returns a time.
     *
     * @param time the time, above 0
     * @return the time
     * @throws IllegalArgumentException if it is not above 0
     */
    public static PrintTime of(Duration time) {
        return new PrintTime(time);
    }

    /**
     * Returns the time as a number.
     *
     * @return the time
     * @units seconds
     */
    public double seconds() {
        return time.toSeconds() + time.toNanosPart() / NANOS_PER_SECOND;
    }

    /**
     * Returns the time after a change of exposure made by time alone, on a paper without reciprocity failure.
     *
     * @param change the change of printing exposure
     * @return time × 10<sup>change in log units</sup>
     * @throws IllegalArgumentException if the time falls below a nanosecond or exceeds 292 years
     */
    public PrintTime changedBy(ExposureInterval change) {
        return changedBy(change, SchwarzschildExponent.RECIPROCITY_HOLDS);
    }

    /**
     * Returns the time after a change of exposure made by time alone, on a paper with reciprocity failure.
     *
     * <p>To change E t<sup>p</sup> by the factor k, the time changes by k<sup>1/p</sup>. The factor is the same whether
     * the print needs more light, or the negative, the magnification or a filter takes light away.
     *
     * @param change the change of printing exposure
     * @param paper the paper's departure from reciprocity
     * @return time × 10<sup>change in log units / p</sup>
     * @throws IllegalArgumentException if the time falls below a nanosecond or exceeds 292 years
     */
    public PrintTime changedBy(ExposureInterval change, SchwarzschildExponent paper) {
        double nanos = seconds() * change.times(1 / paper.exponent()).ratio() * NANOS_PER_SECOND;
        if (!(nanos < Long.MAX_VALUE)) {
            throw new IllegalArgumentException("printing time of " + this + " changed by " + change
                    + " exceeds 292 years: look for a wrong density");
        }
        return new PrintTime(Duration.ofNanos(Math.round(nanos)));
    }

    /**
     * Returns the time as set on a timer.
     *
     * @return for example {@code 12.5 s}
     */
    @Override
    public String toString() {
        return String.format(Locale.ROOT, "%.1f s", seconds());
    }
}
