// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.Objects;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.colour.Channel;

/**
 * A colour negative speed by {@link Iso5800}, with its slowest layer.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso5800Speed implements IsoFilmSpeed<Iso5800Speed> {

    private final double exact;
    private final Channel slowest;
    private final Evidence evidence;
    private final TestConditions conditions;

    Iso5800Speed(double exact, Channel slowest, Evidence evidence) {
        this(exact, slowest, evidence, TestConditions.notStated());
    }

    private Iso5800Speed(double exact, Channel slowest, Evidence evidence, TestConditions conditions) {
        this.exact = exact;
        this.slowest = slowest;
        this.evidence = evidence;
        this.conditions = conditions;
    }

    @Override
    public double exact() {
        return exact;
    }

    /**
     * Returns the slowest layer.
     *
     * @return the channel whose speed point needs the most exposure; green if no other needs more
     */
    public Channel slowest() {
        return slowest;
    }

    /**
     * Returns the speed point of a layer.
     *
     * @param layer red, green or blue
     * @return the point 0.15 above the unexposed film
     * @throws IllegalArgumentException if the channel is not one of the three
     */
    public CurvePoint speedPoint(Channel layer) {
        Objects.requireNonNull(layer, "layer");
        if (layer == Channel.VISUAL) {
            throw new IllegalArgumentException("a colour negative has red, green and blue speed points, not " + layer);
        }
        return points().get(Iso5800.LAYERS.indexOf(layer));
    }

    /**
     * Returns how much slower than green the slowest layer is.
     *
     * @return the interval, 0 or more
     */
    public ExposureInterval layerImbalance() {
        return speedPoint(slowest).logExposure().minus(speedPoint(Channel.GREEN).logExposure());
    }

    /**
     * Returns the evidence for the speed.
     *
     * @return the evidence; its points are those of red, green and blue
     */
    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso5800Speed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso5800Speed(
                exact, slowest, evidence.withUncertainty(standardUncertainty, degreesOfFreedom), conditions);
    }

    /**
     * Returns a copy that records the conditions of the test that a curve cannot show.
     *
     * @param ofTest the conditions, such as those of the {@linkplain org.tonewedge.core.strip.Strip#testConditions() strip}
     * @return the copy
     */
    public Iso5800Speed with(TestConditions ofTest) {
        return new Iso5800Speed(exact, slowest, evidence, Objects.requireNonNull(ofTest, "ofTest"));
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
        return other instanceof Iso5800Speed that
                && Double.compare(exact, that.exact) == 0
                && Objects.equals(slowest, that.slowest)
                && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(exact, slowest, evidence);
    }
}
