// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Roots;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.tone.SchwarzschildExponent;

/**
 * Reciprocity failure at long times: how much longer than metered a film must be exposed, and how much exposure a long
 * time is effectively worth.
 *
 * <p>Every law is valid over a stated range of metered times and is refused outside it.
 *
 * <p>Immutable and thread safe.
 */
public final class Reciprocity {

    private static final double ROUNDING = 1e-9;

    private final String name;
    private final DoubleUnaryOperator corrected;
    private final double shortest;
    private final double longest;

    private Reciprocity(String name, double shortest, double longest, DoubleUnaryOperator corrected) {
        this.name = name;
        this.corrected = corrected;
        this.shortest = shortest;
        this.longest = Checks.within(
                "longest metered time in seconds of the " + name, longest, Math.nextUp(shortest), 1e9, "");
    }

    /**
     * Returns Schwarzschild's law: the effective exposure is E t<sup>p</sup>, so the metered time t becomes
     * t<sup>1/p</sup>. It is valid from one second on.
     *
     * @param exponent p
     * @param longestSeconds the longest metered time for which it was tested, above 1
     * @return the law
     * @throws IllegalArgumentException if the time is out of range
     * @source K. Schwarzschild 1899, from an encyclopedia's article on reciprocity (verified, secondary)
     */
    public static Reciprocity schwarzschild(SchwarzschildExponent exponent, double longestSeconds) {
        double p = exponent.exponent();
        return new Reciprocity("Schwarzschild law", 1, longestSeconds, t -> Math.pow(t, 1 / p));
    }

    /**
     * Returns a power law a t<sup>b</sup> fitted to tests.
     *
     * @param factor a, above 0
     * @param exponent b, above 0
     * @param shortestSeconds the shortest metered time to which it was fitted, above 0
     * @param longestSeconds the longest
     * @return the law
     * @throws IllegalArgumentException if a number is out of range
     */
    public static Reciprocity power(double factor, double exponent, double shortestSeconds, double longestSeconds) {
        double a = Checks.positive("factor of the power law", factor);
        double b = Checks.positive("exponent of the power law", exponent);
        return new Reciprocity("power law", shortest(shortestSeconds), longestSeconds, t -> a * Math.pow(t, b));
    }

    /**
     * Returns a law that adds A t<sup>1.62</sup> to the metered time t.
     *
     * @param factor A, 0 or more
     * @param shortestSeconds the shortest metered time to which it was fitted, above 0
     * @param longestSeconds the longest
     * @return the law
     * @throws IllegalArgumentException if a number is out of range
     * @source a practitioner's fit to tests of long exposures, published with its data (verified, secondary)
     */
    public static Reciprocity additive(double factor, double shortestSeconds, double longestSeconds) {
        double a = Checks.within("factor of the additive law", factor, 0, 1e6, "");
        return new Reciprocity(
                "additive law", shortest(shortestSeconds), longestSeconds, t -> t + a * Math.pow(t, 1.62));
    }

    /**
     * Returns tabulated corrections, interpolated linearly on logarithmic scales.
     *
     * @param meteredSeconds the metered times, rising, two or more
     * @param correctedSeconds the corrected time of each, rising and no shorter than the metered time
     * @return the table
     * @throws IllegalArgumentException if there are fewer than two pairs, the lengths differ, times do not rise, or a corrected time is
     *     shorter than its metered time
     */
    public static Reciprocity tabulated(double[] meteredSeconds, double[] correctedSeconds) {
        if (meteredSeconds.length < 2 || meteredSeconds.length != correctedSeconds.length) {
            throw new IllegalArgumentException(
                    "a reciprocity table needs as many corrected as metered times and at least 2, had "
                            + meteredSeconds.length + " metered and " + correctedSeconds.length + " corrected");
        }
        double[] x = logarithms("metered", meteredSeconds);
        double[] y = logarithms("corrected", correctedSeconds);
        for (int i = 0; i < x.length; i++) {
            if (correctedSeconds[i] < meteredSeconds[i]) {
                throw new IllegalArgumentException("corrected time " + (i + 1) + " must be at least the metered "
                        + meteredSeconds[i] + " s, was " + correctedSeconds[i]
                        + " s; look for swapped columns, or for stops entered as seconds");
            }
        }
        return new Reciprocity(
                "reciprocity table", meteredSeconds[0], meteredSeconds[meteredSeconds.length - 1], seconds -> {
                    double t = Math.log(seconds);
                    int i = 1;
                    while (i < x.length - 1 && t > x[i]) {
                        i++;
                    }
                    return Math.exp(y[i - 1] + (y[i] - y[i - 1]) * (t - x[i - 1]) / (x[i] - x[i - 1]));
                });
    }

    /** A law that was fitted to strips. */
    static Reciprocity fitted(
            String name, double shortestSeconds, double longestSeconds, DoubleUnaryOperator corrected) {
        return new Reciprocity(name, shortest(shortestSeconds), longestSeconds, corrected);
    }

    private static double shortest(double seconds) {
        return Checks.positive("shortest metered time in seconds", seconds);
    }

    private static double[] logarithms(String which, double[] seconds) {
        for (int i = 0; i < seconds.length; i++) {
            Checks.positive(which + " time " + (i + 1) + " in seconds", seconds[i]);
            if (i > 0 && !(seconds[i] > seconds[i - 1])) {
                throw new IllegalArgumentException(which + " time " + (i + 1) + " must be above the one before it, was "
                        + seconds[i] + " after " + seconds[i - 1]);
            }
        }
        return Arrays.stream(seconds).map(Math::log).toArray();
    }

    /**
     * Returns the corrected exposure time.
     *
     * @param meteredSeconds the time the meter gives
     * @return the corrected time
     * @throws IllegalArgumentException if the law is not stated for this time
     * @units seconds
     */
    public double correctedSeconds(double meteredSeconds) {
        return corrected.applyAsDouble(inSpan("metered", meteredSeconds, shortest, longest));
    }

    /**
     * Returns how much more exposure than metered is needed.
     *
     * @param meteredSeconds the time the meter gives
     * @return the interval from the metered to the corrected time
     * @throws IllegalArgumentException if the law is not stated for this time
     */
    public ExposureInterval correction(double meteredSeconds) {
        return ExposureInterval.ofRatio(correctedSeconds(meteredSeconds) / meteredSeconds);
    }

    /**
     * Returns the effective exposure of a long time: the exposure of a short time that has the same effect.
     *
     * @param exposure the exposure at the film, illuminance times time
     * @param seconds its actual time
     * @return the effective exposure: the exposure, reduced by the correction of that metered time whose corrected time
     *     is this one
     * @throws IllegalArgumentException if the law is not stated for this time
     */
    public LogExposure effective(LogExposure exposure, double seconds) {
        inSpan("actual", seconds, corrected.applyAsDouble(shortest), corrected.applyAsDouble(longest));
        double metered = Math.exp(Roots.boundary(
                at -> corrected.applyAsDouble(Math.exp(at)) < seconds, Math.log(shortest), Math.log(longest)));
        return exposure.minus(ExposureInterval.ofRatio(seconds / metered));
    }

    private double inSpan(String which, double seconds, double from, double to) {
        if (!(seconds >= from * (1 - ROUNDING) && seconds <= to * (1 + ROUNDING))) {
            throw new IllegalArgumentException("the " + name + " is stated for " + which + " times from "
                    + Figures.plain(from) + " to " + Figures.plain(to) + " s, not for " + seconds
                    + " s: test the film at that time");
        }
        return seconds;
    }

    /**
     * Returns the law in words.
     *
     * @return its name and span
     */
    @Override
    public String toString() {
        return name + " for metered times from " + Figures.plain(shortest) + " to " + Figures.plain(longest) + " s";
    }
}
