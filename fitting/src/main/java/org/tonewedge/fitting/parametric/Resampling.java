package org.tonewedge.fitting.parametric;

/** How a {@link Bootstrap} makes new sets of readings. */
public enum Resampling {
    /** The fitted curve with new random errors of the fitted standard deviation. For a strip of a few dozen steps. */
    PARAMETRIC,
    /**
     * Readings drawn from those at hand, with replacement; exposed and unexposed ones apart. Makes no assumption on the
     * errors, but needs many readings: with a few dozen its intervals are too narrow more often than they say, and sets with
     * too few different exposures fail.
     */
    CASES
}
