package org.tonewedge.core.tone;

import org.tonewedge.core.quantity.ExposureInterval;

/**
 * How far the exposure of a subject may be changed before a tone that matters leaves the useful range.
 *
 * @param under how far it may be lowered; negative if the darkest tone has too little already
 * @param over how far it may be raised; negative if the lightest tone has too much already
 */
public record ExposureLatitude(ExposureInterval under, ExposureInterval over) {

    /**
     * Returns the whole latitude.
     *
     * @return the sum of both: the useful range less that of the subject
     */
    public ExposureInterval total() {
        return under.plus(over);
    }
}
