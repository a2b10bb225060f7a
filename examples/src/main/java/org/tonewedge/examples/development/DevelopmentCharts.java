package org.tonewedge.examples.development;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.file.Path;
import java.text.DecimalFormat;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYDifferenceRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.fitting.development.BeyondTested;
import org.tonewedge.fitting.development.ContrastFit;
import org.tonewedge.fitting.development.DevelopedFigure;
import org.tonewedge.fitting.development.DevelopmentFamily;
import org.tonewedge.fitting.development.DevelopmentTimes;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.development.PredictedFigure;

/** Draws the family of curves and contrast against time. */
final class DevelopmentCharts {

    private static final double UNITS_PER_LOG = 170;
    private static final int SAMPLES = 240;
    private static final double CONFIDENCE = 0.95;
    /** From cool and short to warm and long; distinct for all eyes, and in print. */
    private static final Color[] COLOURS = {
        new Color(0x00, 0x72, 0xB2),
        new Color(0x00, 0x9E, 0x73),
        new Color(0xCC, 0x79, 0xA7),
        new Color(0x56, 0xB4, 0xE9),
        new Color(0x8C, 0x6D, 0x1F),
        new Color(0x5B, 0x3F, 0x8C),
        new Color(0xE6, 0x9F, 0x00),
        new Color(0x66, 0x66, 0x66)
    };

    private static final Shape SQUARE = new Rectangle2D.Double(-3, -3, 6, 6);
    private static final Shape RING = new Ellipse2D.Double(-2, -2, 4, 4);
    private static final Color BLUE = COLOURS[0];
    private static final Color ORANGE = new Color(0xD5, 0x5E, 0x00);
    private static final Stroke FINE = new BasicStroke(1f);
    private static final Stroke BOLD = new BasicStroke(2.2f);
    private static final Stroke DASHED =
            new BasicStroke(1.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {6f, 4f}, 0f);

    private DevelopmentCharts() {}

    /** Draws the strips with the curves of the family, and the curve of the planned development. */
    static void writeFamily(DevelopmentReport report, Optional<PlannedDevelopment> planned, Path directory)
            throws IOException {
        DevelopmentFamily family = report.family();
        XYPlot plot = plot();
        LegendItemCollection legend = new LegendItemCollection();
        List<Strip> strips = report.series().strips();
        double densest = 0;
        CharacteristicCurve curve = null;
        for (int i = 0; i < strips.size(); i++) {
            Strip strip = strips.get(i);
            Color colour = COLOURS[i % COLOURS.length];
            curve = curveAt(
                    family,
                    strip.processing().time().orElseThrow(),
                    strip.processing().temperature());
            addLine(plot, samples(curve), colour, new BasicStroke(1.3f));
            addPoints(plot, readings(strip), colour, RING);
            legend.add(line(strip.id() + "  " + DevelopmentReport.developed(strip), colour, new BasicStroke(1.3f)));
            densest = Math.max(densest, curve.maximumDensity().value());
        }
        if (planned.isPresent() && planned.get().time().isPresent()) {
            PlannedDevelopment line = planned.get();
            Duration time = line.time().orElseThrow().time();
            CharacteristicCurve aim = curveAt(family.with(BeyondTested.FLAG), time, line.temperature());
            addLine(plot, samples(aim), Color.BLACK, new BasicStroke(2.8f));
            legend.add(line(
                    line.target().name() + ": " + DevelopmentTimes.inWords(time)
                            + line.temperature()
                                    .map(at -> " at " + DevelopmentTimes.inWords(at))
                                    .orElse(""),
                    Color.BLACK,
                    new BasicStroke(2.8f)));
            densest = Math.max(densest, aim.maximumDensity().value());
        }
        plot.setFixedLegendItems(legend);
        double left = Math.floor((curve.lowestExposure().value() - 0.05) * 4) / 4;
        double right = Math.ceil((curve.highestExposure().value() + 0.05) * 4) / 4;
        double top = Math.ceil((densest + 0.05) * 4) / 4;
        String unit = curve.axis().isAbsolute() ? "lux seconds" : curve.axis().toString();
        plot.setDomainAxis(ChartStyle.axis("log H (" + unit + ")", left, right, 0.5));
        plot.setRangeAxis(ChartStyle.axis("density", 0, top, 0.5));
        ChartFiles.write(
                ChartStyle.chart(strips.get(0).film() + ": family of curves", "", plot),
                (right - left) * UNITS_PER_LOG,
                top * UNITS_PER_LOG,
                directory,
                "family");
    }

    private static CharacteristicCurve curveAt(
            DevelopmentFamily family, Duration time, Optional<Temperature> temperature) {
        return temperature.map(at -> family.curveAt(time, at)).orElseGet(() -> family.curveAt(time));
    }

    private static XYSeries samples(CharacteristicCurve curve) {
        XYSeries series = new XYSeries("curve", false, true);
        double from = curve.lowestExposure().value();
        double to = curve.highestExposure().value();
        for (int i = 0; i <= SAMPLES; i++) {
            double x = i == SAMPLES ? to : from + (to - from) * i / SAMPLES;
            series.add(x, curve.density(x));
        }
        return series;
    }

    private static XYSeries readings(Strip strip) {
        XYSeries series = new XYSeries("readings", false, true);
        for (ExposedStep step : strip.steps()) {
            step.readings().forEach(reading -> series.add(step.exposure().value(), reading.value()));
        }
        return series;
    }

    /** Draws contrast against time at each temperature, with bands, strips and the target. */
    static void writeContrastTime(DevelopmentReport report, Optional<PlannedDevelopment> planned, Path directory)
            throws IOException {
        ContrastFit fit = report.contrast().best();
        List<Temperature> temperatures = report.series().temperatures();
        List<DevelopedFigure> strips = fit.contrasts();
        XYPlot plot = plot();
        LegendItemCollection legend = new LegendItemCollection();
        double longest = strips.stream()
                .mapToDouble(strip -> DevelopmentTimes.minutes(strip.time()))
                .max()
                .orElseThrow();
        double right = Math.ceil(longest + 0.5);
        double top = Math.ceil(strips.stream()
                                        .mapToDouble(DevelopedFigure::value)
                                        .max()
                                        .orElseThrow()
                                * 10
                        + 1)
                / 10;
        if (temperatures.isEmpty()) {
            addCurve(plot, legend, fit, null, BLUE);
        }
        for (int i = 0; i < temperatures.size(); i++) {
            addCurve(plot, legend, fit, temperatures.get(i), COLOURS[i % COLOURS.length]);
        }
        addStrips(plot, strips, temperatures);
        legend.add(new LegendItem(
                "strips, with 95 % intervals", null, null, null, SQUARE, ChartStyle.INK, FINE, ChartStyle.INK));
        planned.filter(line -> line.time().isPresent()).ifPresent(line -> addTarget(plot, legend, line, right));
        plot.setFixedLegendItems(legend);
        plot.setDomainAxis(ChartStyle.axis("time of development (minutes)", 0, right, 2, new DecimalFormat("0")));
        plot.setRangeAxis(ChartStyle.axis("contrast (ΔD over 1.30)", 0, top, 0.1));
        String film = report.series().strips().get(0).film();
        ChartFiles.write(
                ChartStyle.chart(film + ": contrast against time", "", plot), 560, 380, directory, "contrast-time");
    }

    private static void addCurve(
            XYPlot plot, LegendItemCollection legend, ContrastFit fit, Temperature at, Color colour) {
        List<DevelopedFigure> own = fit.contrasts().stream()
                .filter(strip -> at == null || strip.temperature().equals(Optional.of(at)))
                .toList();
        double from = own.stream().mapToDouble(DevelopmentCharts::minutes).min().orElseThrow();
        double to = own.stream().mapToDouble(DevelopmentCharts::minutes).max().orElseThrow();
        XYSeries middle = new XYSeries("contrast", false, true);
        XYSeries lower = new XYSeries("lower", false, true);
        XYSeries upper = new XYSeries("upper", false, true);
        for (int i = 0; i <= SAMPLES; i++) {
            double x = i == SAMPLES ? to : from + (to - from) * i / SAMPLES;
            Duration time = DevelopmentTimes.ofMinutes(x);
            PredictedFigure contrast = at == null ? fit.contrastAfter(time) : fit.contrastAfter(time, at);
            middle.add(x, contrast.value());
            if (contrast.standardUncertainty().isPresent()) {
                CoverageInterval band = contrast.interval(CONFIDENCE);
                lower.add(x, band.lower());
                upper.add(x, band.upper());
            }
        }
        if (!lower.isEmpty()) {
            XYSeriesCollection band = new XYSeriesCollection(upper);
            band.addSeries(lower);
            Color shade = new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), 60);
            XYDifferenceRenderer renderer = new XYDifferenceRenderer(shade, shade, false);
            renderer.setSeriesPaint(0, shade);
            renderer.setSeriesPaint(1, shade);
            int index = plot.getDatasetCount();
            plot.setDataset(index, band);
            plot.setRenderer(index, renderer);
        }
        addLine(plot, middle, colour, BOLD);
        legend.add(line(
                (at == null ? "" : DevelopmentTimes.inWords(at) + ": ") + fit.model() + ", 95 % band", colour, BOLD));
    }

    private static double minutes(DevelopedFigure strip) {
        return DevelopmentTimes.minutes(strip.time());
    }

    private static void addStrips(XYPlot plot, List<DevelopedFigure> strips, List<Temperature> temperatures) {
        for (DevelopedFigure strip : strips) {
            Color colour = strip.temperature()
                    .map(at -> COLOURS[temperatures.indexOf(at) % COLOURS.length])
                    .orElse(BLUE);
            XYSeries bar = new XYSeries("bar", false, true);
            double reach = 1.96 * strip.standardUncertainty().orElse(0);
            bar.add(minutes(strip), strip.value() - reach);
            bar.add(minutes(strip), strip.value() + reach);
            addLine(plot, bar, colour, FINE);
            XYSeries point = new XYSeries("strip", false, true);
            point.add(minutes(strip), strip.value());
            addPoints(plot, point, colour, SQUARE);
            text(
                    plot,
                    strip.name().replaceAll("strip '(.*)'", "$1"),
                    minutes(strip) + 0.15,
                    strip.value() - 0.015,
                    TextAnchor.TOP_LEFT,
                    colour);
        }
    }

    private static void addTarget(XYPlot plot, LegendItemCollection legend, PlannedDevelopment line, double right) {
        double minutes = DevelopmentTimes.minutes(line.time().orElseThrow().time());
        double target = line.target().value();
        XYSeries level = new XYSeries("target", false, true);
        level.add(0, target);
        level.add(right, target);
        addLine(plot, level, ORANGE, DASHED);
        XYSeries drop = new XYSeries("time", false, true);
        drop.add(minutes, target);
        drop.add(minutes, 0);
        addLine(plot, drop, ORANGE, FINE);
        XYSeries point = new XYSeries("answer", false, true);
        point.add(minutes, target);
        addPoints(plot, point, ORANGE, new Ellipse2D.Double(-5, -5, 10, 10));
        String time = DevelopmentTimes.inWords(line.time().orElseThrow().time());
        text(plot, time, minutes + 0.2, 0.04, TextAnchor.BOTTOM_LEFT, ORANGE);
        legend.add(line(
                line.target().name() + ": " + time
                        + line.temperature()
                                .map(at -> " at " + DevelopmentTimes.inWords(at))
                                .orElse(""),
                ORANGE,
                DASHED));
    }

    private static XYPlot plot() {
        XYPlot plot = new XYPlot();
        ChartStyle.plain(plot);
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
        return plot;
    }

    private static void addLine(XYPlot plot, XYSeries series, Color colour, Stroke stroke) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        // Drawn as one path, or dashes would begin anew at every sample.
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesStroke(0, stroke);
        add(plot, series, colour, renderer);
    }

    private static void addPoints(XYPlot plot, XYSeries series, Color colour, Shape shape) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
        renderer.setSeriesShape(0, shape);
        add(plot, series, colour, renderer);
    }

    private static void add(XYPlot plot, XYSeries series, Color colour, XYLineAndShapeRenderer renderer) {
        renderer.setSeriesPaint(0, colour);
        int index = plot.getDatasetCount();
        plot.setDataset(index, new XYSeriesCollection(series));
        plot.setRenderer(index, renderer);
    }

    private static void text(XYPlot plot, String text, double x, double y, TextAnchor anchor, Color colour) {
        XYTextAnnotation annotation = new XYTextAnnotation(text, x, y);
        annotation.setFont(ChartStyle.SMALL);
        annotation.setPaint(colour);
        annotation.setTextAnchor(anchor);
        plot.addAnnotation(annotation);
    }

    private static LegendItem line(String label, Color colour, Stroke stroke) {
        return new LegendItem(label, null, null, null, new Line2D.Double(0, 0, 22, 0), stroke, colour);
    }
}
