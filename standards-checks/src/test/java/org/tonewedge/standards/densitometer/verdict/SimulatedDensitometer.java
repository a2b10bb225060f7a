// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/** A densitometer whose faults are known: it reads a tablet as often as it is told. */
final class SimulatedDensitometer {

    final Random random;
    DoubleUnaryOperator optics = density -> density;
    double noise = 0.002;
    double runNoise;
    double driftPerSecond;
    double driftPerKelvin;
    int decimals = 3;
    int runs = 3;
    int repeats = 3;

    SimulatedDensitometer(long seed) {
        random = new Random(seed);
    }

    static DoubleUnaryOperator leaking(double leak) {
        return density -> -Math.log10(Math.pow(10, -density) + leak);
    }

    List<LogReading> read(StepTablet tablet) {
        List<LogReading> readings = new ArrayList<>();
        double seconds = 0;
        for (int run = 0; run < runs; run++) {
            double shift = runNoise * random.nextGaussian();
            for (StepTablet.Step step : tablet.steps()) {
                for (int repeat = 0; repeat < repeats; repeat++) {
                    double celsius = 21 + 2 * Math.sin(seconds / 40);
                    double read = optics.applyAsDouble(step.density().value())
                            + shift
                            + driftPerSecond * seconds
                            + driftPerKelvin * (celsius - 21)
                            + noise * random.nextGaussian();
                    double unit = Math.pow(10, -decimals);
                    readings.add(LogReading.of(Density.of(Math.rint(read / unit) * unit), decimals)
                            .withStep(step.number())
                            .withRun("run " + run)
                            .withSeconds(seconds)
                            .withCelsius(celsius));
                    seconds += 5;
                }
            }
        }
        return readings;
    }

    DensitometerVerdict judge(StepTablet tablet) {
        return DensitometerCheck.withDefaults().judge(ReadingsSummary.of(tablet, read(tablet)));
    }

    /** A tablet whose true densities differ from the certificate by chance, as far as the certificate says. */
    StepTablet certified(StepTablet truth) {
        double[] densities = new double[truth.steps().size()];
        for (int i = 0; i < densities.length; i++) {
            StepTablet.Step step = truth.steps().get(i);
            densities[i] = step.density().value() + step.standardUncertainty() * random.nextGaussian();
        }
        return StepTablet.calibrated(truth.name(), truth.steps().get(0).standardUncertainty(), densities);
    }

    /** The same, all by the same chance. */
    StepTablet shifted(StepTablet truth) {
        double[] densities = new double[truth.steps().size()];
        double uncertainty = truth.steps().get(0).standardUncertainty();
        double shift = uncertainty * random.nextGaussian();
        Arrays.setAll(densities, i -> truth.steps().get(i).density().value() + shift);
        return StepTablet.calibrated(truth.name(), uncertainty, densities);
    }
}
