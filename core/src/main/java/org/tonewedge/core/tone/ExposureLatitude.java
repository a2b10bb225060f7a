// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * How far the exposure of a subject may change before a tone that matters leaves the useful range.
 *
 * @param under how far it may be lowered; negative if the darkest tone already has too little exposure
 * @param over how far it may be raised; negative if the lightest tone already has too much exposure
 */
public record ExposureLatitude(ExposureInterval under, ExposureInterval over) {
    /**
     * Checks that nothing is missing.
     *
     * @param under how far it may be lowered; negative if the darkest tone already has too little exposure
     * @param over how far it may be raised; negative if the lightest tone already has too much exposure
     */
    public ExposureLatitude {
        Objects.requireNonNull(under, "under");
        Objects.requireNonNull(over, "over");
    }

    /**
     * Returns the total latitude.
     *
     * @return the sum of both: the useful range minus the range of the subject
     */
    public ExposureInterval total() {
        return under.plus(over);
    }
}
