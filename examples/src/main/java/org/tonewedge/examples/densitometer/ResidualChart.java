// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.awt.Color;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;
import org.tonewedge.examples.chart.Symbol;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.DensityTolerance;
import org.tonewedge.standards.densitometer.verdict.StepOutcome;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;

/** Draws the error of each step against its certified density, with the tolerance and what the correction leaves. */
final class ResidualChart {

    private static final double WIDTH = 330;
    private static final double HEIGHT = 250;
    private static final int SAMPLES = 200;
    private static final double ROOM = 1.15;
    private static final Color PASSED = ChartStyle.film(1);
    private static final Color FAILED = ChartStyle.film(2);
    private static final Color UNDECIDED = ChartStyle.film(4);
    private static final Color CORRECTED = ChartStyle.film(3);
    private static final Line TOLERANCE = Line.dashed(ChartStyle.PALE, 1.8);

    private final List<Consumer<Plot>> marks = new ArrayList<>();
    private final List<LegendItem> legend = new ArrayList<>();
    private double densest;
    private double furthest;

    private ResidualChart() {}

    static Chart of(DensitometerVerdict verdict, Optional<DensityCorrection> correction) {
        ResidualChart chart = new ResidualChart();
        chart.addSteps(verdict, StepOutcome.PASS, "within the tolerance", Symbol.CIRCLE, PASSED);
        chart.addSteps(verdict, StepOutcome.UNDECIDED, "undecided", Symbol.TRIANGLE, UNDECIDED);
        chart.addSteps(verdict, StepOutcome.FAIL, "outside the tolerance", Symbol.SQUARE, FAILED);
        correction.ifPresent(found -> chart.addCorrected(verdict, found));
        chart.addTolerance(verdict.tolerance());
        return chart.finished(verdict);
    }

    private void addSteps(DensitometerVerdict verdict, StepOutcome outcome, String label, Symbol symbol, Color colour) {
        List<StepVerdict> steps = verdict.steps().stream()
                .filter(step -> step.outcome() == outcome)
                .toList();
        for (StepVerdict step : steps) {
            double x = step.step().density().value();
            double error = step.error().orElseThrow();
            double half = step.expandedUncertaintyOfError();
            include(x, Math.abs(error) + half);
            marks.add(plot -> {
                plot.upwardInterval(x, error - half, error + half, Line.solid(colour, 1.2));
                plot.points(new double[] {x}, new double[] {error}, symbol, ChartStyle.SYMBOL, colour, true);
            });
        }
        if (!steps.isEmpty()) {
            legend.add(LegendItem.points(label, symbol, colour, true));
        }
    }

    private void addCorrected(DensitometerVerdict verdict, DensityCorrection correction) {
        verdict.opticalComparison().steps().forEach(step -> {
            double certified = step.step().density().value();
            try {
                double left = correction.correct(Density.of(step.mean())).value() - certified;
                include(certified, Math.abs(left));
                marks.add(plot -> plot.points(
                        new double[] {certified},
                        new double[] {left},
                        Symbol.DIAMOND,
                        ChartStyle.SYMBOL,
                        CORRECTED,
                        false));
            } catch (OutsideMeasuredRangeException e) {
                // a saturated step has no corrected density to draw
            }
        });
        String label =
                verdict.isArithmeticWrong() ? "recomputed from the counts and corrected" : "after the correction";
        legend.add(LegendItem.points(label, Symbol.DIAMOND, CORRECTED, false));
    }

    private void addTolerance(DensityTolerance tolerance) {
        double right = rightEnd();
        double[] densities = new double[SAMPLES + 1];
        double[] upper = new double[SAMPLES + 1];
        double[] lower = new double[SAMPLES + 1];
        for (int i = 0; i <= SAMPLES; i++) {
            densities[i] = right * i / SAMPLES;
            upper[i] = tolerance.at(densities[i]);
            lower[i] = -upper[i];
            include(0, upper[i]);
        }
        marks.add(plot -> plot.line(densities, upper, TOLERANCE));
        marks.add(plot -> plot.line(densities, lower, TOLERANCE));
        legend.add(LegendItem.line("tolerance", TOLERANCE));
    }

    private void include(double density, double error) {
        densest = Math.max(densest, density);
        furthest = Math.max(furthest, error);
    }

    private double rightEnd() {
        return Math.ceil(densest * 2 + 0.2) / 2;
    }

    private Chart finished(DensitometerVerdict verdict) {
        Plot plot = new Plot(
                Axis.of("certified density", 0, rightEnd(), 0.5),
                Axis.round("reading less certified density", -ROOM * furthest, ROOM * furthest),
                WIDTH,
                HEIGHT);
        plot.line(new double[] {0, rightEnd()}, new double[] {0, 0}, Line.solid(ChartStyle.PALE, 1));
        marks.forEach(mark -> mark.accept(plot));
        return new Chart(
                "Error of the densitometer: "
                        + CheckReport.title(verdict.outcome()).toLowerCase(Locale.ROOT),
                verdict.summary().tablet().name() + "; bars: expanded uncertainty (k = 2) of the error",
                plot,
                legend);
    }
}
