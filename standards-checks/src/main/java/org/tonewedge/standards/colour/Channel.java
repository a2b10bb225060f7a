package org.tonewedge.standards.colour;

/** The filter a density was read through; status A or M is a matter of the whole strip. */
public enum Channel {
    /** Red light, which reads the cyan image. */
    RED,
    /** Green light, which reads the magenta image. */
    GREEN,
    /** Blue light, which reads the yellow image. */
    BLUE,
    /** The visual response, which reads neutral densities. */
    VISUAL
}
