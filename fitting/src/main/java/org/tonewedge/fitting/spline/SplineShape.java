package org.tonewedge.fitting.spline;

/** What a smoothing spline knows of its shape besides being smooth. */
public enum SplineShape {

    /** Nothing: the curve may turn where the readings do. */
    FREE,

    /** The density never turns back: it rises, or falls, all along, as the readings do on the whole. */
    MONOTONE,

    /**
     * As {@link #MONOTONE}, and the curve does not begin on the wrong side of base plus fog: the least exposure gives at
     * least the density of no exposure on a negative, at most that density on a reversal material. This puts the
     * base-plus-fog readings to use in the toe; they must be read as carefully as the steps, since their mean is taken as
     * exact; a strip with a step on the wrong side of it by more than four standard deviations, and more than 0.02, is
     * refused.
     */
    MONOTONE_FROM_BASE_PLUS_FOG
}
