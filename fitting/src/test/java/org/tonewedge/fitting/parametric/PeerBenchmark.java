// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.fitting.numeric.Distributions;

/**
 * The 1,000 simulated strips, each timed by itself and with the covariance of its six parameters: this library beside
 * Commons Math, and beside MINPACK in C and SciPy where a compiler with the library cminpack, and Python with SciPy, are
 * found. Then the time of a fresh process that fits one strip, beside SciPy and R. All start from the same place and have analytic derivatives; Commons Math is also given a plainer start.
 *
 * <p>Run with {@code -Dbenchmark.main=org.tonewedge.fitting.parametric.PeerBenchmark} as the other benchmarks are.
 */
@SuppressWarnings({"exports", "missing-explicit-ctor"}) // compiled with the module, never part of it
public final class PeerBenchmark {

    private static final int WARMUP = 40;
    private static final int PASSES = 15;
    private static final double NEAR_BEST = 1.001;
    private static final String WHOLE_FAMILY = "this library, whole family, no prior";

    private PeerBenchmark() {}

    /** What one fitter did with each strip: the time in microseconds and the residual sum of squares. */
    private static final class Outcome {

        private final double[] microseconds;
        private final double[] sums;

        Outcome(int strips) {
            microseconds = new double[strips];
            sums = new double[strips];
        }
    }

    /**
     * Runs all peers that are found and prints a table.
     *
     * @param arguments none
     * @throws IOException if a file cannot be read or written
     * @throws InterruptedException if a peer is interrupted
     */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        List<SimulatedStrip> strips = SimulatedStrip.read();
        CurveFit plain = CurveFit.of(CurveFamily.TOE_SHOULDER).withWholeFamily().withoutSoftnessPrior();
        CurveFit usual = CurveFit.of(CurveFamily.TOE_SHOULDER);
        Map<String, ToDoubleFunction<SimulatedStrip>> fitters = new LinkedHashMap<>();
        fitters.put("this library", strip -> sumOrNothing(usual, strip));
        fitters.put(WHOLE_FAMILY, strip -> sumOrNothing(plain, strip));
        fitters.put(
                "Commons Math",
                strip -> CommonsMathPeer.sumOrNothing(strip.x, strip.d, CommonsMathPeer.start(strip.x, strip.d)));
        fitters.put(
                "Commons Math, plainer start",
                strip -> CommonsMathPeer.sumOrNothing(strip.x, strip.d, CommonsMathPeer.plainStart(strip.x, strip.d)));
        Map<String, Outcome> outcomes = timed(fitters, strips);
        // A fit refused because a softness ran to the end of its range has found the least sum of squares all the same.
        Arrays.setAll(outcomes.get(WHOLE_FAMILY).sums, i -> strips.get(i).plainSum());
        Path folder = Files.createTempDirectory("peers");
        Path input = folder.resolve("strips.txt");
        write(strips, input);
        Path source = extracted("peer-minpack.c", folder);
        Path program = folder.resolve("peer-minpack");
        if (run(null, "cc", "-O2", source.toString(), "-o", program.toString(), "-lcminpack", "-lm")) {
            addPeer(outcomes, "MINPACK in C", strips.size(), folder, program.toString(), input.toString());
        }
        String script = extracted("peer-scipy.py", folder).toString();
        addPeer(outcomes, "SciPy", strips.size(), folder, "python3", script, input.toString());
        print(outcomes, strips.size());
        printFreshProcesses(folder, script);
    }

    /** From the start of a process to the speed point of one strip. */
    public static final class OneStrip {

        private OneStrip() {}

        /**
         * Fits the strip and prints its speed point.
         *
         * @param arguments none
         */
        public static void main(String[] arguments) {
            CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER);
            System.out.println(TestStrips.speedPoint(fit.fit(TestStrips.s07()).curve()));
        }
    }

    private static void printFreshProcesses(Path folder, String script) throws IOException, InterruptedException {
        double[] x = TestStrips.EXPOSURES;
        double[] d = TestStrips.DENSITIES;
        double[] start = CommonsMathPeer.start(x, d);
        Path input = folder.resolve("strip.txt");
        Files.writeString(input, line(start, x, d));
        String inR = "x <- c(" + joined(x, ",") + "); d <- c(" + joined(d, ",") + "); p <- c(" + joined(start, ",")
                + "); r <- function(z) pmax(z, 0) + log1p(exp(-abs(z)));"
                + "f <- nls(d ~ b + g * (s * r((x - t) / s) - u * r((x - v) / u)),"
                + "start = list(b = p[1], g = p[2], t = p[3], s = p[4], v = p[5], u = p[6])); print(coef(f))";
        System.out.printf("%nmilliseconds of a fresh process that fits one strip%n");
        printFreshProcess(
                "this library",
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                OneStrip.class.getName());
        printFreshProcess("SciPy", "python3", script, input.toString());
        printFreshProcess("R", "Rscript", "-e", inR);
    }

    private static void printFreshProcess(String name, String... command) throws IOException, InterruptedException {
        double[] times = new double[PASSES];
        for (int pass = 0; pass < PASSES; pass++) {
            long before = System.nanoTime();
            if (!run(null, command)) {
                System.out.println(name + " was not found");
                return;
            }
            times[pass] = 1e-6 * (System.nanoTime() - before);
        }
        System.out.printf(Locale.ROOT, "%-36s %10.0f%n", name, Distributions.ofSample(times, 0.5));
    }

    private static String line(double[] start, double[] x, double[] d) {
        return x.length + " " + joined(start, " ") + " " + joined(x, " ") + " " + joined(d, " ");
    }

    private static String joined(double[] numbers, String separator) {
        return DoubleStream.of(numbers).mapToObj(Double::toString).collect(Collectors.joining(separator));
    }

    private static double sumOrNothing(CurveFit settings, SimulatedStrip strip) {
        try {
            return settings.fit("S", ExposureAxis.LUX_SECONDS, strip.x, strip.d)
                    .shapeFit()
                    .sumOfSquares();
        } catch (CurveFitException e) {
            return Double.POSITIVE_INFINITY;
        }
    }

    /** All fitters in turn, pass after pass, so that what the machine does meanwhile troubles all alike. */
    private static Map<String, Outcome> timed(
            Map<String, ToDoubleFunction<SimulatedStrip>> fitters, List<SimulatedStrip> strips) {
        Map<String, Outcome> outcomes = new LinkedHashMap<>();
        Map<String, double[][]> times = new LinkedHashMap<>();
        fitters.forEach((name, fitter) -> {
            outcomes.put(name, new Outcome(strips.size()));
            times.put(name, new double[strips.size()][PASSES]);
        });
        for (int pass = -WARMUP; pass < PASSES; pass++) {
            int column = Math.max(0, pass);
            fitters.forEach((name, fitter) -> {
                Outcome outcome = outcomes.get(name);
                for (int i = 0; i < strips.size(); i++) {
                    long before = System.nanoTime();
                    outcome.sums[i] = fitter.applyAsDouble(strips.get(i));
                    times.get(name)[i][column] = 1e-3 * (System.nanoTime() - before);
                }
            });
        }
        outcomes.forEach((name, outcome) ->
                Arrays.setAll(outcome.microseconds, i -> Distributions.ofSample(times.get(name)[i], 0.5)));
        return outcomes;
    }

    /** A line for each strip: the number of steps, the start, the log exposures, the densities. */
    private static void write(List<SimulatedStrip> strips, Path file) throws IOException {
        List<String> lines = new ArrayList<>();
        for (SimulatedStrip strip : strips) {
            lines.add(line(CommonsMathPeer.start(strip.x, strip.d), strip.x, strip.d));
        }
        Files.write(file, lines);
    }

    private static Path extracted(String name, Path folder) throws IOException {
        Path file = folder.resolve(name);
        try (InputStream resource = PeerBenchmark.class.getResourceAsStream(name)) {
            Files.copy(resource, file);
        }
        return file;
    }

    /** Runs a peer that prints microseconds and sum of squares of each strip. */
    private static void addPeer(Map<String, Outcome> outcomes, String name, int strips, Path folder, String... command)
            throws IOException, InterruptedException {
        Path output = folder.resolve("output.txt");
        if (!run(output, command)) {
            System.out.println(name + " was not found");
            return;
        }
        Outcome outcome = new Outcome(strips);
        List<String> lines = Files.readAllLines(output, StandardCharsets.UTF_8);
        for (int i = 0; i < strips; i++) {
            String[] fields = lines.get(i).split(" ", -1);
            outcome.microseconds[i] = Double.parseDouble(fields[0]);
            outcome.sums[i] = fields[1].equals("inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(fields[1]);
        }
        outcomes.put(name, outcome);
    }

    private static boolean run(Path output, String... command) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .redirectOutput(
                        output == null ? ProcessBuilder.Redirect.DISCARD : ProcessBuilder.Redirect.to(output.toFile()));
        try {
            return builder.start().waitFor() == 0;
        } catch (IOException e) {
            return false; // not installed here
        }
    }

    private static void print(Map<String, Outcome> outcomes, int strips) {
        double[] best = new double[strips];
        Arrays.setAll(
                best,
                i -> outcomes.values().stream()
                        .mapToDouble(outcome -> outcome.sums[i])
                        .min()
                        .orElseThrow());
        Outcome here = outcomes.values().iterator().next();
        System.out.printf(
                Locale.ROOT,
                "%-36s %10s %8s %10s %8s %10s%n",
                "microseconds a strip",
                "median",
                "times",
                "mean",
                "times",
                "near best");
        outcomes.forEach((name, outcome) -> {
            long near = 0;
            for (int i = 0; i < strips; i++) {
                near += outcome.sums[i] <= NEAR_BEST * best[i] ? 1 : 0;
            }
            double median = Distributions.ofSample(outcome.microseconds, 0.5);
            double mean = DoubleStream.of(outcome.microseconds).average().orElseThrow();
            System.out.printf(
                    Locale.ROOT,
                    "%-36s %10.1f %8.1f %10.1f %8.1f %10d%n",
                    name,
                    median,
                    median / Distributions.ofSample(here.microseconds, 0.5),
                    mean,
                    mean / DoubleStream.of(here.microseconds).average().orElseThrow(),
                    near);
        });
    }
}
