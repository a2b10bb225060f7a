// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntUnaryOperator;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.LogTally;

/**
 * The readings of a tablet, summarised step by step: as the firmware printed them and as recomputed from the counts, as
 * far as the log has them.
 *
 * <p>A run is one pass over the tablet. A new run begins when the label of the run changes or, without labels, when a
 * step is read again after another step.
 *
 * <p>Immutable and thread safe.
 */
public final class ReadingsSummary {

    private final StepTablet tablet;
    private final LogTally tally;
    private final List<PassSums> passes;
    private final PassSums all;
    private final List<StepReadings> printed;
    private final List<StepReadings> recomputed;
    private final List<Integer> strangers;
    private final OptionalDouble resolution;
    private final ArithmeticAudit auditOfPlausible;
    private final ArithmeticAudit auditOfAll;
    private final double seconds;
    private final double kelvins;
    private final DriftFigures drift;
    private final boolean openDarkAssumed;
    private final long visits;
    private final long staleVisits;
    private final PassDrift passDrift;
    private final AveragedReadings averaged;

    ReadingsSummary(
            StepTablet tablet,
            LogTally tally,
            List<PassSums> passes,
            List<Integer> strangers,
            OptionalDouble resolution,
            ArithmeticAudit auditOfPlausible,
            ArithmeticAudit auditOfAll,
            double seconds,
            double kelvins,
            boolean openDarkAssumed,
            long visits,
            long staleVisits,
            PassDrift passDrift,
            AveragedReadings averaged) {
        this.tablet = tablet;
        this.tally = tally;
        this.passes = passes;
        this.strangers = strangers;
        this.resolution = resolution;
        this.auditOfPlausible = auditOfPlausible;
        this.auditOfAll = auditOfAll;
        this.seconds = seconds;
        this.kelvins = kelvins;
        this.openDarkAssumed = openDarkAssumed;
        this.visits = visits;
        this.staleVisits = staleVisits;
        this.passDrift = passDrift;
        this.averaged = averaged;
        all = PassSums.of(passes, tablet.steps().size());
        printed = readings(all.judged());
        recomputed = readings(all.recomputed());
        if (printed.isEmpty() && recomputed.isEmpty()) {
            throw new DensitometerInputException(
                    Fault.UNKNOWN_NAME,
                    "log",
                    0,
                    "no reading belongs to a step of " + tablet,
                    "check that this is the tablet that was read, and that its steps are numbered from 1");
        }
        drift = drift(printed.isEmpty() ? all.recomputed() : all.judged());
    }

    private List<StepReadings> readings(StepAccumulator[] sums) {
        List<StepReadings> readings = new ArrayList<>();
        for (int i = 0; i < sums.length; i++) {
            if (!sums[i].isEmpty()) {
                readings.add(new StepReadings(
                        tablet.steps().get(i),
                        sums[i],
                        all.recomputed(i).meanCounts().orElse(null)));
            }
        }
        return List.copyOf(readings);
    }

    private DriftFigures drift(StepAccumulator[] sums) {
        double[][] pooled = new double[3][3];
        long within = 0;
        for (StepAccumulator sum : sums) {
            CoMoments moments = sum.moments();
            within += Math.max(0, moments.count() - 1);
            for (int i = 0; i < 3; i++) {
                for (int j = 0; j < 3; j++) {
                    pooled[i][j] += moments.product(i, j);
                }
            }
        }
        return DriftFigures.of(pooled, within, seconds, kelvins);
    }

    /**
     * Summarises readings that were already taken.
     *
     * @param tablet the tablet that was read, with the densities of its certificate
     * @param readings the readings in the order in which they were taken, each with its step
     * @return the figures of each step
     * @throws IllegalArgumentException if the tablet is not calibrated or a reading does not name its step
     * @throws DensitometerInputException if no reading belongs to a step of the tablet
     */
    public static ReadingsSummary of(StepTablet tablet, Iterable<LogReading> readings) {
        RunningSummary running = RunningSummary.byStepNumber(tablet);
        long count = 0;
        for (LogReading reading : readings) {
            running.accept(reading);
            count++;
        }
        return running.summary(LogTally.ofReadings(count));
    }

    /**
     * Reads a log of readings on the steps of a tablet and summarises it, in constant memory:
     *
     * <pre>{@code
     * ReadingsSummary summary = ReadingsSummary.read(System.in, LogLayout.parse("keys step=S density=D"), tablet);
     * }</pre>
     *
     * <p>A log without step numbers must consist of one reading of each step in turn, from step 1 upwards.
     *
     * @param log the bytes of the log; it is read to its end and not closed
     * @param layout where each value stands
     * @param tablet the tablet that was read
     * @return the figures of each step
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the log has no reading of this layout, or its steps cannot be determined
     */
    public static ReadingsSummary read(InputStream log, LogLayout layout, StepTablet tablet) throws IOException {
        return read(log, layout, tablet, ReadingOrder.FROM_CLEAR_END, 1);
    }

    /**
     * Reads a log of readings on the steps of a tablet and summarises it, in constant memory.
     *
     * @param log the bytes of the log; it is read to its end and not closed
     * @param layout where each value stands
     * @param tablet the tablet that was read
     * @param order in a log without step numbers, the end of the tablet at which reading began
     * @param readingsPerStep in a log without step numbers, how often each step was read before the next one
     * @return the figures of each step
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the log has no reading of this layout, or its steps cannot be determined
     * @throws IllegalArgumentException if the number of readings is below 1
     */
    public static ReadingsSummary read(
            InputStream log, LogLayout layout, StepTablet tablet, ReadingOrder order, int readingsPerStep)
            throws IOException {
        Objects.requireNonNull(log, "log");
        Objects.requireNonNull(order, "order");
        RunningSummary running = RunningSummary.of(layout, tablet, order, readingsPerStep);
        return running.summary(DensitometerLogReader.of(layout).read(log, running));
    }

    /**
     * Returns the tablet that was read.
     *
     * @return the tablet
     */
    public StepTablet tablet() {
        return tablet;
    }

    /**
     * Returns the counts of the log's lines by kind.
     *
     * @return the counts of lines
     */
    public LogTally tally() {
        return tally;
    }

    /**
     * Returns the densities as printed. A printed density outside −0.2…10 is ignored as damaged, except at
     * {@linkplain #implausibleSteps() steps} where most are.
     *
     * @return the steps with at least one printed density, from the clear end; empty if the log has only counts
     */
    public List<StepReadings> printed() {
        return printed;
    }

    /**
     * Returns the densities recomputed from the counts.
     *
     * @return the steps with at least one reading above the dark counts; empty if the log has no counts
     */
    public List<StepReadings> recomputed() {
        return recomputed;
    }

    /**
     * Returns the densities by which the instrument is judged.
     *
     * @return those printed, or those computed from the counts if none are printed
     */
    public List<StepReadings> densities() {
        return printed.isEmpty() ? recomputed : printed;
    }

    /**
     * Returns how often the instrument marked a step as beyond its range.
     *
     * @param step the number of the step, from 1
     * @return the number of overrange markers
     * @throws IndexOutOfBoundsException if the tablet has no such step
     */
    public long overrange(int step) {
        return all.overrange(step - 1);
    }

    /**
     * Returns how often the counts of a step were not above the dark counts.
     *
     * @param step the number of the step, from 1
     * @return the number of readings without a density of their own
     * @throws IndexOutOfBoundsException if the tablet has no such step
     */
    public long belowDark(int step) {
        return all.belowDark(step - 1);
    }

    /**
     * Returns the numbers of steps in the log that the tablet does not have; their readings are ignored.
     *
     * @return the numbers, at most twenty of them
     */
    public List<Integer> strangeSteps() {
        return strangers;
    }

    /**
     * Returns the smallest step of printed density: the largest unit of which all differences between printed densities
     * are multiples. A unit coarser than the last decimal counts only if chance would give it to so many steps less
     * than once in 1000, and if the certified densities are not themselves spaced by it; the limits are the project's
     * own.
     *
     * @return the step, such as 0.01 for two decimals; empty if no density is printed or all are the same
     * @units density
     */
    public OptionalDouble resolution() {
        return resolution;
    }

    /**
     * Returns the steps most of whose printed densities are outside −0.2…10, as a reversed sign would make them. They
     * are used as printed, so that the fault can be named.
     *
     * @return their numbers, from the clear end; empty for a sound instrument
     */
    public List<Integer> implausibleSteps() {
        return all.implausibleSteps();
    }

    /**
     * Tells whether the log lacks the dark counts of an open gate that was counted at another gain or time than the
     * sample. Printed densities are then compared with the counts only as far as those dark counts do not matter.
     *
     * @return true if some densities computed from counts rest on an assumption
     */
    public boolean isOpenDarkAssumed() {
        return openDarkAssumed;
    }

    /**
     * Returns how many runs are kept separately for {@link #runMean}.
     *
     * @return the number of runs, 8 at most
     */
    public int runsKept() {
        return Math.min(passes.size(), RunningSummary.MOST_RUNS);
    }

    /**
     * Returns the mean of a step in one run.
     *
     * @param run the run, from 0
     * @param step the number of the step, from 1
     * @return the mean density as stated; empty if the step was not read in the run
     * @throws IndexOutOfBoundsException if there is no such run or step
     * @units density
     */
    public OptionalDouble runMean(int run, int step) {
        Objects.checkIndex(run, runsKept());
        double mean = passes.get(run).statedMean(step - 1);
        return Double.isNaN(mean) ? OptionalDouble.empty() : OptionalDouble.of(mean);
    }

    /**
     * Returns the same readings with those of a run moved to other steps: as they must be where a step was skipped or
     * read twice, so that all numbers after it are wrong. Where step 7 was skipped in the first run:
     *
     * <pre>{@code
     * summary.withReadingsMoved(0, step -> step < 7 ? step : step + 1);
     * }</pre>
     *
     * <p>Readings that belong beyond the tablet are left out, as are those of a step that has readings under a lower
     * number. What depends on the order of the readings alone, such as {@link #passDrift()}, stays as it is.
     *
     * @param run the run, from 0
     * @param ownStep the number of the step to which the readings under a number belong, both from 1
     * @return the summary of the moved readings
     * @throws IndexOutOfBoundsException if there is no such run
     * @throws DensitometerInputException if no reading is left
     */
    public ReadingsSummary withReadingsMoved(int run, IntUnaryOperator ownStep) {
        Objects.requireNonNull(ownStep, "ownStep");
        Objects.checkIndex(run, runsKept());
        List<PassSums> moved = new ArrayList<>(passes);
        moved.set(run, passes.get(run).moved(ownStep));
        return new ReadingsSummary(
                tablet,
                tally,
                List.copyOf(moved),
                strangers,
                resolution,
                auditOfPlausible,
                auditOfAll,
                seconds,
                kelvins,
                openDarkAssumed,
                visits,
                staleVisits,
                passDrift,
                averaged);
    }

    /**
     * Returns how often the reading changed from one step to another.
     *
     * @return the number of changes of step
     */
    public long visits() {
        return visits;
    }

    /**
     * Returns how often the first reading after a change of step was still that of the step before. It counts as such
     * if it is closer to the previous reading than a tenth of the certified difference, but the next reading of the
     * step is not.
     *
     * @return the number of such changes of step
     */
    public long staleVisits() {
        return staleVisits;
    }

    /**
     * Returns how readings change while a step stays in the gate.
     *
     * @return the drift by the order of the readings of the first pass; empty if fewer than three steps were read twice in it
     */
    public Optional<PassDrift> passDrift() {
        return Optional.ofNullable(passDrift);
    }

    /**
     * Returns whether the printed densities are means over earlier readings.
     *
     * @return the mean that explains them, or empty if none does
     */
    public Optional<AveragedReadings> averaged() {
        return Optional.ofNullable(averaged);
    }

    /**
     * Returns the comparison of printed densities with their counts.
     *
     * @return the audit, or empty if the log does not have both
     */
    public Optional<ArithmeticAudit> audit() {
        return Optional.ofNullable(all.implausibleSteps().isEmpty() ? auditOfPlausible : auditOfAll);
    }

    /**
     * Returns the drift with time and temperature.
     *
     * @return the drift of the {@linkplain #densities() densities}
     */
    public DriftFigures drift() {
        return drift;
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the tablet and what was read
     */
    @Override
    public String toString() {
        return tablet.name() + ": " + tally;
    }
}
