// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import org.tonewedge.core.quantity.LogExposure;

/**
 * A finding about the readings of a strip that a person should look at, such as a density that falls where it must
 * rise.
 *
 * @param kind what was found
 * @param exposure the step at which it was found
 * @param message the strip, the step, the values and what to look for
 */
public record StripFinding(Kind kind, LogExposure exposure, String message) {

    /** The kinds of finding. */
    public enum Kind {
        /** A step reads thinner than a step before it that had less exposure. */
        DENSITY_FALLS,
        /** The strip ends thinner than it begins: it was read from the wrong end, or is a reversal material. */
        DENSITIES_REVERSED,
        /** A step reads thinner than base plus fog. */
        BELOW_BASE_PLUS_FOG,
        /** The first steps are level, but denser than base plus fog. */
        LEVEL_ABOVE_BASE_PLUS_FOG,
        /** Two steps are so close that their difference is noise: they are repeat readings. */
        STEPS_TOO_CLOSE,
        /** Two neighbouring steps are so far apart that the curve between them is a guess. */
        STEPS_TOO_FAR_APART,
        /** Repeat readings of one step differ by more than they should. */
        REPEATS_DISAGREE,
        /** Readings of base plus fog differ by more than they should; reported at the least exposure. */
        BASE_PLUS_FOG_DISAGREES
    }

    /**
     * Returns the finding in words.
     *
     * @return the message
     */
    @Override
    public String toString() {
        return message;
    }
}
