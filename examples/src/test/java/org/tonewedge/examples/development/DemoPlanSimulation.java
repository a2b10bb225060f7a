// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentPlan;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.development.PredictedTime;

/**
 * N, N+1 and N+2 of the demo development at 20 °C with other noise, beside the times of its formula by
 * {@code demo_truth.py}: whether the departures of the demo are chance. Run by hand, with the number of tests:
 *
 * <pre>java -cp … org.tonewedge.examples.development.DemoPlanSimulation 1000</pre>
 *
 * <p>Of 1,000 tests, N, N+1 and N+2 lie +0.22, +0.14 and 0.00 standard uncertainties from the truth in the mean: there is no
 * bias that matters, and the short times of the demo are chance. But they scatter by 1.57, 1.32 and 1.00 of their
 * uncertainties: 75, 83 and 94 % of the 95 % intervals contain the truth, and in 13 % of tests one of the three is more than
 * 2.5 off, as N+1 is in the demo. The cause is not found.
 */
final class DemoPlanSimulation {

    private static final String[] NAMES = {"N", "N+1", "N+2"};
    private static final double[] TRUE_MINUTES = {9.311, 11.033, 14.430};

    private DemoPlanSimulation() {}

    /** The departures of a test from the true times, in standard uncertainties. */
    private static double[] departures(int test) {
        Random random = new Random(new SplittableRandom(test).nextLong());
        DevelopmentPlan plan = DevelopmentSeries.of(DemoDevelopment.strips(strip -> random))
                .expansions(
                        ContrastTarget.isoContrastCondition(),
                        ExposureInterval.ofStops(7),
                        List.of(Temperature.ofCelsius(20)));
        double[] departures = new double[NAMES.length];
        for (int i = 0; i < NAMES.length; i++) {
            String name = NAMES[i];
            PredictedTime time = plan.developments().stream()
                    .filter(line -> line.target().name().equals(name))
                    .findFirst()
                    .flatMap(PlannedDevelopment::time)
                    .orElseThrow();
            departures[i] = (minutes(time.time()) - TRUE_MINUTES[i])
                    / minutes(time.standardUncertainty().orElseThrow());
        }
        return departures;
    }

    private static double minutes(Duration time) {
        return time.toNanos() / 60e9;
    }

    /**
     * Prints the mean and the standard deviation of the departures, and how many are as far off as those of the demo.
     *
     * @param args the number of tests
     */
    public static void main(String[] args) {
        int tests = Integer.parseInt(args[0]);
        List<double[]> all = IntStream.range(0, tests)
                .mapToObj(DemoPlanSimulation::departures)
                .toList();
        for (int i = 0; i < NAMES.length; i++) {
            int which = i;
            double mean =
                    all.stream().mapToDouble(each -> each[which]).average().orElseThrow();
            double square = all.stream()
                    .mapToDouble(each -> each[which] * each[which])
                    .average()
                    .orElseThrow();
            System.out.printf(
                    Locale.ROOT,
                    "%-4s mean %+.3f u, standard deviation %.3f u, beyond 1.96 u %.1f %%%n",
                    NAMES[i],
                    mean,
                    Math.sqrt(square - mean * mean),
                    100.0
                            * all.stream()
                                    .filter(each -> Math.abs(each[which]) > 1.96)
                                    .count()
                            / tests);
        }
        System.out.printf(
                Locale.ROOT,
                "one of the three beyond 2.5 u: %.1f %%%n",
                100.0
                        * all.stream()
                                .filter(each -> Arrays.stream(each).anyMatch(z -> Math.abs(z) > 2.5))
                                .count()
                        / tests);
    }
}
