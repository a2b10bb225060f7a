// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.Arrays;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The numbers of a speed as printed on a box, such as 100/21°: one of the nominal arithmetic speeds with its
 * logarithmic speed in degrees.
 *
 * <p>The logarithmic speed is S° = 1 + 10 log<sub>10</sub> S, rounded to the nearest integer; each degree has one
 * nominal arithmetic speed. An exact speed is therefore rounded in degrees, not to the nearest arithmetic number:
 * nominal speeds such as 6 and 12 differ by up to 5 % from the exact speed of their degree, 10<sup>(S°−1)/10</sup>.
 *
 * <p>The scale runs from 0.8/0° to 12500/42°.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param arithmetic the nominal arithmetic speed
 * @param degrees the logarithmic speed
 * @source nominal pairs 6° to 40°: a public table of equivalents, which prints 1300 at 32° where ISO tables use 1250
 *     (from memory); 0° to 5°, 41° and 42°: the same series continued (from memory). ISO 6:1993, table 1, itself was not
 *     read.
 */
public record IsoSpeed(double arithmetic, int degrees) {

    private static final double HALF_DEGREE = 0.5;
    private static final double MILLI = 1000;
    private static final double ROUNDING = 1e-9;
    private static final double[] NOMINAL = {
        0.8, 1, 1.25, 1.6, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64, 80, 100, 125, 160, 200, 250, 320,
        400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000, 10000, 12500
    };

    /**
     * Checks that the two numbers belong together.
     *
     * @param arithmetic the nominal arithmetic speed
     * @param degrees the logarithmic speed
     * @throws IllegalArgumentException if the degrees are not 0 to 42 or the arithmetic speed does not belong to them
     */
    public IsoSpeed {
        if (degrees < 0 || degrees >= NOMINAL.length) {
            throw new IllegalArgumentException(
                    "logarithmic speed must be from 0 to " + (NOMINAL.length - 1) + " degrees, was " + degrees);
        }
        if (arithmetic != NOMINAL[degrees]) {
            throw new IllegalArgumentException("the nominal arithmetic speed of " + degrees + " degrees is "
                    + plain(NOMINAL[degrees]) + ", was " + arithmetic);
        }
    }

    /**
     * Returns the speed for a number of degrees.
     *
     * @param degrees the logarithmic speed, from 0 to 42
     * @return the speed
     * @throws IllegalArgumentException if the degrees are not 0 to 42
     */
    public static IsoSpeed ofDegrees(int degrees) {
        Checks.within("logarithmic speed in degrees", degrees, 0, NOMINAL.length - 1, "");
        return new IsoSpeed(NOMINAL[degrees], degrees);
    }

    /**
     * Returns the speed for a nominal arithmetic number.
     *
     * @param arithmetic the arithmetic speed, one of the nominal series
     * @return the speed
     * @throws IllegalArgumentException if the number is not in the nominal series
     */
    public static IsoSpeed ofArithmetic(double arithmetic) {
        int degrees = Arrays.binarySearch(NOMINAL, arithmetic);
        if (degrees < 0) {
            throw new IllegalArgumentException("arithmetic speed must be one of the nominal series 0.8, 1, 1.25, …"
                    + " 12500, was " + arithmetic + "; round an exact speed with nearest");
        }
        return new IsoSpeed(arithmetic, degrees);
    }

    /**
     * Returns the nominal speed nearest to an exact speed, in degrees.
     *
     * @param exact the exact arithmetic speed, above 0
     * @return the speed whose degree is the integer nearest to 1 + 10 log<sub>10</sub> S; exactly half a degree,
     *     allowing for rounding, goes to the slower speed
     * @throws IllegalArgumentException if the speed is not a finite number above 0, or lies outside the scale, at or
     *     below −0.5° or above 42.5°
     */
    public static IsoSpeed nearest(double exact) {
        return nearestOnScale(exact)
                .orElseThrow(() -> new IllegalArgumentException(
                        "exact speed " + exact + " is outside the scale of nominal speeds, 0.8/0°"
                                + " to 12500/42°; check the unit of the exposures, lux seconds" + otherUnit(exact)));
    }

    /** The unit that would bring a speed too slow for the scale onto it; nothing if there is none. */
    static String otherUnit(double exact) {
        return exact < NOMINAL[0] && nearestOnScale(exact * MILLI).isPresent()
                ? "; if exposures are in millilux seconds, subtract 3 from each log H"
                : "";
    }

    /**
     * Returns the nominal speed nearest to an exact speed, if there is one.
     *
     * @param exact the exact arithmetic speed, above 0
     * @return the speed by the rule of {@link #nearest(double)}; empty if the exact speed lies outside the scale
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     */
    public static Optional<IsoSpeed> nearestOnScale(double exact) {
        double degrees = 1 + 10 * Math.log10(Checks.positive("exact speed", exact));
        double rounded = Math.ceil(degrees - HALF_DEGREE - ROUNDING);
        return rounded >= 0 && rounded < NOMINAL.length ? Optional.of(ofDegrees((int) rounded)) : Optional.empty();
    }

    /**
     * Returns the exact arithmetic speed of the degree.
     *
     * @return 10<sup>(S° − 1) / 10</sup>, for example 125.89 for ISO 125/22°
     */
    public double exact() {
        return Math.pow(10, (degrees - 1) / FilmSpeed.DEGREES_PER_LOG_UNIT);
    }

    /**
     * Returns the upper limit of the exposures H<sub>m</sub> that round to this speed; the limit itself rounds to the
     * next slower speed.
     *
     * @param constant the constant k of the method in S = k / H<sub>m</sub>, such as {@link Iso6#SPEED_CONSTANT}
     * @return log<sub>10</sub> k − (S° − 1.5) / 10
     * @throws IllegalArgumentException if the constant is not a finite number above 0
     */
    public LogExposure highestExposure(double constant) {
        return exposure(constant, degrees - HALF_DEGREE);
    }

    /**
     * Returns the least exposure H<sub>m</sub> that rounds to this speed.
     *
     * @param constant the constant k of the method in S = k / H<sub>m</sub>, such as {@link Iso6#SPEED_CONSTANT}
     * @return log<sub>10</sub> k − (S° − 0.5) / 10
     * @throws IllegalArgumentException if the constant is not a finite number above 0
     */
    public LogExposure lowestExposure(double constant) {
        return exposure(constant, degrees + HALF_DEGREE);
    }

    private static LogExposure exposure(double constant, double exactDegrees) {
        return LogExposure.ofLogLuxSeconds(Math.log10(Checks.positive("constant of a speed", constant))
                - (exactDegrees - 1) / FilmSpeed.DEGREES_PER_LOG_UNIT);
    }

    /**
     * Returns the numbers as printed on a box. The name of a standard may precede them only if its conditions are met.
     * This class does not know that; the speed from which the numbers come does.
     *
     * @return for example {@code 100/21°}
     */
    @Override
    public String toString() {
        return plain(arithmetic) + "/" + degrees + "°";
    }

    private static String plain(double number) {
        return number == Math.rint(number) ? Long.toString((long) number) : Double.toString(number);
    }
}
