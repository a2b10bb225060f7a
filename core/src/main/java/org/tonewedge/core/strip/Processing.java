// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.SerialForms;
import org.tonewedge.core.quantity.Temperature;

/**
 * How a strip was developed, such as 8 min at 20 °C in a stated developer with a stated agitation. Each part may be
 * unknown.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 */
public final class Processing implements Serializable {

    private static final long serialVersionUID = 1;

    private static final Processing UNKNOWN = new Processing(null, null, null, null);
    private static final Duration LONGEST = Duration.ofDays(1);

    private final String developer;
    private final Duration time;
    private final Temperature temperature;
    private final String agitation;

    private Processing(String developer, Duration time, Temperature temperature, String agitation) {
        this.developer = developer;
        this.time = time;
        this.temperature = temperature;
        this.agitation = agitation;
    }

    /**
     * Returns a processing with every part unknown.
     *
     * @return the processing
     */
    public static Processing unknown() {
        return UNKNOWN;
    }

    /**
     * Returns a copy with a developer.
     *
     * @param label the developer with its dilution, in the tester's words
     * @return the copy
     * @throws IllegalArgumentException if the label is blank or has a control character
     */
    public Processing withDeveloper(String label) {
        Objects.requireNonNull(label, "label");
        return new Processing(Checks.label("developer", label), time, temperature, agitation);
    }

    /**
     * Returns a copy with a time of development.
     *
     * @param developed the time in the developer, above 0 and at most 24 hours
     * @return the copy
     * @throws IllegalArgumentException if the time is out of range
     */
    public Processing withTime(Duration developed) {
        if (developed.isNegative() || developed.isZero() || developed.compareTo(LONGEST) > 0) {
            throw new IllegalArgumentException("time of development must be above 0 and at most 1440 minutes, was "
                    + Figures.plain(minutes(developed)) + " minutes");
        }
        return new Processing(developer, developed, temperature, agitation);
    }

    /**
     * Returns a copy with a time of development in minutes.
     *
     * @param minutes the time in the developer, above 0 and at most 1440
     * @return the copy, the time rounded to a millisecond
     * @throws IllegalArgumentException if the time is out of range
     * @units minutes
     */
    public Processing withMinutes(double minutes) {
        String name = "time of development in minutes";
        Checks.within(name, Checks.positive(name, minutes), 0, (double) LONGEST.toMinutes(), "");
        return withTime(Duration.ofMillis(Math.round(minutes * 60_000)));
    }

    /**
     * Returns a copy with a temperature.
     *
     * @param bath the temperature of the developer
     * @return the copy
     */
    public Processing withTemperature(Temperature bath) {
        return new Processing(developer, time, Objects.requireNonNull(bath, "bath"), agitation);
    }

    /**
     * Returns a copy with a description of the agitation.
     *
     * @param how the agitation, in the tester's words
     * @return the copy
     * @throws IllegalArgumentException if the description is blank or has a control character
     */
    public Processing withAgitation(String how) {
        Objects.requireNonNull(how, "how");
        return new Processing(developer, time, temperature, Checks.label("agitation", how));
    }

    /**
     * Returns the developer.
     *
     * @return the label, or empty if it is not known
     */
    public Optional<String> developer() {
        return Optional.ofNullable(developer);
    }

    /**
     * Returns the time of development.
     *
     * @return the time, or empty if it is not known
     */
    public Optional<Duration> time() {
        return Optional.ofNullable(time);
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
     * Returns the agitation.
     *
     * @return the description, or empty if it is not known
     */
    public Optional<String> agitation() {
        return Optional.ofNullable(agitation);
    }

    static double minutes(Duration time) {
        return time.toMillis() / 60_000.0;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Processing that
                && Objects.equals(developer, that.developer)
                && Objects.equals(time, that.time)
                && Objects.equals(temperature, that.temperature)
                && Objects.equals(agitation, that.agitation);
    }

    @Override
    public int hashCode() {
        return Objects.hash(developer, time, temperature, agitation);
    }

    /**
     * Returns the processing in words.
     *
     * @return what is known of it
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder();
        if (time != null) {
            text.append(Figures.plain(minutes(time))).append(" min");
        }
        if (temperature != null) {
            text.append(" at ").append(temperature);
        }
        if (developer != null) {
            text.append(" in ").append(developer);
        }
        if (agitation != null) {
            text.append(", ").append(agitation);
        }
        return text.isEmpty() ? "processing not stated" : text.toString().strip();
    }

    private Object writeReplace() {
        return new SerialForm(developer, time, temperature, agitation);
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written. */
    private record SerialForm(String developer, Duration time, Temperature temperature, String agitation)
            implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> {
                Processing made = unknown();
                made = developer == null ? made : made.withDeveloper(developer);
                made = time == null ? made : made.withTime(time);
                made = temperature == null ? made : made.withTemperature(temperature);
                return agitation == null ? made : made.withAgitation(agitation);
            });
        }
    }
}
