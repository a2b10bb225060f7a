// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Collection;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.analysis.interpolation.SplineInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;

/**
 * Bulk reading of a curve beside Commons Math 3.6.1 and a plain copy of the array, on ten million random samples, and the
 * drawing of a curve through 21 readings. Prints the ratios.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@State(Scope.Benchmark)
@SuppressWarnings({"exports", "missing-explicit-ctor"}) // compiled with the module, never part of it
public class BulkBenchmark {

    private static final int SAMPLES = 10_000_000;
    private static final int KNOTS = 21;
    /** A heap that the system has handed over beforehand: its first touch is no work of what is measured. */
    private static final String[] TOUCHED_MEMORY = {"-Xms1500m", "-Xmx1500m", "-XX:+AlwaysPreTouch"};

    private final double[] knots = new double[KNOTS];
    private final double[] values = new double[KNOTS];
    private final double[] logExposures = new double[SAMPLES];
    private final double[] densities = new double[SAMPLES];
    private final short[] codes = new short[SAMPLES];
    private final double[] results = new double[SAMPLES];
    private CharacteristicCurve curve;
    private CurveTable table;
    private InverseCurveTable inverse;
    private ScanCodeTable codesToDensity;
    private ScanCodeTable codesToLogExposure;
    private PolynomialSplineFunction peer;
    private PolynomialSplineFunction peerInverse;

    /** Draws the curve, its tables and those of the peer, and the random samples. */
    @Setup
    public void prepare() {
        for (int i = 0; i < KNOTS; i++) {
            knots[i] = -3 + 0.15 * i;
            values[i] = 0.2 + 2 / (1 + Math.exp(-2.5 * (knots[i] + 1.5)));
        }
        curve = CharacteristicCurve.of(
                "benchmark",
                MonotoneCubic.through(knots, values, MonotoneSlopes.FRITSCH_CARLSON),
                LogExposure.ofLogLuxSeconds(knots[0]),
                LogExposure.ofLogLuxSeconds(knots[KNOTS - 1]),
                Density.of(0.2));
        table = CurveTable.of(curve);
        inverse = InverseCurveTable.of(curve);
        ScanEncoding encoding = ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT);
        codesToDensity = ScanCodeTable.densities(encoding);
        double least = inverse.lowestDensity().value();
        double span = inverse.highestDensity().value() - least;
        codesToLogExposure = ScanCodeTable.logExposures(
                ScanEncoding.ofDensitySteps(
                        Density.of(least), span / ScanEncoding.HIGHEST_16_BIT, ScanEncoding.HIGHEST_16_BIT),
                inverse);
        peer = new SplineInterpolator().interpolate(knots, values);
        peerInverse = peerInverse(least, span);
        Random random = new Random(1);
        for (int i = 0; i < SAMPLES; i++) {
            logExposures[i] = knots[0] + (knots[KNOTS - 1] - knots[0]) * random.nextDouble();
            densities[i] = least + span * random.nextDouble();
            codes[i] = (short) random.nextInt();
        }
    }

    /** Commons Math's spline through 1,024 points of the inverse: its own way to a table. */
    private PolynomialSplineFunction peerInverse(double least, double span) {
        double[] y = new double[1024];
        double[] x = new double[1024];
        for (int i = 0; i < y.length; i++) {
            y[i] = least + span * i / (y.length - 1);
            x[i] = inverse.logExposure(y[i]);
        }
        return new SplineInterpolator().interpolate(y, x);
    }

    @Benchmark
    public double[] arrayCopy() {
        System.arraycopy(logExposures, 0, results, 0, SAMPLES);
        return results;
    }

    @Benchmark
    public double[] evaluateTable() {
        table.densities(logExposures, results);
        return results;
    }

    @Benchmark
    public double[] evaluateExact() {
        curve.densities(logExposures, results);
        return results;
    }

    @Benchmark
    public double[] evaluateCommonsMath() {
        for (int i = 0; i < SAMPLES; i++) {
            results[i] = peer.value(logExposures[i]);
        }
        return results;
    }

    @Benchmark
    public double[] inverseTable() {
        inverse.logExposures(densities, results);
        return results;
    }

    @Benchmark
    public double[] inverseCommonsMath() {
        for (int i = 0; i < SAMPLES; i++) {
            results[i] = peerInverse.value(densities[i]);
        }
        return results;
    }

    @Benchmark
    public double[] codesToDensity() {
        codesToDensity.convert(codes, results);
        return results;
    }

    @Benchmark
    public double[] codesToLogExposure() {
        codesToLogExposure.convert(codes, results);
        return results;
    }

    @Benchmark
    public MonotoneCubic buildMonotoneCubic() {
        return MonotoneCubic.through(knots, values, MonotoneSlopes.FRITSCH_CARLSON);
    }

    @Benchmark
    public PolynomialSplineFunction buildCommonsMath() {
        return new SplineInterpolator().interpolate(knots, values);
    }

    /**
     * Runs all and prints the ratios.
     *
     * @param arguments none
     * @throws RunnerException if a benchmark fails
     */
    public static void main(String[] arguments) throws RunnerException {
        Collection<RunResult> all = new Runner(new OptionsBuilder()
                        .include("\\." + BulkBenchmark.class.getSimpleName() + "\\.")
                        .forks(1)
                        .jvmArgsAppend(TOUCHED_MEMORY)
                        .warmupIterations(3)
                        .warmupTime(TimeValue.seconds(1))
                        .measurementIterations(5)
                        .measurementTime(TimeValue.seconds(1))
                        .build())
                .run();
        double copy = time(all, "arrayCopy") / SAMPLES;
        double commons = time(all, "evaluateCommonsMath") / SAMPLES;
        double commonsInverse = time(all, "inverseCommonsMath") / SAMPLES;
        double commonsBuild = time(all, "buildCommonsMath");
        System.out.printf(Locale.ROOT, "%nns a sample; times array copy; Commons Math's time over it%n");
        print("array copy", copy, copy, Double.NaN);
        print("evaluate, table", time(all, "evaluateTable") / SAMPLES, copy, commons);
        print("evaluate, exact", time(all, "evaluateExact") / SAMPLES, copy, commons);
        print("evaluate, Commons Math", commons, copy, commons);
        print("inverse, table", time(all, "inverseTable") / SAMPLES, copy, commonsInverse);
        print("inverse, Commons Math", commonsInverse, copy, commonsInverse);
        print("codes to density", time(all, "codesToDensity") / SAMPLES, copy, Double.NaN);
        print("codes to log exposure", time(all, "codesToLogExposure") / SAMPLES, copy, Double.NaN);
        System.out.println("ns a curve of 21 readings");
        print("build, monotone cubic", time(all, "buildMonotoneCubic"), Double.NaN, commonsBuild);
        print("build, Commons Math", commonsBuild, Double.NaN, commonsBuild);
    }

    private static double time(Collection<RunResult> all, String method) {
        return all.stream()
                .filter(result -> result.getParams().getBenchmark().endsWith("." + method))
                .mapToDouble(result -> result.getPrimaryResult().getScore())
                .findFirst()
                .orElseThrow();
    }

    private static void print(String what, double time, double copy, double peer) {
        System.out.printf(Locale.ROOT, "%-24s %9.2f %7.2f %7.1f%n", what, time, time / copy, peer / time);
    }
}
