// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Temperature;

/**
 * A figure of a strip that was developed for a time, such as contrast 0.62 ± 0.01 after 8 min at 20 °C.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 */
public final class DevelopedFigure {

    private final String name;
    private final Duration time;
    private final double value;
    private final Temperature temperature;
    private final OptionalDouble standardUncertainty;

    private DevelopedFigure(
            String name, Duration time, double value, Temperature temperature, OptionalDouble standardUncertainty) {
        this.name = name;
        this.time = time;
        this.value = value;
        this.temperature = temperature;
        this.standardUncertainty = standardUncertainty;
    }

    /**
     * Returns a figure without temperature and uncertainty.
     *
     * @param name the name of the strip, for messages, such as {@code strip 'S07'}
     * @param time of development, above 0
     * @param value the figure, finite
     * @return the figure
     * @throws IllegalArgumentException if the name is blank, the time not above 0 or the value not finite
     */
    public static DevelopedFigure of(String name, Duration time, double value) {
        String checked = Checks.notBlank("name of a strip", name);
        Checks.positive(checked + ": time of development in minutes", DevelopmentTimes.minutes(time));
        return new DevelopedFigure(
                checked, time, Checks.finite(checked + ": figure", value), null, OptionalDouble.empty());
    }

    /**
     * Returns a copy with a temperature.
     *
     * @param developed the temperature of the developer
     * @return the copy
     */
    public DevelopedFigure withTemperature(Temperature developed) {
        return new DevelopedFigure(
                name, time, value, Objects.requireNonNull(developed, "developed"), standardUncertainty);
    }

    /**
     * Returns a copy with a standard uncertainty.
     *
     * @param uncertainty the standard uncertainty of the figure, above 0
     * @return the copy
     * @throws IllegalArgumentException if it is not a finite number above 0
     */
    public DevelopedFigure withStandardUncertainty(double uncertainty) {
        return new DevelopedFigure(
                name,
                time,
                value,
                temperature,
                OptionalDouble.of(Checks.positive(name + ": standard uncertainty", uncertainty)));
    }

    /**
     * Returns the name of the strip.
     *
     * @return the name
     */
    public String name() {
        return name;
    }

    /**
     * Returns the time of development.
     *
     * @return the time
     */
    public Duration time() {
        return time;
    }

    /**
     * Returns the figure.
     *
     * @return its value
     */
    public double value() {
        return value;
    }

    /**
     * Returns the temperature of the developer.
     *
     * @return the temperature, or empty if it is not known
     */
    public Optional<Temperature> temperature() {
        return Optional.ofNullable(temperature);
    }

    /**
     * Returns the standard uncertainty of the figure.
     *
     * @return the uncertainty, or empty if it is not known
     */
    public OptionalDouble standardUncertainty() {
        return standardUncertainty;
    }

    double minutes() {
        return DevelopmentTimes.minutes(time);
    }

    String developed() {
        return DevelopmentTimes.inWords(time)
                + (temperature == null ? "" : " at " + DevelopmentTimes.inWords(temperature));
    }

    /**
     * Returns the figure in words.
     *
     * @return for example {@code strip 'S07': 0.62 after 8 min at 20 °C}
     */
    @Override
    public String toString() {
        return name + ": " + Figures.plain(value) + " after " + developed();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof DevelopedFigure that
                && Objects.equals(name, that.name)
                && Objects.equals(time, that.time)
                && Double.compare(value, that.value) == 0
                && Objects.equals(temperature, that.temperature)
                && Objects.equals(standardUncertainty, that.standardUncertainty);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, time, value, temperature, standardUncertainty);
    }
}
