// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.paper;

import java.util.Objects;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.FigureDetermination;
import org.tonewedge.standards.film.IsoSpeed;

/**
 * The speed of a paper by {@link Iso6846}, such as ISO P320. The {@link #figure()} is log<sub>10</sub> P before rounding.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6846Speed implements FigureDetermination<Iso6846Speed> {

    private final Evidence evidence;
    private final TestConditions conditions;

    Iso6846Speed(Evidence evidence) {
        this(evidence, TestConditions.notStated());
    }

    private Iso6846Speed(Evidence evidence, TestConditions conditions) {
        this.evidence = evidence;
        this.conditions = conditions;
    }

    /**
     * Returns the speed point.
     *
     * @return the point 0.60 above base plus fog
     */
    public CurvePoint speedPoint() {
        return points().get(0);
    }

    /**
     * Returns the speed before rounding.
     *
     * @return P = 1000 / H<sub>m</sub>
     * @units reciprocal lux seconds
     */
    public double exact() {
        return Iso6846.SPEED_CONSTANT / speedPoint().logExposure().exposure();
    }

    /**
     * Returns the speed rounded to the series of third stops.
     *
     * @return one of the series of film speeds: 25, 32, 40, 50, … 800, 1000 and so on
     * @throws IllegalArgumentException if the speed is outside that series
     * @source the series from memory
     */
    public double rounded() {
        return IsoSpeed.nearest(exact()).arithmetic();
    }

    /**
     * Returns the logarithm of the speed.
     *
     * @return log<sub>10</sub> P
     * @units log units
     */
    @Override
    public double figure() {
        return Math.log10(exact());
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso6846Speed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso6846Speed(evidence.withUncertainty(standardUncertainty, degreesOfFreedom), conditions);
    }

    /**
     * Returns a copy that records the conditions of the test that a curve cannot show.
     *
     * @param ofTest the conditions, such as those of the {@linkplain org.tonewedge.core.strip.Strip#testConditions() strip}
     * @return the copy
     */
    public Iso6846Speed with(TestConditions ofTest) {
        return new Iso6846Speed(evidence, Objects.requireNonNull(ofTest, "ofTest"));
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
     * Returns the speed as printed on a box.
     *
     * @return for example {@code ISO P320}; the exact speed if it is outside the series; then the conditions
     *     of the test
     */
    @Override
    public String toString() {
        return IsoSpeed.nearestOnScale(exact())
                        .map(IsoSpeed::arithmetic)
                        .map(rounded -> "ISO P"
                                + (rounded == Math.rint(rounded) ? Long.toString(Math.round(rounded)) : rounded))
                        .orElseGet(() -> "speed P " + Figures.plain(exact()) + ", outside the nominal series")
                + " (" + conditions + ")";
    }

    @Override
    public String unit() {
        return "log10";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Iso6846Speed that && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(evidence);
    }
}
