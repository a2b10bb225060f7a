// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Objects;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Gradient;

/**
 * A part of a characteristic curve, such as its toe.
 *
 * @param kind which part
 * @param thinEnd the end of less density
 * @param denseEnd the end of more density
 * @param isComplete false if the measured range cuts the part off, so that it may be longer
 */
public record CurveRegion(Kind kind, CurvePoint thinEnd, CurvePoint denseEnd, boolean isComplete) {
    /**
     * Checks that nothing is missing.
     *
     * @param kind which part
     * @param thinEnd the end of less density
     * @param denseEnd the end of more density
     * @param isComplete false if the measured range cuts the part off, so that it may be longer
     */
    public CurveRegion {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(thinEnd, "thinEnd");
        Objects.requireNonNull(denseEnd, "denseEnd");
    }

    /** The parts of a characteristic curve, from the thin end to the dense end. */
    public enum Kind {
        /** The gradient rises towards that of the straight line. */
        TOE,
        /** The gradient is nearly constant. */
        STRAIGHT_LINE,
        /** The gradient falls again. */
        SHOULDER
    }

    /**
     * Returns the length of the part along the exposure axis.
     *
     * @return the interval between its ends, 0 or more
     */
    public ExposureInterval length() {
        return ExposureInterval.ofLogUnits(
                Math.abs(denseEnd.logExposure().minus(thinEnd.logExposure()).logUnits()));
    }

    /**
     * Returns the slope of the chord between the ends.
     *
     * @return the average gradient of the part
     */
    public Gradient averageGradient() {
        return Gradient.between(
                denseEnd.density().minus(thinEnd.density()),
                denseEnd.logExposure().minus(thinEnd.logExposure()));
    }
}
