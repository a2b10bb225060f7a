// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.apache.commons.math3.analysis.interpolation.SplineInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveTable;
import org.tonewedge.core.curve.InverseCurveTable;
import org.tonewedge.core.curve.MonotoneCubic;
import org.tonewedge.core.curve.MonotoneSlopes;
import org.tonewedge.core.curve.SampleConversion;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.scan.CodeConversion;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * One table of how fast the library is, each job beside its peer in the same run, in passes that take turns: the least time
 * of each, which other work on the machine disturbs least, and the ratio of the two. It needs nothing outside the
 * repository. Ratios hold on a busy machine, times do not; the table names the processor, the day and the load.
 *
 * <p>Run with {@code mvn -B -Pbenchmark -pl fitting -am verify -DskipTests -Dmaven.javadoc.skip=true
 * -Dbenchmark.main=org.tonewedge.fitting.parametric.SpeedTable}; with {@code -Dbenchmark=FILE} it also writes the page
 * {@code doc-files/speed.html} of this package there.
 */
@SuppressWarnings({"exports", "missing-explicit-ctor"}) // compiled with the module, never part of it
public final class SpeedTable {

    private static final int PASSES = 40;
    /** Nanoseconds of the processor until a job and its peer are compiled. */
    private static final long WARMUP = 5_000_000_000L;
    /** Strips of many kinds take many branches: until all are compiled, so many times as long. */
    private static final int WARMUPS_OF_STRIPS = 4;

    /** More than the caches hold. */
    private static final int SAMPLES = 10_000_000;

    /** So many samples and their results fit into the first cache beside a table. */
    private static final int CACHED = 512;

    private static final int REFITS = 300;
    private static final int SHARED_STRIPS = 200;
    private static final double TOLERANCE = 1e-8;
    private static final String COMMONS_MATH = "Commons Math, tolerances 1e-8";
    private static final int STEPS = 21;

    private static final String TOLERANCES =
            "Tolerances: a fit of the library ends where no parameter moves by more than"
                    + " 1e-4 of its standard error, which with 21 readings leaves the sum of squares within 3e-9 of its least, and a"
                    + " refit of a bootstrap at a hundredth of a standard error; Commons Math ends where cost, parameters or the"
                    + " angle to the gradient change by less than 1e-8. Both have the same model, start and analytic derivatives.";

    private final List<String[]> rows = new ArrayList<>();
    private double sink;
    private double iterations;

    private SpeedTable() {}

    /** A job; what it gives is added up, so that it cannot be left out. */
    @FunctionalInterface
    private interface Job {
        double run();
    }

    /**
     * Measures all jobs and prints the table.
     *
     * @param arguments the file for the page, if it is to be written
     * @throws IOException if the strips cannot be read or the page not written
     */
    public static void main(String[] arguments) throws IOException {
        SpeedTable table = new SpeedTable();
        table.fits();
        table.figures();
        table.bulk();
        table.threads();
        table.print();
        if (arguments.length > 0 && arguments[0].endsWith(".html")) {
            Files.writeString(Path.of(arguments[0]), table.page());
        }
    }

    private void fits() throws IOException {
        double[] x = TestStrips.EXPOSURES;
        double[] d = TestStrips.DENSITIES;
        CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER);
        List<SimulatedStrip> strips = SimulatedStrip.read();
        List<SimulatedStrip> usual = strips.stream()
                .filter(strip -> strip.x.length == STEPS && strip.fit(fit) != null && peerFit(strip) > 0)
                .toList();
        compareEach(
                "fit of 21 steps with covariance, median strip",
                usual,
                usual.size(),
                strip -> strip.fit(fit).shapeFit().unscaledCovariance()[0][0],
                COMMONS_MATH,
                SpeedTable::peerFit);
        compareEach(
                "the same fit, taking turns after each strip",
                usual,
                1,
                strip -> strip.fit(fit).shapeFit().unscaledCovariance()[0][0],
                COMMONS_MATH,
                SpeedTable::peerFit);
        compareEach(
                "its search alone",
                usual,
                usual.size(),
                strip -> strip.search(fit).unscaledCovariance()[0][0],
                "the fit",
                strip -> strip.fit(fit).shapeFit().unscaledCovariance()[0][0]);
        iterations = Distributions.ofSample(
                usual.stream()
                        .mapToDouble(strip -> strip.search(fit).search().iterations())
                        .toArray(),
                0.5);
        compare(
                "1,000 simulated strips, hard ones too",
                () -> strips.stream()
                        .mapToDouble(strip -> strip.fit(fit) == null ? 0 : 1)
                        .sum(),
                strips.size(),
                COMMONS_MATH,
                () -> strips.stream().mapToDouble(SpeedTable::peerFit).sum());
        FittedCurve fitted = fit.fit(TestStrips.s07());
        double[] best = CommonsMathPeer.fit(x, d).getPoint().toArray();
        double[] smooth = TestStrips.densities(CurveFamily.TOE_SHOULDER.form(best), x);
        compare(
                REFITS + " refits of a bootstrap, with the speed point",
                () -> fitted.parametricBootstrap(1, REFITS)
                        .estimate(TestStrips::speedPoint)
                        .standardUncertainty(),
                REFITS,
                COMMONS_MATH,
                () -> {
                    Random random = new Random(1);
                    double sum = 0;
                    for (int i = 0; i < REFITS; i++) {
                        double[] refit = CommonsMathPeer.fit(
                                        x, TestStrips.disturbed(smooth, 0.0071, random), best, TOLERANCE)
                                .getPoint()
                                .toArray();
                        sum += CurveFamily.TOE_SHOULDER.form(refit).logExposure(refit[0] + 0.10);
                    }
                    return sum;
                });
        double[] dusty = d.clone();
        dusty[12] += 0.15;
        CurveFit robust = fit.with(RobustLoss.TUKEY);
        compare(
                "robust fit, one reading 0.15 off",
                () -> repeated(
                        100,
                        () -> robust.fit("S07", ExposureAxis.LUX_SECONDS, x, dusty)
                                .shapeFit()
                                .scale()),
                100,
                "plain fit of the same readings",
                () -> repeated(
                        100,
                        () -> fit.fit("S07", ExposureAxis.LUX_SECONDS, x, dusty)
                                .shapeFit()
                                .scale()));
        Strip strip = TestStrips.s07();
        SmoothingSpline spline = SmoothingSpline.withDefaults().with(SplineShape.MONOTONE);
        compare(
                "monotone smoothing spline",
                () -> repeated(100, () -> spline.fit(strip).smoothing()),
                100,
                "plain fit",
                () -> repeated(100, () -> fit.fit(strip).shapeFit().scale()));
    }

    /** The sum of squares after a fit with covariance; 0 if the optimiser gave up. */
    private static double peerFit(SimulatedStrip strip) {
        double sum = CommonsMathPeer.sumOrNothing(strip.x, strip.d, CommonsMathPeer.start(strip.x, strip.d), TOLERANCE);
        return Double.isFinite(sum) ? sum : 0;
    }

    private void figures() {
        CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER);
        Strip strip = TestStrips.s07();
        Job plain = () -> repeated(100, () -> fit.fit(strip).shapeFit().scale());
        compare(
                "gamma with its uncertainty, and the fit",
                () -> repeated(
                        100,
                        () -> fit.fit(strip)
                                .estimate(
                                        curve -> CurveAnatomy.of(curve).gamma().value())
                                .standardUncertainty()),
                100,
                "fit alone",
                plain);
        compare(
                "speed point with its uncertainty, and the fit",
                () -> repeated(
                        100,
                        () -> fit.fit(strip).estimate(TestStrips::speedPoint).standardUncertainty()),
                100,
                "fit alone",
                plain);
        compare(
                "judged fit (StripFit)",
                () -> repeated(5, () -> StripFit.of(strip).lackOfFit().probability()),
                5,
                "fit alone",
                () -> repeated(5, () -> fit.fit(strip).shapeFit().scale()));
    }

    private void bulk() {
        double[] x = TestStrips.EXPOSURES;
        double[] y = TestStrips.DENSITIES.clone();
        Arrays.sort(y);
        for (int i = 0; i < y.length; i++) {
            y[i] += 1e-4 * i;
        }
        SplineInterpolator peer = new SplineInterpolator();
        compare(
                "monotone cubic through 21 readings",
                () -> repeated(
                        500,
                        () -> MonotoneCubic.through(x, y, MonotoneSlopes.FRITSCH_CARLSON)
                                .density(-1)),
                500,
                "natural spline of Commons Math",
                () -> repeated(500, () -> peer.interpolate(x, y).value(-1)));
        Strip strip = TestStrips.strip("B", x, y, y[0]);
        CharacteristicCurve curve = CharacteristicCurve.through(strip);
        CurveTable table = CurveTable.of(curve);
        InverseCurveTable inverse = InverseCurveTable.of(curve);
        PolynomialSplineFunction natural = peer.interpolate(x, y);
        double[] exposures = new double[SAMPLES];
        double[] densities = new double[SAMPLES];
        short[] codes = new short[SAMPLES];
        double[] results = new double[SAMPLES];
        float[] floats = new float[SAMPLES];
        Random random = new Random(1);
        double least = inverse.lowestDensity().value();
        double span = inverse.highestDensity().value() - least;
        for (int i = 0; i < SAMPLES; i++) {
            exposures[i] = x[0] + (x[x.length - 1] - x[0]) * random.nextDouble();
            densities[i] = least + span * random.nextDouble();
            codes[i] = (short) random.nextInt();
        }
        Job copy = () -> {
            System.arraycopy(exposures, 0, results, 0, SAMPLES);
            return results[1];
        };
        Job byTable = () -> {
            table.densities(exposures, results);
            return results[1];
        };
        compare("densities by table, a sample", byTable, SAMPLES, "copy of the array", copy);
        compare("densities by table, a sample", byTable, SAMPLES, "spline of Commons Math", () -> {
            for (int i = 0; i < SAMPLES; i++) {
                results[i] = natural.value(exposures[i]);
            }
            return results[1];
        });
        Job byInverse = () -> {
            inverse.logExposures(densities, results);
            return results[1];
        };
        compare("log exposures by inverse table, a sample", byInverse, SAMPLES, "copy of the array", copy);
        CodeConversion conversion = ScanCodeTable.densities(
                        ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT))
                .conversion();
        compare(
                "16-bit codes to densities as float, a sample",
                () -> {
                    conversion.convert(codes, floats);
                    return floats[1];
                },
                SAMPLES,
                "copy of doubles",
                copy);
    }

    private void threads() throws IOException {
        List<Strip> strips = SimulatedStrip.read().stream()
                .filter(strip -> strip.fit(CurveFit.of(CurveFamily.TOE_SHOULDER)) != null)
                .map(strip -> TestStrips.strip("S", strip.x, strip.d))
                .toList();
        CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY);
        List<Strip> fitted = strips.stream()
                .filter(strip -> fits(fit, strip))
                .limit(SHARED_STRIPS)
                .toList();
        ExecutorService two = Executors.newFixedThreadPool(2);
        try {
            Job oneByOne = () -> fits(fit, fitted);
            compare(
                    "robust fits by two threads",
                    () -> fit.fitAll(fitted, two).size(),
                    fitted.size(),
                    "one thread",
                    oneByOne);
            List<Strip> first = fitted.subList(0, fitted.size() / 2);
            List<Strip> second = fitted.subList(fitted.size() / 2, fitted.size());
            compare(
                    "limit of two threads: a half of these fits each",
                    () -> inTwo(two, () -> fits(fit, first), () -> fits(fit, second)),
                    fitted.size(),
                    "one thread",
                    oneByOne);
            double[] samples = new Random(1).doubles(SAMPLES, -2.5, -0.5).toArray();
            double[] results = new double[SAMPLES];
            CurveTable table = CurveTable.of(CharacteristicCurve.through(TestStrips.s07()));
            SampleConversion conversion = table.conversion();
            SampleConversion shared = conversion.withExecutor(two);
            compare(
                    "one array by two threads, a sample",
                    () -> shared.convert(samples, results).total(),
                    SAMPLES,
                    "one thread",
                    () -> conversion.convert(samples, results).total());
            limitsOfTheMachine(two, table, samples, results);
        } finally {
            two.shutdownNow();
        }
    }

    /**
     * What two threads gain that share nothing at all, in the first cache of each and in memory: the library cannot gain
     * more.
     */
    private void limitsOfTheMachine(ExecutorService two, CurveTable table, double[] samples, double[] results) {
        int half = SAMPLES / 2;
        double[] few = Arrays.copyOf(samples, CACHED);
        double[] one = new double[CACHED];
        double[] other = new double[CACHED];
        compare(
                "limit of two threads: table in the cache, a sample",
                () -> inTwo(two, () -> densities(table, few, one, half), () -> densities(table, few, other, half)),
                SAMPLES,
                "one thread",
                () -> densities(table, few, one, half) + densities(table, few, other, half));
        compare(
                "limit of two threads: copy, a sample",
                () -> inTwo(two, () -> copy(samples, results, 0, half), () -> copy(samples, results, half, half)),
                SAMPLES,
                "one thread",
                () -> copy(samples, results, 0, half) + copy(samples, results, half, half));
    }

    private static double inTwo(ExecutorService two, Job first, Job second) {
        CompletableFuture<Double> other = CompletableFuture.supplyAsync(first::run, two);
        return CompletableFuture.supplyAsync(second::run, two).join() + other.join();
    }

    /** So many densities, always of the same few samples. */
    private static double densities(CurveTable table, double[] few, double[] results, int count) {
        for (int i = 0; i < count; i += few.length) {
            table.densities(few, results);
        }
        return results[0];
    }

    private static double fits(CurveFit fit, List<Strip> strips) {
        double sum = 0;
        for (Strip strip : strips) {
            sum += fit.fit(strip).shapeFit().scale();
        }
        return sum;
    }

    private static double copy(double[] from, double[] to, int start, int count) {
        System.arraycopy(from, start, to, start, count);
        return to[start];
    }

    private static boolean fits(CurveFit fit, Strip strip) {
        try {
            fit.fit(strip);
            return true;
        } catch (CurveFitException e) {
            return false;
        }
    }

    private static double repeated(int times, Job job) {
        double sum = 0;
        for (int i = 0; i < times; i++) {
            sum += job.run();
        }
        return sum;
    }

    /** Runs a job and its peer in turn. */
    private void compare(String what, Job job, int units, String peerName, Job peer) {
        double least = Double.POSITIVE_INFINITY;
        double leastOfPeer = Double.POSITIVE_INFINITY;
        long warm = processorTime() + WARMUP;
        for (int pass = -1; pass < PASSES; pass += processorTime() > warm ? 1 : 0) {
            double own = nanoseconds(job);
            double other = nanoseconds(peer);
            if (pass >= 0) {
                least = Math.min(least, own);
                leastOfPeer = Math.min(leastOfPeer, other);
            }
        }
        add(what, least / 1e3 / units, peerName, leastOfPeer / least);
    }

    /**
     * Fits strips by both in turn, so many together; the median strip by its least time, and the median of the ratios. If
     * they take turns after each strip, each finds the caches full of what the other left.
     */
    private void compareEach(
            String what,
            List<SimulatedStrip> strips,
            int together,
            ToDoubleFunction<SimulatedStrip> job,
            String peerName,
            ToDoubleFunction<SimulatedStrip> peer) {
        double[] least = new double[strips.size()];
        double[] leastOfPeer = new double[strips.size()];
        Arrays.fill(least, Double.POSITIVE_INFINITY);
        Arrays.fill(leastOfPeer, Double.POSITIVE_INFINITY);
        long warm = processorTime() + WARMUPS_OF_STRIPS * WARMUP;
        for (int pass = -1; pass < PASSES; pass += processorTime() > warm ? 1 : 0) {
            boolean counts = pass >= 0;
            for (int from = 0; from < least.length; from += together) {
                int to = Math.min(least.length, from + together);
                for (int i = from; i < to; i++) {
                    SimulatedStrip strip = strips.get(i);
                    double own = nanoseconds(() -> job.applyAsDouble(strip));
                    least[i] = counts ? Math.min(least[i], own) : least[i];
                }
                for (int i = from; i < to; i++) {
                    SimulatedStrip strip = strips.get(i);
                    double other = nanoseconds(() -> peer.applyAsDouble(strip));
                    leastOfPeer[i] = counts ? Math.min(leastOfPeer[i], other) : leastOfPeer[i];
                }
            }
        }
        double[] ratios = new double[least.length];
        Arrays.setAll(ratios, i -> leastOfPeer[i] / least[i]);
        add(what, Distributions.ofSample(least, 0.5) / 1e3, peerName, Distributions.ofSample(ratios, 0.5));
    }

    /** Nanoseconds of the processor that this process has taken, its compiler included; by the clock where not known. */
    private static long processorTime() {
        return ProcessHandle.current()
                .info()
                .totalCpuDuration()
                .map(Duration::toNanos)
                .orElseGet(System::nanoTime);
    }

    private double nanoseconds(Job job) {
        long start = System.nanoTime();
        sink += job.run();
        return Math.max(1, System.nanoTime() - start);
    }

    private void add(String what, double time, String peer, double ratio) {
        rows.add(new String[] {what, time < 0.1 ? number(1e3 * time) + " ns" : number(time) + " µs", peer, ratio(ratio)
        });
        System.out.printf(Locale.ROOT, "%-48s %10s   %-34s %6s%n", (Object[]) rows.get(rows.size() - 1));
    }

    private static String ratio(double value) {
        return value < 0.9 ? "1/" + number(1 / value) : number(value);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, value < 10 ? "%.2f" : value < 100 ? "%.1f" : "%.0f", value);
    }

    private void print() {
        System.out.println(
                "The last column is the peer's time over the library's: above 1 the library is faster; 1/4 means four times as long as the peer.");
        System.out.println(TOLERANCES);
        System.out.println(conditions());
        System.out.println(sink == 0 ? "nothing was done" : "");
    }

    private static String conditions() {
        return LocalDate.now(ZoneId.systemDefault()) + ", " + processor() + ", "
                + Runtime.getRuntime().availableProcessors() + " processors, Java "
                + System.getProperty("java.version") + ", load " + load() + " while measured.";
    }

    /** The mean number of running tasks of the last minute. */
    private static String load() {
        try {
            return Files.readString(Path.of("/proc/loadavg")).split(" ", 2)[0];
        } catch (IOException e) {
            return "not known";
        }
    }

    private static String processor() {
        try (Stream<String> lines = Files.lines(Path.of("/proc/cpuinfo"))) {
            return lines.filter(line -> line.startsWith("model name"))
                    .map(line -> line.substring(line.indexOf(':') + 1).strip())
                    .findFirst()
                    .orElse(System.getProperty("os.arch"));
        } catch (IOException e) {
            return System.getProperty("os.arch");
        }
    }

    private String page() {
        StringBuilder html = new StringBuilder("""
                <!DOCTYPE html>
                <html lang="en">
                <head>
                <meta charset="utf-8">
                <meta name="viewport" content="width=device-width, initial-scale=1">
                <style>
                body { max-width: 60rem; margin: 1rem auto; padding: 0 1rem; font-family: sans-serif; line-height: 1.5; }
                p code { overflow-wrap: anywhere; }
                table { display: block; overflow-x: auto; border-collapse: collapse; margin: 1rem 0; line-height: 1.3; }
                caption { text-align: left; font-weight: bold; }
                th, td { padding: 0.2rem 0.5rem; border-bottom: 1px solid #ccc; text-align: left; font-weight: normal; }
                thead th { font-weight: bold; vertical-align: bottom; }
                @media print { table { display: table; font-size: 8pt; } tr { break-inside: avoid; } }
                </style>
                <title>Speed beside other libraries</title>
                </head>
                <body>
                <h1>Speed beside other libraries</h1>
                <p>Each job beside its peer, in turn in one run; the least times of 40 passes, which other work disturbs least. The
                ratio is the peer's time over the library's: above 1 the library is faster. Where the peer is a copy of the
                array or a plain fit, 1/4 means that the job takes as long as four of them. Ratios hold on other machines,
                times do not. Two threads gain no more than the machine lets them: the rows of the limit show what two threads
                that share nothing gain in the same run. <code>SpeedTable</code> of the tests measures and writes this page, and
                <code>ReaderSpeed</code> adds the table of readers, which has median times and the library's time over the peer's.
                DEVELOPERS.md has the command.</p>
                <p>Each strip of 21 steps is timed by itself, and the median strip and the median ratio count. The first row lets
                the library fit all strips and then its peer, in every pass, as a program does that fits many strips. In the second
                they take turns after each strip, so that each finds the caches full of what the other left.</p>
                """);
        html.append("<p>").append(TOLERANCES).append("</p>\n");
        html.append("<p>The search of the median strip takes ")
                .append(Math.round(iterations))
                .append(
                        " iterations. Each evaluates two soft ramps with their derivatives at 21 readings, forms the normal"
                                + " equations of four parameters and solves them; a step that did not help costs one evaluation more."
                                + " What the search leaves of the time of a fit are the checks of the readings, the start and the"
                                + " results.</p>\n");
        html.append("<p>").append(conditions()).append("</p>\n");
        html.append("""
                <table>
                <caption>Times and ratios</caption>
                <thead>
                <tr><th scope="col">Job</th><th scope="col">Time</th><th scope="col">Peer</th><th scope="col">Ratio</th></tr>
                </thead>
                <tbody>
                """);
        rows.forEach(row -> html.append("<tr><th scope=\"row\">" + row[0] + "</th><td>" + row[1] + "</td><td>" + row[2]
                + "</td><td>" + row[3] + "</td></tr>\n"));
        return html.append("</tbody>\n</table>\n</body>\n</html>\n").toString();
    }
}
