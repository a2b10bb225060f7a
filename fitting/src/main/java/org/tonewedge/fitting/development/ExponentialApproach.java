// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Roots;

/**
 * The exponential approach of contrast to a ceiling, C(t) = C<sub>∞</sub> (1 − exp(−k (t − t<sub>0</sub>))), with known
 * constants, such as a ceiling of 1.80 at a rate of 0.10 per minute.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param ceiling C<sub>∞</sub>, above 0
 * @param ratePerMinute k, above 0, in 1/min
 * @param inductionMinutes t<sub>0</sub>, 0 or more, in minutes
 */
record ExponentialApproach(double ceiling, double ratePerMinute, double inductionMinutes) {

    /**
     * Checks the constants.
     *
     * @param ceiling C<sub>∞</sub>, above 0
     * @param ratePerMinute k, above 0
     * @param inductionMinutes t<sub>0</sub>, 0 or more
     * @throws IllegalArgumentException if a constant is out of range
     */
    public ExponentialApproach {
        Checks.positive("ceiling of contrast", ceiling);
        Checks.positive("rate per minute", ratePerMinute);
        inductionMinutes = Checks.within("induction time in minutes", inductionMinutes, 0, 1440, "");
    }

    /**
     * Returns the approach without induction time through two contrasts, one after a time and one after twice that time:
     * k = ln(C<sub>1</sub>/(C<sub>2</sub> − C<sub>1</sub>))/t, C<sub>∞</sub> = C<sub>1</sub>²/(2 C<sub>1</sub> −
     * C<sub>2</sub>).
     *
     * @param time the shorter time, above 0
     * @param contrast C<sub>1</sub>, after that time, above 0
     * @param contrastAfterTwice C<sub>2</sub>, after twice that time
     * @return the approach
     * @throws IllegalArgumentException if the time or the first contrast is not above 0
     * @throws DevelopmentException if C<sub>2</sub> is not above C<sub>1</sub> ({@link DevelopmentFailure#CONTRAST_FALLS})
     *     or not below 2 C<sub>1</sub> ({@link DevelopmentFailure#NO_CEILING})
     * @source exact algebra; its attribution to Sheppard and Mees is from memory
     */
    public static ExponentialApproach throughDoubledTime(Duration time, double contrast, double contrastAfterTwice) {
        double minutes = checked(time, contrast, time.multipliedBy(2), contrastAfterTwice);
        double rate = Math.log(contrast / (contrastAfterTwice - contrast)) / minutes;
        return new ExponentialApproach(contrast * contrast / (2 * contrast - contrastAfterTwice), rate, 0);
    }

    /**
     * Returns the approach without induction time through two contrasts after any two times. The rate solves
     * C<sub>2</sub>/C<sub>1</sub> = (1 − e<sup>−k t<sub>2</sub></sup>)/(1 − e<sup>−k t<sub>1</sub></sup>).
     *
     * @param time the shorter time, above 0
     * @param contrast C<sub>1</sub>, after that time, above 0
     * @param longerTime the longer time
     * @param longerContrast C<sub>2</sub>, after the longer time
     * @return the approach
     * @throws IllegalArgumentException if the time or the first contrast is not above 0, or the second time is not longer
     * @throws DevelopmentException if C<sub>2</sub> is not above C<sub>1</sub> ({@link DevelopmentFailure#CONTRAST_FALLS})
     *     or not below C<sub>1</sub> t<sub>2</sub>/t<sub>1</sub> ({@link DevelopmentFailure#NO_CEILING})
     */
    public static ExponentialApproach through(
            Duration time, double contrast, Duration longerTime, double longerContrast) {
        double first = checked(time, contrast, longerTime, longerContrast);
        if (longerTime.equals(time.multipliedBy(2))) {
            return throughDoubledTime(time, contrast, longerContrast);
        }
        double second = DevelopmentTimes.minutes(longerTime);
        double ratio = longerContrast / contrast;
        // The ratio falls from t2/t1 at rate 0 to 1; bisection on the logarithm of the rate.
        double rate = Math.exp(Roots.boundary(
                logRate -> ratio(Math.exp(logRate), first, second) > ratio,
                -60 - Math.log(second),
                7 - Math.log(first)));
        return new ExponentialApproach(contrast / -Math.expm1(-rate * first), rate, 0);
    }

    private static double ratio(double rate, double first, double second) {
        return Math.expm1(-rate * second) / Math.expm1(-rate * first);
    }

    /** The shorter time in minutes. */
    private static double checked(Duration time, double contrast, Duration longerTime, double longerContrast) {
        double first = Checks.positive("time of development in minutes", DevelopmentTimes.minutes(time));
        double second = DevelopmentTimes.minutes(longerTime);
        Checks.positive("contrast after " + DevelopmentTimes.inWords(time), contrast);
        Checks.finite("contrast after " + DevelopmentTimes.inWords(longerTime), longerContrast);
        if (!(second > first)) {
            throw new IllegalArgumentException("the second time must be longer than " + DevelopmentTimes.inWords(time)
                    + ", was " + DevelopmentTimes.inWords(longerTime));
        }
        String found = "contrast is " + Figures.plain(contrast) + " after " + DevelopmentTimes.inWords(time) + " and "
                + Figures.plain(longerContrast) + " after " + DevelopmentTimes.inWords(longerTime);
        if (!(longerContrast > contrast)) {
            throw new DevelopmentException(
                    DevelopmentFailure.CONTRAST_FALLS,
                    found + ": it must grow with time; look for swapped strips, exhausted developer or a wrong time");
        }
        if (!(longerContrast < contrast * second / first)) {
            throw new DevelopmentException(
                    DevelopmentFailure.NO_CEILING,
                    found + ": it grows as fast as time or faster, so no ceiling is seen; develop a strip still longer,"
                            + " and with three strips fit an induction time");
        }
        return first;
    }

    /**
     * Returns the contrast after a time.
     *
     * @param time the time, not shorter than the induction time
     * @return C<sub>∞</sub> (1 − exp(−k (t − t<sub>0</sub>)))
     * @throws IllegalArgumentException if the time is shorter than the induction time
     */
    public double contrastAfter(Duration time) {
        double beyond = DevelopmentTimes.minutes(time) - inductionMinutes;
        if (!(beyond >= 0)) {
            throw new IllegalArgumentException("the time must not be shorter than the induction time of "
                    + Figures.plain(inductionMinutes) + " min, was " + DevelopmentTimes.inWords(time));
        }
        return -ceiling * Math.expm1(-ratePerMinute * beyond);
    }

    /**
     * Returns the time for a contrast.
     *
     * @param contrast the contrast, 0 or more
     * @return t<sub>0</sub> − ln(1 − C/C<sub>∞</sub>)/k; see {@link Caution} before using it
     * @throws IllegalArgumentException if the contrast is negative or NaN
     * @throws DevelopmentException if the contrast is not below the ceiling ({@link DevelopmentFailure#ABOVE_CEILING})
     */
    public Duration timeFor(double contrast) {
        if (!(contrast >= 0)) {
            throw new IllegalArgumentException("contrast must be 0 or more, was " + contrast);
        }
        if (!(contrast < ceiling)) {
            throw new DevelopmentException(
                    DevelopmentFailure.ABOVE_CEILING,
                    "contrast " + Figures.plain(contrast)
                            + " is never reached, however long the development; the ceiling is "
                            + Figures.plain(ceiling)
                            + ": choose a lower contrast or a more active developer");
        }
        return DevelopmentTimes.ofMinutes(inductionMinutes - Math.log1p(-contrast / ceiling) / ratePerMinute);
    }
}
