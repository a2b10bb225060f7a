// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A slope of a characteristic curve, such as G 0.62: the change of density per log unit of exposure, at a point or
 * between two points. It is positive where density rises with exposure (a negative film) and negative where it falls (a
 * reversal film).
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param value ΔD / Δlog<sub>10</sub> H
 * @units none (density per decimal log unit of exposure)
 */
public record Gradient(double value) implements Comparable<Gradient>, Serializable {

    /**
     * Checks the slope.
     *
     * @param value ΔD / Δlog<sub>10</sub> H
     * @throws IllegalArgumentException if it is not finite
     */
    public Gradient {
        value = Checks.finite("gradient", value);
    }

    /**
     * Returns a slope.
     *
     * @param value ΔD / Δlog<sub>10</sub> H
     * @return the gradient
     * @throws IllegalArgumentException if the value is not finite
     */
    public static Gradient of(double value) {
        return new Gradient(value);
    }

    /**
     * Returns the slope of a straight line.
     *
     * @param rise the change of density
     * @param run the change of log exposure, not zero
     * @return rise / run
     * @throws IllegalArgumentException if the run is zero
     */
    public static Gradient between(DensityDifference rise, ExposureInterval run) {
        Objects.requireNonNull(rise, "rise");
        if (run.logUnits() == 0) {
            throw new IllegalArgumentException("a gradient needs two different exposures, the interval was 0");
        }
        return new Gradient(rise.value() / run.logUnits());
    }

    @Override
    public int compareTo(Gradient other) {
        return Double.compare(value, other.value);
    }

    /**
     * Returns the slope as written beside a curve.
     *
     * @return for example {@code G 0.62}, with two to four decimals
     */
    @Override
    public String toString() {
        return "G " + Figures.plain(value);
    }
}
