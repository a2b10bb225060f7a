// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;
import org.tonewedge.core.quantity.ExposureAxis;

/**
 * Fits of toe, straight line and shoulder beside Commons Math's Levenberg–Marquardt optimiser with the same model, the
 * same start and analytic derivatives, both with the covariance of all six parameters.
 *
 * <p>Run with {@code mvn -Pbenchmark -pl fitting -am verify -DskipTests -Dbenchmark=CurveFit}.
 */
@SuppressWarnings({"exports", "missing-explicit-ctor"}) // public for the benchmark harness alone
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 6, time = 1)
@Measurement(iterations = 6, time = 1)
// A heap that the system has handed over beforehand: its first touch is no work of what is measured.
@Fork(
        value = 2,
        jvmArgsAppend = {"-Xms1g", "-Xmx1g", "-XX:+AlwaysPreTouch"})
public class CurveFitBenchmark {

    private static final int STRIPS = 200;
    private static final int REFITS = 1000;

    private final CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER);
    private final double[] exposures = TestStrips.EXPOSURES;
    private final double[][] strips = simulatedStrips();

    /** Seeded strips of 21 steps like those of {@link CoverageTest}. */
    private double[][] simulatedStrips() {
        Random random = new Random(17);
        double[][] densities = new double[STRIPS][];
        for (int i = 0; i < STRIPS; i++) {
            ParametricForm truth = CurveFamily.TOE_SHOULDER.form(
                    0.05 + 0.3 * random.nextDouble(),
                    0.4 + 0.8 * random.nextDouble(),
                    -2.1 + 0.6 * random.nextDouble(),
                    0.05 + 0.45 * random.nextDouble(),
                    -0.8 + random.nextDouble(),
                    0.05 + 0.45 * random.nextDouble());
            double deviation = 0.005 + 0.015 * random.nextDouble();
            densities[i] = TestStrips.disturbed(TestStrips.densities(truth, exposures), deviation, random);
        }
        return densities;
    }

    /**
     * One strip of 21 steps.
     *
     * @return the fit
     */
    @Benchmark
    public Object oneStrip() {
        return fit.fit("S07", ExposureAxis.LUX_SECONDS, exposures, TestStrips.DENSITIES);
    }

    /**
     * The same strip by Commons Math.
     *
     * @return the covariance
     */
    @Benchmark
    public Object oneStripCommonsMath() {
        return CommonsMathPeer.fit(exposures, TestStrips.DENSITIES).getCovariances(1e-14);
    }

    /**
     * 200 strips, hard ones too.
     *
     * @param blackhole takes the fits
     */
    @Benchmark
    public void batch(Blackhole blackhole) {
        for (double[] densities : strips) {
            blackhole.consume(fit.fit("batch", ExposureAxis.LUX_SECONDS, exposures, densities));
        }
    }

    /**
     * The same strips by Commons Math; those it gives up on count with the time until then.
     *
     * @param blackhole takes the covariances
     */
    @Benchmark
    public void batchCommonsMath(Blackhole blackhole) {
        for (double[] densities : strips) {
            blackhole.consume(
                    CommonsMathPeer.sumOrNothing(exposures, densities, CommonsMathPeer.start(exposures, densities)));
        }
    }

    /**
     * The uncertainty of the speed point from 1,000 refits.
     *
     * @return the estimate
     */
    @Benchmark
    public Object bootstrap() {
        return fit.fit("S07", ExposureAxis.LUX_SECONDS, exposures, TestStrips.DENSITIES)
                .parametricBootstrap(1, REFITS)
                .estimate(TestStrips::speedPoint);
    }

    /**
     * The same by Commons Math, the speed point read off by this library's curve.
     *
     * @return the standard deviation
     */
    @Benchmark
    public Object bootstrapCommonsMath() {
        double[] best =
                CommonsMathPeer.fit(exposures, TestStrips.DENSITIES).getPoint().toArray();
        double[] fitted = TestStrips.densities(CurveFamily.TOE_SHOULDER.form(best), exposures);
        Random random = new Random(1);
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < REFITS; i++) {
            double[] refit = CommonsMathPeer.fit(exposures, TestStrips.disturbed(fitted, 0.0071, random), best)
                    .getPoint()
                    .toArray();
            double speedPoint = CurveFamily.TOE_SHOULDER.form(refit).logExposure(refit[0] + 0.10);
            sum += speedPoint;
            squares += speedPoint * speedPoint;
        }
        return Math.sqrt((squares - sum * sum / REFITS) / (REFITS - 1));
    }
}
