// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.control;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.function.Predicate;

/** Simulated sessions of instruments in control and out of it; {@link #main} prints the figures of the Javadoc. */
final class ControlChartSimulation {

    private static final Set<ControlRule> WESTERN_ELECTRIC = EnumSet.of(
            ControlRule.BEYOND_LIMITS,
            ControlRule.TWO_OF_THREE,
            ControlRule.FOUR_OF_FIVE,
            ControlRule.EIGHT_ON_ONE_SIDE);
    private static final int YEAR = 52;

    private ControlChartSimulation() {}

    /** A mean with the standard deviation of that mean. */
    record RunLengths(double mean, double deviation) {}

    static double[] sessions(int count, double shift, Random random) {
        return random.doubles(count)
                .map(ignored -> shift + random.nextGaussian())
                .toArray();
    }

    static int beyondLimits(int count, Random random) {
        return (int) ControlChart.of(0, 1).watch(sessions(count, 0, random)).stream()
                .filter(point -> point.signals().contains(ControlRule.BEYOND_LIMITS))
                .count();
    }

    private static RunLengths runLengths(
            ControlChart chart, Predicate<ControlPoint> signal, double shift, int charts, int longest, Random random) {
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < charts; i++) {
            int length = chart.watch(sessions(longest, shift, random)).stream()
                    .filter(signal)
                    .findFirst()
                    .map(ControlPoint::number)
                    .orElse(longest);
            sum += length;
            squares += (double) length * length;
        }
        double mean = sum / charts;
        return new RunLengths(mean, Math.sqrt((squares / charts - mean * mean) / charts));
    }

    /** By the limits of many sessions, as published run lengths have it. */
    static RunLengths movingAverage(double shift, double weight, int charts, int longest, Random random) {
        ControlChart chart = ControlChart.of(0, 1).withWeight(weight);
        return runLengths(
                chart,
                point -> Math.abs(point.movingAverage()) > chart.movingAverageLimit(),
                shift,
                charts,
                longest,
                random);
    }

    static RunLengths westernElectric(int charts, int longest, Random random) {
        return runLengths(
                ControlChart.of(0, 1),
                point -> point.signals().stream().anyMatch(WESTERN_ELECTRIC::contains),
                0,
                charts,
                longest,
                random);
    }

    /** The relative deviation of σ and the share of charts with an alarm in a year, in control throughout. */
    static double[] falseAlarms(int baseline, int charts, Random random) {
        double squares = 0;
        int alarmed = 0;
        for (int i = 0; i < charts; i++) {
            ControlChart chart =
                    baseline == 0 ? ControlChart.of(0, 1) : ControlChart.fromBaseline(sessions(baseline, 0, random));
            squares += (chart.deviation() - 1) * (chart.deviation() - 1);
            boolean alarm = chart.watch(sessions(YEAR, 0, random)).stream().anyMatch(point -> !point.isInControl());
            alarmed += alarm ? 1 : 0;
        }
        return new double[] {Math.sqrt(squares / charts), (double) alarmed / charts};
    }

    public static void main(String[] args) {
        int charts = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
        for (int baseline : new int[] {10, 15, 20, 30, 50, 0}) {
            double[] found = falseAlarms(baseline, charts, new Random(11));
            System.out.printf(Locale.ROOT, "%2d  %.0f %%  %.0f %%%n", baseline, 100 * found[0], 100 * found[1]);
        }
        double[][] published = {
            {0.5, 0.25, 48.453}, {1, 0.25, 11.1543}, {1.5, 0.25, 5.4697}, {2, 0.25, 3.61677},
            {0.5, 0.5, 75.354}, {1, 0.5, 15.7378}, {1.5, 0.5, 6.1111}, {2, 0.5, 3.46850},
            {0.5, 1, 155.224}, {1, 1, 43.8947}, {1.5, 1, 14.9677}, {2, 1, 6.30296}
        };
        for (double[] row : published) {
            RunLengths found = movingAverage(row[0], row[1], charts, 1600, new Random(13));
            System.out.printf(
                    Locale.ROOT,
                    "shift %.1f weight %.2f: %.3f (u %.3f), published %.3f%n",
                    row[0],
                    row[1],
                    found.mean(),
                    found.deviation(),
                    row[2]);
        }
        RunLengths rules = westernElectric(charts, 1200, new Random(17));
        System.out.printf(Locale.ROOT, "four rules: %.2f (u %.2f), published 91.75%n", rules.mean(), rules.deviation());
        int beyond = beyondLimits(2_000_000, new Random(19));
        System.out.printf(Locale.ROOT, "3 sigma: once in %.1f, published 370.4%n", 2e6 / beyond);
    }
}
