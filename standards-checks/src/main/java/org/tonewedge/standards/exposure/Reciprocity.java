// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
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
 * <p>Every law is valid over a stated range of metered times and is refused outside it. In the formulas times are in
 * seconds.
 *
 * <p>Immutable and thread safe.
 */
public final class Reciprocity {

    private static final double ROUNDING = 1e-9;
    private static final double NANOSECOND = 1e-9;
    private static final double LONGEST_CORRECTED = 1e18;

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
        Checks.within(
                "longest corrected time in seconds of the " + name,
                corrected.applyAsDouble(longest),
                0,
                LONGEST_CORRECTED,
                "");
    }

    /**
     * Returns Schwarzschild's law: the effective exposure is E t<sup>p</sup>, so the metered time t becomes
     * t<sup>1/p</sup>. It is valid from one second on.
     *
     * @param exponent p
     * @param longest the longest metered time for which it was tested, above one second
     * @return the law
     * @throws IllegalArgumentException if the time is out of range, or its corrected time is above 10<sup>18</sup> s
     * @source K. Schwarzschild 1899, from an encyclopedia's article on reciprocity (verified, secondary)
     */
    public static Reciprocity schwarzschild(SchwarzschildExponent exponent, Duration longest) {
        double p = exponent.exponent();
        return new Reciprocity("Schwarzschild law", 1, longest(longest), t -> Math.pow(t, 1 / p));
    }

    /**
     * Returns a power law a t<sup>b</sup> fitted to tests.
     *
     * @param factor a, above 0
     * @param exponent b, above 0
     * @param shortest the shortest metered time to which it was fitted, above 0
     * @param longest the longest
     * @return the law
     * @throws IllegalArgumentException if a number is out of range, or a corrected time is above 10<sup>18</sup> s
     */
    public static Reciprocity power(double factor, double exponent, Duration shortest, Duration longest) {
        double a = Checks.positive("factor of the power law", factor);
        double b = Checks.positive("exponent of the power law", exponent);
        return new Reciprocity("power law", shortest(shortest), longest(longest), t -> a * Math.pow(t, b));
    }

    /**
     * Returns a law that adds A t<sup>1.62</sup> to the metered time t.
     *
     * @param factor A, 0 or more
     * @param shortest the shortest metered time to which it was fitted, above 0
     * @param longest the longest
     * @return the law
     * @throws IllegalArgumentException if a number is out of range, or a corrected time is above 10<sup>18</sup> s
     * @source common practice, no source
     */
    public static Reciprocity additive(double factor, Duration shortest, Duration longest) {
        double a = Checks.within("factor of the additive law", factor, 0, 1e6, "");
        return new Reciprocity("additive law", shortest(shortest), longest(longest), t -> t + a * Math.pow(t, 1.62));
    }

    /**
     * Returns tabulated corrections, interpolated linearly on logarithmic scales.
     *
     * @param metered the metered times, rising, two or more
     * @param corrected the corrected time of each, rising and no shorter than the metered time
     * @return the table
     * @throws IllegalArgumentException if there are fewer than two pairs, the lists differ in length, times do not rise, or
     *     a corrected time is shorter than its metered time
     */
    public static Reciprocity tabulated(List<Duration> metered, List<Duration> corrected) {
        Objects.requireNonNull(metered, "metered");
        Objects.requireNonNull(corrected, "corrected");
        return ofTable(
                metered.stream().mapToDouble(Reciprocity::seconds).toArray(),
                corrected.stream().mapToDouble(Reciprocity::seconds).toArray());
    }

    /** A table in seconds. */
    static Reciprocity ofTable(double[] meteredSeconds, double[] correctedSeconds) {
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
        return new Reciprocity(name, shortestSeconds, longestSeconds, corrected);
    }

    private static double shortest(Duration time) {
        return Checks.positive("shortest metered time in seconds", seconds(Objects.requireNonNull(time, "shortest")));
    }

    private static double longest(Duration time) {
        return seconds(Objects.requireNonNull(time, "longest"));
    }

    static double seconds(Duration time) {
        return time.getSeconds() + time.getNano() * NANOSECOND;
    }

    private static Duration duration(double seconds) {
        long whole = (long) Math.floor(seconds);
        return Duration.ofSeconds(whole, Math.round((seconds - whole) / NANOSECOND));
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
     * @param metered the time the meter gives
     * @return the corrected time, rounded to a nanosecond
     * @throws IllegalArgumentException if the law is not stated for this time
     */
    public Duration correctedTime(Duration metered) {
        Objects.requireNonNull(metered, "metered");
        return duration(correctedSeconds(seconds(metered)));
    }

    private double correctedSeconds(double metered) {
        return corrected.applyAsDouble(inSpan("metered", metered, shortest, longest));
    }

    /**
     * Returns how much more exposure than metered is needed.
     *
     * @param metered the time the meter gives
     * @return the interval from the metered to the corrected time
     * @throws IllegalArgumentException if the law is not stated for this time
     */
    public ExposureInterval correction(Duration metered) {
        double seconds = seconds(Objects.requireNonNull(metered, "metered"));
        return ExposureInterval.ofRatio(correctedSeconds(seconds) / seconds);
    }

    /**
     * Returns the effective exposure of a long time: the exposure of a short time that has the same effect.
     *
     * @param exposure the exposure at the film, illuminance times time
     * @param time its actual time
     * @return the effective exposure: the exposure, reduced by the correction of that metered time whose corrected time
     *     is this one
     * @throws IllegalArgumentException if the law is not stated for this time
     */
    public LogExposure effective(LogExposure exposure, Duration time) {
        double seconds = seconds(Objects.requireNonNull(time, "time"));
        inSpan("actual", seconds, corrected.applyAsDouble(shortest), corrected.applyAsDouble(longest));
        double metered = Math.exp(Roots.boundary(
                at -> corrected.applyAsDouble(Math.exp(at)) < seconds, Math.log(shortest), Math.log(longest)));
        return exposure.minus(ExposureInterval.ofRatio(seconds / metered));
    }

    private double inSpan(String which, double seconds, double from, double to) {
        if (!(seconds >= from * (1 - ROUNDING) - NANOSECOND && seconds <= to * (1 + ROUNDING) + NANOSECOND)) {
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
