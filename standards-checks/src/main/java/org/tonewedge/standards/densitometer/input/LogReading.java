// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;

/**
 * One reading of a densitometer as its log states it, such as step 3, D 0.42, at 12.5 s and 21.5 °C.
 *
 * <p>It contains a density, or raw counts, or both; everything that the log does not state is empty.
 *
 * <p>Immutable and thread safe.
 */
public final class LogReading {

    static final int MOST_DECIMALS = 9;
    static final double LOWEST = -0.2;
    static final double HIGHEST = 10;
    static final double COLDEST = -40;
    static final double HOTTEST = 125;

    /** The largest number taken as a density computed by faulty arithmetic: the opacity at density 7. */
    private static final double FURTHEST_PRINTED = 1e7;

    private final double printed;
    private final RawCounts counts;
    private final int decimals;
    private final int step;
    private final String run;
    private final double seconds;
    private final double celsius;
    private final boolean openDarkAssumed;

    private LogReading(
            double printed,
            RawCounts counts,
            int decimals,
            int step,
            String run,
            double seconds,
            double celsius,
            boolean openDarkAssumed) {
        this.printed = printed;
        this.counts = counts;
        this.decimals = decimals;
        this.step = step;
        this.run = run;
        this.seconds = seconds;
        this.celsius = celsius;
        this.openDarkAssumed = openDarkAssumed;
    }

    /**
     * Returns a reading of a density that was printed.
     *
     * @param density the density
     * @param decimals the number of decimals with which it was printed, from 0 to 9
     * @return the reading, without a step
     * @throws IllegalArgumentException if the number of decimals is out of range
     */
    public static LogReading of(Density density, int decimals) {
        Checks.within("decimals of a density", decimals, 0, MOST_DECIMALS, "");
        return ofPrinted(density.value(), decimals);
    }

    /** A reading of a number that was printed as a density but may be an impossible one. */
    static LogReading ofPrinted(double printed, int decimals) {
        return new LogReading(printed, null, decimals, 0, null, Double.NaN, Double.NaN, false);
    }

    /** Whether a number may be a density computed by faulty arithmetic. */
    static boolean isPrintable(double number) {
        return Math.abs(number) <= FURTHEST_PRINTED;
    }

    /**
     * Returns a reading of raw counts without a printed density.
     *
     * @param counts the counts
     * @return the reading, without a step
     */
    public static LogReading of(RawCounts counts) {
        Objects.requireNonNull(counts, "counts");
        return new LogReading(Double.NaN, counts, 0, 0, null, Double.NaN, Double.NaN, false);
    }

    /**
     * Returns this reading with the raw counts from which its density was computed.
     *
     * @param stated the counts
     * @return a changed copy
     */
    public LogReading withCounts(RawCounts stated) {
        Objects.requireNonNull(stated, "stated");
        return new LogReading(printed, stated, decimals, step, run, seconds, celsius, openDarkAssumed);
    }

    /** This reading, with the sample's dark counts assumed for the open gate, although gain or time differ. */
    LogReading withOpenDarkAssumed() {
        return new LogReading(printed, counts, decimals, step, run, seconds, celsius, true);
    }

    /**
     * Returns this reading on a step of the tablet.
     *
     * @param number the number of the step, 1 or more
     * @return a changed copy
     * @throws IllegalArgumentException if the number is below 1
     */
    public LogReading withStep(int number) {
        Checks.within("step number", number, 1, Integer.MAX_VALUE, "");
        return new LogReading(printed, counts, decimals, number, run, seconds, celsius, openDarkAssumed);
    }

    /**
     * Returns this reading in a run.
     *
     * @param label the label of the run
     * @return a changed copy
     * @throws IllegalArgumentException if the label is blank
     */
    public LogReading withRun(String label) {
        return new LogReading(
                printed,
                counts,
                decimals,
                step,
                Checks.notBlank("label of a run", label),
                seconds,
                celsius,
                openDarkAssumed);
    }

    /**
     * Returns this reading at a time.
     *
     * @param since seconds since any zero that the whole log shares
     * @return a changed copy
     * @throws IllegalArgumentException if the time is not finite
     */
    public LogReading withSeconds(double since) {
        return new LogReading(
                printed,
                counts,
                decimals,
                step,
                run,
                Checks.finite("time in seconds", since),
                celsius,
                openDarkAssumed);
    }

    /**
     * Returns this reading at a temperature of the instrument.
     *
     * @param degrees degrees Celsius, from −40 to 125
     * @return a changed copy
     * @throws IllegalArgumentException if the temperature is out of range
     */
    public LogReading withCelsius(double degrees) {
        return new LogReading(
                printed,
                counts,
                decimals,
                step,
                run,
                seconds,
                Checks.within("temperature in degrees Celsius", degrees, COLDEST, HOTTEST, ""),
                openDarkAssumed);
    }

    /**
     * Returns the density as printed.
     *
     * @return the density, or empty if only counts were logged
     */
    public Optional<Density> density() {
        return isPrinted() && isPlausible() ? Optional.of(Density.of(printed)) : Optional.empty();
    }

    private boolean isPrinted() {
        return !Double.isNaN(printed);
    }

    /**
     * Returns the number printed as the density, possible or not.
     *
     * @return the number, or empty if only counts were logged
     */
    public OptionalDouble printed() {
        return optional(printed);
    }

    /**
     * Tells whether the printed number, if any, is a possible density.
     *
     * @return true unless a number outside −0.2…10 was printed
     */
    public boolean isPlausible() {
        return !isPrinted() || (printed >= LOWEST && printed <= HIGHEST);
    }

    /**
     * Returns the raw counts.
     *
     * @return the counts, or empty if only a density was logged
     */
    public Optional<RawCounts> counts() {
        return Optional.ofNullable(counts);
    }

    /**
     * Tells whether the log lacks the dark counts of an open gate that was counted at another gain or time than the
     * sample. They lie somewhere between 0 and the dark counts of the sample, which {@link #counts()} assumes for them.
     *
     * @return true if the dark counts of the open gate are an assumption that matters
     */
    public boolean isOpenDarkAssumed() {
        return openDarkAssumed;
    }

    /**
     * Returns the number of decimals of the printed density.
     *
     * @return the number of decimals, or empty if no density was printed
     */
    public OptionalInt decimals() {
        return isPrinted() ? OptionalInt.of(decimals) : OptionalInt.empty();
    }

    /**
     * Returns the step of the tablet.
     *
     * @return the number of the step, if stated
     */
    public OptionalInt step() {
        return step > 0 ? OptionalInt.of(step) : OptionalInt.empty();
    }

    /**
     * Returns the run.
     *
     * @return the label of the run, if stated
     */
    public Optional<String> run() {
        return Optional.ofNullable(run);
    }

    /**
     * Returns the time.
     *
     * @return seconds since the log's zero, if stated
     * @units seconds
     */
    public OptionalDouble seconds() {
        return optional(seconds);
    }

    /**
     * Returns the temperature of the instrument.
     *
     * @return degrees Celsius, if stated
     * @units degrees Celsius
     */
    public OptionalDouble celsius() {
        return optional(celsius);
    }

    private static OptionalDouble optional(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    /**
     * Returns the reading in words.
     *
     * @return what is known of it
     */
    @Override
    public String toString() {
        return (step > 0 ? "step " + step + ": " : "")
                + density()
                        .map(Density::toString)
                        .orElse(isPrinted() ? "printed " + Figures.plain(printed) + ", no density" : "")
                + (counts == null ? "" : (isPrinted() ? ", " : "") + counts);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof LogReading that
                && Double.compare(printed, that.printed) == 0
                && Objects.equals(counts, that.counts)
                && decimals == that.decimals
                && step == that.step
                && Objects.equals(run, that.run)
                && Double.compare(seconds, that.seconds) == 0
                && Double.compare(celsius, that.celsius) == 0
                && openDarkAssumed == that.openDarkAssumed;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(printed, counts, decimals, step, run, seconds, celsius, openDarkAssumed);
    }
}
