// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.IntFunction;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;

/**
 * Makes the demo readings of a development test: seven strips of an invented film in an invented developer, four times at
 * 20 °C and three at 24 °C. The densities come from a formula with seeded noise.
 */
public final class DemoDevelopment {

    private static final long SEED = 20_261_125;
    private static final double NOISE = 0.004;
    private static final double[][] MINUTES_AND_CELSIUS = {
        {5.5, 20}, {8.25, 20}, {12, 20}, {17, 20}, {4.5, 24}, {7, 24}, {11, 24}
    };

    private DemoDevelopment() {}

    /**
     * Returns the strips.
     *
     * @return seven strips
     */
    public static List<Strip> strips() {
        return strips(strip -> new Random(SEED + strip));
    }

    /** The strips with other noise: a generator for each. */
    static List<Strip> strips(IntFunction<Random> noise) {
        List<Strip> strips = new ArrayList<>();
        for (int i = 0; i < MINUTES_AND_CELSIUS.length; i++) {
            strips.add(strip("D" + (i + 1), MINUTES_AND_CELSIUS[i][0], MINUTES_AND_CELSIUS[i][1], noise.apply(i)));
        }
        return List.copyOf(strips);
    }

    private static Strip strip(String id, double minutes, double celsius, Random random) {
        // 1.95 times as fast for 10 K.
        double equivalent = minutes * Math.pow(1.95, (celsius - 20) / 10);
        double base = base(equivalent);
        Strip.Builder strip = Strip.builder(id)
                .film("Larkham Field 125")
                .boxSpeed(125)
                .processing(Processing.unknown()
                        .withDeveloper("pyrazolidone-ascorbate, demo batch 7, 1+2")
                        .withMinutes(minutes)
                        .withTemperature(Temperature.ofCelsius(celsius)));
        for (int i = 0; i < 3; i++) {
            strip.basePlusFog(reading(base, random));
        }
        for (int step = 0; step < 21; step++) {
            double exposure = Math.rint((-2.6 + 0.152 * step) * 1000) / 1000;
            double density = density(exposure, equivalent);
            strip.reading(LogExposure.ofLogLuxSeconds(exposure), Density.of(reading(density, random)));
        }
        return strip.build();
    }

    private static double base(double minutes) {
        return 0.23 + 0.022 * Math.log(minutes / 9);
    }

    /** Contrast nears a ceiling, speed and fog grow with the logarithm of time. */
    private static double density(double exposure, double minutes) {
        double growth = Math.log(minutes / 9);
        double gradient = -1.578 * Math.expm1(-0.06 * (minutes - 0.4));
        double beyondToe = exposure + 2.02 + 0.085 * growth;
        return base(minutes) + gradient * (ramp(beyondToe, 0.15) - ramp(beyondToe - 2.35 + 0.1 * growth, 0.28));
    }

    private static double ramp(double x, double softness) {
        return softness * Math.log1p(Math.exp(x / softness));
    }

    private static double reading(double density, Random random) {
        return Math.rint((density + NOISE * random.nextGaussian()) * 1000) / 1000;
    }

    /**
     * Writes the demo readings.
     *
     * @param args the file to write
     * @throws IOException if the file cannot be written
     */
    public static void main(String[] args) throws IOException {
        try (Writer writer = Files.newBufferedWriter(Path.of(args[0]), StandardCharsets.UTF_8)) {
            ReadingsTable.write(strips(), writer);
        }
    }
}
