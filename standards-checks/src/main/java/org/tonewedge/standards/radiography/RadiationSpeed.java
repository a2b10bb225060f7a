// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import java.util.Objects;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.FigureDetermination;

/**
 * A speed by {@link RadiographicSpeed}. The {@link #figure()} is log<sub>10</sub> S.
 *
 * <p>Immutable and thread safe.
 */
public final class RadiationSpeed implements FigureDetermination<RadiationSpeed> {

    private final double exact;
    private final Evidence evidence;

    RadiationSpeed(double exact, Evidence evidence) {
        this.exact = exact;
        this.evidence = evidence;
    }

    /**
     * Returns the speed.
     *
     * @return S, unrounded
     * @units reciprocal of the unit of K<sub>0</sub>
     */
    public double exact() {
        return exact;
    }

    /**
     * Returns the logarithm of the speed.
     *
     * @return log<sub>10</sub> S
     * @units log units
     */
    @Override
    public double figure() {
        return Math.log10(exact);
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public RadiationSpeed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new RadiationSpeed(exact, evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
    }

    /**
     * Returns the speed in words.
     *
     * @return the speed and its rule
     */
    @Override
    public String toString() {
        return "speed " + Figures.plain(exact) + " by " + criterion().name();
    }

    @Override
    public String unit() {
        return "log10";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof RadiationSpeed that
                && Double.compare(exact, that.exact) == 0
                && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(exact, evidence);
    }
}
