package org.tonewedge.fitting.parametric;

/** A parameter of a {@link CurveFamily}. Positions are log<sub>10</sub> H on the axis of the curve. */
public enum CurveParameter {
    /** The density of the unexposed, processed material. Units: density. */
    BASE_PLUS_FOG("base plus fog"),
    /**
     * The slope of the straight line the curve tends to between toe and shoulder; a curve whose toe and shoulder run
     * together is nowhere as steep. Units: density per log unit.
     */
    GRADIENT("gradient"),
    /** Where the straight line meets base plus fog. Units: log units. */
    TOE_POSITION("toe position"),
    /** How gradual the toe is: at its position the slope is half the gradient, one softness on it is 73 %. Units: log units. */
    TOE_SOFTNESS("toe softness"),
    /** Where the straight line meets the maximum density. Units: log units. */
    SHOULDER_POSITION("shoulder position"),
    /** How gradual the shoulder is, as {@link #TOE_SOFTNESS}. Units: log units. */
    SHOULDER_SOFTNESS("shoulder softness"),
    /** The density at log exposure 0 on the axis of the curve, of a straight line. Units: density. */
    DENSITY_AT_ZERO("density at log exposure 0"),
    /** The density the shoulder tends to. Units: density. */
    MAXIMUM_DENSITY("maximum density"),
    /** From base plus fog to the density the curve tends to. Units: density. */
    DENSITY_RANGE("density range"),
    /** Where the argument z = (x − position)/width of a sigmoid is 0. Units: log units. */
    POSITION("position"),
    /** The unit of the argument z of a sigmoid. Units: log units. */
    WIDTH("width"),
    /** How unlike each other toe and shoulder of a sigmoid are; the family tells how. A plain number. */
    ASYMMETRY("asymmetry"),
    /** Hurter and Driffield's inertia: where the straight line meets base plus fog. Units: log units. */
    INERTIA("inertia"),
    /** Hurter and Driffield's opacity of the unexposed plate to the active light. A plain number above 1. */
    OPACITY("opacity");

    private final String label;

    CurveParameter(String label) {
        this.label = label;
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
