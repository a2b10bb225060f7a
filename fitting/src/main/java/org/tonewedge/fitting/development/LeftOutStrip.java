// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.Locale;
import java.util.Objects;
import org.tonewedge.core.internal.DevelopmentTimes;

/**
 * How well a family of curves predicts a strip to which it was not fitted.
 *
 * <p>Immutable and thread safe.
 */
public final class LeftOutStrip {

    private final String strip;
    private final Duration time;
    private final double rootMeanSquare;
    private final double greatest;
    private final Scope scope;

    LeftOutStrip(String strip, Duration time, double rootMeanSquare, double greatest, Scope scope) {
        this.strip = strip;
        this.time = time;
        this.rootMeanSquare = rootMeanSquare;
        this.greatest = greatest;
        this.scope = scope;
    }

    /**
     * Returns the identifier of the strip that was left out.
     *
     * @return the identifier
     */
    public String strip() {
        return strip;
    }

    /**
     * Returns its time of development.
     *
     * @return the time
     */
    public Duration time() {
        return time;
    }

    /**
     * Returns the root mean square of the differences between its readings and the curve predicted from the other
     * strips.
     *
     * @return the difference
     * @units density
     */
    public double rootMeanSquareDifference() {
        return rootMeanSquare;
    }

    /**
     * Returns the greatest difference.
     *
     * @return the difference, 0 or more
     * @units density
     */
    public double greatestDifference() {
        return greatest;
    }

    /**
     * Tells whether the time lies beyond those of the other strips, which makes the check harder than any question that
     * the family answers.
     *
     * @return true for the shortest and the longest time
     */
    public boolean isExtrapolated() {
        return scope == Scope.EXTRAPOLATED;
    }

    /**
     * Returns the check in words.
     *
     * @return the strip and the differences
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "strip '%s' (%s): rms %.3f, greatest %.3f%s",
                strip,
                DevelopmentTimes.inWords(time),
                rootMeanSquare,
                greatest,
                isExtrapolated() ? ", beyond the times of the others" : "");
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof LeftOutStrip that
                && Objects.equals(strip, that.strip)
                && Objects.equals(time, that.time)
                && Double.compare(rootMeanSquare, that.rootMeanSquare) == 0
                && Double.compare(greatest, that.greatest) == 0
                && Objects.equals(scope, that.scope);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(strip, time, rootMeanSquare, greatest, scope);
    }
}
