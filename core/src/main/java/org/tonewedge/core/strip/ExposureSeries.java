// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.SerialForms;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The exposures of one strip in the order of reading, such as 21 steps exposed through a tablet or 13 frames a third of
 * a stop apart.
 *
 * <p>Immutable and thread safe.
 */
public final class ExposureSeries implements Serializable {

    private static final long serialVersionUID = 1;

    private final List<LogExposure> exposures;

    private ExposureSeries(List<LogExposure> exposures) {
        this.exposures = exposures;
    }

    /**
     * Returns a series of stated exposures.
     *
     * @param exposures the exposures in the order of reading, all on one axis
     * @return the series
     * @throws IllegalArgumentException if there is no exposure, or their axes differ
     */
    public static ExposureSeries of(List<LogExposure> exposures) {
        if (exposures.isEmpty()) {
            throw new IllegalArgumentException("an exposure series needs at least one exposure, had none");
        }
        ExposureAxis axis = exposures.get(0).axis();
        exposures.forEach(exposure -> axis.requireSame(exposure.axis(), "put exposures in one series"));
        return new ExposureSeries(List.copyOf(exposures));
    }

    /**
     * Returns a series of absolute exposures.
     *
     * @param logExposures log<sub>10</sub> H in the order of reading
     * @return the series
     * @throws IllegalArgumentException if there is none, or one is out of range
     * @units log<sub>10</sub> of lux seconds
     */
    public static ExposureSeries ofLogLuxSeconds(double... logExposures) {
        Objects.requireNonNull(logExposures, "logExposures");
        return of(ExposureAxis.LUX_SECONDS, logExposures);
    }

    /**
     * Returns a series of exposures on a stated axis, such as a relative one.
     *
     * @param axis the axis
     * @param logExposures log<sub>10</sub> H on that axis, in the order of reading
     * @return the series
     * @throws IllegalArgumentException if there is none, or one is out of range
     */
    public static ExposureSeries of(ExposureAxis axis, double... logExposures) {
        Objects.requireNonNull(logExposures, "logExposures");
        return of(Arrays.stream(logExposures)
                .mapToObj(value -> new LogExposure(value, axis))
                .toList());
    }

    /**
     * Returns a series of camera frames with equal spacing.
     *
     * @param first the exposure of the first frame
     * @param spacing the interval from each frame to the next, positive or negative, such as
     *     {@code ExposureInterval.ofStops(1.0 / 3)}
     * @param frames the number of frames, at least 1
     * @return the series
     * @throws IllegalArgumentException if the number of frames is below 1, the spacing is 0 with several frames, or an
     *     exposure leaves the range of {@link LogExposure}
     */
    public static ExposureSeries frames(LogExposure first, ExposureInterval spacing, int frames) {
        Objects.requireNonNull(first, "first");
        Objects.requireNonNull(spacing, "spacing");
        if (frames < 1) {
            throw new IllegalArgumentException("number of frames must be 1 or more, was " + frames);
        }
        if (frames > 1 && spacing.logUnits() == 0) {
            throw new IllegalArgumentException("spacing of " + frames + " frames must not be 0 stop");
        }
        List<LogExposure> exposures = new ArrayList<>(frames);
        for (int i = 0; i < frames; i++) {
            exposures.add(first.plus(spacing.times(i)));
        }
        return new ExposureSeries(List.copyOf(exposures));
    }

    /**
     * Returns the exposures in the order of reading.
     *
     * @return the exposures
     */
    public List<LogExposure> exposures() {
        return exposures;
    }

    /**
     * Returns the number of exposures.
     *
     * @return 1 or more
     */
    public int size() {
        return exposures.size();
    }

    /**
     * Returns the axis of all exposures.
     *
     * @return the axis
     */
    public ExposureAxis axis() {
        return exposures.get(0).axis();
    }

    /**
     * Returns the series in words.
     *
     * @return the number of exposures, with the first and the last
     */
    @Override
    public String toString() {
        return size() + " exposures from " + exposures.get(0) + " to " + exposures.get(size() - 1);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ExposureSeries that && Objects.equals(exposures, that.exposures);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(exposures);
    }

    private Object writeReplace() {
        return new SerialForm(
                axis(), exposures.stream().mapToDouble(LogExposure::value).toArray());
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written; never compared. */
    @SuppressWarnings("ArrayRecordComponent")
    private record SerialForm(ExposureAxis axis, double[] logExposures) implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> of(axis, logExposures));
        }
    }
}
