// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/**
 * Strips of invented films read with noise, some with a step skipped or read twice: how often {@link StripCheck} names
 * it, and how often it accuses a good strip. The table of {@link StripCheck} is printed by
 *
 * <pre>{@code
 * mvn -q test-compile -pl core && java -cp core/target/classes:core/target/test-classes org.tonewedge.core.strip.StepShiftSimulation 2000
 * }</pre>
 */
final class StepShiftSimulation {

    /** Kinds of film. */
    enum Shape {
        FAMILY,
        NO_SHOULDER,
        TWO_LAYERS,
        UPSWEPT,
        STEEP;

        DoubleUnaryOperator film(Random random) {
            double base = between(0.1, 0.35, random);
            double toe = between(-2.3, -1.8, random);
            return switch (this) {
                case FAMILY ->
                    layer(
                            base,
                            between(0.45, 0.95, random),
                            toe,
                            between(0.1, 0.25, random),
                            between(-0.9, -0.4, random),
                            between(0.1, 0.2, random));
                case NO_SHOULDER ->
                    layer(base, between(0.45, 0.95, random), toe, between(0.1, 0.25, random), 2.5, 0.15);
                case TWO_LAYERS -> {
                    double middle = toe + between(0.8, 1.1, random);
                    DoubleUnaryOperator fast = layer(
                            base,
                            between(0.4, 0.7, random),
                            toe,
                            between(0.08, 0.2, random),
                            middle,
                            between(0.08, 0.2, random));
                    DoubleUnaryOperator slow = layer(
                            0,
                            between(0.6, 1.0, random),
                            middle + between(-0.1, 0.2, random),
                            between(0.08, 0.2, random),
                            between(-0.3, 0.1, random),
                            between(0.08, 0.2, random));
                    yield x -> fast.applyAsDouble(x) + slow.applyAsDouble(x);
                }
                case UPSWEPT -> {
                    double gradient = between(0.25, 0.45, random);
                    double sweep = between(0.12, 0.25, random);
                    double width = between(0.08, 0.3, random);
                    yield x -> base + (gradient + sweep * bend(x - toe, width)) * bend(x - toe, width);
                }
                case STEEP ->
                    layer(
                            base,
                            between(1.2, 2.2, random),
                            toe,
                            between(0.08, 0.2, random),
                            toe + between(0.8, 1.3, random),
                            between(0.08, 0.2, random));
            };
        }
    }

    /** What a reader does wrong. */
    enum Fault {
        NONE,
        SKIP,
        TWICE,
        DUST
    }

    /** Clear cases lie where density rises at least this share of the greatest rise from step to step. */
    private static final double MID_SCALE = 0.8;

    private final int steps;
    private final double spacing;
    private final double noise;

    StepShiftSimulation(int steps, double spacing, double noise) {
        this.steps = steps;
        this.spacing = spacing;
        this.noise = noise;
    }

    /** One strip: its densities, where the fault is, and the rise from step to step there. */
    record Case(Strip strip, int step, double rise) {}

    Case read(Shape shape, Fault fault, Random random) {
        DoubleUnaryOperator film = shape.film(random);
        double[] x = new double[steps + 1];
        double[] truth = new double[steps + 1];
        for (int i = 0; i <= steps; i++) {
            x[i] = -3.1 + i * spacing + 0.01 * Math.round(0.7 * random.nextGaussian());
            truth[i] = film.applyAsDouble(x[i]);
        }
        double greatest = 0;
        for (int i = 1; i < steps; i++) {
            greatest = Math.max(greatest, truth[i] - truth[i - 1]);
        }
        List<Integer> places = new ArrayList<>();
        for (int i = Math.max(4, steps / 4); i <= steps - Math.max(4, steps / 4); i++) {
            if (truth[i] - truth[i - 1] >= MID_SCALE * greatest) {
                places.add(i);
            }
        }
        int place = places.isEmpty() ? steps / 2 : places.get(random.nextInt(places.size()));
        Strip.Builder strip = Strip.builder("simulated").basePlusFog(truth[0]);
        for (int i = 0; i < steps; i++) {
            int read = i;
            if (i >= place) {
                read += fault == Fault.SKIP ? 1 : fault == Fault.TWICE ? -1 : 0;
            }
            double dust = fault == Fault.DUST && i == place ? between(0.05, 0.3, random) : 0;
            strip.reading(
                    LogExposure.ofLogLuxSeconds(x[i]),
                    Density.of(0.001 * Math.round(1000 * (truth[read] + dust + noise * random.nextGaussian()))));
        }
        return new Case(strip.build(), place, truth[place] - truth[place - 1]);
    }

    /** Whether the check names a skipped or doubled step at all. */
    static boolean accuses(Strip strip) {
        return StripCheck.withDefaults().check(strip).stream().anyMatch(StepShiftSimulation::isShift);
    }

    private static boolean isShift(StripFinding finding) {
        return finding.kind() == StripFinding.Kind.STEP_SKIPPED || finding.kind() == StripFinding.Kind.STEP_READ_TWICE;
    }

    /** Whether the check names the fault of a case within one step of its place. */
    static boolean names(Case read, Fault fault) {
        StripFinding.Kind kind =
                fault == Fault.SKIP ? StripFinding.Kind.STEP_SKIPPED : StripFinding.Kind.STEP_READ_TWICE;
        List<ExposedStep> steps = read.strip.steps();
        return StripCheck.withDefaults().check(read.strip).stream()
                .filter(finding -> finding.kind() == kind)
                .mapToDouble(finding -> finding.exposure().value())
                .anyMatch(x -> x >= steps.get(read.step - 1).exposure().value()
                        && x <= steps.get(read.step + 1).exposure().value());
    }

    /** A film with toe, straight line of a gradient and shoulder, against log H in lux seconds. */
    static DoubleUnaryOperator layer(
            double base, double gradient, double toe, double toeWidth, double shoulder, double shoulderWidth) {
        return x -> base + gradient * (bend(x - toe, toeWidth) - bend(x - shoulder, shoulderWidth));
    }

    /** A straight line through the origin that is bent to level below it, over a length of about the width. */
    private static double bend(double x, double width) {
        double z = x / width;
        return width * (Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z))));
    }

    static double between(double low, double high, Random random) {
        return low + (high - low) * random.nextDouble();
    }

    /**
     * Prints the table.
     *
     * @param arguments the number of strips of each film, tablet, noise and fault
     */
    public static void main(String... arguments) {
        int strips = Integer.parseInt(arguments[0]);
        double[] bounds = {0, 0.06, 0.08, 0.10, 0.12, 0.15, 9};
        Random random = new Random(20_260_419);
        for (int[] tablet : new int[][] {{11, 30}, {21, 15}, {31, 10}}) {
            for (double noise : new double[] {0.005, 0.01, 0.02}) {
                StepShiftSimulation simulation = new StepShiftSimulation(tablet[0], 0.01 * tablet[1], noise);
                System.out.printf(Locale.ROOT, "%d steps of %.2f, noise %.3f%n", tablet[0], 0.01 * tablet[1], noise);
                int[] named = new int[bounds.length - 1];
                int[] all = new int[bounds.length - 1];
                for (Shape shape : Shape.values()) {
                    int clean = 0;
                    int dusty = 0;
                    for (int i = 0; i < strips; i++) {
                        clean += accuses(simulation.read(shape, Fault.NONE, random).strip) ? 1 : 0;
                        dusty += accuses(simulation.read(shape, Fault.DUST, random).strip) ? 1 : 0;
                        Fault fault = i % 2 == 0 ? Fault.SKIP : Fault.TWICE;
                        Case read = simulation.read(shape, fault, random);
                        int bin = 0;
                        while (read.rise >= bounds[bin + 1]) {
                            bin++;
                        }
                        if (shape != Shape.STEEP) {
                            all[bin]++;
                            named[bin] += names(read, fault) ? 1 : 0;
                        }
                    }
                    System.out.printf(
                            Locale.ROOT,
                            "  %-11s accused of 1,000 good %.2f, of 1,000 dusty %.1f%n",
                            shape,
                            1000.0 * clean / strips,
                            1000.0 * dusty / strips);
                }
                for (int bin = 0; bin < all.length; bin++) {
                    if (all[bin] > 0) {
                        System.out.printf(
                                Locale.ROOT,
                                "  rise %.2f to %.2f: %.1f %% of %d named%n",
                                bounds[bin],
                                bounds[bin + 1],
                                100.0 * named[bin] / all[bin],
                                all[bin]);
                    }
                }
            }
        }
    }
}
