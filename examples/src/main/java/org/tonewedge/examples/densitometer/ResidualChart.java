package org.tonewedge.examples.densitometer;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.renderer.xy.XYItemRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.data.xy.XYDataset;
import org.jfree.data.xy.XYIntervalSeries;
import org.jfree.data.xy.XYIntervalSeriesCollection;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.standards.densitometer.DensitometerVerdict;
import org.tonewedge.standards.densitometer.DensityCorrection;
import org.tonewedge.standards.densitometer.DensityTolerance;
import org.tonewedge.standards.densitometer.StepOutcome;
import org.tonewedge.standards.densitometer.StepVerdict;

/** Draws the error of each step against its certified density, with the tolerance and what the correction leaves. */
final class ResidualChart {

    private static final double WIDTH = 620;
    private static final double HEIGHT = 320;
    private static final int SAMPLES = 200;
    private static final double ROOM = 1.15;
    private static final Color INK = new Color(0x22, 0x22, 0x22);
    private static final Color GRID = new Color(0xdd, 0xdd, 0xdd);
    private static final Color PASSED = new Color(0x00, 0x72, 0xB2);
    private static final Color FAILED = new Color(0xD5, 0x5E, 0x00);
    private static final Color LIMIT = new Color(0x77, 0x77, 0x77);
    private static final Color CORRECTED = new Color(0x00, 0x9E, 0x73);
    private static final Font TEXT = new Font(Font.SANS_SERIF, Font.PLAIN, 12);
    private static final Font TITLE = new Font(Font.SANS_SERIF, Font.BOLD, 15);
    private static final Shape DOT = new Ellipse2D.Double(-4, -4, 8, 8);
    private static final Shape RING = new Ellipse2D.Double(-3, -3, 6, 6);
    private static final Stroke FINE = new BasicStroke(1.2f);
    private static final Stroke DASHED =
            new BasicStroke(1.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {6f, 4f}, 0f);

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
            renderer.setSeriesShape(0, DOT);
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
        renderer.setSeriesShape(0, RING);
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
            renderer.setSeriesPaint(i, LIMIT);
            renderer.setSeriesStroke(i, DASHED);
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
        plot.setBackgroundPaint(Color.WHITE);
        plot.setDomainGridlinePaint(GRID);
        plot.setRangeGridlinePaint(GRID);
        plot.setOutlineVisible(false);
        plot.setRangeZeroBaselineVisible(true);
        plot.setDomainAxis(axis("certified density", 0, rightEnd()));
        plot.setRangeAxis(axis("reading less certified density", -ROOM * furthest, ROOM * furthest));
        JFreeChart chart = new JFreeChart(null, TEXT, plot, true);
        chart.setBackgroundPaint(Color.WHITE);
        chart.setPadding(new RectangleInsets(8, 8, 8, 14));
        chart.getLegend().setFrame(BlockBorder.NONE);
        chart.getLegend().setItemFont(TEXT);
        chart.setTitle(
                heading("Error of the densitometer: " + (verdict.isPassed() ? "passed" : "did not pass"), TITLE));
        chart.addSubtitle(
                heading(verdict.summary().tablet().name() + "; bars: expanded uncertainty (k = 2) of the error", TEXT));
        ChartFiles.write(chart, WIDTH, HEIGHT, directory, name);
    }

    private static TextTitle heading(String text, Font font) {
        TextTitle heading = new TextTitle(text, font);
        heading.setPaint(INK);
        heading.setHorizontalAlignment(HorizontalAlignment.LEFT);
        return heading;
    }

    private static NumberAxis axis(String label, double from, double to) {
        NumberAxis axis = new NumberAxis(label);
        axis.setRange(from, to);
        axis.setLabelFont(TEXT);
        axis.setTickLabelFont(TEXT);
        axis.setLabelPaint(INK);
        axis.setTickLabelPaint(INK);
        return axis;
    }
}
