// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.Objects;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Evidence;

/**
 * A speed by {@link Iso6}, such as 112 (ISO 125/22°), with its evidence. It is an ISO speed only if
 * {@link #conditionsMet()}.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6Speed implements IsoFilmSpeed<Iso6Speed> {

    private final Iso6Contrast contrast;
    private final double exact;
    private final Evidence evidence;
    private final TestConditions conditions;

    Iso6Speed(Iso6Contrast contrast, double exact, Evidence evidence, TestConditions conditions) {
        this.contrast = contrast;
        this.exact = exact;
        this.evidence = evidence;
        this.conditions = conditions;
    }

    @Override
    public double exact() {
        return exact;
    }

    /**
     * Returns the speed point and the contrast.
     *
     * @return the evidence for the speed
     */
    public Iso6Contrast contrast() {
        return contrast;
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso6Speed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso6Speed(
                contrast, exact, evidence.withUncertainty(standardUncertainty, degreesOfFreedom), conditions);
    }

    /**
     * Returns the conditions of the test that a curve cannot show, as far as they were stated.
     *
     * @return the conditions
     */
    public TestConditions testConditions() {
        return conditions;
    }

    /**
     * Returns the speed in words, with the conditions of the test.
     *
     * @return the rounded speed, or the exact speed if it is outside the nominal scale; with the condition that it
     *     misses if it is not an ISO speed
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
        return other instanceof Iso6Speed that
                && Objects.equals(contrast, that.contrast)
                && Double.compare(exact, that.exact) == 0
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
        return Objects.hash(contrast, exact, evidence, conditions);
    }
}
