package org.tonewedge.standards.densitometer.summary;

import java.util.OptionalDouble;

/** Sums over the readings of one step. */
final class StepAccumulator {

    /** Differences below this are rounding, not steps of an instrument. */
    private static final double ROUNDING = 1e-12;

    private final Variances variances = new Variances();
    private final CoMoments moments = new CoMoments();
    private long run = -1;
    private double before = Double.NaN;
    private double smallestChange = Double.POSITIVE_INFINITY;
    private double densityOfOneCount;

    void add(double density, long currentRun, double seconds, double celsius) {
        if (currentRun != run) {
            variances.closeRun();
            run = currentRun;
        }
        variances.add(density);
        moments.add(seconds, celsius, density);
        double change = Math.abs(density - before);
        if (change > ROUNDING) {
            smallestChange = Math.min(smallestChange, change);
        }
        before = density;
    }

    void addCountStep(double density) {
        densityOfOneCount = Math.max(densityOfOneCount, density);
    }

    OptionalDouble latest() {
        return Double.isNaN(before) ? OptionalDouble.empty() : OptionalDouble.of(before);
    }

    void close() {
        variances.closeRun();
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
