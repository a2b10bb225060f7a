// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * How often a step that was skipped or read twice is named at its place, and how often sound logs are accused of it.
 * The tablet has 21 steps about 0.15 apart that depart from the certificate by its uncertainty; the fault is in one of
 * the runs, at a chance place with two shifted steps or more behind it. By {@link #main} with 500 logs of each kind, an
 * instrument that is right:
 *
 * <pre>
 * runs, readings a step   noise   skipped   twice     accused
 * 1, 1                    0.005   100 %     100 %     0
 *                         0.01    100       100       0
 *                         0.02     92.6      94.6     0
 *                         0.03     54.0      64.0     0
 * 1, 3                    0.02    100       100       0
 *                         0.03     98.4      98.0     0
 * 3, 1                    0.02     91.8      93.2     0
 *                         0.03     59.0      55.8     0
 * </pre>
 *
 * <p>At a noise of 0.02 and 0.03, single readings, one run or three: a leak of 2 · 10<sup>−4</sup>, 67 to 79 % and 20
 * to 33 % named, none of the sound logs accused; a bend of 0.04, 59 to 68 % and 13 to 23 % named, none and up to 0.6 %
 * accused. With 300 logs, a slope of 1.04 or an offset of 0.06: 85 to 89 % and 32 to 47 % named, none accused. Of three
 * readings a step, 97 % or more are named at 0.02 in each of these.
 *
 * <p>An evidence of 15 in place of 20 would name 98 and 81 % with a right instrument, 83 and 41 % with a bend, but
 * accuse up to 2 % of the sound logs of three runs with a bend at a noise of 0.03.
 *
 * <p>An instrument that reads no further than a density of 2.4 and one whose converter has 8 bits, at noises of 0.005 and
 * 0.02, in one run or three: none of 200 logs accused of each ({@code 200 CLIPPED}, {@code 200 EIGHT_BITS}).
 *
 * <p>The table was found before two places in one pass, and instruments that read no further, were looked for; 200 logs of each kind of it since gave the
 * same within chance. With 200 logs of single readings, two
 * places three steps or more apart are both named at noises of 0.005, 0.01 and 0.02: with a second skipped step in 100,
 * 100 and 87 %, with a skipped step undone by one read twice in 100, 100 and 95 %; with a bend in 100, 100 and 51 % and
 * in 99, 99 and 68 % ({@code 200 pairs}).
 *
 * <p>What is named beside a skipped step, of three readings a step, is what is named of the same instruments in order
 * ({@code 100 beside}).
 *
 * <pre>{@code
 * mvn -q test-compile -pl standards-checks -am
 * java -cp … org.tonewedge.standards.densitometer.verdict.ShiftedStepsSimulation 500 RIGHT
 * }</pre>
 */
final class ShiftedStepsSimulation {

    /** What an instrument makes of densities. */
    enum Optics {
        RIGHT,
        SLOPE,
        OFFSET,
        LEAK,
        BEND,
        GAIN,
        /** It reads no further than a density of 2.4. */
        CLIPPED,
        /** Its converter has so many bits, full with the open gate. */
        EIGHT_BITS,
        TEN_BITS;

        DoubleUnaryOperator response() {
            return switch (this) {
                case RIGHT -> density -> density;
                case SLOPE -> density -> 1.04 * density;
                case OFFSET -> density -> density + 0.06;
                case LEAK -> SimulatedDensitometer.leaking(2e-4);
                case BEND -> density -> density + 0.04 * Math.sin(2 * density);
                case GAIN -> density -> density + (density < 1.5 ? 0 : 0.08);
                case CLIPPED -> density -> Math.min(density, 2.4);
                case EIGHT_BITS -> density -> ofCounts(density, 255);
                case TEN_BITS -> density -> ofCounts(density, 1023);
            };
        }
    }

    private static double ofCounts(double density, int full) {
        return -Math.log10(Math.max(1, Math.rint(full * Math.pow(10, -density))) / full);
    }

    /** The order in which steps are read. */
    enum Fault {
        NONE,
        SKIPPED,
        TWICE,
        /** A step is skipped, and three steps or more later another. */
        SKIPPED_AGAIN,
        /** A step is skipped, and one is read twice three steps or more later. */
        UNDONE
    }

    private StepTablet truth = Logs.TABLET;

    private final int runs;
    private final int repeats;
    private final double noise;
    private final Optics optics;

    ShiftedStepsSimulation(int runs, int repeats, double noise, Optics optics) {
        this.runs = runs;
        this.repeats = repeats;
        this.noise = noise;
        this.optics = optics;
    }

    /** A log, and the numbers of the first step that is read as another and of the second such place, if there is one. */
    record Log(StepTablet tablet, List<LogReading> readings, int first, int second) {

        /** Faults by which the log is explained. */
        List<Finding> faults() {
            return DensitometerCheck.withDefaults().judge(ReadingsSummary.of(tablet, readings)).findings().stream()
                    .filter(found -> found.severity() == Severity.FAULT)
                    .toList();
        }

        boolean isAccused() {
            return faults().stream().anyMatch(found -> found.kind() == FindingKind.STEP_SKIPPED);
        }

        /** Named at its place. */
        boolean isNamed(Fault fault) {
            if (fault == Fault.SKIPPED_AGAIN || fault == Fault.UNDONE) {
                return faults().stream()
                        .filter(found -> found.kind() == FindingKind.STEP_SKIPPED)
                        .map(found -> found.step().orElse(0))
                        .toList()
                        .equals(List.of(first, second));
            }
            String words = fault == Fault.SKIPPED ? "as if one had been skipped" : "as if one had been read twice";
            return faults().stream()
                    .anyMatch(found -> found.kind() == FindingKind.STEP_SKIPPED
                            && found.message().contains(words)
                            && found.step().orElse(0) == first);
        }
    }

    Log read(Fault fault, Random random) {
        SimulatedDensitometer chance = new SimulatedDensitometer(random.nextLong());
        int size = truth.steps().size();
        boolean again = fault == Fault.SKIPPED_AGAIN || fault == Fault.UNDONE;
        int last = fault == Fault.SKIPPED ? size - 1 : fault == Fault.SKIPPED_AGAIN ? size - 2 : size;
        int first = 2 + random.nextInt(last - (again ? 6 : 2));
        int second = again ? first + 3 + random.nextInt(last - first - 3) : size + 1;
        int faulty = random.nextInt(runs);
        List<LogReading> readings = new ArrayList<>();
        for (int run = 0; run < runs; run++) {
            for (int step = 1; step <= size; step++) {
                int read = step;
                if (run == faulty && step >= first) {
                    read += fault == Fault.NONE ? 0 : fault == Fault.TWICE ? -1 : 1;
                }
                if (run == faulty && step >= second) {
                    read += fault == Fault.UNDONE ? -1 : 1;
                }
                for (int repeat = 0; repeat < repeats && read <= size; repeat++) {
                    double density = optics.response()
                                    .applyAsDouble(truth.steps()
                                            .get(read - 1)
                                            .density()
                                            .value())
                            + noise * random.nextGaussian();
                    readings.add(LogReading.of(Density.of(Math.rint(1000 * density) / 1000), 3)
                            .withStep(step)
                            .withRun("run " + run));
                }
            }
        }
        return new Log(chance.certified(truth), readings, first, second);
    }

    /** The same with a tablet of so many steps between the same densities. */
    ShiftedStepsSimulation withSteps(int steps) {
        double[] densities = new double[steps];
        double last = Logs.TABLET
                .steps()
                .get(Logs.TABLET.steps().size() - 1)
                .density()
                .value();
        Arrays.setAll(densities, i -> 0.05 + (last - 0.05) * i / (steps - 1));
        ShiftedStepsSimulation same = new ShiftedStepsSimulation(runs, repeats, noise, optics);
        same.truth = StepTablet.calibrated("of " + steps + " steps", 0.005, densities);
        return same;
    }

    /** Kinds of faults named beside a fault of the order, with their numbers, where it is named; that itself as well. */
    Map<FindingKind, Integer> beside(Fault fault, int cases, long seed) {
        Map<FindingKind, Integer> counts = new EnumMap<>(FindingKind.class);
        Random random = new Random(seed);
        for (int i = 0; i < cases; i++) {
            Log log = read(fault, random);
            if (fault == Fault.NONE || log.isNamed(fault)) {
                log.faults().stream()
                        .map(Finding::kind)
                        .distinct()
                        .forEach(kind -> counts.merge(kind, 1, Integer::sum));
            }
        }
        return counts;
    }

    /** The share named at its place, of the steps skipped, of those read twice, and of sound logs accused. */
    double[] shares(int cases, long seed) {
        return new double[] {
            share(Fault.SKIPPED, cases, seed + 1), share(Fault.TWICE, cases, seed + 2), share(Fault.NONE, cases, seed)
        };
    }

    double share(Fault fault, int cases, long seed) {
        Random random = new Random(seed);
        int hits = 0;
        for (int i = 0; i < cases; i++) {
            Log log = read(fault, random);
            hits += (fault == Fault.NONE ? log.isAccused() : log.isNamed(fault)) ? 1 : 0;
        }
        return hits / (double) cases;
    }

    private static void printBeside(int cases) {
        for (int steps : new int[] {9, 21}) {
            for (double noise : new double[] {0.01, 0.02, 0.03}) {
                for (Optics optics : Optics.values()) {
                    for (Fault fault : List.of(Fault.NONE, Fault.SKIPPED, Fault.TWICE)) {
                        ShiftedStepsSimulation simulation =
                                new ShiftedStepsSimulation(1, 3, noise, optics).withSteps(steps);
                        System.out.printf(
                                Locale.ROOT,
                                "%2d %.2f %-7s %-7s %s%n",
                                steps,
                                noise,
                                optics,
                                fault,
                                simulation.beside(fault, cases, 100));
                    }
                }
            }
        }
    }

    /**
     * Prints the table; the arguments are the number of logs of each kind and, if wanted, one kind of instrument, {@code
     * pairs} or {@code beside}.
     */
    public static void main(String[] args) {
        int cases = args.length > 0 ? Integer.parseInt(args[0]) : 200;
        if (args.length > 1 && args[1].equals("pairs")) {
            for (Optics optics : List.of(Optics.RIGHT, Optics.BEND)) {
                for (double noise : new double[] {0.005, 0.01, 0.02}) {
                    ShiftedStepsSimulation simulation = new ShiftedStepsSimulation(1, 1, noise, optics);
                    System.out.printf(
                            Locale.ROOT,
                            "%-7s %.3f  %5.1f  %5.1f%n",
                            optics,
                            noise,
                            100 * simulation.share(Fault.SKIPPED_AGAIN, cases, 100),
                            100 * simulation.share(Fault.UNDONE, cases, 101));
                }
            }
            return;
        }
        if (args.length > 1 && args[1].equals("beside")) {
            printBeside(cases);
            return;
        }
        System.out.println("optics  runs repeats noise  skipped  twice  accused");
        for (Optics optics : args.length > 1 ? new Optics[] {Optics.valueOf(args[1])} : Optics.values()) {
            for (int[] design : new int[][] {{1, 1}, {1, 3}, {3, 1}, {3, 3}}) {
                for (double noise : new double[] {0.005, 0.01, 0.02, 0.03}) {
                    double[] shares =
                            new ShiftedStepsSimulation(design[0], design[1], noise, optics).shares(cases, 100);
                    System.out.printf(
                            Locale.ROOT,
                            "%-7s %d    %d       %.3f  %5.1f    %5.1f  %5.2f%n",
                            optics,
                            design[0],
                            design[1],
                            noise,
                            100 * shares[0],
                            100 * shares[1],
                            100 * shares[2]);
                }
            }
        }
    }
}
