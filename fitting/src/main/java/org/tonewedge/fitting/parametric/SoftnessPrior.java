package org.tonewedge.fitting.parametric;

/**
 * Whether the softness of a toe or a shoulder may be held near a usual one where the readings all but leave it open:
 * near 0.2 log units, within a factor of e (one standard deviation). Common practice, no source.
 */
public enum SoftnessPrior {
    /**
     * Used where the standard error of a softness is more than its own size, or the plain search does not end. Exact
     * readings are never moved: the prior counts as one reading of the residual variance.
     */
    WHERE_NEEDED,
    /** Never used. */
    OFF
}
