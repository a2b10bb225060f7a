// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.OptionalDouble;

/**
 * One-way analysis of variance in one pass: readings arrive run after run, and only sums are kept. Values are shifted
 * by the first one, so that leading digits shared by all readings cost no precision.
 */
final class Variances {

    private double shift;
    private long count;
    private double least = Double.POSITIVE_INFINITY;
    private double most = Double.NEGATIVE_INFINITY;

    private long runs;
    private long runCount;
    private double runMean;
    private double runSquares;

    private long closedCount;
    private double closedMean;
    private double within;
    private double between;
    private double squaredCounts;

    /** The same readings, the last run ended. */
    Variances closed() {
        Variances copy = new Variances();
        copy.shift = shift;
        copy.count = count;
        copy.least = least;
        copy.most = most;
        copy.runs = runs;
        copy.runCount = runCount;
        copy.runMean = runMean;
        copy.runSquares = runSquares;
        copy.closedCount = closedCount;
        copy.closedMean = closedMean;
        copy.within = within;
        copy.between = between;
        copy.squaredCounts = squaredCounts;
        copy.closeRun();
        return copy;
    }

    /** Adds other runs; all runs have ended. */
    void addRuns(Variances others) {
        if (others.count == 0) {
            return;
        }
        if (count == 0) {
            shift = others.shift;
        }
        runs += others.runs;
        within += others.within;
        squaredCounts += others.squaredCounts;
        double change = others.closedMean + (others.shift - shift) - closedMean;
        count += others.count;
        between += others.between + change * change * closedCount / count * others.count;
        closedMean += change * others.count / count;
        closedCount = count;
        least = Math.min(least, others.least);
        most = Math.max(most, others.most);
    }

    void add(double value) {
        if (count == 0) {
            shift = value;
        }
        count++;
        runCount++;
        double change = value - shift - runMean;
        runMean += change / runCount;
        runSquares += change * (value - shift - runMean);
        least = Math.min(least, value);
        most = Math.max(most, value);
    }

    /** Ends the run, if it has any readings. */
    void closeRun() {
        if (runCount == 0) {
            return;
        }
        runs++;
        within += runSquares;
        squaredCounts += (double) runCount * runCount;
        double change = runMean - closedMean;
        long together = closedCount + runCount;
        between += change * change * closedCount / together * runCount;
        closedMean += change * runCount / together;
        closedCount = together;
        runCount = 0;
        runMean = 0;
        runSquares = 0;
    }

    long count() {
        return count;
    }

    long runs() {
        return runs;
    }

    double mean() {
        return shift + closedMean;
    }

    double least() {
        return least;
    }

    double most() {
        return most;
    }

    double squaresWithin() {
        return within;
    }

    double squaresBetween() {
        return between;
    }

    long degreesWithin() {
        return count - runs;
    }

    long degreesBetween() {
        return runs - 1;
    }

    OptionalDouble repeatability() {
        return degreesWithin() > 0 ? OptionalDouble.of(Math.sqrt(within / degreesWithin())) : OptionalDouble.empty();
    }

    /**
     * The standard deviation of the runs' true means; 0 if the runs differ by no more than the readings within them.
     */
    OptionalDouble betweenRuns() {
        return runs < 2 ? OptionalDouble.empty() : OptionalDouble.of(Math.sqrt(Math.max(0, varianceBetweenRuns())));
    }

    /** Its square before negative values are set to 0; 0 for a single run. */
    double varianceBetweenRuns() {
        if (runs < 2) {
            return 0;
        }
        double meanCount = (count - squaredCounts / count) / (runs - 1);
        double withinSquare = degreesWithin() > 0 ? within / degreesWithin() : 0;
        return (between / (runs - 1) - withinSquare) / meanCount;
    }
}
