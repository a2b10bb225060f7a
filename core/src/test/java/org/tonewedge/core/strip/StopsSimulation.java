// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.tonewedge.core.strip.StepShiftSimulation.between;

import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/**
 * Strips of invented films in whole, half and third units: how often {@link StripCheck} takes right logarithms for
 * stops, and how often it finds stops that were entered as logarithms. The table of {@link StripCheck} is printed by
 *
 * <pre>{@code
 * mvn -q test-compile -pl core && java -cp core/target/classes:core/target/test-classes org.tonewedge.core.strip.StopsSimulation 2000
 * }</pre>
 */
final class StopsSimulation {

    private static final double[] GRADIENTS = {0.20, 0.25, 0.30, 0.33, 0.36, 0.40, 0.45, 0.60, 0.90, 1.10, 1.20, 1.30};
    private static final double FIRST = -3.1;
    /** The exposures of a strip reach over this many log units; a strip has at least five steps. */
    private static final double RANGE = 3;

    private final double unit;
    private final boolean inStops;
    private final double noise;

    /** Strips whose steps are entered a unit apart, which are logarithms or stops. */
    StopsSimulation(double unit, boolean inStops, double noise) {
        this.unit = unit;
        this.inStops = inStops;
        this.noise = noise;
    }

    /** Reads a film of a gradient of its straight line. */
    Strip read(double gradient, Random random) {
        DoubleUnaryOperator film = StepShiftSimulation.layer(
                between(0.1, 0.35, random),
                gradient,
                between(-2.3, -1.8, random),
                between(0.1, 0.25, random),
                random.nextBoolean() ? 2.5 : between(-0.9, -0.4, random),
                between(0.1, 0.2, random));
        double apart = inStops ? unit * Math.log10(2) : unit;
        long steps = Math.max(5, 1 + Math.round(RANGE / apart));
        Strip.Builder strip = Strip.builder("simulated").basePlusFog(film.applyAsDouble(-9));
        for (int i = 0; i < steps; i++) {
            double density = film.applyAsDouble(FIRST + i * apart) + noise * random.nextGaussian();
            strip.reading(
                    LogExposure.ofLogLuxSeconds(0.01 * Math.round(100 * (FIRST + i * unit))),
                    Density.of(0.001 * Math.round(1000 * density)));
        }
        return strip.build();
    }

    /** The share of so many strips, of gradients between two, that the check takes for stops. */
    double suspected(double low, double high, int strips, Random random) {
        int count = 0;
        for (int i = 0; i < strips; i++) {
            count += StripCheck.withDefaults().check(read(between(low, high, random), random)).stream()
                            .anyMatch(finding -> finding.kind() == StripFinding.Kind.EXPOSURES_IN_STOPS)
                    ? 1
                    : 0;
        }
        return (double) count / strips;
    }

    /**
     * Prints the table.
     *
     * @param arguments the number of strips of each unit, noise and range of gradient
     */
    public static void main(String... arguments) {
        int strips = Integer.parseInt(arguments[0]);
        Random random = new Random(20_260_611);
        for (boolean inStops : new boolean[] {false, true}) {
            for (double noise : new double[] {0.005, 0.01, 0.02}) {
                System.out.printf(
                        Locale.ROOT,
                        "%s, noise %.3f: percent taken for stops; units whole, half, third%n",
                        inStops ? "stops" : "logarithms",
                        noise);
                for (int i = 1; i < GRADIENTS.length; i++) {
                    System.out.printf(Locale.ROOT, "  gradient %.2f to %.2f:", GRADIENTS[i - 1], GRADIENTS[i]);
                    for (double unit : new double[] {1, 1 / 2.0, 1 / 3.0}) {
                        System.out.printf(
                                Locale.ROOT,
                                " %5.1f",
                                100
                                        * new StopsSimulation(unit, inStops, noise)
                                                .suspected(GRADIENTS[i - 1], GRADIENTS[i], strips, random));
                    }
                    System.out.println();
                }
            }
        }
    }
}
