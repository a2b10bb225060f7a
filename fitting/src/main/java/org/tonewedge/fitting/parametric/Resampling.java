package org.tonewedge.fitting.parametric;

/** How a {@link Bootstrap} makes new sets of readings. */
public enum Resampling {
    /** The fitted curve with new random errors of the fitted standard deviation. */
    PARAMETRIC,
    /**
     * Readings drawn from those at hand, with replacement; exposed and unexposed ones apart. Makes no assumption on the
     * errors, but needs many readings: sets with too few different exposures fail.
     */
    CASES
}
