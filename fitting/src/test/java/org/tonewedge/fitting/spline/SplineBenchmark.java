// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collection;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.tonewedge.core.strip.Strip;

/**
 * Smoothing a strip of 21 steps by cross-validation, beside R's smooth.spline on the same readings where the command
 * Rscript is found. Prints the ratios.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@State(Scope.Benchmark)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
// A heap that the system has handed over beforehand: its first touch is no work of what is measured.
@Fork(
        value = 1,
        jvmArgsAppend = {"-Xms1g", "-Xmx1g", "-XX:+AlwaysPreTouch"})
@SuppressWarnings({"exports", "missing-explicit-ctor"}) // compiled with the module, never part of it
public class SplineBenchmark {

    private static final ReferenceTable TABLE = ReferenceTable.read("strip21.csv");

    private final double[] x = TABLE.column("x");
    private final double[] y = TABLE.column("y");
    private final double[] ones = ones();
    private final Strip strip = Strips.of(x, y);
    private final SmoothingSpline byCrossValidation =
            SmoothingSpline.withDefaults().with(SmoothingCriterion.GENERALISED_CROSS_VALIDATION);
    private final SmoothingSpline monotone = byCrossValidation.with(SplineShape.MONOTONE);

    private static double[] ones() {
        double[] ones = new double[21];
        Arrays.fill(ones, 1);
        return ones;
    }

    /** From a strip to its curve. */
    @Benchmark
    public SplineFit fitStrip() {
        return byCrossValidation.fit(strip);
    }

    /** The same, held monotone. */
    @Benchmark
    public SplineFit fitMonotone() {
        return monotone.fit(strip);
    }

    /** From plain numbers to a spline, as R has it. */
    @Benchmark
    public Object smoothNumbers() {
        ReinschSystem system = new ReinschSystem(x, y, ones);
        WeightedReadings readings = new WeightedReadings(ones, 21, 0, OptionalDouble.empty(), Double.POSITIVE_INFINITY);
        double smoothing = new SmoothingSearch(system, readings).best(SmoothingCriterion.GENERALISED_CROSS_VALIDATION);
        return SplineSolution.of(system, readings, smoothing).spline();
    }

    /**
     * Runs all and prints the ratios.
     *
     * @param arguments none
     * @throws RunnerException if a benchmark fails
     * @throws InterruptedException if R is interrupted
     */
    public static void main(String[] arguments) throws RunnerException, InterruptedException {
        Collection<RunResult> all = new Runner(new OptionsBuilder()
                        .include("\\." + SplineBenchmark.class.getSimpleName() + "\\.")
                        .build())
                .run();
        double r = microsecondsInR();
        System.out.printf(Locale.ROOT, "%nmicroseconds for 21 steps; R's time over it%n");
        for (RunResult result : all) {
            String name = result.getParams().getBenchmark();
            double time = result.getPrimaryResult().getScore();
            System.out.printf(
                    Locale.ROOT, "%-16s %8.2f %7.1f%n", name.substring(name.lastIndexOf('.') + 1), time, r / time);
        }
        System.out.printf(Locale.ROOT, "%-16s %8.2f %7.1f%n", "smooth.spline", r, 1.0);
    }

    /** The median of seven runs of 2000; NaN where R is not installed. */
    private static double microsecondsInR() throws InterruptedException {
        String script = "x <- c(" + joined("x") + "); y <- c(" + joined("y") + ");"
                + "f <- function() smooth.spline(x, y, all.knots = TRUE, cv = FALSE);"
                + "for (i in 1:2000) f();"
                + "cat(median(sapply(1:7, function(k) system.time(for (i in 1:2000) f())[['elapsed']])) / 2000 * 1e6)";
        try {
            Process process = new ProcessBuilder("Rscript", "-e", script).start();
            String answer = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            return process.waitFor() == 0 ? Double.parseDouble(answer) : Double.NaN;
        } catch (IOException e) {
            System.out.println("Rscript is not installed: no ratios");
            return Double.NaN;
        }
    }

    private static String joined(String column) {
        return Arrays.stream(TABLE.column(column)).mapToObj(Double::toString).collect(Collectors.joining(","));
    }
}
