// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;

/**
 * Speed point and base plus fog of simulated films whose trends are known, after times at the ends of those tested and
 * between them, and those of a plan at its time: bias and coverage. Run by hand; the results stand in {@link FigureTrend}.
 *
 * <pre>java -cp … org.tonewedge.fitting.development.TrendSimulation 3000 SEED NOISE</pre>
 */
final class TrendSimulation {

    static final String[] FIGURES = {"speed point", "base plus fog"};

    private static final ContrastTarget TARGET = ContrastTarget.of("target", ContrastMeasure.RISE_OVER_130, 0.72);

    /** Speed point and base plus fog against z = ln(τ/8), τ the equivalent minutes at 20 °C. */
    @SuppressWarnings("ImmutableEnumChecker") // the functions are pure
    enum Film {
        STRAIGHT(z -> -2.0 - 0.15 * z, z -> 0.20 + 0.03 * z),
        /** A toe that moves evenly, and gradients that grow more slowly the longer the development. */
        USUAL(z -> speedPoint(SimulatedFilm.form(8 * Math.exp(z)), 0.20 + 0.03 * z), z -> 0.20 + 0.03 * z),
        /** Speed that comes to an end; fog that grows with time. */
        SATURATING(z -> -2.1 + 0.10 * Math.exp(-1.2 * z), z -> 0.16 + 0.04 * Math.exp(z)),
        /** Fog that grows faster and faster, at the cost of speed at last. */
        TURNING(z -> -2.0 - 0.05 * z + 0.08 * z * z, z -> 0.15 + 0.03 * Math.exp(0.35 * Math.exp(z))),
        NONE(z -> -2.0, z -> 0.2);

        private final DoubleUnaryOperator speedPoint;
        private final DoubleUnaryOperator base;

        Film(DoubleUnaryOperator speedPoint, DoubleUnaryOperator base) {
            this.speedPoint = speedPoint;
            this.base = base;
        }

        double truth(int figure, double minutes, double celsius) {
            double z = Math.log(SimulatedFilm.equivalentMinutes(minutes, celsius) / 8);
            return (figure == 0 ? speedPoint : base).applyAsDouble(z);
        }

        /** The curve of the simulated film, moved so that its speed point and base plus fog are as wanted. */
        Strip strip(String id, double minutes, double celsius, double noise, Random random) {
            double equivalent = SimulatedFilm.equivalentMinutes(minutes, celsius);
            double z = Math.log(equivalent / 8);
            double level = base.applyAsDouble(z);
            double unmoved = speedPoint(form(level, equivalent, 0), level);
            ParametricForm form = form(level, equivalent, speedPoint.applyAsDouble(z) - unmoved);
            return SimulatedFilm.strip(id, minutes, celsius, form, level, 21, noise, random);
        }

        private static ParametricForm form(double level, double equivalent, double moved) {
            return CurveFamily.TOE_SHOULDER.form(
                    level,
                    -SimulatedFilm.CEILING * Math.expm1(-SimulatedFilm.RATE * equivalent),
                    -2.1 + moved,
                    0.16,
                    0.5 + moved,
                    0.25);
        }

        private static double speedPoint(ParametricForm form, double level) {
            return CharacteristicCurve.of(
                            "truth",
                            form,
                            LogExposure.ofLogLuxSeconds(-4),
                            LogExposure.ofLogLuxSeconds(2),
                            Density.of(level))
                    .pointAbove(ContrastMeasure.SPEED_POINT)
                    .logExposure()
                    .value();
        }
    }

    /** The minutes and temperatures of strips, and those for which the trends are asked. */
    @SuppressWarnings("ImmutableEnumChecker") // read alone
    enum Test {
        TWO_TEMPERATURES(
                new double[][] {{6, 18}, {9, 18}, {14, 18}, {4, 24}, {6, 24}, {9, 24}},
                new double[][] {{9, 18}, {9, 21}, {9, 24}, {14, 18}}),
        TWO_STRIPS(at20(2)),
        THREE_STRIPS(at20(3)),
        FOUR_STRIPS(at20(4)),
        FIVE_STRIPS(at20(5)),
        SIX_STRIPS(at20(6));

        final double[][] strips;
        final double[][] questions;

        Test(double[][] strips) {
            this(strips, at20(5));
        }

        Test(double[][] strips, double[][] questions) {
            this.strips = strips;
            this.questions = questions;
        }

        /** Times from 4 to 16 min in equal ratios. */
        private static double[][] at20(int count) {
            double[][] each = new double[count][];
            for (int i = 0; i < count; i++) {
                each[i] = new double[] {4 * Math.pow(4, i / (count - 1.0)), 20};
            }
            return each;
        }
    }

    private final Film film;
    private final Test test;

    /** By figure and question; the last question is the time of the plan. */
    final int[][] covered;

    final int[] answered;
    final double[][] sumOfErrors;
    final double[][] sumOfSquares;
    final double[][] sumOfReaches;

    private TrendSimulation(Film film, Test test) {
        this.film = film;
        this.test = test;
        int questions = test.questions.length + 1;
        covered = new int[FIGURES.length][questions];
        answered = new int[questions];
        sumOfErrors = new double[FIGURES.length][questions];
        sumOfSquares = new double[FIGURES.length][questions];
        sumOfReaches = new double[FIGURES.length][questions];
    }

    static TrendSimulation run(Film film, Test test, int tests, double noise, long seed) {
        TrendSimulation result = new TrendSimulation(film, test);
        Random random = new Random(seed);
        for (int i = 0; i < tests; i++) {
            List<Strip> strips = new ArrayList<>();
            for (double[] each : test.strips) {
                strips.add(film.strip("T" + strips.size(), each[0], each[1], noise, random));
            }
            result.add(DevelopmentSeries.of(strips));
        }
        return result;
    }

    private void add(DevelopmentSeries series) {
        List<FigureTrend> trends = List.of(
                series.speedPoint().withExtrapolation(), series.basePlusFog().withExtrapolation());
        for (int i = 0; i < test.questions.length; i++) {
            double[] asked = test.questions[i];
            answered[i]++;
            for (int figure = 0; figure < FIGURES.length; figure++) {
                PredictedFigure found = trends.get(figure)
                        .after(Duration.ofMillis(Math.round(asked[0] * 60_000)), Temperature.ofCelsius(asked[1]));
                add(figure, i, found, film.truth(figure, asked[0], asked[1]));
            }
        }
        int last = test.questions.length;
        Temperature at = Temperature.ofCelsius(20);
        PlannedDevelopment line =
                series.plan(List.of(TARGET), List.of(at)).developments().get(0);
        if (line.time().isPresent()) {
            double minutes = DevelopmentTimes.minutes(line.time().get().time());
            answered[last]++;
            add(0, last, line.speedPoint().orElseThrow(), film.truth(0, minutes, at.celsius()));
            add(1, last, line.basePlusFog().orElseThrow(), film.truth(1, minutes, at.celsius()));
        }
    }

    private void add(int figure, int question, PredictedFigure found, double truth) {
        CoverageInterval interval = found.interval(0.95);
        double error = found.value() - truth;
        covered[figure][question] += interval.contains(truth) ? 1 : 0;
        sumOfErrors[figure][question] += error;
        sumOfSquares[figure][question] += error * error;
        sumOfReaches[figure][question] += interval.upper() - interval.lower();
    }

    @Override
    public String toString() {
        return film + ", " + test;
    }

    /**
     * Prints, for each film, test and figure and for each time asked for, in how many tests the 95 % interval holds the
     * truth, its mean half width over 1.96, the scatter of the figure and its bias.
     *
     * @param args how many tests, the seed, the noise of a reading
     */
    public static void main(String[] args) {
        int tests = Integer.parseInt(args[0]);
        for (Film film : Film.values()) {
            for (Test test : Test.values()) {
                TrendSimulation result = run(film, test, tests, Double.parseDouble(args[2]), Long.parseLong(args[1]));
                for (int figure = 0; figure < FIGURES.length; figure++) {
                    StringBuilder text = new StringBuilder();
                    for (int i = 0; i < result.answered.length; i++) {
                        int n = result.answered[i];
                        double bias = result.sumOfErrors[figure][i] / n;
                        text.append(String.format(
                                Locale.ROOT,
                                "  %5.1f %% %.4f %.4f %+.4f",
                                100.0 * result.covered[figure][i] / n,
                                result.sumOfReaches[figure][i] / n / (2 * 1.959964),
                                Math.sqrt(result.sumOfSquares[figure][i] / n - bias * bias),
                                bias));
                    }
                    System.out.printf("%-10s %-16s %-13s%s%n", film, test, FIGURES[figure], text);
                }
            }
        }
    }
}
