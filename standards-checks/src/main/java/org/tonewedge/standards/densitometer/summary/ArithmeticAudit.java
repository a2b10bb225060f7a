// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.tonewedge.standards.densitometer.input.RawCounts;

/**
 * Printed densities compared with densities recomputed from the counts beside them, with and without each
 * {@link ArithmeticFault}.
 *
 * <p>A printed density agrees with a computed one if they differ by no more than half a unit of its last decimal plus
 * 0.00005 for single-precision arithmetic. A fault is named if 99 % of the readings agree with it, and more than agree
 * with the correct computation; the limits are the project's own.
 *
 * <p>Immutable and thread safe.
 */
public final class ArithmeticAudit {

    private static final double SHARE = 0.99;

    private final long readings;
    private final long agreeing;
    private final double greatestDeparture;
    private final ArithmeticFault fault;

    private ArithmeticAudit(long readings, long agreeing, double greatestDeparture, ArithmeticFault fault) {
        this.readings = readings;
        this.agreeing = agreeing;
        this.greatestDeparture = greatestDeparture;
        this.fault = fault;
    }

    /** Counts agreements as readings arrive. */
    static final class Counter {

        private static final double SINGLE_PRECISION = 5e-5;
        private static final int MOST_GAINS = 16;
        private static final ArithmeticFault[] FAULTS = ArithmeticFault.values();

        private final Map<ArithmeticFault, Long> agreeing = new EnumMap<>(ArithmeticFault.class);
        private long readings;
        private long sound;
        private long tooLow;
        private double greatestDeparture;
        private double highestPrinted = Double.NEGATIVE_INFINITY;
        private double lowestDeparting = Double.POSITIVE_INFINITY;
        private final Map<Double, double[]> byGain = new TreeMap<>();

        /** The slack is how much denser the sample may be because the dark counts of the open gate are not known. */
        void add(double printed, int decimals, RawCounts counts, double slack) {
            readings++;
            double unit = Math.pow(10, -decimals);
            double tolerance = unit / 2 + SINGLE_PRECISION;
            double right = counts.density() + Math.max(0, Math.min(slack, printed - counts.density()));
            double departure = printed - right;
            highestPrinted = Math.max(highestPrinted, printed);
            greatestDeparture = Math.max(greatestDeparture, Math.abs(departure));
            if (Math.abs(departure) <= tolerance) {
                sound++;
            } else {
                lowestDeparting = Math.min(lowestDeparting, printed);
                tooLow += departure < 0 ? 1 : 0;
            }
            if (byGain.size() < MOST_GAINS || byGain.containsKey(counts.gainRatio())) {
                double[] range = byGain.computeIfAbsent(
                        counts.gainRatio(), gain -> new double[] {departure, departure, tolerance + slack});
                range[0] = Math.min(range[0], departure);
                range[1] = Math.max(range[1], departure);
                range[2] = Math.max(range[2], tolerance + slack);
            }
            for (ArithmeticFault fault : FAULTS) {
                double formula = fault.formula(counts);
                if (Math.abs(printed - formula) <= tolerance + slack + SINGLE_PRECISION * Math.abs(formula)
                        || (fault.hasFormula() && !Double.isFinite(formula) && Math.abs(departure) > tolerance)) {
                    agreeing.merge(fault, 1L, Long::sum);
                }
            }
            if (Math.abs(printed) <= Math.abs(right) + SINGLE_PRECISION
                    && Math.abs(right - printed) < unit + SINGLE_PRECISION) {
                agreeing.merge(ArithmeticFault.DECIMALS_CUT_OFF, 1L, Long::sum);
            }
        }

        Optional<ArithmeticAudit> audit() {
            return readings == 0
                    ? Optional.empty()
                    : Optional.of(new ArithmeticAudit(readings, sound, greatestDeparture, fault()));
        }

        /** Whether the departures are the same number for each gain, but not the same for all gains. */
        private boolean isShiftedByGain() {
            double least = Double.POSITIVE_INFINITY;
            double most = Double.NEGATIVE_INFINITY;
            double widest = 0;
            for (double[] range : byGain.values()) {
                if (range[1] - range[0] > 2 * range[2]) {
                    return false;
                }
                least = Math.min(least, (range[0] + range[1]) / 2);
                most = Math.max(most, (range[0] + range[1]) / 2);
                widest = Math.max(widest, range[2]);
            }
            return most - least > 2 * widest;
        }

        private ArithmeticFault fault() {
            long departing = readings - sound;
            if (departing == 0) {
                return null;
            }
            ArithmeticFault best = ArithmeticFault.UNEXPLAINED;
            long most = sound;
            for (Map.Entry<ArithmeticFault, Long> candidate : agreeing.entrySet()) {
                if (candidate.getValue() > most && candidate.getValue() >= SHARE * readings) {
                    most = candidate.getValue();
                    best = candidate.getKey();
                }
            }
            if (best == ArithmeticFault.UNEXPLAINED && isShiftedByGain()) {
                return ArithmeticFault.GAIN_TABLE_WRONG;
            }
            if (best == ArithmeticFault.UNEXPLAINED
                    && departing > 1
                    && tooLow == departing
                    && lowestDeparting == highestPrinted) {
                return ArithmeticFault.RANGE_CLIPPED;
            }
            return best == ArithmeticFault.UNEXPLAINED && sound >= SHARE * readings
                    ? ArithmeticFault.STRAY_READINGS
                    : best;
        }
    }

    /**
     * Returns how many readings have both a printed density and counts above the dark.
     *
     * @return the number of readings compared with their counts
     */
    public long readings() {
        return readings;
    }

    /**
     * Returns how many printed densities follow from their counts.
     *
     * @return the number of readings that agree with the correct computation
     */
    public long agreeing() {
        return agreeing;
    }

    /**
     * Returns the largest departure of a printed density from the density that its counts give.
     *
     * @return the largest absolute difference
     * @units density
     */
    public double greatestDeparture() {
        return greatestDeparture;
    }

    /**
     * Returns the fault of the firmware's arithmetic.
     *
     * @return the fault, or empty if every printed density follows from its counts
     */
    public Optional<ArithmeticFault> fault() {
        return Optional.ofNullable(fault);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ArithmeticAudit that
                && readings == that.readings
                && agreeing == that.agreeing
                && Double.compare(greatestDeparture, that.greatestDeparture) == 0
                && Objects.equals(fault, that.fault);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(readings, agreeing, greatestDeparture, fault);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return how many readings agree with their counts
     */
    @Override
    public String toString() {
        return agreeing + " of " + readings + " readings agree with their counts"
                + (fault == null ? "" : ", " + fault.description());
    }
}
