// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.tonewedge.core.quantity.CoverageInterval;
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
 * <p>Of 1,000 tests, N, N+1 and N+2 lie +0.08, +0.04 and 0.00 standard uncertainties from the truth in the mean and scatter by
 * 0.99, 0.99 and 0.92; 95.4, 96.3 and 96.9 % of the 95 % intervals contain it. In 2.1 % of tests one of the three is more than
 * 2.5 off. Without the uncertainty of the temperature law and that of rounding, and without a layout in which both an induction
 * time and the shape change, the intervals contained the truth in 75, 83 and 94 %.
 */
final class DemoPlanSimulation {

    static final String[] NAMES = {"N", "N+1", "N+2"};
    private static final double[] TRUE_MINUTES = {9.311, 11.033, 14.430};

    private DemoPlanSimulation() {}

    /** What a test says of a time: its departure from the truth in standard uncertainties, and whether it is in the interval. */
    record Outcome(double departure, boolean contained) {}

    /** The outcomes of a test, in the order of the names. */
    static List<Outcome> outcomes(int test) {
        Random random = new Random(new SplittableRandom(test).nextLong());
        DevelopmentPlan plan = DevelopmentSeries.of(DemoDevelopment.strips(strip -> random))
                .expansions(
                        ContrastTarget.isoContrastCondition(),
                        ExposureInterval.ofStops(7),
                        List.of(Temperature.ofCelsius(20)));
        List<Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < NAMES.length; i++) {
            String name = NAMES[i];
            PredictedTime time = plan.developments().stream()
                    .filter(line -> line.target().name().equals(name))
                    .findFirst()
                    .flatMap(PlannedDevelopment::time)
                    .orElseThrow();
            CoverageInterval interval = time.intervalMinutes(0.95);
            outcomes.add(new Outcome(
                    (minutes(time.time()) - TRUE_MINUTES[i])
                            / minutes(time.standardUncertainty().orElseThrow()),
                    interval.lower() <= TRUE_MINUTES[i] && TRUE_MINUTES[i] <= interval.upper()));
        }
        return List.copyOf(outcomes);
    }

    private static double minutes(Duration time) {
        return time.toNanos() / 60e9;
    }

    /**
     * Prints the mean and the standard deviation of the departures, the share of 95 % intervals that contain the truth, and how
     * many tests are as far off as the demo.
     *
     * @param args the number of tests
     */
    public static void main(String[] args) {
        int tests = Integer.parseInt(args[0]);
        List<List<Outcome>> all =
                IntStream.range(0, tests).mapToObj(DemoPlanSimulation::outcomes).toList();
        for (int i = 0; i < NAMES.length; i++) {
            int which = i;
            double[] departures = all.stream()
                    .mapToDouble(each -> each.get(which).departure())
                    .toArray();
            double mean = Arrays.stream(departures).average().orElseThrow();
            double square = Arrays.stream(departures).map(z -> z * z).average().orElseThrow();
            System.out.printf(
                    Locale.ROOT,
                    "%-4s mean %+.3f u, standard deviation %.3f u, in the 95 %% interval %.1f %%%n",
                    NAMES[i],
                    mean,
                    Math.sqrt(square - mean * mean),
                    100.0
                            * all.stream()
                                    .filter(each -> each.get(which).contained())
                                    .count()
                            / tests);
        }
        System.out.printf(
                Locale.ROOT,
                "one of the three beyond 2.5 u: %.1f %%%n",
                100.0
                        * all.stream()
                                .filter(each -> each.stream().anyMatch(time -> Math.abs(time.departure()) > 2.5))
                                .count()
                        / tests);
    }
}
