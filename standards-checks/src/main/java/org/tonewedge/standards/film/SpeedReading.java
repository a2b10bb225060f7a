// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Evidence;

/**
 * A speed read off a curve by the rule that {@link #criterion()} names.
 *
 * <p>Immutable and thread safe.
 */
public final class SpeedReading implements FilmSpeed<SpeedReading> {

    private final double exact;
    private final Evidence evidence;

    SpeedReading(double exact, Evidence evidence) {
        this.exact = exact;
        this.evidence = evidence;
    }

    @Override
    public double exact() {
        return exact;
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public SpeedReading withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new SpeedReading(exact, evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
    }

    /**
     * Returns the speed in words.
     *
     * @return the exact speed and the rule by which it was determined
     */
    @Override
    public String toString() {
        return "speed " + Figures.plain(exact) + " by " + criterion().name() + missed(this);
    }

    /**
     * An ISO speed as printed on a box. If a condition was missed or no box has that speed, the name ISO is omitted and
     * the reason given.
     */
    static String text(IsoFilmSpeed<?> speed) {
        Optional<IsoSpeed> nearest = IsoSpeed.nearestOnScale(speed.exact());
        String rounded = nearest.isPresent() ? nearest.get().toString() : Figures.plain(speed.exact());
        if (speed.conditionsMet() && nearest.isPresent()) {
            return "ISO " + rounded;
        }
        return "speed " + rounded
                + (speed.conditionsMet() ? "" : ", not an ISO speed" + missed(speed))
                + (nearest.isPresent() ? "" : ", outside the nominal scale" + IsoSpeed.otherUnit(speed.exact()));
    }

    private static String missed(FilmSpeed<?> speed) {
        return speed.conditionsMet()
                ? ""
                : speed.conditions().stream()
                        .filter(condition -> !condition.isMet())
                        .map(Condition::toString)
                        .collect(Collectors.joining("; ", " (", ")"));
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof SpeedReading that
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
