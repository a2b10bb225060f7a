// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import org.tonewedge.core.strip.Strip;

/** Figures of strips with the time and temperature at which they were developed. */
final class StripTimes {

    private StripTimes() {}

    static DevelopedFigure figure(Strip strip, double value) {
        Duration time = strip.processing()
                .time()
                .orElseThrow(() -> new DevelopmentException(
                        DevelopmentFailure.UNUSABLE_STRIPS,
                        strip + " has no time of development: state the minutes of each strip"));
        DevelopedFigure figure = DevelopedFigure.of("strip '" + strip.id() + "'", time, value);
        return strip.processing().temperature().map(figure::withTemperature).orElse(figure);
    }
}
