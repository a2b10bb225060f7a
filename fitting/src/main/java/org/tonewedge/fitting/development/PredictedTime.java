// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;

/**
 * A time of development predicted from test strips, such as 9 min 15 s ± 12 s at 20 °C, with the cautions that apply.
 *
 * <p>Immutable and thread safe.
 */
public final class PredictedTime implements Recorded {

    private final PredictedFigure logMinutes;
    private final Temperature temperature;

    /** The prediction is of ln t: times are positive, and the interval of a time is symmetrical in its logarithm. */
    PredictedTime(PredictedFigure logMinutes, Temperature temperature) {
        this.logMinutes = logMinutes;
        this.temperature = temperature;
    }

    static PredictedTime of(
            double minutes,
            OptionalDouble relativeUncertainty,
            double degreesOfFreedom,
            Scope scope,
            Temperature temperature) {
        return new PredictedTime(
                new PredictedFigure(Math.log(minutes), relativeUncertainty, degreesOfFreedom, scope), temperature);
    }

    /**
     * Returns the time.
     *
     * @return the time, not rounded
     */
    public Duration time() {
        return DevelopmentTimes.ofMinutes(Math.exp(logMinutes.value()));
    }

    /**
     * Returns the temperature at which the time is valid.
     *
     * @return the temperature, or nothing if that of the strips is not known
     */
    public Optional<Temperature> temperature() {
        return Optional.ofNullable(temperature);
    }

    /**
     * Returns the standard uncertainty.
     *
     * @return the uncertainty of the time, or empty if the strips do not determine it
     */
    public Optional<Duration> standardUncertainty() {
        OptionalDouble relative = logMinutes.standardUncertainty();
        return relative.isPresent()
                ? Optional.of(DevelopmentTimes.ofMinutes(relative.getAsDouble() * Math.exp(logMinutes.value())))
                : Optional.empty();
    }

    /**
     * Returns the interval that contains the true time with a confidence, in minutes: t e<sup>± q u/t</sup>, where q is
     * the quantile of Student's t. It is not symmetrical about the time.
     *
     * @param confidence such as 0.95
     * @return the interval
     * @throws IllegalArgumentException if the confidence is not between 0 and 1
     * @throws IllegalStateException if the uncertainty is not known
     * @units minutes
     */
    public CoverageInterval intervalMinutes(double confidence) {
        CoverageInterval log = logMinutes.interval(confidence);
        return new CoverageInterval(Math.exp(log.lower()), Math.exp(log.upper()), confidence);
    }

    /**
     * Tells whether the time or the temperature lies beyond those tested.
     *
     * @return true if it was extrapolated on request
     */
    public boolean isExtrapolated() {
        return logMinutes.isExtrapolated();
    }

    /**
     * Returns the cautions that apply.
     *
     * @return the cautions, the most pressing first
     */
    public List<Caution> cautions() {
        return Caution.of(time(), logMinutes.scope());
    }

    /** This time rounded to a step, which adds the standard deviation of rounding, a step over √12 (JCGM 100:2008, F.2.2.1). */
    PredictedTime roundedTo(Duration step) {
        double minutes = DevelopmentTimes.minutes(DevelopmentTimes.rounded(time(), step));
        double rounding = DevelopmentTimes.minutes(step) / Math.sqrt(12) / minutes;
        return new PredictedTime(
                new PredictedFigure(
                                Math.log(minutes),
                                logMinutes.standardUncertainty(),
                                logMinutes.degreesOfFreedom(),
                                logMinutes.scope())
                        .widenedBy(rounding),
                temperature);
    }

    Scope scope() {
        return logMinutes.scope();
    }

    /**
     * Returns the time with its standard uncertainty.
     *
     * @return for example {@code 9 min 15 s ± 12 s (k = 1) at 20 °C; confirm it with a test strip}
     */
    @Override
    public String toString() {
        return DevelopmentTimes.inWords(time())
                + standardUncertainty()
                        .map(u -> " ± " + DevelopmentTimes.inWords(u) + " (k = 1)")
                        .orElse("")
                + temperature().map(at -> " at " + DevelopmentTimes.inWords(at)).orElse("")
                + (isExtrapolated() ? "; extrapolated: test it" : "; confirm it with a test strip");
    }

    /**
     * Returns the prediction as named values: {@code time} in seconds with its uncertainty, and {@code temperature}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        double seconds = time().toNanos() / 1e9;
        records.add(ResultRecord.ofNumber(
                "time",
                seconds,
                standardUncertainty().map(u -> Estimate.of(seconds, u.toNanos() / 1e9, logMinutes.degreesOfFreedom())),
                "s"));
        temperature().ifPresent(celsius -> records.add(ResultRecord.ofNumber("temperature", celsius.celsius(), "°C")));
        return List.copyOf(records);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof PredictedTime that
                && Objects.equals(logMinutes, that.logMinutes)
                && Objects.equals(temperature, that.temperature);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(logMinutes, temperature);
    }
}
