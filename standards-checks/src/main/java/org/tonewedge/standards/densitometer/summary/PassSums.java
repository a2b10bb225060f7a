// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.List;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Sums over the readings of one pass over a tablet, or of several, for each step. */
final class PassSums {

    private final StepAccumulator[] plausible;
    private final StepAccumulator[] printed;
    private final StepAccumulator[] recomputed;
    private final long[] implausible;
    private final long[] overrange;
    private final long[] belowDark;
    private final double[] stated;
    private final long[] statements;

    PassSums(int steps) {
        plausible = accumulators(steps);
        printed = accumulators(steps);
        recomputed = accumulators(steps);
        implausible = new long[steps];
        overrange = new long[steps];
        belowDark = new long[steps];
        stated = new double[steps];
        statements = new long[steps];
    }

    private static StepAccumulator[] accumulators(int steps) {
        return Stream.generate(StepAccumulator::new).limit(steps).toArray(StepAccumulator[]::new);
    }

    void addPrinted(int step, double density, boolean isPlausible, long run, double seconds, double celsius) {
        printed[step].add(density, run, seconds, celsius);
        if (isPlausible) {
            plausible[step].add(density, run, seconds, celsius);
        } else {
            implausible[step]++;
        }
    }

    StepAccumulator printed(int step) {
        return printed[step];
    }

    StepAccumulator recomputed(int step) {
        return recomputed[step];
    }

    void addOverrange(int step) {
        overrange[step]++;
    }

    void addBelowDark(int step) {
        belowDark[step]++;
    }

    void addStated(int step, double density) {
        stated[step] += density;
        statements[step]++;
    }

    /** The mean density as stated; NaN if there is none. */
    double statedMean(int step) {
        return stated[step] / statements[step];
    }

    private int steps() {
        return implausible.length;
    }

    /** The readings of several passes, to which no more are added. */
    static PassSums of(List<PassSums> passes, int steps) {
        PassSums all = new PassSums(steps);
        for (PassSums pass : passes) {
            for (int i = 0; i < steps; i++) {
                all.add(i, pass, i);
            }
        }
        return all;
    }

    /** The same with readings moved to other steps: those beyond the tablet and the second of a step are left out. */
    PassSums moved(IntUnaryOperator ownStep) {
        PassSums moved = new PassSums(steps());
        for (int i = 0; i < steps(); i++) {
            int to = ownStep.applyAsInt(i + 1) - 1;
            if (to >= 0 && to < steps() && moved.statements[to] == 0) {
                moved.add(to, this, i);
            }
        }
        return moved;
    }

    private void add(int to, PassSums others, int from) {
        plausible[to].addRuns(others.plausible[from]);
        printed[to].addRuns(others.printed[from]);
        recomputed[to].addRuns(others.recomputed[from]);
        implausible[to] += others.implausible[from];
        overrange[to] += others.overrange[from];
        belowDark[to] += others.belowDark[from];
        stated[to] += others.stated[from];
        statements[to] += others.statements[from];
    }

    /**
     * An occasional damaged line is ignored; if most readings of a step look like this, they are what the instrument
     * states.
     */
    List<Integer> implausibleSteps() {
        return IntStream.range(0, steps())
                .filter(i -> 2 * implausible[i] > printed[i].variances().count())
                .mapToObj(i -> i + 1)
                .toList();
    }

    /** The printed densities by which the instrument is judged. */
    StepAccumulator[] judged() {
        StepAccumulator[] judged = plausible.clone();
        implausibleSteps().forEach(number -> judged[number - 1] = printed[number - 1]);
        return judged;
    }

    StepAccumulator[] recomputed() {
        return recomputed.clone();
    }

    long overrange(int step) {
        return overrange[step];
    }

    long belowDark(int step) {
        return belowDark[step];
    }
}
