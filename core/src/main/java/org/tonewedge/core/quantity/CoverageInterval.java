// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * An interval that contains the true value with a stated confidence, such as 0.60 to 0.64 (95 %).
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param lower its lower end
 * @param upper its upper end, not below the lower
 * @param confidence the confidence, above 0 and below 1
 */
public record CoverageInterval(double lower, double upper, double confidence) implements Serializable {

    /**
     * Checks the numbers.
     *
     * @param lower its lower end
     * @param upper its upper end
     * @param confidence the confidence
     * @throws IllegalArgumentException if the upper end is below the lower, a number is NaN, or the confidence is not
     *     between 0 and 1
     */
    public CoverageInterval {
        if (!(lower <= upper)) {
            throw new IllegalArgumentException(
                    "the upper end of an interval must not be below its lower end, was " + upper + " with " + lower);
        }
        Checks.confidence(confidence);
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
     * Returns the width of the interval.
     *
     * @return upper − lower
     */
    public double width() {
        return upper - lower;
    }

    /**
     * Returns the interval in words.
     *
     * @return for example {@code 0.60 to 0.64 (95 %)}
     */
    @Override
    public String toString() {
        return Figures.plain(lower) + " to " + Figures.plain(upper) + " ("
                + Double.toString(Math.round(confidence * 1000) / 10.0).replaceFirst("\\.0$", "") + " %)";
    }
}
