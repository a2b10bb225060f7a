package org.tonewedge.standards.film;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * The conditions of a speed test that a curve does not show: the light, the exposure time, the hold (how long the strip
 * waited for its development), and the storage of the film. A standard sets limits for each. What you do not state is
 * listed in the result as not stated. What you state is recorded there but not judged, because the clauses were not
 * read.
 *
 * <pre>{@code
 * TestConditions conditions = TestConditions.notStated()
 *         .withIlluminant("daylight, 5500 K")
 *         .withExposureTime(Duration.ofMillis(10));
 * Iso6Speed speed = Iso6.withDefaults().with(conditions).determine(curve);
 * }</pre>
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 */
public final class TestConditions {

    private static final TestConditions NOT_STATED = new TestConditions(null, null, null, null);

    private final String illuminant;
    private final String exposureTime;
    private final String hold;
    private final String storage;

    private TestConditions(String illuminant, String exposureTime, String hold, String storage) {
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
     * @throws IllegalArgumentException if the text is blank
     */
    public TestConditions withIlluminant(String description) {
        return new TestConditions(Checks.notBlank("illuminant", description), exposureTime, hold, storage);
    }

    /**
     * Returns a copy with the exposure time.
     *
     * @param time the time, above 0
     * @return the copy
     * @throws IllegalArgumentException if the time is not above 0
     */
    public TestConditions withExposureTime(Duration time) {
        double seconds = time.toNanos() / 1e9;
        Checks.positive("exposure time in seconds", seconds);
        String words = seconds < 1 ? "1/" + Math.round(1 / seconds) + " s" : Figures.plain(seconds) + " s";
        return new TestConditions(illuminant, words, hold, storage);
    }

    /**
     * Returns a copy with the hold, the time from exposure to development.
     *
     * @param time how long the strip waited, 0 or more
     * @return the copy
     * @throws IllegalArgumentException if the time is negative
     */
    public TestConditions withHold(Duration time) {
        if (time.isNegative()) {
            throw new IllegalArgumentException("time from exposure to development must be 0 or more, was " + time);
        }
        long minutes = time.toMinutes();
        String words = minutes < 120 ? minutes + " min" : Figures.plain(minutes / 60.0) + " h";
        return new TestConditions(illuminant, exposureTime, words, storage);
    }

    /**
     * Returns a copy with the storage of the film before the test.
     *
     * @param description age and storage in the tester's words, such as {@code 8 months, 20 °C, sealed}
     * @return the copy
     * @throws IllegalArgumentException if the text is blank
     */
    public TestConditions withStorage(String description) {
        return new TestConditions(illuminant, exposureTime, hold, Checks.notBlank("storage", description));
    }

    /**
     * Returns the conditions that were stated.
     *
     * @return for example {@code exposure time 1/100 s}; empty if there are none
     */
    public List<String> stated() {
        List<String> stated = new ArrayList<>();
        add(stated, illuminant == null, "illuminant", illuminant);
        add(stated, exposureTime == null, "exposure time", exposureTime);
        add(stated, hold == null, "hold", hold);
        add(stated, storage == null, "storage", storage);
        return List.copyOf(stated);
    }

    private static void add(List<String> words, boolean absent, String name, String value) {
        if (!absent) {
            words.add(name + " " + value);
        }
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
}
