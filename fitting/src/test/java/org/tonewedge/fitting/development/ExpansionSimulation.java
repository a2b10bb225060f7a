// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/**
 * N−2 to N+2 of a simulated film whose curves are known: bias and coverage. Run by hand for 10,000 tests:
 *
 * <pre>mvn -q test-compile -pl fitting -am, then java -cp … org.tonewedge.fitting.development.ExpansionSimulation 10000</pre>
 */
final class ExpansionSimulation {

    static final ExposureInterval RANGE = ExposureInterval.ofStops(7);
    /** Softer than the ISO condition, so that N+2 lies well below the ceiling of the film. */
    static final ContrastTarget NORMAL = ContrastTarget.of("normal", ContrastMeasure.RISE_OVER_130, 0.65);

    private static final double[] MINUTES = {2.5, 4, 6.5, 10, 16};

    final int[] covered = new int[5];
    final int[] refused = new int[5];
    final double[] sumOfErrors = new double[5];
    final double[] sumOfSquares = new double[5];
    final double[] sumOfUncertainties = new double[5];
    int tests;

    private ExpansionSimulation() {}

    static CharacteristicCurve truth(double minutes) {
        CurveForm form = SimulatedFilm.form(minutes);
        return CharacteristicCurve.of(
                "truth",
                form,
                LogExposure.ofLogLuxSeconds(-4),
                LogExposure.ofLogLuxSeconds(2),
                Density.of(SimulatedFilm.base(minutes)));
    }

    private static double rise(double minutes, double stops) {
        return ContrastMeasure.riseOver(ExposureInterval.ofStops(stops)).contrastOf(truth(minutes));
    }

    /** The minutes, from 1 to 60, at which a rising figure has a value, by bisection. */
    static double where(DoubleUnaryOperator figure, double value) {
        double low = 1;
        double high = 60;
        for (int i = 0; i < 80; i++) {
            double middle = 0.5 * (low + high);
            if (figure.applyAsDouble(middle) < value) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** The true times of N−2 to N+2, by bisection on the formula of the film. */
    static double[] trueMinutes() {
        double normal = where(minutes -> ContrastMeasure.RISE_OVER_130.contrastOf(truth(minutes)), NORMAL.value());
        double rise = rise(normal, RANGE.stops());
        double[] times = new double[5];
        for (int n = -2; n <= 2; n++) {
            double stops = RANGE.stops() - n;
            times[n + 2] = n == 0 ? normal : where(minutes -> rise(minutes, stops), rise);
        }
        return times;
    }

    static DevelopmentSeries series(double noise, Random random) {
        List<Strip> strips = new ArrayList<>();
        for (double minutes : MINUTES) {
            strips.add(SimulatedFilm.longStrip("T" + minutes, minutes, noise, random));
        }
        return DevelopmentSeries.of(strips);
    }

    static ExpansionSimulation run(int tests, double noise, long seed) {
        ExpansionSimulation result = new ExpansionSimulation();
        double[] truth = trueMinutes();
        Random random = new Random(seed);
        for (int test = 0; test < tests; test++) {
            List<PredictedTime> times = Expansions.times(series(noise, random), NORMAL, RANGE);
            for (int i = 0; i < 5; i++) {
                PredictedTime time = times.get(i);
                if (time == null) {
                    result.refused[i]++;
                    continue;
                }
                double error = DevelopmentTimes.minutes(time.time()) / truth[i] - 1;
                result.sumOfErrors[i] += error;
                result.sumOfSquares[i] += error * error;
                result.sumOfUncertainties[i] +=
                        DevelopmentTimes.minutes(time.standardUncertainty().orElseThrow()) / truth[i];
                result.covered[i] += time.intervalMinutes(0.95).contains(truth[i]) ? 1 : 0;
            }
        }
        result.tests = tests;
        return result;
    }

    /**
     * Prints bias, scatter, mean uncertainty and coverage of each time.
     *
     * @param args how many tests
     */
    public static void main(String[] args) {
        double noise = 0.01;
        double[] truth = trueMinutes();
        ExpansionSimulation result = run(Integer.parseInt(args[0]), noise, 1);
        for (int i = 0; i < 5; i++) {
            int answered = result.tests - result.refused[i];
            double bias = result.sumOfErrors[i] / answered;
            System.out.printf(
                    Locale.ROOT,
                    "N%+d true %.3f min: bias %.3f %%, scatter %.3f %%, mean u %.3f %%, 95 %% intervals hold it in %.1f %%, %d refused%n",
                    i - 2,
                    truth[i],
                    100 * bias,
                    100 * Math.sqrt(result.sumOfSquares[i] / answered - bias * bias),
                    100 * result.sumOfUncertainties[i] / answered,
                    100.0 * result.covered[i] / answered,
                    result.refused[i]);
        }
    }
}
