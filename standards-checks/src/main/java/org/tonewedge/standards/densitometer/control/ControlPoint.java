// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.control;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * One session on a control chart: its value, the moving average up to it and the signals it gives.
 *
 * <p>Immutable and thread safe.
 */
public final class ControlPoint {

    private final int number;
    private final double value;
    private final double average;
    private final double averageLimit;
    private final Set<ControlRule> signals;

    ControlPoint(int number, double value, double average, double averageLimit, Set<ControlRule> signals) {
        this.number = number;
        this.value = value;
        this.average = average;
        this.averageLimit = averageLimit;
        this.signals = signals.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(signals));
    }

    /**
     * Returns the number of the session.
     *
     * @return 1 for the first that was watched
     */
    public int number() {
        return number;
    }

    /**
     * Returns the value of the session.
     *
     * @return the mean reading of the check piece
     * @units density
     */
    public double value() {
        return value;
    }

    /**
     * Returns the exponentially weighted moving average up to this session.
     *
     * @return the average
     * @units density
     */
    public double movingAverage() {
        return average;
    }

    /**
     * Returns how far the moving average may be from the centre line at this session.
     *
     * @return the half-width of its control limits, which widen over the first sessions
     * @units density
     */
    public double movingAverageLimit() {
        return averageLimit;
    }

    /**
     * Returns the signals of this session.
     *
     * @return the rules that it breaks, in their order
     */
    public Set<ControlRule> signals() {
        return signals;
    }

    /**
     * Tells whether the session is in control.
     *
     * @return true unless a signal is an alarm
     */
    public boolean isInControl() {
        return signals.stream().noneMatch(ControlRule::isAlarm);
    }

    /**
     * Returns the session in words.
     *
     * @return for example {@code session 12: out of control (beyond the control limits)}
     */
    @Override
    public String toString() {
        String why = signals.stream().map(ControlRule::description).collect(Collectors.joining("; "));
        return "session " + number + ": " + (isInControl() ? "in control" : "out of control")
                + (why.isEmpty() ? "" : " (" + why + ")");
    }
}
