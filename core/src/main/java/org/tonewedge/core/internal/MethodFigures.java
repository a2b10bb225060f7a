// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

/**
 * Numbers of published methods that more than one module reads, each with its source. This is their one home; the methods
 * publish them as typed constants.
 */
public final class MethodFigures {

    /** ISO 6:1993: density of the speed point above base plus fog (verified in a secondary text). */
    public static final double SPEED_POINT = 0.10;

    /** ISO 6:1993: log exposure from the speed point to the contrast point (verified in a secondary text). */
    public static final double CONTRAST_SPAN = 1.30;

    /** ISO 6:1993: rise of density over the contrast span (verified in a secondary text). */
    public static final double CONTRAST = 0.80;

    /** ISO 6:1993: how far the rise may lie from {@link #CONTRAST} (from memory). */
    public static final double CONTRAST_TOLERANCE = 0.05;

    /** ISO 6:1993: S = 0.8 / H<sub>m</sub>, H<sub>m</sub> in lux seconds (the constant from memory). */
    public static final double SPEED_CONSTANT = 0.8;

    /** Average gradient: log exposure of the chord from the speed point (common practice, no source). */
    public static final double AVERAGE_GRADIENT_SPAN = 1.50;

    private MethodFigures() {}
}
