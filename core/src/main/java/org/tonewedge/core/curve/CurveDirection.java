package org.tonewedge.core.curve;

/** Whether the density of a material rises or falls with exposure, taken over the whole curve. */
public enum CurveDirection {

    /** More exposure, more density: a negative film, a paper. */
    RISING,

    /** More exposure, less density: a reversal material. */
    FALLING
}
