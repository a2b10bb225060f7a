// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import java.util.Objects;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.DensityGeometry;

/**
 * A density with its kind, such as 0.42 diffuse visual. Only densities of the same kind can be subtracted: the compiler
 * separates transmission from reflection, and a check at run time separates responses and geometries.
 *
 * <p>It serves code that compares readings of more than one kind, such as status M with visual densities of one film,
 * or the readings of two densitometers. All readings of a {@link org.tonewedge.core.strip.Strip} are of one kind, which the
 * strip may state.
 *
 * @param density the density
 * @param kind the kind of the density
 * @param <G> transmission or reflection
 */
public record MeasuredDensity<G extends DensityGeometry>(Density density, DensityKind<G> kind) {

    /**
     * Checks that both parts are there.
     *
     * @param density the density
     * @param kind the kind of the density
     */
    public MeasuredDensity {
        Objects.requireNonNull(density, "density");
        Objects.requireNonNull(kind, "kind");
    }

    /**
     * Returns the difference from another density of the same kind.
     *
     * @param other the density to subtract
     * @return the difference
     * @throws IllegalArgumentException if the other density is of another kind
     */
    public DensityDifference minus(MeasuredDensity<G> other) {
        if (!kind.equals(other.kind)) {
            throw new IllegalArgumentException("cannot subtract densities of different kinds, " + this + " and " + other
                    + "; read both with one geometry and one filter");
        }
        return density.minus(other.density);
    }

    /**
     * Returns the density with its kind.
     *
     * @return for example {@code D 0.42 D_T(diffuse; visual)}
     */
    @Override
    public String toString() {
        return density + " " + kind;
    }
}
