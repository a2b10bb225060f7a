// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

/** Why a curve could not be fitted. */
public enum FitFailure {
    /** There are no more readings, or fewer different exposures, than the family has parameters. */
    TOO_FEW_READINGS,
    /** The exposures lie within a tenth of a log unit, a range too short to show a curve. */
    EXPOSURES_TOO_CLOSE,
    /** All densities are the same, or nearly so. */
    NO_CONTRAST,
    /** Density falls with exposure: a reversal material, or exposures entered in the wrong order. */
    FALLING_STRIP,
    /** The strip has no unexposed reading and begins above its toe, or its readings do not determine base plus fog. */
    BASE_PLUS_FOG_UNKNOWN,
    /** The search for the least sum of squares did not converge. */
    NOT_CONVERGED,
    /** The readings do not separate the parameters. */
    ILL_CONDITIONED,
    /** A parameter reached the end of its range, so the readings do not determine it. */
    BOUND_HIT
}
