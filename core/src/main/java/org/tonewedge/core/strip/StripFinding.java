// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Objects;
import org.tonewedge.core.quantity.LogExposure;

/**
 * A finding about the readings of a strip that a person should look at, such as a density that falls where it must
 * rise.
 *
 * <p>Immutable and thread safe; equal by value.
 */
public final class StripFinding {

    private final Kind kind;
    private final LogExposure exposure;
    private final String message;

    StripFinding(Kind kind, LogExposure exposure, String message) {
        this.kind = kind;
        this.exposure = exposure;
        this.message = message;
    }

    /**
     * Returns what was found.
     *
     * @return the kind
     */
    public Kind kind() {
        return kind;
    }

    /**
     * Returns the step at which it was found.
     *
     * @return the exposure
     */
    public LogExposure exposure() {
        return exposure;
    }

    /**
     * Returns the strip, the step, the values and what to look for.
     *
     * @return the message
     */
    public String message() {
        return message;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if all parts are equal
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof StripFinding that
                && kind == that.kind
                && exposure.equals(that.exposure)
                && message.equals(that.message);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(kind, exposure, message);
    }

    /** The kinds of finding. */
    public enum Kind {
        /** A step reads thinner than a step before it that had less exposure. */
        DENSITY_FALLS,
        /** The strip ends thinner than it begins: it was read from the wrong end, or is a reversal material. */
        DENSITIES_REVERSED,
        /**
         * The numbers entered as log exposures grow by about the same factor from step to step, as exposures do; reported
         * alone, at the least exposure.
         */
        EXPOSURES_NOT_LOGARITHMS,
        /**
         * The numbers entered as log exposures lie in whole, half or third units, and density rises with them as softly as
         * it does with stops; reported at the least exposure. A very soft strip in such steps is right all the same.
         */
        EXPOSURES_IN_STOPS,
        /** A step reads thinner than base plus fog; reported once if densities look like net ones. */
        BELOW_BASE_PLUS_FOG,
        /** The first steps are level, but denser than base plus fog. */
        LEVEL_ABOVE_BASE_PLUS_FOG,
        /** Two steps are so close that their difference is noise: they are repeat readings. */
        STEPS_TOO_CLOSE,
        /** Two neighbouring steps are so far apart that the curve between them is a guess. */
        STEPS_TOO_FAR_APART,
        /**
         * Density rises over one gap between steps as it does over two, and the steps on its two sides fit each other if
         * one side is moved by a step: a step was skipped. Reported at the step of more exposure.
         */
        STEP_SKIPPED,
        /**
         * Density stands still from one step to the next, and the steps on its two sides fit each other if one side is
         * moved by a step: one step was read twice. Reported at the step of more exposure.
         */
        STEP_READ_TWICE,
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
