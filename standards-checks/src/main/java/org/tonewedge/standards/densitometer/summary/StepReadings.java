// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.RawCounts;

/**
 * The readings of a densitometer on one step of a tablet, such as mean 0.42 of 9 readings in 3 runs, repeatability
 * 0.003.
 *
 * <p>Repeatability is the standard deviation of readings within a run. Reproducibility is the standard deviation of
 * readings from different runs, s<sub>R</sub><sup>2</sup> = s<sub>r</sub><sup>2</sup> + s<sub>L</sub><sup>2</sup>,
 * where analysis of variance gives the variance s<sub>L</sub><sup>2</sup> of the runs' means.
 *
 * <p>Immutable and thread safe.
 *
 * @source one-way analysis of variance with unequal groups; the terms as in ISO 5725-2, from memory (ISO 14807, which
 *     names them for densitometers, could not be read)
 */
public final class StepReadings {

    private final StepTablet.Step step;
    private final long count;
    private final long runs;
    private final double mean;
    private final double least;
    private final double most;
    private final OptionalDouble repeatability;
    private final OptionalDouble betweenRuns;
    private final double varianceBetweenRuns;
    private final OptionalDouble smallestChange;
    private final OptionalDouble densityOfOneCount;
    private final RawCounts meanCounts;

    StepReadings(StepTablet.Step step, StepAccumulator sums, RawCounts meanCounts) {
        this.meanCounts = meanCounts;
        Variances variances = sums.variances();
        this.step = step;
        this.count = variances.count();
        this.runs = variances.runs();
        this.mean = variances.mean();
        this.least = variances.least();
        this.most = variances.most();
        this.repeatability = variances.repeatability();
        this.betweenRuns = variances.betweenRuns();
        this.varianceBetweenRuns = variances.varianceBetweenRuns();
        this.smallestChange = sums.smallestChange();
        this.densityOfOneCount = sums.densityOfOneCount();
    }

    /**
     * Returns the step of the tablet with its certified density.
     *
     * @return the step
     */
    public StepTablet.Step step() {
        return step;
    }

    /**
     * Returns the number of readings.
     *
     * @return the number, 1 or more
     */
    public long count() {
        return count;
    }

    /**
     * Returns the number of runs with readings of this step.
     *
     * @return the number, 1 or more
     */
    public long runs() {
        return runs;
    }

    /**
     * Returns the mean of all readings.
     *
     * @return the mean density
     * @units density
     */
    public double mean() {
        return mean;
    }

    /**
     * Returns the lowest reading.
     *
     * @return the lowest density
     * @units density
     */
    public double lowest() {
        return least;
    }

    /**
     * Returns the highest reading.
     *
     * @return the highest density
     * @units density
     */
    public double highest() {
        return most;
    }

    /**
     * Returns the departure of the mean from the certificate.
     *
     * @return mean − certified density
     * @units density
     */
    public double error() {
        return mean - step.density().value();
    }

    /**
     * Returns the standard deviation of the readings within a run.
     *
     * @return s<sub>r</sub>, or empty if no run has two readings
     * @units density
     */
    public OptionalDouble repeatability() {
        return repeatability;
    }

    /**
     * Returns the degrees of freedom of the repeatability.
     *
     * @return readings − runs
     */
    public long degreesOfFreedom() {
        return count - runs;
    }

    /**
     * Returns the standard deviation of the runs' true means.
     *
     * @return s<sub>L</sub>, 0 if the runs differ by no more than the readings within them; empty for a single run
     * @units density
     */
    public OptionalDouble betweenRuns() {
        return betweenRuns;
    }

    /**
     * Returns the variance component of the runs' true means, unbiased: chance may make it negative, so that its mean
     * over many steps is right.
     *
     * @return s<sub>L</sub><sup>2</sup>, 0 for a single run
     * @units density squared
     */
    public double varianceBetweenRuns() {
        return varianceBetweenRuns;
    }

    /**
     * Returns the standard deviation of readings of different runs.
     *
     * @return s<sub>R</sub>, or empty for a single run
     * @units density
     */
    public OptionalDouble reproducibility() {
        return betweenRuns.isEmpty()
                ? betweenRuns
                : OptionalDouble.of(Math.hypot(betweenRuns.getAsDouble(), repeatability.orElse(0)));
    }

    /**
     * Returns the smallest change from one reading of the step to the next.
     *
     * @return the smallest change other than zero, or empty if there was none
     * @units density
     */
    public OptionalDouble smallestChange() {
        return smallestChange;
    }

    /**
     * Returns the mean counts of the detector.
     *
     * @return the mean of each count and the geometric mean of the ratios; empty if the log has no counts
     */
    public Optional<RawCounts> meanCounts() {
        return Optional.ofNullable(meanCounts);
    }

    /**
     * Returns the change of density that one count of the detector makes here.
     *
     * @return the coarsest among the readings, or empty if the log has no counts
     * @units density
     */
    public OptionalDouble densityOfOneCount() {
        return densityOfOneCount;
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the step, the number of readings and their mean
     */
    @Override
    public String toString() {
        return "step " + step.number() + ": " + Figures.counted(count, "reading") + ", mean " + Figures.plain(mean);
    }
}
