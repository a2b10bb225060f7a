// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.DevelopmentTimes;

/**
 * How to change the development, for example: give it 12 % more: 9 min 15 s at 20 °C.
 *
 * <p>Immutable and thread safe.
 */
public final class DevelopmentChange {

    private final Duration current;
    private final PredictedTime target;

    DevelopmentChange(Duration current, PredictedTime target) {
        this.current = current;
        this.target = target;
    }

    /**
     * Returns the present time.
     *
     * @return the time
     */
    public Duration current() {
        return current;
    }

    /**
     * Returns the time to give instead.
     *
     * @return the time
     */
    public PredictedTime target() {
        return target;
    }

    /**
     * Returns the change of time in per cent.
     *
     * @return target/current − 1, in per cent; negative for less time
     * @units per cent
     */
    public double percent() {
        return 100 * (DevelopmentTimes.minutes(target.time()) / DevelopmentTimes.minutes(current) - 1);
    }

    /**
     * Returns the cautions that apply.
     *
     * @return the cautions, the most pressing first
     */
    public List<Caution> cautions() {
        return target.cautions();
    }

    /**
     * Returns what to do.
     *
     * @return for example {@code give it 12 % more: 9 min 15 s at 20 °C}, or {@code keep it at 8 min at 20 °C} for a
     *     change of less than half a per cent
     */
    @Override
    public String toString() {
        long percent = Math.round(percent());
        String time = DevelopmentTimes.inWords(target.time())
                + target.temperature()
                        .map(at -> " at " + DevelopmentTimes.inWords(at))
                        .orElse("");
        String what = percent == 0
                ? "keep it at " + time
                : "give it " + Math.abs(percent) + " % " + (percent > 0 ? "more" : "less") + ": " + time;
        return target.isExtrapolated() ? what + " (extrapolated: test it)" : what;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof DevelopmentChange that
                && Objects.equals(current, that.current)
                && Objects.equals(target, that.target);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(current, target);
    }
}
