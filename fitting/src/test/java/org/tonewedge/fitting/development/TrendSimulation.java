// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;

/**
 * Speed point and base plus fog after 9 min at three temperatures, of a simulated film whose strips were developed at 18 and
 * 24 °C and whose law of temperature is found from them: bias and coverage of the trends. Run by hand; the results stand in
 * {@link FigureTrend}.
 *
 * <pre>java -cp … org.tonewedge.fitting.development.TrendSimulation 3000</pre>
 */
final class TrendSimulation {

    static final double[] CELSIUS = {18, 21, 24};
    static final String[] FIGURES = {"speed point", "base plus fog"};
    private static final double[][] MINUTES_AND_CELSIUS = {{6, 18}, {9, 18}, {14, 18}, {4, 24}, {6, 24}, {9, 24}};
    private static final double MINUTES = 9;
    private static final double NOISE = 0.005;

    /** By figure and temperature. */
    final int[][] covered = new int[FIGURES.length][CELSIUS.length];

    final double[][] sumOfErrors = new double[FIGURES.length][CELSIUS.length];
    final double[][] sumOfSquares = new double[FIGURES.length][CELSIUS.length];
    final double[][] sumOfUncertainties = new double[FIGURES.length][CELSIUS.length];

    private TrendSimulation() {}

    private static double truth(int figure, double celsius) {
        double minutes = SimulatedFilm.equivalentMinutes(MINUTES, celsius);
        return figure == 0
                ? ExpansionSimulation.truth(minutes)
                        .pointAbove(DensityDifference.of(0.10))
                        .logExposure()
                        .value()
                : SimulatedFilm.base(minutes);
    }

    static TrendSimulation run(int tests, long seed) {
        TrendSimulation result = new TrendSimulation();
        Random random = new Random(seed);
        for (int test = 0; test < tests; test++) {
            List<Strip> strips = new ArrayList<>();
            for (double[] each : MINUTES_AND_CELSIUS) {
                strips.add(SimulatedFilm.strip("T" + strips.size(), each[0], each[1], NOISE, random));
            }
            DevelopmentSeries series = DevelopmentSeries.of(strips);
            List<FigureTrend> trends = List.of(series.speedPoint(), series.basePlusFog());
            for (int figure = 0; figure < FIGURES.length; figure++) {
                for (int i = 0; i < CELSIUS.length; i++) {
                    double truth = truth(figure, CELSIUS[i]);
                    PredictedFigure predicted = trends.get(figure)
                            .withExtrapolation()
                            .after(Duration.ofMinutes((long) MINUTES), Temperature.ofCelsius(CELSIUS[i]));
                    CoverageInterval interval = predicted.interval(0.95);
                    double error = predicted.value() - truth;
                    result.covered[figure][i] += interval.contains(truth) ? 1 : 0;
                    result.sumOfErrors[figure][i] += error;
                    result.sumOfSquares[figure][i] += error * error;
                    result.sumOfUncertainties[figure][i] +=
                            predicted.standardUncertainty().orElseThrow();
                }
            }
        }
        return result;
    }

    /**
     * Prints bias, scatter, mean uncertainty and coverage of each figure.
     *
     * @param args how many tests
     */
    public static void main(String[] args) {
        int tests = Integer.parseInt(args[0]);
        TrendSimulation result = run(tests, 1);
        for (int figure = 0; figure < FIGURES.length; figure++) {
            for (int i = 0; i < CELSIUS.length; i++) {
                double bias = result.sumOfErrors[figure][i] / tests;
                System.out.printf(
                        Locale.ROOT,
                        "%-13s at %.0f °C: bias %+.5f, scatter %.5f, mean u %.5f, 95 %% intervals hold it in %.1f %%%n",
                        FIGURES[figure],
                        CELSIUS[i],
                        bias,
                        Math.sqrt(result.sumOfSquares[figure][i] / tests - bias * bias),
                        result.sumOfUncertainties[figure][i] / tests,
                        100.0 * result.covered[figure][i] / tests);
            }
        }
    }
}
