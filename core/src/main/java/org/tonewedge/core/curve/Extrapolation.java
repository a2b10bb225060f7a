package org.tonewedge.core.curve;

/** How a curve continues beyond the measured range, when the caller asks for it. */
public enum Extrapolation {

    /** As a straight line with the gradient at the end of the measured range. */
    STRAIGHT_LINE,

    /** By the curve's own formula; sensible for a fitted model, not for a piecewise cubic. */
    OWN_FORM
}
