// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.StudentT;

/**
 * The uncertainty of a single reading at one density, source by source. The densitometer's error is not in it: it is
 * stated beside it, and corrected if possible.
 *
 * <p>The combined standard uncertainty is the root of the sum of squares; the expanded one is U = k u with the factor k
 * of Student's distribution for 95 % and the effective degrees of freedom.
 *
 * <p>Immutable and thread safe.
 *
 * @units density
 * @source JCGM 100:2008, 5.1.2 (combination), F.2.2.1 (resolution), G.4.1 (effective degrees of freedom), clauses from
 *     memory
 */
public final class UncertaintyBudget {

    private static final double COVERAGE = 0.95;

    private final Map<BudgetSource, Entry> entries;

    /**
     * One source.
     *
     * @param standardUncertainty its standard uncertainty, 0 or more
     * @param degreesOfFreedom its degrees of freedom, infinite where the uncertainty is stated and not measured
     * @units density
     */
    public record Entry(double standardUncertainty, double degreesOfFreedom) {}

    UncertaintyBudget(Map<BudgetSource, Entry> entries) {
        this.entries = Collections.unmodifiableMap(new EnumMap<>(entries));
    }

    /**
     * Returns the sources that are known.
     *
     * @return the entries by source
     */
    public Map<BudgetSource, Entry> entries() {
        return entries;
    }

    /**
     * Returns the combined standard uncertainty.
     *
     * @return the root of the sum of squares
     */
    public double combined() {
        return Math.sqrt(entries.values().stream()
                .mapToDouble(entry -> entry.standardUncertainty() * entry.standardUncertainty())
                .sum());
    }

    /**
     * Returns the effective degrees of freedom by the formula of Welch and Satterthwaite.
     *
     * @return u<sup>4</sup> / Σ (u<sub>i</sub><sup>4</sup> / ν<sub>i</sub>); infinite if no source was measured
     */
    public double effectiveDegreesOfFreedom() {
        double sum = entries.values().stream()
                .mapToDouble(entry -> Math.pow(entry.standardUncertainty(), 4) / entry.degreesOfFreedom())
                .sum();
        return sum > 0 ? Math.pow(combined(), 4) / sum : Double.POSITIVE_INFINITY;
    }

    /**
     * Returns the coverage factor for 95 %.
     *
     * @return the factor k; 1.96 for infinite degrees of freedom
     */
    public double coverageFactor() {
        return StudentT.coverageFactor(COVERAGE, Math.min(1e7, effectiveDegreesOfFreedom()));
    }

    /**
     * Returns the expanded uncertainty for 95 %.
     *
     * @return k u
     */
    public double expanded() {
        return coverageFactor() * combined();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof UncertaintyBudget that && Objects.equals(entries, that.entries);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(entries);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the sources and the combined standard uncertainty
     */
    @Override
    public String toString() {
        return entries.keySet() + ", combined " + Figures.plain(combined());
    }
}
