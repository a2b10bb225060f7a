package org.tonewedge.core.strip;

import org.tonewedge.core.quantity.LogExposure;

/**
 * Something about the readings of a strip that a person should look at, such as a density that falls where it must rise.
 *
 * @param kind what was found
 * @param exposure the step at which it was found
 * @param message the strip, the step, the values and what to look for
 */
public record StripFinding(Kind kind, LogExposure exposure, String message) {

    /** What can be found. */
    public enum Kind {
        /** A step reads thinner than one of less exposure before it. */
        DENSITY_FALLS,
        /** The strip ends thinner than it begins: read from the wrong end, or a reversal material. */
        RUNS_BACKWARDS,
        /** A step reads thinner than base plus fog. */
        BELOW_BASE_PLUS_FOG,
        /** The first steps are level, but denser than base plus fog. */
        LEVEL_ABOVE_BASE_PLUS_FOG,
        /** Two steps lie so close that their difference is noise: they are repeats. */
        STEPS_CROWDED,
        /** Two neighbouring steps lie so far apart that what is between them is a guess. */
        STEPS_FAR_APART,
        /** Repeat readings of one step lie farther apart than readings of one step should. */
        REPEATS_DISAGREE,
        /** Readings of base plus fog lie farther apart than that; told with the least exposure. */
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
