// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Temperature;

class DevelopmentProperties {

    private static final double NANOS = 1e-9 / 60;

    @Property(tries = 300, seed = "1")
    void thereAndBackIsIdentity(
            @ForAll @DoubleRange(min = 1, max = 60) double minutes,
            @ForAll @DoubleRange(min = 15, max = 40) double from,
            @ForAll @DoubleRange(min = 15, max = 40) double to,
            @ForAll @DoubleRange(min = 10, max = 90) double energy) {
        TemperatureLaw law = TemperatureLaw.ofActivationEnergy(energy);
        Temperature a = Temperature.ofCelsius(from);
        Temperature b = Temperature.ofCelsius(to);
        Duration time = DevelopmentTimes.ofMinutes(minutes);
        Duration back = law.equivalentTime(law.equivalentTime(time, a, b), b, a);
        // Each way is rounded to a nanosecond; the way back may stretch the first rounding.
        assertEquals(
                DevelopmentTimes.minutes(time),
                DevelopmentTimes.minutes(back),
                NANOS * (1 + law.rateRatio(a, b)) + 1e-13 * minutes);
    }

    @Property(tries = 300, seed = "1")
    void equivalentTimesCompose(
            @ForAll @DoubleRange(min = 15, max = 40) double a,
            @ForAll @DoubleRange(min = 15, max = 40) double b,
            @ForAll @DoubleRange(min = 15, max = 40) double c,
            @ForAll @DoubleRange(min = 1, max = 4) double coefficient) {
        TemperatureLaw law = TemperatureLaw.ofCoefficient(coefficient, 10);
        Temperature first = Temperature.ofCelsius(a);
        Temperature second = Temperature.ofCelsius(b);
        Temperature third = Temperature.ofCelsius(c);
        assertEquals(
                law.rateRatio(first, third),
                law.rateRatio(first, second) * law.rateRatio(second, third),
                1e-12 * law.rateRatio(first, third));
    }

    @Property(tries = 100, seed = "1")
    void moreTimeIsNeverLessContrast(
            @ForAll @DoubleRange(min = 0.2, max = 0.6) double first,
            @ForAll @DoubleRange(min = 0.01, max = 0.3) double more,
            @ForAll @DoubleRange(min = 0.01, max = 0.3) double stillMore) {
        List<DevelopedFigure> points =
                List.of(point("S1", 5, first), point("S2", 8, first + more), point("S3", 13, first + more + stillMore));
        for (ContrastFit fit : ContrastFitting.withDefaults().choose(points).fits()) {
            double before = 0;
            for (double minutes = 5; minutes <= 13; minutes += 0.25) {
                double contrast =
                        fit.contrastAfter(DevelopmentTimes.ofMinutes(minutes)).value();
                assertTrue(contrast >= before, () -> fit.toString());
                before = contrast;
            }
        }
    }

    private static DevelopedFigure point(String name, double minutes, double contrast) {
        return DevelopedFigure.of(name, DevelopmentTimes.ofMinutes(minutes), contrast);
    }
}
