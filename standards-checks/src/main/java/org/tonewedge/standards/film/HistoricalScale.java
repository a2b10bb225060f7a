// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.OptionalDouble;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * A historical scale of film speeds: how its numbers step and, if a source relates them to today's scale, an
 * approximate arithmetic speed.
 *
 * <p>The steps of a scale are exact. A conversion between scales is not: the scales measured different things at
 * different contrasts, so {@link #approximateArithmetic(double)} is good to a third of a stop at best.
 *
 * @source the steps: encyclopedia articles on film speed (verified, secondary); the source of each conversion is given
 * with its scale
 */
public enum HistoricalScale {
    /** DIN 4512: 20° for a factor of 100; its degrees are those of ISO (verified: a public table of equivalents). */
    DIN(OptionalDouble.of(Math.log10(100) / 20), OptionalDouble.of(1)),

    /** Scheiner, 1894: 19° for a factor of 100; no source for a conversion. */
    SCHEINER(OptionalDouble.of(Math.log10(100) / 19), OptionalDouble.empty()),

    /** British Standard, logarithmic: DIN + 10 (verified: an encyclopedia's article). */
    BRITISH_LOGARITHMIC(OptionalDouble.of(Math.log10(100) / 20), OptionalDouble.of(11)),

    /** Warnerke, 1880: each number is a third faster than the one before; no source for a conversion. */
    WARNERKE(OptionalDouble.of(Math.log10(4.0 / 3)), OptionalDouble.empty()),

    /** GOST before 1987, arithmetic: 0.9 for ASA 1 (90 for 100 and 180 for 200, from memory). */
    GOST(OptionalDouble.empty(), OptionalDouble.of(0.9));

    /**
     * The log units of speed from one number to the next; empty for a scale whose numbers are proportional to speed.
     */
    private final OptionalDouble logUnitsPerNumber;

    /** The number on this scale for an arithmetic speed of 1. */
    private final OptionalDouble numberOfSpeedOne;

    HistoricalScale(OptionalDouble logUnitsPerNumber, OptionalDouble numberOfSpeedOne) {
        this.logUnitsPerNumber = logUnitsPerNumber;
        this.numberOfSpeedOne = numberOfSpeedOne;
    }

    /**
     * Returns how much faster the second of two numbers of this scale is than the first.
     *
     * @param from the first number; above 0 on an arithmetic scale
     * @param to the second number; above 0 on an arithmetic scale
     * @return the interval, positive if the second is faster
     * @throws IllegalArgumentException if a number is not finite, or not above 0 on an arithmetic scale
     */
    public ExposureInterval difference(double from, double to) {
        if (logUnitsPerNumber.isEmpty()) {
            return ExposureInterval.ofRatio(number(to)).minus(ExposureInterval.ofRatio(number(from)));
        }
        return ExposureInterval.ofLogUnits((number(to) - number(from)) * logUnitsPerNumber.getAsDouble());
    }

    /**
     * Returns the approximate arithmetic speed for a number of this scale.
     *
     * @param number the number; above 0 on an arithmetic scale
     * @return the approximate speed; empty for a scale without a sourced conversion
     * @throws IllegalArgumentException if the number is not finite, or not above 0 on an arithmetic scale
     */
    public OptionalDouble approximateArithmetic(double number) {
        number(number);
        return numberOfSpeedOne.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        difference(numberOfSpeedOne.getAsDouble(), number).ratio());
    }

    private double number(double number) {
        String what = "number of the scale " + name();
        return logUnitsPerNumber.isEmpty() ? Checks.positive(what, number) : Checks.finite(what, number);
    }
}
