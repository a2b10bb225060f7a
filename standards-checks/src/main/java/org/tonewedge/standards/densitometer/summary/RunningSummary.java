// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogListener;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.input.RawCounts;

/**
 * Summarises readings as they arrive and gives intermediate results; its size depends on the tablet, not on the log.
 *
 * <pre>{@code
 * RunningSummary running = RunningSummary.of(layout, tablet, ReadingOrder.FROM_CLEAR_END, 1);
 * LogTally tally = DensitometerLogReader.of(layout).read(System.in, running);
 * ReadingsSummary summary = running.summary(tally);
 * }</pre>
 *
 * <p>Mutable and not thread safe.
 */
public final class RunningSummary implements LogListener {

    private static final int MOST_STRANGERS = 20;
    /** A chance of 10<sup>−3</sup> is rare. */
    private static final double RARE = 3;

    private static final double MOST_EVENNESS = 0.5;
    private static final int DENSITY = 2;
    static final int MOST_RUNS = 8;
    /** A reading is stale if it is closer than this fraction of the difference between the two steps. */
    private static final double STALE = 0.1;

    private static final double FRESH = 0.5;

    private final StepTablet tablet;
    private final boolean inOrder;
    private final ReadingOrder order;
    private final int readingsPerStep;

    private final int steps;
    /** The first runs one by one, then the sum of all others. */
    private final List<PassSums> passes = new ArrayList<>();

    private final SortedSet<Integer> strangers = new TreeSet<>();
    private final ArithmeticAudit.Counter plausibleAudit = new ArithmeticAudit.Counter();
    private final ArithmeticAudit.Counter audit = new ArithmeticAudit.Counter();

    private final BitSet leftInRun = new BitSet();
    private long run;
    private String runLabel;
    private int stepBefore = -1;

    private long position;
    private int lastStep;
    private boolean openDarkAssumed;
    private long visits;
    private long staleVisits;
    private double densityBefore;
    private double staleApart;
    private final PassDrift.Counter passDrift;
    private final LikeReadings alike;
    private final AveragedReadings.Counter averaged = new AveragedReadings.Counter();
    private boolean timed = true;
    private boolean warmed = true;
    private double earliest = Double.POSITIVE_INFINITY;
    private double latest = Double.NEGATIVE_INFINITY;
    private double coldest = Double.POSITIVE_INFINITY;
    private double warmest = Double.NEGATIVE_INFINITY;

    private int mostDecimals;
    private long firstUnits = Long.MIN_VALUE;
    private long commonUnits;

    private RunningSummary(StepTablet tablet, boolean inOrder, ReadingOrder order, int readingsPerStep) {
        if (!tablet.isCalibrated()) {
            throw new IllegalArgumentException(
                    tablet.name()
                            + " has nominal densities, by which no densitometer can be judged: use a tablet with a certificate");
        }
        steps = tablet.steps().size();
        this.tablet = tablet;
        this.inOrder = inOrder;
        this.order = order;
        this.readingsPerStep = readingsPerStep;
        passDrift = new PassDrift.Counter(steps);
        alike = new LikeReadings(tablet, order);
    }

    static RunningSummary byStepNumber(StepTablet tablet) {
        return new RunningSummary(tablet, false, ReadingOrder.FROM_CLEAR_END, 1);
    }

    static RunningSummary inOrder(StepTablet tablet, ReadingOrder order, int readingsPerStep) {
        Checks.within("readings per step", readingsPerStep, 1, 1_000_000, "");
        return new RunningSummary(tablet, true, order, readingsPerStep);
    }

    /**
     * Returns an empty summary.
     *
     * @param layout where each value of the log stands; it decides whether steps are numbered or follow their order
     * @param tablet the tablet that is read
     * @param order in a log without step numbers, the end of the tablet at which reading begins
     * @param readingsPerStep in a log without step numbers, how often each step is read before the next one
     * @return the summary
     * @throws IllegalArgumentException if the tablet is not calibrated or the number of readings is below 1
     */
    public static RunningSummary of(LogLayout layout, StepTablet tablet, ReadingOrder order, int readingsPerStep) {
        Objects.requireNonNull(order, "order");
        return layout.namesSteps() ? byStepNumber(tablet) : inOrder(tablet, order, readingsPerStep);
    }

    /**
     * Adds a reading.
     *
     * @param reading the reading
     * @throws IllegalArgumentException if the reading does not name its step and the layout has step numbers
     */
    @Override
    public void accept(LogReading reading) {
        int step = inOrder ? nextInOrder() : reading.step().orElseThrow(RunningSummary::withoutStep) - 1;
        if (step >= steps) {
            if (strangers.size() < MOST_STRANGERS) {
                strangers.add(step + 1);
            }
            return;
        }
        lastStep = step + 1;
        double stated = reading.printed().isPresent()
                ? reading.printed().getAsDouble()
                : reading.counts()
                        .filter(RawCounts::isDeterminable)
                        .map(RawCounts::density)
                        .orElse(Double.NaN);
        if (Double.isNaN(stated)) {
            alike.addBeyondRange(step);
        } else {
            alike.add(step, stated, reading.isPlausible());
        }
        followVisit(step, stated);
        followRun(reading, step);
        PassSums pass = pass();
        if (!Double.isNaN(stated)) {
            pass.addStated(step, stated);
        }
        followOrder(reading, step, stated);
        double seconds = timed(reading.seconds());
        double celsius = warmed(reading.celsius());
        int decimals = reading.decimals().orElse(0);
        reading.printed().ifPresent(density -> {
            pass.addPrinted(step, density, reading.isPlausible(), run, seconds, celsius);
            followResolution(density, decimals);
        });
        reading.counts().ifPresent(counts -> {
            if (!counts.isDeterminable()) {
                pass.addBelowDark(step);
                return;
            }
            pass.recomputed(step).add(counts.density(), run, seconds, celsius);
            pass.recomputed(step).addCounts(counts);
            openDarkAssumed |= reading.isOpenDarkAssumed();
            double slack = reading.isOpenDarkAssumed()
                    ? Math.log10(counts.openGate() / (counts.openGate() - counts.openGateDark()))
                    : 0;
            reading.printed().ifPresent(density -> {
                audit.add(density, decimals, counts, slack);
                if (reading.isPlausible()) {
                    plausibleAudit.add(density, decimals, counts, slack);
                }
            });
        });
    }

    @Override
    public void acceptImplausible(LogReading reading) {
        accept(reading);
    }

    private static IllegalArgumentException withoutStep() {
        return new IllegalArgumentException("a reading must name its step; use withStep");
    }

    @Override
    public void refuse(long line, LineKind kind, int step) {
        Objects.requireNonNull(kind, "kind");
        if (kind == LineKind.OVERRANGE) {
            int place = inOrder ? nextInOrder() : step - 1;
            if (place >= 0 && place < steps) {
                pass().addOverrange(place);
                alike.addBeyondRange(place);
            }
        } else if (inOrder && kind.mayHideReading()) {
            throw new DensitometerInputException(
                    Fault.UNREADABLE,
                    "log",
                    line,
                    "this line is damaged (" + kind.description() + "), so the steps after it are unknown",
                    "take the readings again, or let the firmware print the step with each reading");
        }
    }

    private int nextInOrder() {
        int place = (int) (position / readingsPerStep % steps);
        position++;
        return order == ReadingOrder.FROM_DENSE_END ? steps - 1 - place : place;
    }

    /** A new run begins with a new label, or when a step is read again after another step. */
    private void followRun(LogReading reading, int step) {
        String label = reading.run().orElse(null);
        boolean relabelled = stepBefore >= 0 && label != null && !label.equals(runLabel);
        boolean again = label == null && step != stepBefore && leftInRun.get(step);
        boolean wrapped = inOrder && position > 1 && (position - 1) % ((long) readingsPerStep * steps) == 0;
        if (relabelled || again || wrapped) {
            run++;
            leftInRun.clear();
        }
        leftInRun.set(step);
        runLabel = label;
        stepBefore = step;
    }

    /** Counts how often the first reading of a step is still that of the step before. */
    private void followVisit(int step, double density) {
        if (stepBefore >= 0 && step != stepBefore) {
            visits++;
            double apart = Math.abs(tablet.steps().get(step).density().value()
                    - tablet.steps().get(stepBefore).density().value());
            staleApart = Math.abs(density - densityBefore) < STALE * apart ? apart : 0;
        } else if (staleApart > 0) {
            // a fresh reading of the same step shows that the one before was stale
            staleVisits += Math.abs(density - densityBefore) > FRESH * staleApart ? 1 : 0;
            staleApart = 0;
        }
        densityBefore = density;
    }

    private PassSums pass() {
        int place = (int) Math.min(run, MOST_RUNS);
        while (passes.size() <= place) {
            passes.add(new PassSums(steps));
        }
        return passes.get(place);
    }

    private void followOrder(LogReading reading, int step, double density) {
        double certified = tablet.steps().get(step).density().value();
        if (run == 0) {
            passDrift.add(step, density - certified);
        }
        Optional<RawCounts> counts = reading.counts().filter(RawCounts::isDeterminable);
        if (reading.printed().isPresent() && (reading.counts().isEmpty() || counts.isPresent())) {
            averaged.add(step, density, counts.map(RawCounts::density).orElse(certified), counts.isPresent());
        }
    }

    private double timed(OptionalDouble seconds) {
        timed &= seconds.isPresent();
        earliest = Math.min(earliest, seconds.orElse(earliest));
        latest = Math.max(latest, seconds.orElse(latest));
        return seconds.orElse(0);
    }

    private double warmed(OptionalDouble celsius) {
        warmed &= celsius.isPresent();
        coldest = Math.min(coldest, celsius.orElse(coldest));
        warmest = Math.max(warmest, celsius.orElse(warmest));
        return celsius.orElse(0);
    }

    /** Keeps the greatest unit of which all differences between printed densities are multiples. */
    private void followResolution(double density, int decimals) {
        if (decimals > mostDecimals) {
            long factor = Math.round(Math.pow(10, decimals - mostDecimals));
            commonUnits *= factor;
            firstUnits = firstUnits == Long.MIN_VALUE ? firstUnits : firstUnits * factor;
            mostDecimals = decimals;
        }
        long units = Math.round(density * Math.pow(10, mostDecimals));
        if (firstUnits == Long.MIN_VALUE) {
            firstUnits = units;
        }
        commonUnits = greatestCommonDivisor(commonUnits, Math.abs(units - firstUnits));
    }

    /** The largest divisor of the common unit that is not explained by chance. */
    private long credibleUnit() {
        return LongStream.rangeClosed(1, (long) Math.sqrt((double) commonUnits))
                .filter(divisor -> commonUnits % divisor == 0)
                .flatMap(divisor -> LongStream.of(divisor, commonUnits / divisor))
                .filter(this::isCredible)
                .max()
                .orElse(1);
    }

    /** Whether chance would rarely make so many steps multiples of a unit, and the tablet's own densities are not. */
    private boolean isCredible(long units) {
        List<StepTablet.Step> read = tablet.steps().stream()
                .filter(step -> printed(step.number()).variances().count() > 0)
                .toList();
        return (read.size() - 1) * Math.log10((double) units) >= RARE
                && evenness(read, (double) units * Math.pow(10, -mostDecimals)) < MOST_EVENNESS;
    }

    /** How evenly the certified densities are spaced by multiples of a unit, from about 0 by chance to 1 for exactly. */
    private static double evenness(List<StepTablet.Step> steps, double unit) {
        double cosines = 0;
        double sines = 0;
        for (StepTablet.Step step : steps) {
            double turn = 2 * Math.PI * step.density().value() / unit;
            cosines += Math.cos(turn);
            sines += Math.sin(turn);
        }
        return Math.hypot(cosines, sines) / steps.size();
    }

    private static long greatestCommonDivisor(long a, long b) {
        return b == 0 ? a : greatestCommonDivisor(b, a % b);
    }

    /**
     * Returns the step of the latest reading.
     *
     * @return its number from 1, or empty before the first reading
     */
    public OptionalInt lastStep() {
        return lastStep == 0 ? OptionalInt.empty() : OptionalInt.of(lastStep);
    }

    /**
     * Returns the number of readings of a step so far.
     *
     * @param step the number of the step, from 1
     * @return the number of readings with a density
     * @throws IndexOutOfBoundsException if the tablet has no such step
     */
    public long count(int step) {
        return stated(step).variances().count();
    }

    /**
     * Tells whether every step of the tablet has a reading, so that reading may stop.
     *
     * @return true once all have at least one
     */
    public boolean isComplete() {
        return IntStream.rangeClosed(1, steps).allMatch(step -> count(step) > 0);
    }

    /**
     * Returns the mean of a step so far.
     *
     * @param step the number of the step, from 1
     * @return the mean of its printed densities, or of those computed from counts; empty before its first reading
     * @units density
     * @throws IndexOutOfBoundsException if the tablet has no such step
     */
    public OptionalDouble mean(int step) {
        return stated(step).moments().count() == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(stated(step).moments().mean(DENSITY));
    }

    /**
     * Returns the latest density of a step.
     *
     * @param step the number of the step, from 1
     * @return its latest density; empty before its first reading
     * @units density
     * @throws IndexOutOfBoundsException if the tablet has no such step
     */
    public OptionalDouble latest(int step) {
        return stated(step).latest();
    }

    private StepAccumulator printed(int step) {
        return sum(step, PassSums::printed);
    }

    private StepAccumulator stated(int step) {
        StepAccumulator printed = printed(step);
        return printed.isEmpty() ? sum(step, PassSums::recomputed) : printed;
    }

    private StepAccumulator sum(int step, BiFunction<PassSums, Integer, StepAccumulator> part) {
        Objects.checkIndex(step - 1, steps);
        StepAccumulator sum = new StepAccumulator();
        passes.forEach(pass -> sum.addRuns(part.apply(pass, step - 1)));
        return sum;
    }

    /**
     * Returns the summary of what was read so far. The last pass of a log without step numbers may be incomplete.
     *
     * @param tally what the lines were
     * @return the figures of each step
     * @throws DensitometerInputException if no reading belongs to a step of the tablet
     */
    public ReadingsSummary summarySoFar(LogTally tally) {
        Objects.requireNonNull(tally, "tally");
        return make(tally);
    }

    /**
     * Returns the summary of a complete log.
     *
     * @param tally what the lines were
     * @return the figures of each step
     * @throws DensitometerInputException if no reading belongs to a step of the tablet, or a log without step numbers
     *     does not consist of complete passes, or shows that it was read from the other end, or each step more or less
     *     often, than stated
     */
    public ReadingsSummary summary(LogTally tally) {
        Objects.requireNonNull(tally, "tally");
        if (inOrder && position % ((long) readingsPerStep * steps) != 0) {
            throw new DensitometerInputException(
                    Fault.MISSING,
                    "log",
                    0,
                    position + " readings are not a complete number of passes over " + steps + " steps read "
                            + times(readingsPerStep) + " each",
                    "take complete passes, or let the firmware print the step with each reading");
        }
        int inTurn = inOrder ? alike.inTurn(position) : 0;
        if (inTurn > 0 && inTurn != readingsPerStep) {
            throw new DensitometerInputException(
                    Fault.CONTRADICTION,
                    "log",
                    0,
                    "the " + position + " readings look as if each step was read " + times(inTurn)
                            + " before the next one, but " + times(readingsPerStep) + " was stated or taken",
                    "state readings per step: " + inTurn + "; or let the firmware print the step with each reading");
        }
        if (inOrder && alike.isFromOtherEnd()) {
            String stated = order == ReadingOrder.FROM_DENSE_END ? "dense" : "clear";
            String shown = order == ReadingOrder.FROM_DENSE_END ? "clear" : "dense";
            throw new DensitometerInputException(
                    Fault.CONTRADICTION,
                    "log",
                    0,
                    "the " + position + " readings look as if the tablet was read from its " + shown + " end, but its "
                            + stated + " end was stated or taken",
                    "state the order from-" + shown
                            + "-end; or let the firmware print the step with each reading, counted from the clear end");
        }
        return make(tally);
    }

    private static String times(int count) {
        return count == 1 ? "once" : count + " times";
    }

    private ReadingsSummary make(LogTally tally) {
        OptionalDouble resolution = commonUnits == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(credibleUnit() * Math.pow(10, -mostDecimals));
        List<PassSums> read =
                passes.stream().map(pass -> PassSums.of(List.of(pass), steps)).toList();
        return new ReadingsSummary(
                tablet,
                tally,
                read,
                List.copyOf(strangers),
                resolution,
                plausibleAudit.audit().orElse(null),
                audit.audit().orElse(null),
                timed ? latest - earliest : 0,
                warmed ? warmest - coldest : 0,
                openDarkAssumed,
                visits,
                staleVisits,
                passDrift.drift(resolution.orElse(0)),
                averaged.found());
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the tablet and the latest step
     */
    @Override
    public String toString() {
        return tablet.name() + ", so far up to step " + lastStep;
    }
}
