// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Color;

/**
 * How a line is drawn.
 *
 * @param colour its colour
 * @param width its width
 * @param dash the length of dashes and, by a factor of 0.6, of the gaps; 0 for a solid line
 */
public record Line(Color colour, double width, double dash) {

    /** The gap between dashes as a part of their length. */
    static final double GAP = 0.6;

    /**
     * Returns a solid line.
     *
     * @param colour its colour
     * @param width its width
     * @return the line
     */
    public static Line solid(Color colour, double width) {
        return new Line(colour, width, 0);
    }

    /**
     * Returns a dashed line.
     *
     * @param colour its colour
     * @param width its width
     * @return the line
     */
    public static Line dashed(Color colour, double width) {
        return new Line(colour, width, 6.5);
    }
}
