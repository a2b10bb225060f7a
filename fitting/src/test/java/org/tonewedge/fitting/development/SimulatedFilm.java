// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;

/**
 * An invented film whose truth is known: gradient 0.95 (1 − exp(−0.16 τ)), base plus fog 0.20 + 0.03 ln(τ/8), toe at −2.10
 * − 0.09 ln(τ/8), τ the minutes at 20 °C, rate with an activation energy of 55 kJ/mol.
 */
final class SimulatedFilm {

    static final double CEILING = 0.95;
    static final double RATE = 0.16;
    static final TemperatureLaw LAW = TemperatureLaw.ofActivationEnergy(55);
    static final Temperature TWENTY = Temperature.ofCelsius(20);

    private SimulatedFilm() {}

    static double equivalentMinutes(double minutes, double celsius) {
        return minutes * LAW.rateRatio(TWENTY, Temperature.ofCelsius(celsius));
    }

    static ParametricForm form(double equivalentMinutes) {
        double z = Math.log(equivalentMinutes / 8);
        return CurveFamily.TOE_SHOULDER.form(
                base(equivalentMinutes),
                -CEILING * Math.expm1(-RATE * equivalentMinutes),
                -2.10 - 0.09 * z,
                0.16,
                0.50 - 0.09 * z,
                0.25);
    }

    static double base(double equivalentMinutes) {
        return 0.20 + 0.03 * Math.log(equivalentMinutes / 8);
    }

    /** 21 steps 0.15 apart and three readings of base plus fog. */
    static Strip strip(String id, double minutes, double celsius, double noise, Random random) {
        return strip(id, minutes, celsius, equivalentMinutes(minutes, celsius), noise, random);
    }

    /** A strip that came out as after another time, by which its gradient is off by a normal error of a relative size. */
    static Strip scattered(String id, double minutes, double scatter, double noise, Random random) {
        double growth = RATE * minutes / Math.expm1(RATE * minutes);
        double actual = minutes * Math.exp(scatter * random.nextGaussian() / growth);
        return strip(id, minutes, 20, actual, noise, random);
    }

    /** A strip with more steps at the dense end, for subjects of a long range. */
    static Strip longStrip(String id, double minutes, double noise, Random random) {
        return strip(id, minutes, 20, minutes, 28, noise, random);
    }

    private static Strip strip(
            String id, double minutes, double celsius, double equivalent, double noise, Random random) {
        return strip(id, minutes, celsius, equivalent, 21, noise, random);
    }

    private static Strip strip(
            String id, double minutes, double celsius, double equivalent, int steps, double noise, Random random) {
        return strip(id, minutes, celsius, form(equivalent), base(equivalent), steps, noise, random);
    }

    /** A strip of any curve, as developed for a time at a temperature. */
    static Strip strip(
            String id,
            double minutes,
            double celsius,
            CurveForm form,
            double base,
            int steps,
            double noise,
            Random random) {
        Strip.Builder strip = Strip.builder(id)
                .film("Simulated 100")
                .processing(Processing.unknown()
                        .withTime(Duration.ofMillis(Math.round(minutes * 60_000)))
                        .withTemperature(Temperature.ofCelsius(celsius)));
        for (int i = 0; i < 3; i++) {
            strip.basePlusFog(base + noise * random.nextGaussian());
        }
        for (int i = 0; i < steps; i++) {
            double x = -3.0 + 0.15 * i;
            strip.reading(LogExposure.ofLogLuxSeconds(x), Density.of(form.density(x) + noise * random.nextGaussian()));
        }
        return strip.build();
    }

    /** The standard deviation of a sample. */
    static double standardDeviation(double... values) {
        double mean = Arrays.stream(values).average().orElseThrow();
        return Math.sqrt(Arrays.stream(values)
                        .map(value -> (value - mean) * (value - mean))
                        .sum()
                / (values.length - 1));
    }
}
