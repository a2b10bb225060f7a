package org.tonewedge.examples.tone;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.annotations.XYLineAnnotation;
import org.jfree.chart.annotations.XYShapeAnnotation;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.tone.ReproducedTone;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.chart.ChartStyle;

/**
 * Draws the road from subject to print of a film and the reference in four quadrants that share their axes: camera below
 * right, film below left, printing above left, reproduction above right.
 */
final class QuadrantChart {

    private static final double UNITS_PER_LOG = 110;
    private static final double DARKEST = -1.8;
    private static final double LIGHTEST = 1.5;
    private static final int SAMPLES = 300;
    private static final List<SubjectTone> FOLLOWED =
            List.of(SubjectTone.ofStops(-3), SubjectTone.METERED, SubjectTone.ofStops(2));
    private static final Stroke FINE = new BasicStroke(1f);

    private final List<ToneReproduction> roads;
    private final NumberAxis subject =
            ChartStyle.axis("log luminance of the subject, from the metered grey", DARKEST, LIGHTEST, 0.5);
    private final double filmFrom;
    private final double filmTo;
    private final double densest;
    private final double blackest;

    private QuadrantChart(ToneReproduction film, ToneReproduction reference) {
        roads = List.of(reference, film);
        // A quarter off the ticks, so that the first label keeps clear of the common cross.
        filmFrom = Math.floor(roads.stream()
                                        .mapToDouble(road -> exposure(road, DARKEST))
                                        .min()
                                        .orElseThrow()
                                * 2)
                        / 2
                - 0.25;
        filmTo = Math.ceil(roads.stream()
                                .mapToDouble(road -> exposure(road, LIGHTEST))
                                .max()
                                .orElseThrow()
                        * 2)
                / 2;
        densest = halfAbove(roads.stream()
                .mapToDouble(road -> road.film()
                        .density(Math.min(
                                exposure(road, LIGHTEST),
                                road.film().highestExposure().value())))
                .max()
                .orElseThrow());
        blackest = halfAbove(film.paper().maximumDensity().value());
    }

    private static double halfAbove(double density) {
        return Math.ceil((density + 0.05) * 2) / 2;
    }

    private static double exposure(ToneReproduction road, double logLuminance) {
        return road.camera().exposureOf(new SubjectTone(logLuminance)).value();
    }

    /** Draws a film beside the reference into {@code directory/name.svg} and {@code .png}. */
    static void write(
            String filmName,
            ToneReproduction film,
            String referenceName,
            ToneReproduction reference,
            String paperName,
            Path directory,
            String name)
            throws IOException {
        QuadrantChart chart = new QuadrantChart(film, reference);
        LegendItemCollection legend = new LegendItemCollection();
        legend.add(ChartStyle.line(referenceName + " (reference)", 0));
        legend.add(ChartStyle.line(filmName, 1));
        legend.add(new LegendItem(
                "gradient 1: contrast kept",
                null,
                null,
                null,
                new java.awt.geom.Line2D.Double(0, 0, 26, 0),
                FINE,
                ChartStyle.PALE));
        double width = chart.densest + LIGHTEST - DARKEST;
        double height = chart.blackest + chart.filmTo - chart.filmFrom;
        QuadrantPlot plot = new QuadrantPlot(
                List.of(chart.reproduction(), chart.printing(), chart.film(), chart.camera()),
                chart.densest / width,
                chart.blackest / height,
                legend);
        ChartFiles.write(
                ChartStyle.chart("From subject to print: " + filmName, "on " + paperName, plot),
                width * UNITS_PER_LOG + 2 * QuadrantPlot.AXIS_WIDTH,
                height * UNITS_PER_LOG + 2 * QuadrantPlot.AXIS_HEIGHT,
                directory,
                name);
    }

    private NumberAxis filmAxis() {
        NumberAxis axis = ChartStyle.axis(
                "log exposure at the film, " + roads.get(0).film().axis(), filmFrom, filmTo, 0.5);
        axis.setInverted(true);
        return axis;
    }

    private NumberAxis negativeAxis(String name) {
        NumberAxis axis = ChartStyle.axis(name, 0, densest, 0.5);
        axis.setInverted(true);
        return axis;
    }

    private NumberAxis printAxis() {
        return ChartStyle.axis("density of the print", 0, blackest, 0.5);
    }

    private XYPlot camera() {
        XYPlot plot = panel(subject, filmAxis(), AxisLocation.BOTTOM_OR_LEFT, AxisLocation.BOTTOM_OR_RIGHT);
        for (int i = 0; i < roads.size(); i++) {
            ToneReproduction road = roads.get(i);
            add(plot, i, DARKEST, LIGHTEST, x -> x, x -> exposure(road, x));
        }
        for (ReproducedTone tone : followed()) {
            double x = tone.tone().logLuminance();
            double y = tone.filmExposure().value();
            trace(plot, x, filmFrom, x, y, DARKEST, y);
        }
        return named(plot, "I  camera", LIGHTEST, filmFrom, TextAnchor.TOP_RIGHT);
    }

    private XYPlot film() {
        XYPlot plot = panel(
                negativeAxis("density of the negative"),
                filmAxis(),
                AxisLocation.BOTTOM_OR_LEFT,
                AxisLocation.BOTTOM_OR_LEFT);
        for (int i = 0; i < roads.size(); i++) {
            CharacteristicCurve curve = roads.get(i).film();
            double from = Math.max(filmFrom, curve.lowestExposure().value());
            double to = Math.min(filmTo, curve.highestExposure().value());
            add(plot, i, from, to, curve::density, x -> x);
        }
        for (ReproducedTone tone : followed()) {
            double x = tone.negativeDensity().value();
            double y = tone.filmExposure().value();
            trace(plot, 0, y, x, y, x, filmFrom);
        }
        return named(plot, "II  film", densest, filmFrom, TextAnchor.TOP_LEFT);
    }

    private XYPlot printing() {
        XYPlot plot = panel(
                negativeAxis("density of the negative"),
                printAxis(),
                AxisLocation.TOP_OR_LEFT,
                AxisLocation.BOTTOM_OR_LEFT);
        for (int i = 0; i < roads.size(); i++) {
            ToneReproduction road = roads.get(i);
            double open = road.printing().open().value();
            double from = Math.max(0, open - road.paper().highestExposure().value());
            double to = Math.min(densest, open - road.paper().lowestExposure().value());
            add(
                    plot,
                    i,
                    from,
                    to,
                    x -> x,
                    x -> road.paper()
                            .densityAt(road.printing().exposureUnder(Density.of(x)))
                            .value());
        }
        for (ReproducedTone tone : followed()) {
            double x = tone.negativeDensity().value();
            double y = tone.printDensity().value();
            trace(plot, x, 0, x, y, 0, y);
        }
        return named(plot, "III  printing on the paper", densest, blackest, TextAnchor.TOP_LEFT);
    }

    private XYPlot reproduction() {
        XYPlot plot = panel(subject, printAxis(), AxisLocation.TOP_OR_LEFT, AxisLocation.BOTTOM_OR_RIGHT);
        for (int i = 0; i < roads.size(); i++) {
            ToneReproduction road = roads.get(i);
            add(
                    plot,
                    i,
                    DARKEST,
                    LIGHTEST,
                    x -> x,
                    x -> road.stage().at(new SubjectTone(x)).value());
        }
        ToneReproduction reference = roads.get(0);
        double grey = reference.tone(SubjectTone.METERED).printDensity().value();
        double left = Math.max(DARKEST, grey - blackest);
        double right = Math.min(LIGHTEST, grey);
        plot.addAnnotation(new XYLineAnnotation(left, grey - left, right, grey - right, FINE, ChartStyle.PALE));
        for (ReproducedTone tone : followed()) {
            double x = tone.tone().logLuminance();
            double y = tone.printDensity().value();
            trace(plot, DARKEST, y, x, y, x, 0);
        }
        return named(plot, "IV  reproduction", LIGHTEST, blackest, TextAnchor.TOP_RIGHT);
    }

    /** The tones to follow on the film that stay within its measured range and the paper's. */
    private List<ReproducedTone> followed() {
        return FOLLOWED.stream().flatMap(tone -> determined(tone).stream()).toList();
    }

    private Optional<ReproducedTone> determined(SubjectTone tone) {
        try {
            return Optional.of(roads.get(1).tone(tone));
        } catch (NotDeterminableException e) {
            return Optional.empty();
        }
    }

    private static XYPlot panel(NumberAxis x, NumberAxis y, AxisLocation xAt, AxisLocation yAt) {
        XYPlot plot = new XYPlot();
        ChartStyle.plain(plot);
        plot.setDomainAxis(x);
        plot.setRangeAxis(y);
        plot.setDomainAxisLocation(xAt);
        plot.setRangeAxisLocation(yAt);
        // The dashed reference on top, so that both lines show where they run together.
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.REVERSE);
        return plot;
    }

    private static void add(
            XYPlot plot, int index, double from, double to, DoubleUnaryOperator x, DoubleUnaryOperator y) {
        XYSeries series = new XYSeries("curve", false, true);
        for (int i = 0; i <= SAMPLES; i++) {
            double at = from + (to - from) * i / SAMPLES;
            series.add(x.applyAsDouble(at), whereDetermined(y, at));
        }
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, ChartStyle.film(index));
        renderer.setSeriesStroke(0, ChartStyle.stroke(index));
        plot.setDataset(index, new XYSeriesCollection(series));
        plot.setRenderer(index, renderer);
    }

    /** The value, or a gap in the line where it was not measured. */
    private static Double whereDetermined(DoubleUnaryOperator function, double at) {
        try {
            return function.applyAsDouble(at);
        } catch (NotDeterminableException e) {
            return null;
        }
    }

    /** A line from one edge to a point of the curve and on to another edge. */
    private static void trace(XYPlot plot, double x1, double y1, double x2, double y2, double x3, double y3) {
        Color colour = ChartStyle.film(1);
        plot.addAnnotation(new XYLineAnnotation(x1, y1, x2, y2, FINE, colour));
        plot.addAnnotation(new XYLineAnnotation(x2, y2, x3, y3, FINE, colour));
        double radius = 4 / UNITS_PER_LOG;
        plot.addAnnotation(new XYShapeAnnotation(
                new Ellipse2D.Double(x2 - radius, y2 - radius, 2 * radius, 2 * radius), FINE, colour, colour));
    }

    private static XYPlot named(XYPlot plot, String name, double x, double y, TextAnchor anchor) {
        XYTextAnnotation text = new XYTextAnnotation(" " + name + " ", x, y);
        text.setTextAnchor(anchor);
        text.setFont(ChartStyle.TEXT.deriveFont(java.awt.Font.BOLD));
        text.setPaint(ChartStyle.INK);
        text.setBackgroundPaint(Color.WHITE);
        plot.addAnnotation(text);
        return plot;
    }
}
