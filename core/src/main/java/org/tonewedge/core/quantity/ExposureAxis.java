// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.SerialForms;

/**
 * What log exposures are counted from: lux seconds ({@link #LUX_SECONDS}), or a named reference, such as
 * {@code ExposureAxis.relativeTo("the printer's full light")}.
 *
 * <p>Two relative axes are equal if they name the same reference. Methods that need absolute exposure, such as an ISO
 * speed, refuse a relative axis. Two curves on one relative axis can still be compared in stops.
 *
 * <p>Immutable and thread safe.
 */
public final class ExposureAxis implements Serializable {

    private static final long serialVersionUID = 1;

    /** The absolute axis: log<sub>10</sub> of the exposure at the film in lux seconds. */
    public static final ExposureAxis LUX_SECONDS = new ExposureAxis("lux seconds", true);

    private final String reference;
    private final boolean absolute;

    private ExposureAxis(String reference, boolean absolute) {
        this.reference = reference;
        this.absolute = absolute;
    }

    /**
     * Returns a relative axis whose zero is a named exposure.
     *
     * @param reference the exposure at the zero of the axis, in words, such as {@code "frame 1"}
     * @return the axis
     * @throws IllegalArgumentException if the reference is blank
     */
    public static ExposureAxis relativeTo(String reference) {
        return new ExposureAxis(Checks.notBlank("reference of a relative exposure axis", reference), false);
    }

    /**
     * Tells whether exposures on this axis are known in lux seconds.
     *
     * @return true for {@link #LUX_SECONDS}
     */
    public boolean isAbsolute() {
        return absolute;
    }

    /**
     * Returns what the axis is counted from.
     *
     * @return {@code lux seconds}, or the name given to a relative axis
     */
    public String reference() {
        return reference;
    }

    /**
     * Checks that another axis is the same as this one.
     *
     * @param other the axis to compare with
     * @param purpose what the caller is about to do, for the message, such as {@code "subtract exposures"}
     * @throws IllegalArgumentException if the other axis is not this one
     */
    public void requireSame(ExposureAxis other, String purpose) {
        Objects.requireNonNull(other, "other");
        Objects.requireNonNull(purpose, "purpose");
        if (!equals(other)) {
            throw new IllegalArgumentException("cannot " + purpose + ": one exposure is in " + this + ", the other in "
                    + other + "; anchor the relative one to a known exposure first");
        }
    }

    @Override
    public boolean equals(Object other) {
        return this == other
                || (other instanceof ExposureAxis that
                        && absolute == that.absolute
                        && reference.equals(that.reference));
    }

    @Override
    public int hashCode() {
        return Objects.hash(reference, absolute);
    }

    /**
     * Returns the axis in words.
     *
     * @return {@code lx·s}, or {@code relative to} and its reference
     */
    @Override
    public String toString() {
        return absolute ? "lx·s" : "relative to " + reference;
    }

    private Object writeReplace() {
        return new SerialForm(reference, absolute);
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written. */
    private record SerialForm(String reference, boolean absolute) implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> absolute ? LUX_SECONDS : relativeTo(reference));
        }
    }
}
