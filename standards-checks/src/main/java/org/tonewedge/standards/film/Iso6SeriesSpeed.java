// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Evidence;

/**
 * An ISO 6 speed from a development series, interpolated to the contrast ΔD = 0.80 between two neighbouring times, with
 * the time that gives this contrast.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6SeriesSpeed implements IsoFilmSpeed<Iso6SeriesSpeed> {

    private final double exact;
    private final Duration developmentTime;
    private final List<Iso6Contrast> contrasts;
    private final Evidence evidence;
    private final TestConditions conditions;

    Iso6SeriesSpeed(
            double exact,
            Duration developmentTime,
            List<Iso6Contrast> contrasts,
            Evidence evidence,
            TestConditions conditions) {
        this.exact = exact;
        this.developmentTime = developmentTime;
        this.contrasts = List.copyOf(contrasts);
        this.evidence = evidence;
        this.conditions = conditions;
    }

    @Override
    public double exact() {
        return exact;
    }

    /**
     * Returns the time of development that gives the contrast of the standard.
     *
     * @return the time, interpolated
     */
    public Duration developmentTime() {
        return developmentTime;
    }

    /**
     * Returns the readings at every time of the series.
     *
     * @return speed point and contrast of each strip, in order of time
     */
    public List<Iso6Contrast> contrasts() {
        return contrasts;
    }

    /**
     * Returns the evidence for the speed; its points are those of the two strips between which it was interpolated.
     *
     * @return the evidence
     */
    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso6SeriesSpeed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso6SeriesSpeed(
                exact,
                developmentTime,
                contrasts,
                evidence.withUncertainty(standardUncertainty, degreesOfFreedom),
                conditions);
    }

    /**
     * Returns the test conditions that a curve cannot show, as far as they were stated.
     *
     * @return the conditions
     */
    public TestConditions testConditions() {
        return conditions;
    }

    /**
     * Returns the speed in words, with the test conditions.
     *
     * @return the rounded speed; the exact one if it is outside the nominal scale
     */
    @Override
    public String toString() {
        return SpeedReading.text(this) + " (" + conditions + ")";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Iso6SeriesSpeed that
                && Double.compare(exact, that.exact) == 0
                && Objects.equals(developmentTime, that.developmentTime)
                && Objects.equals(contrasts, that.contrasts)
                && Objects.equals(evidence, that.evidence)
                && Objects.equals(conditions, that.conditions);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(exact, developmentTime, contrasts, evidence, conditions);
    }
}
