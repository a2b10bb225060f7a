// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

/** What is known about the shape of a smoothing spline, besides that it is smooth. */
public enum SplineShape {

    /** Nothing: the curve may turn where the readings do. */
    FREE,

    /** The density never turns back: it rises or falls all along, as the readings do on the whole. */
    MONOTONE,

    /**
     * As {@link #MONOTONE}; in addition the curve does not begin on the wrong side of base plus fog. At the least
     * exposure a negative has at least the density of no exposure, a reversal material at most that density. This puts
     * the base-plus-fog readings to use in the toe. Read them as carefully as the steps, because their mean is taken as
     * exact: a strip with a step on the wrong side of it by more than four standard deviations, and more than 0.02, is
     * refused.
     */
    MONOTONE_FROM_BASE_PLUS_FOG
}
