package org.tonewedge.examples.comparison;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Path;
import java.text.FieldPosition;
import java.text.NumberFormat;
import java.text.ParsePosition;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.PaintScale;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.title.PaintScaleLegend;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6Contrast;

/**
 * Draws characteristic curves: density upwards, log exposure to the right, equal log units on both axes, stops along the
 * top.
 */
final class CurveChart {

    private static final double UNITS_PER_LOG = 140;
    private static final double UNITS_PER_STOP = ExposureInterval.ofStops(1).logUnits();
    private static final int SAMPLES = 240;
    private static final Color STRIP = new Color(0x00, 0x72, 0xB2);
    private static final Color MARK = new Color(0xD5, 0x5E, 0x00);
    private static final Color PALE = new Color(0xaa, 0xaa, 0xaa);
    private static final Shape RING = new Ellipse2D.Double(-2.5, -2.5, 5, 5);
    private static final Shape DOT = new Ellipse2D.Double(-4, -4, 8, 8);
    private static final Stroke FINE = new BasicStroke(1f);
    private static final Stroke BOLD = new BasicStroke(2.2f);
    private static final Stroke DASHED =
            new BasicStroke(1.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {6f, 4f}, 0f);

    private final XYPlot plot = new XYPlot();
    private final ExposureAxis axis;
    private final OptionalDouble referenceSpeedPoint;
    private double lowest = Double.POSITIVE_INFINITY;
    private double highest = Double.NEGATIVE_INFINITY;
    private double thinnest;
    private double densest;

    private CurveChart(StripFigures reference) {
        axis = reference.strip().axis();
        referenceSpeedPoint = speedPoint(reference);
        ChartStyle.plain(plot);
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
    }

    /** The log exposure of the speed point, on the axis of the strip. */
    private static OptionalDouble speedPoint(StripFigures strip) {
        return strip.iso6Contrast().stream()
                .mapToDouble(found -> found.speedPoint().logExposure().value())
                .findFirst();
    }

    /** Draws one strip beside the reference into {@code directory/name.svg} and {@code .png}. */
    static void writeStrip(StripFigures strip, StripFigures reference, Path directory, String name) throws IOException {
        CurveChart chart = new CurveChart(reference);
        boolean isReference = strip == reference;
        LegendItemCollection legend = new LegendItemCollection();
        if (!isReference) {
            reference.curve().ifPresent(curve -> chart.addCurve(curve, ChartStyle.INK, DASHED));
            reference
                    .curve()
                    .ifPresent(curve -> legend.add(line("reference: " + label(reference), ChartStyle.INK, DASHED)));
        }
        strip.curve().ifPresent(curve -> chart.addCurve(curve, STRIP, BOLD));
        strip.curve().ifPresent(curve -> legend.add(line(label(strip), STRIP, BOLD)));
        chart.addReadings(strip.strip());
        legend.add(symbol("readings", RING, false, STRIP));
        OptionalDouble basePlusFog = strip.get(FilmFigure.BASE_PLUS_FOG).value();
        basePlusFog.ifPresent(base -> chart.addLevel(base, PALE));
        if (basePlusFog.isPresent()) {
            legend.add(line("base plus fog", PALE, FINE));
        }
        strip.iso6Contrast().ifPresent(chart::markSpeedPoint);
        strip.iso6Contrast().ifPresent(found -> legend.add(symbol("speed point and 1.30 span", DOT, true, MARK)));
        chart.plot.setFixedLegendItems(legend);
        String subtitle = strip.curve().isPresent() ? "" : "no curve drawn; see the notes";
        chart.write(label(strip), subtitle, List.of(), directory, name);
    }

    /** Draws all strips, coloured by their speed, the reference on top. */
    static void writeOverlay(List<StripFigures> strips, StripFigures reference, Path directory, String name)
            throws IOException {
        CurveChart chart = new CurveChart(reference);
        SpeedColours colours = SpeedColours.of(strips);
        for (StripFigures strip : strips) {
            if (strip != reference) {
                Color colour = colours.of(strip).orElse(PALE);
                strip.curve().ifPresent(curve -> chart.addCurve(curve, colour, new BasicStroke(1.3f)));
            }
        }
        reference.curve().ifPresent(curve -> chart.addCurve(curve, Color.BLACK, new BasicStroke(3f)));
        if (strips.stream().noneMatch(strip -> strip.curve().isPresent())) {
            strips.forEach(strip -> chart.addReadings(strip.strip()));
        }
        LegendItemCollection legend = new LegendItemCollection();
        legend.add(line("reference: " + label(reference), Color.BLACK, new BasicStroke(3f)));
        chart.plot.setFixedLegendItems(legend);
        long drawn = strips.stream().filter(strip -> strip.curve().isPresent()).count();
        chart.write(
                "All strips",
                drawn + " curves of " + strips.size() + " strips",
                colours.legend().stream().toList(),
                directory,
                name);
    }

    private static String label(StripFigures figures) {
        Strip strip = figures.strip();
        return Checks.shortened(strip.film().equals(strip.id()) ? strip.id() : strip.id() + "  " + strip.film());
    }

    private void include(double logExposure, double density) {
        lowest = Math.min(lowest, logExposure);
        highest = Math.max(highest, logExposure);
        thinnest = Math.min(thinnest, density);
        densest = Math.max(densest, density);
    }

    private void addCurve(CharacteristicCurve curve, Color colour, Stroke stroke) {
        XYSeries series = new XYSeries("curve", false, true);
        double from = curve.lowestExposure().value();
        double to = curve.highestExposure().value();
        for (int i = 0; i <= SAMPLES; i++) {
            double x = i == SAMPLES ? to : from + (to - from) * i / SAMPLES;
            double d = curve.density(x);
            series.add(x, d);
            include(x, d);
        }
        add(series, colour, stroke, null, false);
    }

    private void addReadings(Strip strip) {
        XYSeries series = new XYSeries("readings", false, true);
        for (ExposedStep step : strip.steps()) {
            step.readings().forEach(reading -> series.add(step.exposure().value(), reading.value()));
            step.readings().forEach(reading -> include(step.exposure().value(), reading.value()));
        }
        add(series, STRIP, null, RING, false);
    }

    private void addLevel(double density, Color colour) {
        XYSeries series = new XYSeries("level", false, true);
        series.add(lowest, density);
        series.add(highest, density);
        add(series, colour, FINE, null, false);
    }

    private void markSpeedPoint(Iso6Contrast contrast) {
        CurvePoint m = contrast.speedPoint();
        Optional<CurvePoint> n = contrast.contrastPoint();
        double x = m.logExposure().value();
        double d = m.density().value();
        if (n.isPresent()) {
            XYSeries span = new XYSeries("span", false, true);
            double end = n.get().logExposure().value();
            double top = n.get().density().value();
            span.add(x, d);
            span.add(end, d);
            span.add(end, top);
            add(span, MARK, new BasicStroke(1.4f), null, false);
            text(String.format(Locale.ROOT, "ΔD %.2f", top - d), end + 0.05, 0.5 * (d + top), TextAnchor.CENTER_LEFT);
            text("1.30", 0.5 * (x + end), d + 0.03, TextAnchor.BOTTOM_CENTER);
        }
        XYSeries point = new XYSeries("m", false, true);
        point.add(x, d);
        add(point, MARK, null, DOT, true);
    }

    private void text(String text, double x, double y, TextAnchor anchor) {
        XYTextAnnotation annotation = new XYTextAnnotation(text, x, y);
        annotation.setFont(ChartStyle.SMALL);
        annotation.setPaint(MARK);
        annotation.setTextAnchor(anchor);
        plot.addAnnotation(annotation);
    }

    private void add(XYSeries series, Color colour, Stroke stroke, Shape shape, boolean filled) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(stroke != null, shape != null);
        // Drawn as one path, or dashes would begin anew at every sample.
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, colour);
        if (stroke != null) {
            renderer.setSeriesStroke(0, stroke);
        }
        if (shape != null) {
            renderer.setSeriesShape(0, shape);
            renderer.setSeriesShapesFilled(0, filled);
        }
        int index = plot.getDatasetCount();
        plot.setDataset(index, new XYSeriesCollection(series));
        plot.setRenderer(index, renderer);
    }

    private void write(String title, String subtitle, List<PaintScaleLegend> scales, Path directory, String name)
            throws IOException {
        double left = Math.floor((lowest - 0.05) * 4) / 4;
        double right = Math.ceil((highest + 0.05) * 4) / 4;
        double bottom = thinnest < 0 ? Math.floor((thinnest - 0.05) * 4) / 4 : 0;
        double top = Math.ceil((densest + 0.05) * 4) / 4;
        plot.setDomainAxis(axis(
                "log H (" + (axis.isAbsolute() ? "lux seconds" : axis.toString()) + ")",
                left,
                right,
                0.5,
                CurveChart::oneDecimal));
        plot.setRangeAxis(axis("density", bottom, top, 0.5, CurveChart::oneDecimal));
        referenceSpeedPoint.ifPresent(zero -> {
            plot.setDomainAxis(
                    1,
                    axis(
                            "stops from the reference's speed point",
                            (left - zero) / UNITS_PER_STOP,
                            (right - zero) / UNITS_PER_STOP,
                            1,
                            stops -> stops == 0 ? "0" : Figures.stops(stops).replaceAll(" .*", "")));
            plot.setDomainAxisLocation(1, AxisLocation.TOP_OR_LEFT);
        });
        JFreeChart chart = ChartStyle.chart(title, subtitle, plot);
        scales.forEach(chart::addSubtitle);
        ChartFiles.write(chart, (right - left) * UNITS_PER_LOG, (top - bottom) * UNITS_PER_LOG, directory, name);
    }

    private static NumberAxis axis(String name, double from, double to, double unit, DoubleFunction<String> label) {
        return ChartStyle.axis(name, from, to, unit, new LabelFormat(label));
    }

    private static String oneDecimal(double value) {
        return String.format(Locale.ROOT, "%.1f", value).replace('-', '\u2212');
    }

    private static LegendItem line(String label, Color colour, Stroke stroke) {
        return new LegendItem(label, null, null, null, new java.awt.geom.Line2D.Double(0, 0, 22, 0), stroke, colour);
    }

    private static LegendItem symbol(String label, Shape shape, boolean filled, Color colour) {
        return new LegendItem(
                label, null, null, null, true, shape, filled, colour, !filled, colour, FINE, false, shape, FINE,
                colour);
    }

    /** Colours from slow to fast. */
    private record SpeedColours(double slowest, double fastest, boolean absolute) implements PaintScale {

        private static final Color[] ANCHORS = {
            new Color(0x44, 0x01, 0x54),
            new Color(0x3b, 0x52, 0x8b),
            new Color(0x21, 0x91, 0x8c),
            new Color(0x5e, 0xc9, 0x62),
            new Color(0xe8, 0xc0, 0x20)
        };

        static SpeedColours of(List<StripFigures> strips) {
            double[] speeds = strips.stream()
                    .map(SpeedColours::logSpeed)
                    .filter(OptionalDouble::isPresent)
                    .mapToDouble(OptionalDouble::getAsDouble)
                    .sorted()
                    .toArray();
            boolean absolute = strips.get(0).strip().axis().isAbsolute();
            return speeds.length == 0
                    ? new SpeedColours(0, 0, absolute)
                    : new SpeedColours(speeds[0], speeds[speeds.length - 1], absolute);
        }

        /** log10 of the speed; on a relative axis the log exposure of the speed point, negated. */
        private static OptionalDouble logSpeed(StripFigures strip) {
            OptionalDouble point = speedPoint(strip);
            return point.isPresent()
                    ? OptionalDouble.of(Math.log10(0.8) - point.getAsDouble())
                    : OptionalDouble.empty();
        }

        Optional<Color> of(StripFigures strip) {
            OptionalDouble speed = logSpeed(strip);
            return speed.isPresent() ? Optional.of(getPaint(speed.getAsDouble())) : Optional.empty();
        }

        Optional<PaintScaleLegend> legend() {
            if (!(fastest > slowest)) {
                return Optional.empty();
            }
            NumberAxis axis = axis("exact speed", slowest, fastest, UNITS_PER_STOP, SpeedColours::speedLabel);

            if (!absolute) {
                axis.setLabel("faster →");
                axis.setTickLabelsVisible(false);
            }
            PaintScaleLegend legend = new PaintScaleLegend(this, axis);
            legend.setPosition(RectangleEdge.RIGHT);
            legend.setAxisLocation(AxisLocation.BOTTOM_OR_RIGHT);
            legend.setStripWidth(12);
            legend.setMargin(new RectangleInsets(60, 12, 60, 0));
            return Optional.of(legend);
        }

        @Override
        public double getLowerBound() {
            return slowest;
        }

        @Override
        public double getUpperBound() {
            return fastest;
        }

        @Override
        public Color getPaint(double logSpeed) {
            double span = fastest > slowest ? fastest - slowest : 1;
            double place = Math.max(0, Math.min(1, (logSpeed - slowest) / span)) * (ANCHORS.length - 1);
            int i = Math.min((int) place, ANCHORS.length - 2);
            double t = place - i;
            return new Color(
                    mix(ANCHORS[i].getRed(), ANCHORS[i + 1].getRed(), t),
                    mix(ANCHORS[i].getGreen(), ANCHORS[i + 1].getGreen(), t),
                    mix(ANCHORS[i].getBlue(), ANCHORS[i + 1].getBlue(), t));
        }

        /** The speed of a logarithm, two digits of it. */
        private static String speedLabel(double logSpeed) {
            return new BigDecimal(Math.pow(10, logSpeed))
                    .round(new MathContext(2))
                    .stripTrailingZeros()
                    .toPlainString();
        }

        private static int mix(int a, int b, double t) {
            return (int) Math.round(a + (b - a) * t);
        }
    }

    /** An axis label made by a function of the value. */
    private static final class LabelFormat extends NumberFormat {

        private static final long serialVersionUID = 1L;

        private final transient DoubleFunction<String> label;

        LabelFormat(DoubleFunction<String> label) {
            this.label = label;
        }

        @Override
        public StringBuffer format(double value, StringBuffer text, FieldPosition position) {
            return text.append(label.apply(value));
        }

        @Override
        public StringBuffer format(long value, StringBuffer text, FieldPosition position) {
            return format((double) value, text, position);
        }

        @Override
        public Number parse(String text, ParsePosition position) {
            throw new UnsupportedOperationException("this format only writes");
        }
    }
}
