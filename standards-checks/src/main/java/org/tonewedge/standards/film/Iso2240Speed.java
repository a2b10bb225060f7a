// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.Objects;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Evidence;

/**
 * A colour reversal speed by {@link Iso2240}, with its points T and S.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso2240Speed implements IsoFilmSpeed<Iso2240Speed> {

    private final double exact;
    private final Evidence evidence;
    private final TestConditions conditions;

    Iso2240Speed(double exact, Evidence evidence) {
        this(exact, evidence, TestConditions.notStated());
    }

    private Iso2240Speed(double exact, Evidence evidence, TestConditions conditions) {
        this.exact = exact;
        this.evidence = evidence;
        this.conditions = conditions;
    }

    @Override
    public double exact() {
        return exact;
    }

    /**
     * Returns point T.
     *
     * @return the point 0.20 above the least density
     */
    public CurvePoint toePoint() {
        return points().get(0);
    }

    /**
     * Returns point S.
     *
     * @return the point 2.00 above the least density, or the tangent point below it
     */
    public CurvePoint shoulderPoint() {
        return points().get(1);
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso2240Speed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso2240Speed(exact, evidence.withUncertainty(standardUncertainty, degreesOfFreedom), conditions);
    }

    /**
     * Returns a copy that records the conditions of the test that a curve cannot show.
     *
     * @param ofTest the conditions, such as those of the {@linkplain org.tonewedge.core.strip.Strip#testConditions() strip}
     * @return the copy
     */
    public Iso2240Speed with(TestConditions ofTest) {
        return new Iso2240Speed(exact, evidence, Objects.requireNonNull(ofTest, "ofTest"));
    }

    /**
     * Returns the conditions of the test that a curve cannot show, as far as they were stated.
     *
     * @return the conditions; by default none is stated
     */
    public TestConditions testConditions() {
        return conditions;
    }

    /**
     * Returns the speed in words.
     *
     * @return the rounded speed, or the exact speed if it is outside the nominal scale, with the conditions of the test
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
        return other instanceof Iso2240Speed that
                && Double.compare(exact, that.exact) == 0
                && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(exact, evidence);
    }
}
