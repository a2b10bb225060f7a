// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.awt.Color;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.Anchor;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;
import org.tonewedge.examples.chart.Symbol;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;

/**
 * Draws characteristic curves: density upwards, log exposure to the right, equal log units on both axes, stops along the
 * top.
 */
final class CurveChart {

    private static final double UNITS_PER_LOG = 140;
    private static final double UNITS_PER_STOP = ExposureInterval.ofStops(1).logUnits();
    private static final int SAMPLES = 240;
    private static final double RING = 2.5;
    private static final double DOT = 4;
    private static final Color STRIP = ChartStyle.film(1);
    private static final Color MARK = ChartStyle.film(2);
    private static final Color PALE = new Color(0xaa, 0xaa, 0xaa);
    private static final Line REFERENCE = Line.dashed(ChartStyle.INK, 1.4);
    private static final Line OWN = Line.solid(STRIP, 2.2);
    private static final Line BASE = Line.solid(PALE, 1);

    private final String unit;
    private final OptionalDouble referenceSpeedPoint;
    private final List<Consumer<Plot>> curves = new ArrayList<>();
    private double lowest = Double.POSITIVE_INFINITY;
    private double highest = Double.NEGATIVE_INFINITY;
    private double thinnest;
    private double densest;

    private CurveChart(String unit, OptionalDouble referenceSpeedPoint) {
        this.unit = unit;
        this.referenceSpeedPoint = referenceSpeedPoint;
    }

    /**
     * What the chart of all curves shows of a strip.
     *
     * @param strip the strip
     * @param curve its curve, if it has one
     * @param speedPoint the log exposure of its speed point, on the axis of the strip
     */
    record StripCurve(Strip strip, Optional<CharacteristicCurve> curve, OptionalDouble speedPoint) {

        static StripCurve of(StripFigures figures) {
            return new StripCurve(
                    figures.strip(),
                    figures.curve(),
                    figures.iso6Contrast().stream()
                            .mapToDouble(
                                    found -> found.speedPoint().logExposure().value())
                            .findFirst());
        }

        /** log10 of the speed; on a relative axis the log exposure of the speed point, negated. */
        private OptionalDouble logSpeed() {
            return speedPoint.isPresent()
                    ? OptionalDouble.of(Math.log10(Iso6.SPEED_CONSTANT) - speedPoint.getAsDouble())
                    : OptionalDouble.empty();
        }
    }

    /** One strip beside the reference. */
    static Chart ofStrip(StripComparison row) {
        StripFigures strip = row.figures();
        StripFigures reference = row.reference();
        CurveChart chart = new CurveChart(
                Assumed.unit(reference.strip().axis(), List.of(row)),
                StripCurve.of(reference).speedPoint());
        List<LegendItem> legend = new ArrayList<>();
        if (strip != reference) {
            reference.curve().ifPresent(curve -> chart.addCurve(curve, REFERENCE));
            reference
                    .curve()
                    .ifPresent(
                            curve -> legend.add(LegendItem.line("reference: " + label(reference.strip()), REFERENCE)));
        }
        strip.curve().ifPresent(curve -> chart.addCurve(curve, OWN));
        strip.curve().ifPresent(curve -> legend.add(LegendItem.line(label(strip.strip()), OWN)));
        double[][] readings = chart.readings(strip.strip());
        legend.add(LegendItem.points("readings", Symbol.CIRCLE, STRIP, false));
        OptionalDouble base = strip.get(FilmFigure.BASE_PLUS_FOG).value();
        if (base.isPresent()) {
            legend.add(LegendItem.line("base plus fog", BASE));
        }
        strip.iso6Contrast()
                .ifPresent(
                        found -> legend.add(LegendItem.points("speed point and 1.30 span", Symbol.CIRCLE, MARK, true)));
        Plot plot = chart.plot();
        base.ifPresent(
                level -> plot.line(new double[] {chart.lowest, chart.highest}, new double[] {level, level}, BASE));
        chart.drawCurves(plot);
        plot.points(readings[0], readings[1], Symbol.CIRCLE, RING, STRIP, false);
        strip.iso6Contrast().ifPresent(found -> markSpeedPoint(plot, found));
        return new Chart(
                label(strip.strip()), strip.curve().isPresent() ? "" : "no curve drawn; see the notes", plot, legend);
    }

    /** All strips, coloured by their speed, the reference on top. */
    static Chart ofAll(FilmComparison comparison) {
        StripFigures reference = comparison.reference();
        List<StripFigures> strips =
                comparison.rows().stream().map(StripComparison::figures).toList();
        return ofAll(
                strips.stream().map(StripCurve::of).toList(),
                strips.indexOf(reference),
                Assumed.unit(reference.strip().axis(), comparison.rows()),
                Assumed.all(comparison.rows()));
    }

    /** The curves of strips, that of the reference on top, whose place among them is given. */
    static Chart ofAll(List<StripCurve> strips, int place, String unit, boolean assumed) {
        StripCurve reference = strips.get(place);
        CurveChart chart = new CurveChart(unit, reference.speedPoint());
        SpeedColours colours = SpeedColours.of(strips, assumed);
        for (int i = 0; i < strips.size(); i++) {
            if (i != place) {
                StripCurve strip = strips.get(i);
                Line line = Line.solid(colours.of(strip).orElse(PALE), 1.3);
                strip.curve().ifPresent(curve -> chart.addCurve(curve, line));
            }
        }
        Line heavy = Line.solid(Color.BLACK, 3);
        reference.curve().ifPresent(curve -> chart.addCurve(curve, heavy));
        List<double[][]> readings = chart.curves.isEmpty()
                ? strips.stream().map(strip -> chart.readings(strip.strip())).toList()
                : List.of();
        Plot plot = chart.plot();
        chart.drawCurves(plot);
        readings.forEach(points -> plot.points(points[0], points[1], Symbol.CIRCLE, RING, STRIP, false));
        colours.explain(plot);
        long drawn = strips.stream().filter(strip -> strip.curve().isPresent()).count();
        return new Chart(
                "All strips",
                Figures.counted(drawn, "curve") + " of " + Figures.counted(strips.size(), "strip"),
                plot,
                List.of(LegendItem.line("reference: " + label(reference.strip()), heavy)));
    }

    private static String label(Strip strip) {
        return Checks.shortened(strip.film().equals(strip.id()) ? strip.id() : strip.id() + "  " + strip.film());
    }

    private void include(double logExposure, double density) {
        lowest = Math.min(lowest, logExposure);
        highest = Math.max(highest, logExposure);
        thinnest = Math.min(thinnest, density);
        densest = Math.max(densest, density);
    }

    private void addCurve(CharacteristicCurve curve, Line line) {
        double[] exposures = new double[SAMPLES + 1];
        double[] densities = new double[SAMPLES + 1];
        double from = curve.lowestExposure().value();
        double to = curve.highestExposure().value();
        for (int i = 0; i <= SAMPLES; i++) {
            exposures[i] = i == SAMPLES ? to : from + (to - from) * i / SAMPLES;
            densities[i] = curve.density(exposures[i]);
            include(exposures[i], densities[i]);
        }
        curves.add(plot -> plot.line(exposures, densities, line));
    }

    private void drawCurves(Plot plot) {
        curves.forEach(curve -> curve.accept(plot));
    }

    private double[][] readings(Strip strip) {
        List<double[]> points = new ArrayList<>();
        for (ExposedStep step : strip.steps()) {
            step.readings()
                    .forEach(reading -> points.add(new double[] {step.exposure().value(), reading.value()}));
        }
        points.forEach(point -> include(point[0], point[1]));
        return new double[][] {
            points.stream().mapToDouble(point -> point[0]).toArray(),
            points.stream().mapToDouble(point -> point[1]).toArray()
        };
    }

    private static void markSpeedPoint(Plot plot, Iso6Contrast contrast) {
        CurvePoint m = contrast.speedPoint();
        Optional<CurvePoint> n = contrast.contrastPoint();
        double x = m.logExposure().value();
        double d = m.density().value();
        if (n.isPresent()) {
            double end = n.get().logExposure().value();
            double top = n.get().density().value();
            plot.line(new double[] {x, end, end}, new double[] {d, d, top}, Line.solid(MARK, 1.4));
            plot.text(String.format(Locale.ROOT, "ΔD %.2f", top - d), end, 0.5 * (d + top), 7, 0, Anchor.START, MARK);
            plot.text("1.30", 0.5 * (x + end), d, 0, -9, Anchor.MIDDLE, MARK);
        }
        plot.points(new double[] {x}, new double[] {d}, Symbol.CIRCLE, DOT, MARK, true);
    }

    /** A plot for what was included. */
    private Plot plot() {
        if (!(lowest <= highest)) {
            include(0, 0);
        }
        double left = Math.floor((lowest - 0.05) * 4) / 4;
        double right = Math.ceil((highest + 0.05) * 4) / 4;
        double bottom = thinnest < 0 ? Math.floor((thinnest - 0.05) * 4) / 4 : 0;
        double top = Math.ceil((densest + 0.05) * 4) / 4;
        Plot plot = new Plot(
                Axis.of("log H (" + unit + ")", left, right, 0.5),
                Axis.of("density", bottom, top, 0.5),
                (right - left) * UNITS_PER_LOG,
                (top - bottom) * UNITS_PER_LOG);
        referenceSpeedPoint.ifPresent(zero -> plot.withTopAxis(new Axis(
                "stops from the reference's speed point",
                (left - zero) / UNITS_PER_STOP,
                (right - zero) / UNITS_PER_STOP,
                1,
                stops -> stops == 0 ? "0" : Figures.stops(stops).replaceAll(" .*", ""))));
        return plot;
    }

    /** Colours from slow to fast. */
    private record SpeedColours(double slowest, double fastest, boolean absolute, boolean assumed) {

        private static final Color[] ANCHORS = {
            new Color(0x44, 0x01, 0x54),
            new Color(0x3b, 0x52, 0x8b),
            new Color(0x21, 0x91, 0x8c),
            new Color(0x5e, 0xc9, 0x62),
            new Color(0xe8, 0xc0, 0x20)
        };

        static SpeedColours of(List<StripCurve> strips, boolean assumed) {
            double[] speeds = strips.stream()
                    .map(StripCurve::logSpeed)
                    .filter(OptionalDouble::isPresent)
                    .mapToDouble(OptionalDouble::getAsDouble)
                    .sorted()
                    .toArray();
            boolean absolute = strips.get(0).strip().axis().isAbsolute();
            return speeds.length == 0
                    ? new SpeedColours(0, 0, absolute, assumed)
                    : new SpeedColours(speeds[0], speeds[speeds.length - 1], absolute, assumed);
        }

        Optional<Color> of(StripCurve strip) {
            OptionalDouble speed = strip.logSpeed();
            return speed.isPresent() ? Optional.of(at(speed.getAsDouble())) : Optional.empty();
        }

        void explain(Plot plot) {
            if (fastest > slowest) {
                String name = absolute ? "exact speed" + (assumed ? Assumed.MARK : "") : "faster →";
                Axis axis = new Axis(name, slowest, fastest, UNITS_PER_STOP, SpeedColours::speedLabel);
                plot.withColourBar(axis, this::at, absolute);
            }
        }

        private Color at(double logSpeed) {
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
            return BigDecimal.valueOf(Math.pow(10, logSpeed))
                    .round(new MathContext(2))
                    .stripTrailingZeros()
                    .toPlainString();
        }

        private static int mix(int a, int b, double t) {
            return (int) Math.round(a + (b - a) * t);
        }
    }
}
