// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A point on the exposure axis of a characteristic curve, such as log H −2.10 lx·s: the decimal logarithm of the
 * exposure H at the film.
 *
 * <p>Exposure H is the time integral of the illuminance on the film, in lux seconds (ISO 6:1993, 3.1). It is the
 * exposure <em>at the film</em>, not the light at the meter. If only ratios of exposures are known, the axis is
 * relative and names its reference. A displacement along the axis is an {@link ExposureInterval}.
 *
 * <p>Immutable and thread safe; treat as a value. Not {@link Comparable}, because points on different axes have no
 * order; see {@link #isBelow(LogExposure)}.
 *
 * @param value log<sub>10</sub> H, from −20 to 20
 * @param axis what it is counted from
 * @units decimal log units
 */
public record LogExposure(double value, ExposureAxis axis) implements Serializable {

    private static final double LIMIT = 20;

    /**
     * Checks the value.
     *
     * @param value log<sub>10</sub> H, from −20 to 20
     * @param axis what it is counted from
     * @throws IllegalArgumentException if the value is not finite or outside −20 to 20, beyond any real exposure;
     *     usually an exposure was given instead of its logarithm
     */
    public LogExposure {
        Objects.requireNonNull(axis, "axis");
        value = Checks.within(
                "log exposure", value, -LIMIT, LIMIT, "give the decimal logarithm of the exposure, not the exposure");
    }

    /**
     * Returns the point for an exposure in lux seconds.
     *
     * @param exposure the exposure H at the film, above 0
     * @return log<sub>10</sub> H on the absolute axis
     * @throws IllegalArgumentException if the exposure is not a finite number above 0
     * @units lux seconds
     */
    public static LogExposure ofLuxSeconds(double exposure) {
        return new LogExposure(
                Math.log10(Checks.positive("exposure in lux seconds", exposure)), ExposureAxis.LUX_SECONDS);
    }

    /**
     * Returns the point for a logarithm of an exposure in lux seconds.
     *
     * @param log10LuxSeconds log<sub>10</sub> H
     * @return the point on the absolute axis
     * @throws IllegalArgumentException as the constructor does
     * @units decimal log units, of lux seconds
     */
    public static LogExposure ofLogLuxSeconds(double log10LuxSeconds) {
        return new LogExposure(log10LuxSeconds, ExposureAxis.LUX_SECONDS);
    }

    /**
     * Returns the exposure itself, not its logarithm.
     *
     * @return H in lux seconds on the absolute axis; the ratio to the reference on a relative one
     */
    public double exposure() {
        return Math.pow(10, value);
    }

    /**
     * Returns the interval from another point to this one.
     *
     * @param other a point on the same axis
     * @return this − other; positive if this is the greater exposure
     * @throws IllegalArgumentException if the other point is on another axis
     */
    public ExposureInterval minus(LogExposure other) {
        axis.requireSame(other.axis, "subtract exposures");
        return ExposureInterval.ofLogUnits(value - other.value);
    }

    /**
     * Returns the point that lies one interval higher on the axis.
     *
     * @param interval the displacement, of either sign
     * @return this + interval
     * @throws IllegalArgumentException if the sum leaves the range of the constructor
     */
    public LogExposure plus(ExposureInterval interval) {
        return new LogExposure(value + interval.logUnits(), axis);
    }

    /**
     * Returns the point that lies one interval lower on the axis.
     *
     * @param interval the displacement, of either sign
     * @return this − interval
     * Tells whether this exposure is less than another.
     */
    public LogExposure minus(ExposureInterval interval) {
        return new LogExposure(value - interval.logUnits(), axis);
    }

    /**
     * Tells whether this is the lesser of two exposures.
     *
     * @param other a point on the same axis
     * @return true if this lies below the other
     * @throws IllegalArgumentException if the other point is on another axis
     */
    public boolean isBelow(LogExposure other) {
        axis.requireSame(other.axis, "compare exposures");
        return value < other.value;
    }

    /**
     * Tells whether two points are no farther apart than a tolerance.
     *
     * @param other a point on the same axis
     * @param tolerance the greatest distance allowed, in log units
     * @return true if they are no farther apart than the tolerance
     * @throws IllegalArgumentException if the other point is on another axis
     */
    public boolean isWithin(LogExposure other, double tolerance) {
        axis.requireSame(other.axis, "compare exposures");
        return Math.abs(value - other.value) <= tolerance;
    }

    /**
     * Returns the point as written on a curve sheet.
     *
     * @return for example {@code log H −2.10 lx·s}, with two to four decimals
     */
    @Override
    public String toString() {
        return "log H " + Figures.plain(value) + " " + axis;
    }
}
