// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

/** A parameter of a {@link CurveFamily}. Positions are log<sub>10</sub> H on the axis of the curve. */
public enum CurveParameter {
    /** The density of the unexposed, processed material. Units: density. */
    BASE_PLUS_FOG("base plus fog", "density"),
    /**
     * The slope that the straight line between toe and shoulder tends to; if toe and shoulder run together, the curve
     * is nowhere this steep. Units: density per log unit.
     */
    GRADIENT("gradient", ""),
    /** The position where the straight line meets base plus fog. Units: log units. */
    TOE_POSITION("toe position", "log10"),
    /**
     * How gradual the toe is: at the toe position the slope is half the gradient; one softness further on it is 73 %.
     * Units: log units.
     */
    TOE_SOFTNESS("toe softness", "log10"),
    /** The position where the straight line meets the maximum density. Units: log units. */
    SHOULDER_POSITION("shoulder position", "log10"),
    /** How gradual the shoulder is, defined as for {@link #TOE_SOFTNESS}. Units: log units. */
    SHOULDER_SOFTNESS("shoulder softness", "log10"),
    /** The density of a straight line at log exposure 0 on the axis of the curve. Units: density. */
    DENSITY_AT_ZERO("density at log exposure 0", "density"),
    /** The density that the shoulder tends to. Units: density. */
    MAXIMUM_DENSITY("maximum density", "density"),
    /** The range from base plus fog to the density that the curve tends to. Units: density. */
    DENSITY_RANGE("density range", "density"),
    /** The position where the argument z = (x − position)/width of a sigmoid is 0. Units: log units. */
    POSITION("position", "log10"),
    /** The unit of the argument z of a sigmoid. Units: log units. */
    WIDTH("width", "log10"),
    /** How much toe and shoulder of a sigmoid differ; the family defines it. A plain number. */
    ASYMMETRY("asymmetry", ""),
    /** Hurter and Driffield's inertia: the position where the straight line meets base plus fog. Units: log units. */
    INERTIA("inertia", "log10"),
    /** Hurter and Driffield's opacity of the unexposed plate to actinic light. A plain number above 1. */
    OPACITY("opacity", "");

    private final String label;
    private final String unit;

    CurveParameter(String label, String unit) {
        this.label = label;
        this.unit = unit;
    }

    /**
     * Returns the unit of the parameter.
     *
     * @return {@code density}, {@code log10} for log units, or an empty text for a gradient and a plain number
     */
    public String unit() {
        return unit;
    }

    /**
     * Returns the parameter in words.
     *
     * @return for example {@code toe softness}
     */
    @Override
    public String toString() {
        return label;
    }
}
