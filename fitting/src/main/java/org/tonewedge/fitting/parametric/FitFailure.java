package org.tonewedge.fitting.parametric;

/** Why a curve could not be fitted. */
public enum FitFailure {
    /** There are not more readings, or not as many different exposures, as the family has parameters. */
    TOO_FEW_READINGS,
    /** The exposures lie within a tenth of a log unit, too short a range to show a curve. */
    EXPOSURES_TOO_CLOSE,
    /** All densities are the same, or nearly so. */
    NO_CONTRAST,
    /** Density falls with exposure: a reversal material, or exposures entered in the wrong order. */
    FALLING_STRIP,
    /** The strip has no unexposed reading and begins above its toe, or does not tell base plus fog at all. */
    BASE_PLUS_FOG_UNKNOWN,
    /** The search for the least sum of squares did not come to an end. */
    NOT_CONVERGED,
    /** The readings cannot tell the parameters apart. */
    ILL_CONDITIONED,
    /** A parameter ran to the end of its range, so the readings do not determine it. */
    BOUND_HIT
}
