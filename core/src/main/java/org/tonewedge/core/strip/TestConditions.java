// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.SerialForms;

/**
 * The conditions of a speed test that readings do not show: the light, the exposure time, the hold (how long the strip
 * waited for its development), and the storage of the film. A standard sets limits for each. What you do not state is
 * listed in the result as not stated. What you state is recorded there but not judged, because the clauses were not
 * read.
 *
 * <pre>{@code
 * TestConditions conditions = TestConditions.notStated().
 *         withIlluminant("daylight, 5500 K").
 *         withExposureTime(Duration.ofMillis(10));
 * Strip.Builder strip = Strip.builder("S07").testConditions(conditions);
 * }</pre>
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 */
public final class TestConditions implements Serializable {

    private static final long serialVersionUID = 1;

    private static final TestConditions NOT_STATED = new TestConditions(null, null, null, null);
    private static final Duration LONGEST_EXPOSURE = Duration.ofSeconds(1_000_000);
    private static final Duration LONGEST_HOLD = Duration.ofDays(36_525);

    private final String illuminant;
    private final Duration exposureTime;
    private final Duration hold;
    private final String storage;

    private TestConditions(String illuminant, Duration exposureTime, Duration hold, String storage) {
        this.illuminant = illuminant;
        this.exposureTime = exposureTime;
        this.hold = hold;
        this.storage = storage;
    }

    /**
     * Returns conditions with none stated.
     *
     * @return the conditions
     */
    public static TestConditions notStated() {
        return NOT_STATED;
    }

    /**
     * Returns a copy with the light of the exposure.
     *
     * @param description the light in the tester's words, such as {@code daylight, 5500 K}
     * @return the copy
     * @throws IllegalArgumentException if the text is blank or has a control character
     */
    public TestConditions withIlluminant(String description) {
        Objects.requireNonNull(description, "description");
        return new TestConditions(Checks.label("illuminant", description), exposureTime, hold, storage);
    }

    /**
     * Returns a copy with the exposure time.
     *
     * @param time the time, above 0 and at most 1,000,000 s
     * @return the copy
     * @throws IllegalArgumentException if the time is out of range
     */
    public TestConditions withExposureTime(Duration time) {
        if (time.isNegative() || time.isZero() || time.compareTo(LONGEST_EXPOSURE) > 0) {
            throw new IllegalArgumentException(
                    "exposure time must be above 0 and at most 1000000 seconds, was " + Figures.plain(seconds(time)));
        }
        return new TestConditions(illuminant, time, hold, storage);
    }

    /**
     * Returns a copy with the hold, the time from exposure to development.
     *
     * @param time how long the strip waited, 0 to a hundred years; kept to the millisecond
     * @return the copy
     * @throws IllegalArgumentException if the time is out of range
     */
    public TestConditions withHold(Duration time) {
        if (time.isNegative() || time.compareTo(LONGEST_HOLD) > 0) {
            throw new IllegalArgumentException(
                    "time from exposure to development must be 0 minutes to 100 years, was " + time);
        }
        return new TestConditions(illuminant, exposureTime, Duration.ofMillis(time.toMillis()), storage);
    }

    /**
     * Returns a copy with the storage of the film before the test.
     *
     * @param description age and storage in the tester's words, such as {@code 8 months, 20 °C, sealed}
     * @return the copy
     * @throws IllegalArgumentException if the text is blank or has a control character
     */
    public TestConditions withStorage(String description) {
        Objects.requireNonNull(description, "description");
        return new TestConditions(illuminant, exposureTime, hold, Checks.label("storage", description));
    }

    /**
     * Returns the light of the exposure.
     *
     * @return the description, or nothing if it is not stated
     */
    public Optional<String> illuminant() {
        return Optional.ofNullable(illuminant);
    }

    /**
     * Returns the exposure time.
     *
     * @return the time, or nothing if it is not stated
     */
    public Optional<Duration> exposureTime() {
        return Optional.ofNullable(exposureTime);
    }

    /**
     * Returns the time from exposure to development.
     *
     * @return the time, or nothing if it is not stated
     */
    public Optional<Duration> hold() {
        return Optional.ofNullable(hold);
    }

    /**
     * Returns the storage of the film before the test.
     *
     * @return the description, or nothing if it is not stated
     */
    public Optional<String> storage() {
        return Optional.ofNullable(storage);
    }

    /**
     * Returns the conditions that were stated.
     *
     * @return for example {@code exposure time 1/100 s}; empty if there are none
     */
    public List<String> stated() {
        List<String> stated = new ArrayList<>();
        if (illuminant != null) {
            stated.add("illuminant " + illuminant);
        }
        if (exposureTime != null) {
            stated.add("exposure time " + Figures.exposureTime(seconds(exposureTime)));
        }
        if (hold != null) {
            stated.add("hold " + inMinutes(hold));
        }
        if (storage != null) {
            stated.add("storage " + storage);
        }
        return List.copyOf(stated);
    }

    private static String inMinutes(Duration time) {
        double minutes = minutes(time);
        return minutes < 120 ? Figures.wholeOrPlain(minutes) + " min" : Figures.wholeOrPlain(minutes / 60) + " h";
    }

    static double seconds(Duration time) {
        return time.getSeconds() + time.getNano() / 1e9;
    }

    static double minutes(Duration time) {
        return time.toMillis() / 60_000.0;
    }

    /**
     * Returns the names of the conditions that were not stated.
     *
     * @return those of illuminant, exposure time, hold and storage that are missing; empty if none is
     */
    public List<String> missing() {
        List<String> missing = new ArrayList<>();
        if (illuminant == null) {
            missing.add("illuminant");
        }
        if (exposureTime == null) {
            missing.add("exposure time");
        }
        if (hold == null) {
            missing.add("hold");
        }
        if (storage == null) {
            missing.add("storage");
        }
        return List.copyOf(missing);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof TestConditions that
                && Objects.equals(illuminant, that.illuminant)
                && Objects.equals(exposureTime, that.exposureTime)
                && Objects.equals(hold, that.hold)
                && Objects.equals(storage, that.storage);
    }

    @Override
    public int hashCode() {
        return Objects.hash(illuminant, exposureTime, hold, storage);
    }

    /**
     * Returns the conditions in words.
     *
     * @return what was stated, then what was not
     */
    @Override
    public String toString() {
        String stated = String.join(", ", stated());
        String missing = missing().isEmpty() ? "" : "not stated: " + String.join(", ", missing());
        return stated + (stated.isEmpty() || missing.isEmpty() ? "" : "; ") + missing;
    }

    private Object writeReplace() {
        return new SerialForm(illuminant, exposureTime, hold, storage);
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written. */
    private record SerialForm(String illuminant, Duration exposureTime, Duration hold, String storage)
            implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> {
                TestConditions made = notStated();
                made = illuminant == null ? made : made.withIlluminant(illuminant);
                made = exposureTime == null ? made : made.withExposureTime(exposureTime);
                made = hold == null ? made : made.withHold(hold);
                return storage == null ? made : made.withStorage(storage);
            });
        }
    }
}
