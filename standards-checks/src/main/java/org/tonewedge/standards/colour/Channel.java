// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.colour;

/** The filter through which a density was read; whether it is status A or M is stated for the whole strip. */
public enum Channel {
    /** Red light, which measures the cyan image. */
    RED,
    /** Green light, which measures the magenta image. */
    GREEN,
    /** Blue light, which measures the yellow image. */
    BLUE,
    /** The visual response, which measures neutral densities. */
    VISUAL
}
