// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.DensityDifference;

/**
 * Where the standard deviation of a reading comes from. It sets the weights of a fit and the size of its uncertainties.
 *
 * <p>Immutable and thread safe.
 */
public final class Repeatability {

    private static final Repeatability FROM_RESIDUALS = new Repeatability(null, "the residuals", "residuals");
    private static final Repeatability FROM_REPEATS = new Repeatability(null, "the repeat readings", "repeats");

    private final DoubleUnaryOperator deviation;
    private final String origin;
    /** What makes it equal to another: its origin, or the function that you gave. */
    private final Object identity;

    private Repeatability(DoubleUnaryOperator deviation, String origin, Object identity) {
        this.deviation = deviation;
        this.origin = origin;
        this.identity = identity;
    }

    /**
     * Returns the default: all readings are equally good, and their standard deviation is that of the residuals. It
     * includes the errors of the densitometer, the exposures and the family itself.
     *
     * @return from the residuals
     */
    public static Repeatability fromResiduals() {
        return FROM_RESIDUALS;
    }

    /**
     * Returns the standard deviation pooled over all exposures that were read more than once, including base plus fog.
     * It contains only the densitometer's repeatability, so use it only if the exposures and the family have smaller
     * errors than the readings.
     *
     * @return from repeats
     * @source pooled variance, JCGM 100:2008, H.3.6 (clause from memory)
     */
    public static Repeatability fromRepeats() {
        return FROM_REPEATS;
    }

    /**
     * Returns a stated standard deviation, the same at all densities.
     *
     * @param standardDeviation of one reading, above 0
     * @return as stated
     * @throws IllegalArgumentException if it is not above 0
     */
    public static Repeatability stated(DensityDifference standardDeviation) {
        double value = Checks.positive("repeatability", standardDeviation.value());
        return new Repeatability(density -> value, "the stated repeatability " + standardDeviation.value(), value);
    }

    /**
     * Returns a stated standard deviation that changes with density, for densitometers that read high densities less
     * well.
     *
     * @param standardDeviationAt gives the standard deviation of one reading at a gross density, above 0
     * @return as stated
     */
    public static Repeatability varying(DoubleUnaryOperator standardDeviationAt) {
        Objects.requireNonNull(standardDeviationAt, "standardDeviationAt");
        return new Repeatability(standardDeviationAt, "the repeatability stated for each density", standardDeviationAt);
    }

    boolean isStated() {
        return deviation != null;
    }

    double deviationAt(double density) {
        return Checks.positive("repeatability at density " + density, deviation.applyAsDouble(density));
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true for the same origin and, if stated, the same value or function
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Repeatability that && identity.equals(that.identity);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return identity.hashCode();
    }

    /**
     * Returns where the standard deviation comes from.
     *
     * @return for example {@code the residuals}
     */
    @Override
    public String toString() {
        return origin;
    }
}
