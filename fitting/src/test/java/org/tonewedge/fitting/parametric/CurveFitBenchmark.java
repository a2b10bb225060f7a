package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.exception.ConvergenceException;
import org.apache.commons.math3.exception.TooManyEvaluationsException;
import org.apache.commons.math3.exception.TooManyIterationsException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.fitting.leastsquares.MultivariateJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.util.Pair;
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
import org.tonewedge.fitting.internal.Readings;
import org.tonewedge.fitting.internal.ShapeFitter;
import org.tonewedge.fitting.internal.ShapeKind;

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
@Fork(2)
public class CurveFitBenchmark {

    private static final int STRIPS = 200;
    private static final int REFITS = 1000;
    private static final int MOST_EVALUATIONS = 1000;
    private static final int FITTED = 6;

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
        return commonsMath(TestStrips.DENSITIES, start(TestStrips.DENSITIES)).getCovariances(1e-14);
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
            try {
                blackhole.consume(commonsMath(densities, start(densities)).getCovariances(1e-14));
            } catch (TooManyEvaluationsException
                    | TooManyIterationsException
                    | ConvergenceException
                    | SingularMatrixException e) {
                blackhole.consume(e);
            }
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
                .bootstrap(Resampling.PARAMETRIC, 1, REFITS)
                .estimate(TestStrips::speedPoint);
    }

    /**
     * The same by Commons Math, the speed point read off by this library's curve.
     *
     * @return the standard deviation
     */
    @Benchmark
    public Object bootstrapCommonsMath() {
        double[] best = commonsMath(TestStrips.DENSITIES, start(TestStrips.DENSITIES))
                .getPoint()
                .toArray();
        double[] fitted = TestStrips.densities(CurveFamily.TOE_SHOULDER.form(best), exposures);
        Random random = new Random(1);
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < REFITS; i++) {
            double[] refit = commonsMath(TestStrips.disturbed(fitted, 0.0071, random), best)
                    .getPoint()
                    .toArray();
            double speedPoint = CurveFamily.TOE_SHOULDER.form(refit).logExposure(refit[0] + 0.10);
            sum += speedPoint;
            squares += speedPoint * speedPoint;
        }
        return Math.sqrt((squares - sum * sum / REFITS) / (REFITS - 1));
    }

    /** The start of this library's own search, with offset and scale of its broken line. */
    private double[] start(double[] densities) {
        double[] weights = new double[densities.length];
        Arrays.fill(weights, 1);
        double[] natural = ShapeKind.TOE_SHOULDER.natural(
                ShapeFitter.start(ShapeKind.TOE_SHOULDER, new Readings(exposures, densities, weights)));
        double least = Arrays.stream(densities).min().orElseThrow();
        double greatest = Arrays.stream(densities).max().orElseThrow();
        double gradient = (greatest - least) / (natural[2] - natural[0]);
        return new double[] {least, gradient, natural[0], natural[1], natural[2], natural[3]};
    }

    private LeastSquaresOptimizer.Optimum commonsMath(double[] densities, double[] start) {
        MultivariateJacobianFunction model = point -> {
            double[] p = point.toArray();
            double[] values = new double[exposures.length];
            double[][] jacobian = new double[exposures.length][FITTED];
            for (int i = 0; i < values.length; i++) {
                double toe = (exposures[i] - p[2]) / p[3];
                double e = Math.exp(-Math.abs(toe));
                double toeRamp = Math.max(toe, 0) + Math.log1p(e);
                double toeSlope = (toe >= 0 ? 1 : e) / (1 + e);
                double shoulder = (exposures[i] - p[4]) / p[5];
                e = Math.exp(-Math.abs(shoulder));
                double shoulderRamp = Math.max(shoulder, 0) + Math.log1p(e);
                double shoulderSlope = (shoulder >= 0 ? 1 : e) / (1 + e);
                double shape = p[3] * toeRamp - p[5] * shoulderRamp;
                values[i] = p[0] + p[1] * shape;
                double[] row = jacobian[i];
                row[0] = 1;
                row[1] = shape;
                row[2] = -p[1] * toeSlope;
                row[3] = p[1] * (toeRamp - toe * toeSlope);
                row[4] = p[1] * shoulderSlope;
                row[5] = -p[1] * (shoulderRamp - shoulder * shoulderSlope);
            }
            return new Pair<>(new ArrayRealVector(values, false), new Array2DRowRealMatrix(jacobian, false));
        };
        return new LevenbergMarquardtOptimizer()
                .optimize(new LeastSquaresBuilder()
                        .start(start)
                        .target(densities)
                        .model(model)
                        .maxEvaluations(MOST_EVALUATIONS)
                        .maxIterations(MOST_EVALUATIONS)
                        .build());
    }
}
