// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.control;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A control chart for the readings of one check piece, with one value for each session: a Shewhart chart of individual
 * values, and an exponentially weighted moving average (EWMA) beside it.
 *
 * <pre>{@code
 * ControlChart chart = ControlChart.fromBaseline(firstWeeks);
 * List<ControlPoint> points = chart.watch(sinceThen);
 * }</pre>
 *
 * <p>A value x<sub>i</sub> is out of control beyond μ ± 3 σ. The moving average z<sub>i</sub> = λ x<sub>i</sub> + (1 −
 * λ) z<sub>i−1</sub>, z<sub>0</sub> = μ, is out of control beyond μ ± L σ √(λ/(2 − λ) (1 − (1 − λ)<sup>2i</sup>)). It finds
 * small shifts and drifts that single values hide. The remaining {@linkplain ControlRule rules} warn.
 *
 * <p>Centre line and standard deviation come from the first weeks, while the instrument is known to be good: μ is their
 * mean, σ the mean of the moving ranges |x<sub>i</sub> − x<sub>i−1</sub>| divided by 1.128, which a slow drift within
 * the first weeks does not inflate. A session with several readings counts as one value, their mean, because readings
 * minutes apart say nothing about the change from week to week.
 *
 * <p>Limits from few sessions are themselves uncertain. Simulated in-control instruments (10,000 charts each, by {@code
 * ControlChartSimulation} in the tests, defaults), watched for a year of 52 sessions:
 *
 * <pre>
 * sessions of the baseline   relative u of sigma   charts with a false alarm in 52 sessions
 * 10                         30 %                  49 %
 * 15                         24 %                  43 %
 * 20                         20 %                  40 %
 * 30                         17 %                  35 %
 * 50                         13 %                  29 %
 * known mean and deviation    0 %                  19 %
 * </pre>
 *
 * <p>Immutable and thread safe.
 *
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (individuals) and 6.3.2.4 (EWMA), formulas and examples;
 *     the terms centre line, control limits and average run length: ISO 7870-1, from memory; 1.128 is d<sub>2</sub> for
 *     ranges of two
 */
public final class ControlChart {

    /** The fewest sessions from which limits are made. */
    public static final int FEWEST_SESSIONS = 10;

    private static final double RANGE_OF_TWO = 1.128;
    private static final double USUAL_MULTIPLE = 3;
    private static final double USUAL_WEIGHT = 0.2;
    private static final int SIDE_RUN = 8;
    private static final int TREND_RUN = 6;

    /** Rounding of sums at a limit, far below what any densitometer resolves: the limit itself is not beyond it. */
    private static final double ROUNDING = 1e-9;

    private final double centre;
    private final double deviation;
    private final int sessions;
    private final double weight;
    private final double multiple;

    private ControlChart(double centre, double deviation, int sessions, double weight, double multiple) {
        this.centre = centre;
        this.deviation = deviation;
        this.sessions = sessions;
        this.weight = weight;
        this.multiple = multiple;
    }

    /**
     * Returns a chart with limits from the first weeks, weight 0.2 and three standard deviations.
     *
     * @param values the value of each session, in their order, ten or more
     * @return the chart
     * @throws IllegalArgumentException if there are fewer than ten values, one is not finite, or all are equal
     */
    public static ControlChart fromBaseline(double... values) {
        if (values.length < FEWEST_SESSIONS) {
            throw new IllegalArgumentException("control limits need " + FEWEST_SESSIONS + " sessions or more, had "
                    + values.length + "; continue to read the check piece before you judge by it");
        }
        double sum = 0;
        double ranges = 0;
        for (int i = 0; i < values.length; i++) {
            sum += Checks.finite("value of session " + (i + 1), values[i]);
            ranges += i > 0 ? Math.abs(values[i] - values[i - 1]) : 0;
        }
        double deviation = ranges / (values.length - 1) / RANGE_OF_TWO;
        if (!(deviation > 0)) {
            throw new IllegalArgumentException("the values of the first " + values.length
                    + " sessions are all equal, so no limits can be set; record more decimals, or the mean of several"
                    + " readings");
        }
        return new ControlChart(sum / values.length, deviation, values.length, USUAL_WEIGHT, USUAL_MULTIPLE);
    }

    /**
     * Returns a chart whose centre line and standard deviation are known, with weight 0.2 and three standard deviations.
     *
     * @param centre the centre line
     * @param deviation the standard deviation from session to session, above 0
     * @return the chart
     * @throws IllegalArgumentException if a number is out of range
     */
    public static ControlChart of(double centre, double deviation) {
        return new ControlChart(
                Checks.finite("centre line", centre),
                Checks.positive("standard deviation", deviation),
                0,
                USUAL_WEIGHT,
                USUAL_MULTIPLE);
    }

    /**
     * Returns this chart with another weight of the newest value in the moving average.
     *
     * @param lambda the weight, above 0 and up to 1; small weights find small shifts, 1 is the value itself
     * @return a changed copy
     * @throws IllegalArgumentException if the weight is out of range
     */
    public ControlChart withWeight(double lambda) {
        if (!(lambda > 0 && lambda <= 1)) {
            throw new IllegalArgumentException("weight must be above 0 and up to 1, was " + lambda);
        }
        return new ControlChart(centre, deviation, sessions, lambda, multiple);
    }

    /**
     * Returns this chart with other control limits, for values and moving average alike.
     *
     * @param deviations how many standard deviations from the centre line, above 0; the usual number is 3
     * @return a changed copy
     * @throws IllegalArgumentException if the number is not above 0
     */
    public ControlChart withMultiple(double deviations) {
        return new ControlChart(
                centre, deviation, sessions, weight, Checks.positive("multiple of the standard deviation", deviations));
    }

    /**
     * Returns the centre line.
     *
     * @return μ
     * @units density
     */
    public double centre() {
        return centre;
    }

    /**
     * Returns the standard deviation from session to session.
     *
     * @return σ
     * @units density
     */
    public double deviation() {
        return deviation;
    }

    /**
     * Returns the lower control limit of values.
     *
     * @return μ − 3 σ, with another multiple if one was given
     * @units density
     */
    public double lowerLimit() {
        return centre - multiple * deviation;
    }

    /**
     * Returns the upper control limit of values.
     *
     * @return μ + 3 σ, with another multiple if one was given
     * @units density
     */
    public double upperLimit() {
        return centre + multiple * deviation;
    }

    /**
     * Returns the number of sessions from which the limits come.
     *
     * @return the number; 0 if centre line and standard deviation were stated
     */
    public int baselineSessions() {
        return sessions;
    }

    /**
     * Returns the final distance from the centre line that the moving average may reach.
     *
     * @return L σ √(λ/(2 − λ))
     * @units density
     */
    public double movingAverageLimit() {
        return multiple * deviation * Math.sqrt(weight / (2 - weight));
    }

    /**
     * Judges the sessions after the limits were set, or those of the baseline themselves. A value at a limit, to within
     * 10<sup>−9</sup>, is not beyond it.
     *
     * @param values the value of each session, in their order
     * @return a point for each
     * @throws IllegalArgumentException if a value is not finite
     */
    public List<ControlPoint> watch(double... values) {
        List<ControlPoint> points = new ArrayList<>();
        double average = centre;
        for (int i = 0; i < values.length; i++) {
            double value = Checks.finite("value of session " + (i + 1), values[i]);
            average += weight * (value - average);
            double limit = movingAverageLimit() * Math.sqrt(1 - Math.pow(1 - weight, 2.0 * (i + 1)));
            Set<ControlRule> signals = EnumSet.noneOf(ControlRule.class);
            signal(signals, ControlRule.BEYOND_LIMITS, exceeds(Math.abs(value - centre), multiple * deviation));
            signal(signals, ControlRule.MOVING_AVERAGE, exceeds(Math.abs(average - centre), limit));
            signal(signals, ControlRule.TWO_OF_THREE, isBeyond(values, i, 2, 3, 2));
            signal(signals, ControlRule.FOUR_OF_FIVE, isBeyond(values, i, 4, 5, 1));
            signal(signals, ControlRule.EIGHT_ON_ONE_SIDE, isBeyond(values, i, SIDE_RUN, SIDE_RUN, 0));
            signal(signals, ControlRule.TREND, isTrend(values, i));
            points.add(new ControlPoint(i + 1, value, average, limit, signals));
        }
        return List.copyOf(points);
    }

    private static void signal(Set<ControlRule> signals, ControlRule rule, boolean given) {
        if (given) {
            signals.add(rule);
        }
    }

    /** Whether the value and enough of those before it are beyond some standard deviations on one side. */
    private boolean isBeyond(double[] values, int last, int wanted, int window, double deviations) {
        double side = Math.signum(values[last] - centre);
        int beyond = 0;
        for (int i = Math.max(0, last - window + 1); i <= last; i++) {
            beyond += exceeds(side * (values[i] - centre), deviations * deviation) ? 1 : 0;
        }
        return beyond >= wanted && exceeds(side * (values[last] - centre), deviations * deviation);
    }

    private static boolean exceeds(double distance, double limit) {
        return distance > limit + ROUNDING;
    }

    private static boolean isTrend(double[] values, int last) {
        if (last < TREND_RUN - 1) {
            return false;
        }
        int rises = 0;
        int falls = 0;
        for (int i = last - TREND_RUN + 2; i <= last; i++) {
            rises += values[i] > values[i - 1] ? 1 : 0;
            falls += values[i] < values[i - 1] ? 1 : 0;
        }
        return Math.max(rises, falls) == TREND_RUN - 1;
    }

    /**
     * Returns the chart in words.
     *
     * @return for example {@code centre 1.502, limits 1.49 to 1.514, from 20 sessions}
     */
    @Override
    public String toString() {
        return "centre " + Figures.plain(centre) + ", limits " + Figures.plain(lowerLimit()) + " to "
                + Figures.plain(upperLimit()) + (sessions > 0 ? ", from " + sessions + " sessions" : "");
    }
}
