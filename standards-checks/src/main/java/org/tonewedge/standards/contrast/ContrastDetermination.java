// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.contrast;

import java.util.List;
import java.util.Objects;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.FigureDetermination;

/**
 * A contrast as the slope between two points of a curve, with those points. The {@link #figure()} is the gradient.
 * These measures set no conditions: they are valid for any curve off which they can be read.
 *
 * <p>Immutable and thread safe.
 */
public final class ContrastDetermination implements FigureDetermination<ContrastDetermination> {

    private final Evidence evidence;

    private ContrastDetermination(Evidence evidence) {
        this.evidence = evidence;
    }

    /** A contrast between two points in any order. */
    ContrastDetermination(Criterion criterion, CurvePoint one, CurvePoint other) {
        this(Evidence.of(
                criterion,
                other.logExposure().isBelow(one.logExposure()) ? List.of(other, one) : List.of(one, other),
                List.of()));
    }

    /**
     * Returns the contrast.
     *
     * @return the slope of the line through the two points
     */
    public Gradient gradient() {
        return Gradient.between(
                upper().density().minus(lower().density()),
                upper().logExposure().minus(lower().logExposure()));
    }

    /**
     * Returns the lower point.
     *
     * @return the point of less exposure
     */
    public CurvePoint lower() {
        return points().get(0);
    }

    /**
     * Returns the upper point.
     *
     * @return the point of more exposure
     */
    public CurvePoint upper() {
        return points().get(1);
    }

    /**
     * Returns the gradient as a number.
     *
     * @return ΔD / Δlog<sub>10</sub> H
     */
    @Override
    public double figure() {
        return gradient().value();
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public ContrastDetermination withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new ContrastDetermination(evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
    }

    /**
     * Returns the contrast in words.
     *
     * @return the gradient and the two points
     */
    @Override
    public String toString() {
        return estimate().map(e -> "G " + e).orElse(gradient().toString()) + " between " + lower() + " and " + upper();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ContrastDetermination that && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(evidence);
    }
}
