// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * The resolving power of a film: the finest pattern in a series of targets that can still be resolved, such as 80
 * cycles per millimetre. Targets usually differ by a constant factor, so means and spreads are those of logarithms.
 *
 * <p>It depends on the contrast of the target, the exposure, the development and the observer; state them with the
 * figure. It is not called an ISO resolving power here, because the conditions of that standard are not checked.
 *
 * <p>Immutable and thread safe.
 *
 * @source terms: ISO 6328:2000, title and scope as shown by a standards catalogue; the method itself was not available
 */
public final class ResolvingPower implements Recorded {

    private final Estimate cyclesPerMillimetre;
    private final boolean finestResolved;
    private final String source;

    private ResolvingPower(Estimate cyclesPerMillimetre, boolean finestResolved, String source) {
        this.cyclesPerMillimetre = cyclesPerMillimetre;
        this.finestResolved = finestResolved;
        this.source = source;
    }

    /**
     * Returns the resolving power read by observers: the geometric mean of the finest targets that each resolved.
     *
     * @param factor the ratio of the frequency of a target to that of the next coarser one, above 1, such as
     *     2<sup>1/6</sup>
     * @param finest the finest target resolved in each observation, in cycles per millimetre; two or more
     * @return the resolving power; its uncertainty includes the spread of the observations and, once, half a step of
     *     the series as a rectangular distribution
     * @throws IllegalArgumentException if the factor is not above 1, there are fewer than two observations, or a
     *     frequency is not above 0
     */
    public static ResolvingPower ofObservations(double factor, double... finest) {
        Checks.finite("factor of the series", factor);
        if (!(factor > 1) || finest.length < 2) {
            throw new IllegalArgumentException(
                    "resolving power needs a series with a factor above 1 and two or more looks," + " were " + factor
                            + " and " + finest.length);
        }
        double[] logs = Arrays.stream(finest)
                .map(f -> Math.log(Checks.positive("frequency in cycles per millimetre", f)))
                .toArray();
        double mean = Arrays.stream(logs).average().orElseThrow();
        double variance =
                Arrays.stream(logs).map(l -> (l - mean) * (l - mean)).sum() / (logs.length - 1.0) / logs.length;
        double step = Math.log(factor) / Math.sqrt(12);
        double value = Math.exp(mean);
        return new ResolvingPower(
                Estimate.of(value, value * Math.sqrt(variance + step * step)), false, finest.length + " looks");
    }

    /**
     * Returns the resolving power of measured targets. From the coarsest target on, take the unbroken run of resolved
     * targets: the resolving power is the middle, by logarithms, between the last of them and the next target, which is
     * not resolved.
     *
     * @param targets targets of different frequencies, two or more
     * @return the resolving power; if all targets are resolved, the finest frequency, as a lower bound
     * @throws IllegalArgumentException if there are fewer than two targets or two have the same frequency
     * @throws NotDeterminableException if the coarsest target is not resolved
     */
    public static ResolvingPower ofTargets(List<TargetModulation> targets) {
        List<TargetModulation> sorted = targets.stream()
                .sorted(Comparator.comparingDouble(TargetModulation::frequency))
                .toList();
        if (sorted.size() < 2
                || sorted.stream()
                                .mapToDouble(TargetModulation::frequency)
                                .distinct()
                                .count()
                        < sorted.size()) {
            throw new IllegalArgumentException("resolving power needs two or more targets of different frequencies");
        }
        int resolved = 0;
        while (resolved < sorted.size() && sorted.get(resolved).isResolved()) {
            resolved++;
        }
        if (resolved == 0) {
            throw new OutsideMeasuredRangeException("the coarsest target, of "
                    + Figures.plain(sorted.get(0).frequency())
                    + " cycles per millimetre, is not resolved; measure coarser ones too");
        }
        double below = sorted.get(resolved - 1).frequency();
        if (resolved == sorted.size()) {
            return new ResolvingPower(Estimate.of(below, 0), true, sorted.size() + " targets");
        }
        double factor = sorted.get(resolved).frequency() / below;
        double value = below * Math.sqrt(factor);
        return new ResolvingPower(
                Estimate.of(value, value * Math.log(factor) / Math.sqrt(12)), false, sorted.size() + " targets");
    }

    /**
     * Returns the resolving power.
     *
     * @return cycles (line pairs) per millimetre
     */
    public Estimate cyclesPerMillimetre() {
        return cyclesPerMillimetre;
    }

    /**
     * Tells whether even the finest target was resolved, so that the figure is a lower bound.
     *
     * @return whether it is a bound
     */
    public boolean isLowerBound() {
        return finestResolved;
    }

    /**
     * Returns the resolving power in words.
     *
     * @return for example {@code 80.0 ± 3.1 cycles per millimetre (5 looks)}
     */
    @Override
    public String toString() {
        return (finestResolved ? "≥ " : "") + EstimateFormat.withDefaults().format(cyclesPerMillimetre)
                + " cycles per millimetre (" + source + ")";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ResolvingPower that
                && Objects.equals(cyclesPerMillimetre, that.cyclesPerMillimetre)
                && finestResolved == that.finestResolved
                && Objects.equals(source, that.source);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(cyclesPerMillimetre, finestResolved, source);
    }

    /**
     * Returns the resolving power as named values: {@code resolving_power} in cycles per millimetre, without an uncertainty if
     * it is a {@code lower_bound}, and {@code read_from}, such as {@code 5 looks}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofNumber(
                        "resolving_power",
                        cyclesPerMillimetre.value(),
                        Optional.of(cyclesPerMillimetre).filter(known -> !finestResolved),
                        "cycles/mm"),
                ResultRecord.ofText("lower_bound", Boolean.toString(finestResolved)),
                ResultRecord.ofText("read_from", source));
    }
}
