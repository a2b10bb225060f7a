package org.tonewedge.examples.densitometer;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Stroke;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.renderer.xy.XYItemRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYDataset;
import org.jfree.data.xy.XYIntervalSeries;
import org.jfree.data.xy.XYIntervalSeriesCollection;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.DensityTolerance;
import org.tonewedge.standards.densitometer.verdict.StepOutcome;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;

/** Draws the error of each step against its certified density, with the tolerance and what the correction leaves. */
final class ResidualChart {

    private static final double WIDTH = 620;
    private static final double HEIGHT = 320;
    private static final int SAMPLES = 200;
    private static final double ROOM = 1.15;
    private static final Color PASSED = ChartStyle.film(1);
    private static final Color FAILED = ChartStyle.film(2);
    private static final Color CORRECTED = ChartStyle.film(3);
    private static final Stroke FINE = new BasicStroke(1.2f);

    private final XYPlot plot = new XYPlot();
    private double densest;
    private double furthest;

    private ResidualChart() {}

    static void write(DensitometerVerdict verdict, Optional<DensityCorrection> correction, Path directory, String name)
            throws IOException {
        ResidualChart chart = new ResidualChart();
        chart.addSteps(verdict, StepOutcome.PASS, "within the tolerance", PASSED);
        chart.addSteps(verdict, StepOutcome.FAIL, "outside the tolerance", FAILED);
        correction.ifPresent(found -> chart.addCorrected(verdict, found));
        chart.addTolerance(verdict.tolerance());
        chart.write(verdict, directory, name);
    }

    private void addSteps(DensitometerVerdict verdict, StepOutcome outcome, String label, Color colour) {
        XYIntervalSeries series = new XYIntervalSeries(label);
        for (StepVerdict step : verdict.steps()) {
            if (step.outcome() == outcome) {
                double x = step.step().density().value();
                double error = step.error().orElseThrow();
                double half = step.expandedUncertaintyOfError();
                series.add(x, x, x, error, error - half, error + half);
                include(x, Math.abs(error) + half);
            }
        }
        if (!series.isEmpty()) {
            XYIntervalSeriesCollection points = new XYIntervalSeriesCollection();
            points.addSeries(series);
            XYErrorRenderer renderer = new XYErrorRenderer();
            renderer.setDrawXError(false);
            renderer.setErrorPaint(colour);
            renderer.setErrorStroke(FINE);
            renderer.setSeriesPaint(0, colour);
            renderer.setSeriesShape(0, ChartStyle.symbol(0));
            add(points, renderer);
        }
    }

    private void addCorrected(DensitometerVerdict verdict, DensityCorrection correction) {
        XYSeries series = new XYSeries(
                verdict.isArithmeticWrong() ? "computed anew from the counts and corrected" : "after the correction");
        verdict.opticalComparison().steps().forEach(step -> {
            double certified = step.step().density().value();
            try {
                double left = correction.correct(Density.of(step.mean())).value() - certified;
                series.add(certified, left);
                include(certified, Math.abs(left));
            } catch (OutsideMeasuredRangeException e) {
                // a saturated step has no corrected density to draw
            }
        });
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
        renderer.setSeriesPaint(0, CORRECTED);
        renderer.setSeriesShape(0, ChartStyle.symbol(3));
        renderer.setSeriesShapesFilled(0, false);
        add(new XYSeriesCollection(series), renderer);
    }

    private void addTolerance(DensityTolerance tolerance) {
        XYSeriesCollection limits = new XYSeriesCollection();
        XYSeries upper = new XYSeries("tolerance");
        XYSeries lower = new XYSeries("lower");
        double right = rightEnd();
        for (int i = 0; i <= SAMPLES; i++) {
            double x = right * i / SAMPLES;
            upper.add(x, tolerance.at(x));
            lower.add(x, -tolerance.at(x));
            include(0, tolerance.at(x));
        }
        limits.addSeries(upper);
        limits.addSeries(lower);
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesVisibleInLegend(1, false);
        for (int i = 0; i < 2; i++) {
            renderer.setSeriesPaint(i, ChartStyle.PALE);
            renderer.setSeriesStroke(i, ChartStyle.stroke(0));
        }
        add(limits, renderer);
    }

    private void add(XYDataset data, XYItemRenderer renderer) {
        int index = plot.getDatasetCount();
        plot.setDataset(index, data);
        plot.setRenderer(index, renderer);
    }

    private void include(double density, double error) {
        densest = Math.max(densest, density);
        furthest = Math.max(furthest, error);
    }

    private double rightEnd() {
        return Math.ceil(densest * 2 + 0.2) / 2;
    }

    private void write(DensitometerVerdict verdict, Path directory, String name) throws IOException {
        ChartStyle.plain(plot);
        plot.setRangeZeroBaselineVisible(true);
        plot.setDomainAxis(ChartStyle.axis("certified density", 0, rightEnd(), 0.5));
        NumberAxis errors =
                ChartStyle.axis("reading less certified density", -ROOM * furthest, ROOM * furthest, furthest);
        errors.setAutoTickUnitSelection(true);
        plot.setRangeAxis(errors);
        JFreeChart chart = ChartStyle.chart(
                "Error of the densitometer: " + (verdict.isPassed() ? "passed" : "did not pass"),
                verdict.summary().tablet().name() + "; bars: expanded uncertainty (k = 2) of the error",
                plot);
        ChartFiles.write(chart, WIDTH, HEIGHT, directory, name);
    }
}
