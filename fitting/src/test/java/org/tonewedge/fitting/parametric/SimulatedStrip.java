// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.tonewedge.core.curve.MonotoneCubic;
import org.tonewedge.core.curve.MonotoneSlopes;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.fitting.internal.LeastSquares;
import org.tonewedge.fitting.internal.LeastSquaresProblem;
import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.internal.Resources;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.internal.ShapeKind;
import org.tonewedge.fitting.internal.ShapeSearch;

/** One of 1,000 simulated strips of 11, 21 and 31 steps with known truth, made outside this project. */
final class SimulatedStrip {

    private static final CurveFit WHOLE = CurveFit.of(CurveFamily.TOE_SHOULDER).withWholeFamily();

    final double[] x;
    final double[] d;
    private final double[] truth;
    private final double deviation;
    private final double speedPoint;
    private FitInput checked;
    private double[] start;

    private SimulatedStrip(double[] x, double[] d, double[] truth, double deviation, double speedPoint) {
        this.x = x;
        this.d = d;
        this.truth = truth;
        this.deviation = deviation;
        this.speedPoint = speedPoint;
    }

    /** All 1,000, from the table beside this class. */
    static List<SimulatedStrip> read() throws IOException {
        List<SimulatedStrip> strips = new ArrayList<>();
        for (String line : Resources.lines(SimulatedStrip.class, "simulated-strips.csv")) {
            double[] row = Arrays.stream(line.split(",", -1))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
            int steps = (int) row[0];
            strips.add(new SimulatedStrip(
                    TestStrips.grid(-3, 0, steps),
                    Arrays.copyOfRange(row, 9, 9 + steps),
                    Arrays.copyOfRange(row, 1, 7),
                    row[7],
                    row[8]));
        }
        return strips;
    }

    /** The fit; null if it failed. */
    FittedCurve fit(CurveFit settings) {
        try {
            return settings.fit("simulated", ExposureAxis.LUX_SECONDS, x, d);
        } catch (CurveFitException e) {
            return null;
        }
    }

    /** The search of {@link #fit} alone, with the covariance: the readings are checked and the start is found beforehand. */
    ShapeFit search(CurveFit settings) {
        if (checked == null) {
            checked = input();
            start = ShapeSearch.start(ShapeKind.TOE_SHOULDER, checked.readings());
        }
        return settings.search(checked, CurveFamily.TOE_SHOULDER, start);
    }

    private FitInput input() {
        return FitInput.of("simulated", ExposureAxis.LUX_SECONDS, x, d, new double[0], Optional.empty());
    }

    /** Whether the search ends without the prior; a softness may have run to its bound. */
    boolean converges() {
        CurveFit plain = WHOLE.withoutSoftnessPrior();
        return plain.search(input(), CurveFamily.TOE_SHOULDER)
                .search()
                .stopReason()
                .isConverged();
    }

    double plainSum() {
        return WHOLE.withoutSoftnessPrior()
                .search(input(), CurveFamily.TOE_SHOULDER)
                .sumOfSquares();
    }

    double refittedSum(double[] start) {
        double sum = WHOLE.withoutSoftnessPrior()
                .search(input(), CurveFamily.TOE_SHOULDER, start)
                .sumOfSquares();
        return Double.isNaN(sum) ? Double.POSITIVE_INFINITY : sum;
    }

    List<double[]> starts() {
        double[] own = CurveFamily.TOE_SHOULDER.kind().search(Arrays.copyOfRange(truth, 2, 6));
        double[] sharp = own.clone();
        sharp[1] = Math.log(0.05);
        sharp[3] = sharp[1];
        double[] soft = own.clone();
        soft[1] = Math.log(0.4);
        soft[3] = soft[1];
        return List.of(own, sharp, soft);
    }

    /** All six parameters searched by the general engine, unbounded, from the truth. */
    double sumByGeneralEngine() {
        LeastSquaresProblem problem = new LeastSquaresProblem() {
            @Override
            public int parameterCount() {
                return 6;
            }

            @Override
            public int residualCount() {
                return x.length;
            }

            @Override
            public void residuals(double[] p, double[] residuals) {
                for (int i = 0; i < x.length; i++) {
                    residuals[i] = p[0] + p[1] * (ramp(x[i] - p[2], p[3]) - ramp(x[i] - p[4], p[5])) - d[i];
                }
            }
        };
        LeastSquaresSolution solution = LeastSquares.withDefaults()
                .withTolerance(1e-6)
                .withMostIterations(100)
                .solve(problem, truth);
        return solution.residualSumOfSquares();
    }

    private static double ramp(double distance, double softness) {
        double z = distance / softness;
        return softness * (Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z))));
    }

    double speedError(CurveFit settings) {
        return speedError(fit(settings));
    }

    /** The same with readings of base plus fog beside those of the strip, with the same errors. */
    double speedError(CurveFit settings, int baseReadings, Random random) {
        double[] base = new double[baseReadings];
        Arrays.setAll(base, i -> truth[0] + deviation * random.nextGaussian());
        try {
            return speedError(settings.fit("simulated", ExposureAxis.LUX_SECONDS, x, d, base));
        } catch (CurveFitException e) {
            return Double.POSITIVE_INFINITY;
        }
    }

    private double speedError(FittedCurve fit) {
        if (fit == null) {
            return Double.POSITIVE_INFINITY;
        }
        double base = fit.parameter(CurveParameter.BASE_PLUS_FOG).value();
        return Math.abs(fit.form().logExposure(base + 0.10) - speedPoint);
    }

    /** Through the same readings, base plus fog being the least of them. */
    double cubicSpeedError() {
        MonotoneCubic cubic = MonotoneCubic.through(x, d, MonotoneSlopes.FRITSCH_CARLSON);
        double aim = Arrays.stream(d).min().orElseThrow() + 0.10;
        for (int i = 1; i < d.length; i++) {
            if (d[i - 1] < aim && d[i] >= aim) {
                double low = x[i - 1];
                double high = x[i];
                for (int k = 0; k < 60; k++) {
                    double middle = 0.5 * (low + high);
                    if (cubic.density(middle) < aim) {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                return Math.abs(low - speedPoint);
            }
        }
        return Double.POSITIVE_INFINITY;
    }
}
