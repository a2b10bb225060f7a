// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.standards.densitometer.input.RawCounts;

/** Sums over the readings of one step. */
final class StepAccumulator {

    /** Differences below this are rounding, not steps of an instrument. */
    private static final double ROUNDING = 1e-12;

    private final Variances variances = new Variances();
    private final CoMoments moments = new CoMoments();
    private long run = -1;
    private double first = Double.NaN;
    private double before = Double.NaN;
    private double smallestChange = Double.POSITIVE_INFINITY;
    private double densityOfOneCount;
    private final double[] countMeans = new double[6];
    private long counted;

    void add(double density, long currentRun, double seconds, double celsius) {
        if (currentRun != run) {
            variances.closeRun();
            run = currentRun;
        }
        variances.add(density);
        moments.add(seconds, celsius, density);
        first = Double.isNaN(first) ? density : first;
        followChange(density);
        before = density;
    }

    private void followChange(double density) {
        double change = Math.abs(density - before);
        if (change > ROUNDING) {
            smallestChange = Math.min(smallestChange, change);
        }
    }

    /** Adds the readings of later runs. */
    void addRuns(StepAccumulator others) {
        variances.addRuns(others.variances.closed());
        moments.add(others.moments);
        first = Double.isNaN(first) ? others.first : first;
        followChange(others.first);
        smallestChange = Math.min(smallestChange, others.smallestChange);
        before = Double.isNaN(others.before) ? before : others.before;
        densityOfOneCount = Math.max(densityOfOneCount, others.densityOfOneCount);
        counted += others.counted;
        for (int i = 0; others.counted > 0 && i < countMeans.length; i++) {
            countMeans[i] += (others.countMeans[i] - countMeans[i]) * others.counted / counted;
        }
    }

    void addCounts(RawCounts counts) {
        densityOfOneCount = Math.max(densityOfOneCount, counts.densityOfOneCount());
        double[] values = {
            counts.sample(),
            counts.dark(),
            counts.openGate(),
            counts.openGateDark(),
            Math.log(counts.gainRatio()),
            Math.log(counts.timeRatio())
        };
        counted++;
        for (int i = 0; i < values.length; i++) {
            countMeans[i] += (values[i] - countMeans[i]) / counted;
        }
    }

    /** The mean of each count; the geometric one of the ratios. */
    Optional<RawCounts> meanCounts() {
        return counted == 0
                ? Optional.empty()
                : Optional.of(new RawCounts(
                        countMeans[0],
                        countMeans[1],
                        countMeans[2],
                        countMeans[3],
                        Math.exp(countMeans[4]),
                        Math.exp(countMeans[5])));
    }

    OptionalDouble latest() {
        return Double.isNaN(before) ? OptionalDouble.empty() : OptionalDouble.of(before);
    }

    boolean isEmpty() {
        return variances.count() == 0;
    }

    Variances variances() {
        return variances;
    }

    CoMoments moments() {
        return moments;
    }

    OptionalDouble smallestChange() {
        return smallestChange < Double.POSITIVE_INFINITY ? OptionalDouble.of(smallestChange) : OptionalDouble.empty();
    }

    OptionalDouble densityOfOneCount() {
        return densityOfOneCount > 0 ? OptionalDouble.of(densityOfOneCount) : OptionalDouble.empty();
    }
}
