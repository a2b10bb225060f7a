package org.tonewedge.fitting.parametric;

import org.tonewedge.core.internal.Figures;

/**
 * An interval that contains the true figure with a stated confidence, such as 0.60 to 0.64 (95 %).
 *
 * @param lower its lower end
 * @param upper its upper end, not below the lower
 * @param confidence the confidence, above 0 and below 1
 */
public record Interval(double lower, double upper, double confidence) {

    /**
     * Checks the numbers.
     *
     * @param lower its lower end
     * @param upper its upper end
     * @param confidence the confidence
     * @throws IllegalArgumentException if the upper end is below the lower, a number is NaN, or the confidence is not
     *     between 0 and 1
     */
    public Interval {
        if (!(lower <= upper)) {
            throw new IllegalArgumentException(
                    "the upper end of an interval must not be below its lower, was " + upper + " with " + lower);
        }
        requireConfidence(confidence);
    }

    static double requireConfidence(double confidence) {
        if (!(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException(
                    "confidence must be above 0 and below 1, was " + confidence + ": give 0.95 for 95 %");
        }
        return confidence;
    }

    static Interval around(double value, double halfWidth, double confidence) {
        return new Interval(value - halfWidth, value + halfWidth, confidence);
    }

    /**
     * Tells whether a value lies in the interval.
     *
     * @param value the value
     * @return true if it lies inside or at an end
     */
    public boolean contains(double value) {
        return value >= lower && value <= upper;
    }

    /**
     * Returns the interval in words.
     *
     * @return for example {@code 0.60 to 0.64 (95 %)}
     */
    @Override
    public String toString() {
        return Figures.plain(lower) + " to " + Figures.plain(upper) + " (" + Math.round(confidence * 1000) / 10.0
                + " %)";
    }
}
