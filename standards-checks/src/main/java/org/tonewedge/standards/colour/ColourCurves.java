// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.colour;

import org.tonewedge.core.curve.CharacteristicCurve;

/**
 * The curves of one strip of colour film through red, green and blue filters, on one exposure axis.
 *
 * @param red the curve through the red filter
 * @param green the curve through the green filter
 * @param blue the curve through the blue filter
 */
public record ColourCurves(CharacteristicCurve red, CharacteristicCurve green, CharacteristicCurve blue) {

    /**
     * Checks that the curves share one axis.
     *
     * @param red the curve through the red filter
     * @param green the curve through the green filter
     * @param blue the curve through the blue filter
     * @throws IllegalArgumentException if the curves are on different exposure axes
     */
    public ColourCurves {
        green.axis().requireSame(red.axis(), "put the red and the green curve of one film together");
        green.axis().requireSame(blue.axis(), "put the blue and the green curve of one film together");
    }

    /**
     * Returns the curve of a channel.
     *
     * @param channel red, green or blue
     * @return its curve
     * @throws IllegalArgumentException if the channel is not one of the three
     */
    public CharacteristicCurve curve(Channel channel) {
        return switch (channel) {
            case RED -> red;
            case GREEN -> green;
            case BLUE -> blue;
            case VISUAL ->
                throw new IllegalArgumentException("a colour film has red, green and blue curves, not " + channel);
        };
    }
}
