// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A displacement along the exposure axis, such as +2/3 stop: a change of log exposure, on any axis.
 *
 * <p>One stop is a factor of two, log<sub>10</sub> 2 = 0.30103 log units. The trade's "third of a stop = 0.10 log
 * units" is rounded: the exact figure is 0.10034. Each factory names its unit, so the two stay distinct.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param logUnits the change of log<sub>10</sub> H, of either sign, from −40 to 40
 * @units decimal log units
 */
public record ExposureInterval(double logUnits) implements Comparable<ExposureInterval>, Serializable {

    /** No displacement. */
    public static final ExposureInterval ZERO = new ExposureInterval(0);

    private static final double LIMIT = 40;
    private static final double LOG_UNITS_PER_STOP = Math.log10(2);

    /**
     * Checks the displacement.
     *
     * @param logUnits the change of log<sub>10</sub> H, from −40 to 40
     * @throws IllegalArgumentException if it is not finite or outside −40 to 40
     */
    public ExposureInterval {
        logUnits = Checks.within("exposure interval in log units", logUnits, -LIMIT, LIMIT, "");
    }

    /**
     * Returns an interval given in decimal log units.
     *
     * @param logUnits the change of log<sub>10</sub> H
     * @return the interval
     * @throws IllegalArgumentException as the constructor does
     */
    public static ExposureInterval ofLogUnits(double logUnits) {
        return new ExposureInterval(logUnits);
    }

    /**
     * Returns an interval given in stops.
     *
     * @param stops the number of doublings, of either sign; fractions allowed
     * @return the interval, log<sub>10</sub> 2 for each stop
     * @throws IllegalArgumentException if the number is not finite or beyond 40 log units
     */
    public static ExposureInterval ofStops(double stops) {
        return new ExposureInterval(Checks.finite("exposure interval in stops", stops) * LOG_UNITS_PER_STOP);
    }

    /**
     * Returns an interval given as a ratio of exposures.
     *
     * @param ratio the factor by which the exposure changes, above 0
     * @return the interval, log<sub>10</sub> of the ratio
     * @throws IllegalArgumentException if the ratio is not a finite number above 0
     */
    public static ExposureInterval ofRatio(double ratio) {
        return new ExposureInterval(Math.log10(Checks.positive("ratio of exposures", ratio)));
    }

    /**
     * Returns the interval in stops.
     *
     * @return log units divided by log<sub>10</sub> 2
     */
    public double stops() {
        return logUnits / LOG_UNITS_PER_STOP;
    }

    /**
     * Returns the interval as a ratio of exposures.
     *
     * @return 10 to the power of the log units
     */
    public double ratio() {
        return Math.pow(10, logUnits);
    }

    /**
     * Returns the sum of two intervals.
     *
     * @param other the interval to add
     * @return this + other
     * @throws IllegalArgumentException as the constructor does
     */
    public ExposureInterval plus(ExposureInterval other) {
        return new ExposureInterval(logUnits + other.logUnits);
    }

    /**
     * Returns the difference of two intervals.
     *
     * @param other the interval to take away
     * @return this − other
     * @throws IllegalArgumentException as the constructor does
     */
    public ExposureInterval minus(ExposureInterval other) {
        return new ExposureInterval(logUnits - other.logUnits);
    }

    /**
     * Returns a multiple of this interval.
     *
     * @param factor the factor
     * @return this × factor
     * @throws IllegalArgumentException as the constructor does
     */
    public ExposureInterval times(double factor) {
        return new ExposureInterval(logUnits * Checks.finite("factor", factor));
    }

    /**
     * Returns the interval with the opposite sign.
     *
     * @return −this
     */
    public ExposureInterval negated() {
        return new ExposureInterval(-logUnits);
    }

    /**
     * Tells whether two intervals differ by no more than a tolerance.
     *
     * @param other the interval to compare with
     * @param tolerance the greatest difference allowed, in log units
     * @return true if they differ by no more than the tolerance
     */
    public boolean isWithin(ExposureInterval other, double tolerance) {
        return Math.abs(logUnits - other.logUnits) <= tolerance;
    }

    @Override
    public int compareTo(ExposureInterval other) {
        return Double.compare(logUnits, other.logUnits);
    }

    /**
     * Returns the interval in stops, as written beside a curve.
     *
     * @return for example {@code +2/3 stop}; in thirds if it is within 0.02 stop of a third, otherwise with two
     *     decimals
     */
    @Override
    public String toString() {
        return Figures.stops(stops());
    }
}
