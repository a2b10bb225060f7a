// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.List;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Temperature;

/**
 * The times and temperatures of strips, with a check at their limits. Times are in minutes at the reference
 * temperature; law and reference are null if temperature plays no part or is not known.
 */
record TestedRange(
        List<DevelopedFigure> figures, TemperatureLaw law, Temperature reference, double shortest, double longest) {

    /** How far rounding may move an answer out of the range. */
    private static final double ROUNDING = 1e-9;

    /** The temperature meant by a question that may name none. */
    Temperature temperatureOf(Temperature asked) {
        List<Temperature> tested = ResponseFit.temperatures(figures);
        if (asked == null) {
            if (tested.size() > 1) {
                throw new DevelopmentException(
                        DevelopmentFailure.TEMPERATURE_UNKNOWN,
                        "strips were developed at " + inWords(tested) + ": say for which temperature");
            }
            return reference;
        }
        if (tested.isEmpty()) {
            throw new DevelopmentException(
                    DevelopmentFailure.TEMPERATURE_UNKNOWN,
                    "the temperature of the strips is not known, so nothing can be said for "
                            + DevelopmentTimes.inWords(asked) + ": state the temperature of each strip");
        }
        return asked;
    }

    private static String inWords(List<Temperature> temperatures) {
        return String.join(
                ", ", temperatures.stream().map(DevelopmentTimes::inWords).toList());
    }

    /** Whether a temperature was tested; refused if it was not and that was not allowed. */
    Scope scopeOf(Temperature at, BeyondTested beyond) {
        List<Temperature> tested = ResponseFit.temperatures(figures);
        if (at == null
                || tested.isEmpty()
                || (at.celsius() >= tested.get(0).celsius() - ROUNDING
                        && at.celsius() <= tested.get(tested.size() - 1).celsius() + ROUNDING)) {
            return Scope.TESTED;
        }
        if (beyond == BeyondTested.REFUSE || law == null) {
            throw new DevelopmentException(
                    DevelopmentFailure.OUTSIDE_TESTED_TEMPERATURES,
                    DevelopmentTimes.inWords(at) + " is outside the tested temperatures, " + inWords(tested)
                            + ": develop strips there"
                            + (law == null ? ", or state a temperature law" : ", or ask for an extrapolation"));
        }
        return Scope.EXTRAPOLATED;
    }

    /** Whether a time in minutes at the reference temperature was tested; development there is faster by the factor. */
    Scope scopeOf(double minutes, double factor, Temperature at, BeyondTested beyond, String question) {
        if (contains(minutes)) {
            return Scope.TESTED;
        }
        if (beyond == BeyondTested.REFUSE) {
            throw new DevelopmentException(
                    DevelopmentFailure.OUTSIDE_TESTED_TIMES,
                    question + inWords(minutes / factor)
                            + (at == null ? "" : " at " + DevelopmentTimes.inWords(at))
                            + " is outside the tested times, equivalent to "
                            + inWords(shortest / factor) + " to " + inWords(longest / factor)
                            + (at == null ? "" : " there")
                            + ": develop a strip for it, or ask for an extrapolation");
        }
        return Scope.EXTRAPOLATED;
    }

    private static String inWords(double minutes) {
        return DevelopmentTimes.inWords(DevelopmentTimes.ofMinutes(minutes));
    }

    boolean contains(double minutes) {
        return minutes >= shortest * (1 - ROUNDING) && minutes <= longest * (1 + ROUNDING);
    }
}
