// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.tone.ReproducedTone;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.examples.chart.Anchor;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;
import org.tonewedge.examples.chart.Symbol;

/**
 * Draws the road from subject to print of a film and the reference in four quadrants that share their axes: camera below
 * right, film below left, printing above left, reproduction above right.
 */
final class QuadrantChart {

    private static final double UNITS_PER_LOG = 110;
    private static final double DARKEST = -1.8;
    private static final double LIGHTEST = 1.5;
    private static final int SAMPLES = 300;
    private static final double DOT = 4;
    private static final List<SubjectTone> FOLLOWED =
            List.of(SubjectTone.ofStops(-3), SubjectTone.METERED, SubjectTone.ofStops(2));
    private static final Line KEPT = Line.solid(ChartStyle.PALE, 1);
    private static final Line TRACE = Line.solid(ChartStyle.film(1), 1);

    private final List<ToneReproduction> roads;
    private final Axis subject = Axis.of("log luminance of the subject, from the metered grey", DARKEST, LIGHTEST, 0.5);
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

    /** A film beside the reference. */
    static Chart of(
            String filmName,
            ToneReproduction film,
            String referenceName,
            ToneReproduction reference,
            String paperName) {
        QuadrantChart chart = new QuadrantChart(film, reference);
        List<LegendItem> legend = List.of(
                LegendItem.line(referenceName + " (reference)", ChartStyle.line(0)),
                LegendItem.line(filmName, ChartStyle.line(1)),
                LegendItem.line("gradient 1: contrast kept", KEPT));
        QuadrantPlot plot =
                new QuadrantPlot(List.of(chart.reproduction(), chart.printing(), chart.film(), chart.camera()));
        return new Chart("From subject to print: " + filmName, "on " + paperName, plot, legend);
    }

    private Axis filmAxis() {
        String name = "log exposure at the film, " + roads.get(0).film().axis();
        return Axis.of(name, filmTo, filmFrom, 0.5);
    }

    private Axis negativeAxis() {
        return Axis.of("density of the negative", densest, 0, 0.5);
    }

    private Axis printAxis() {
        return Axis.of("density of the print", 0, blackest, 0.5);
    }

    private static Plot panel(Axis x, Axis y) {
        return new Plot(x, y, Math.abs(x.to() - x.from()) * UNITS_PER_LOG, Math.abs(y.to() - y.from()) * UNITS_PER_LOG);
    }

    private Plot camera() {
        Plot plot = panel(subject, filmAxis()).withYAtRight();
        forEachRoad((road, line) -> add(plot, line, DARKEST, LIGHTEST, x -> x, x -> exposure(road, x)));
        for (ReproducedTone tone : followed()) {
            double x = tone.tone().logLuminance();
            double y = tone.filmExposure().value();
            trace(plot, x, filmFrom, x, y, DARKEST, y);
        }
        return named(plot, "I  camera", LIGHTEST, filmFrom, Anchor.END);
    }

    private Plot film() {
        Plot plot = panel(negativeAxis(), filmAxis());
        forEachRoad((road, line) -> {
            CharacteristicCurve curve = road.film();
            double from = Math.max(filmFrom, curve.lowestExposure().value());
            double to = Math.min(filmTo, curve.highestExposure().value());
            add(plot, line, from, to, curve::density, x -> x);
        });
        for (ReproducedTone tone : followed()) {
            double x = tone.negativeDensity().value();
            double y = tone.filmExposure().value();
            trace(plot, 0, y, x, y, x, filmFrom);
        }
        return named(plot, "II  film", densest, filmFrom, Anchor.START);
    }

    private Plot printing() {
        Plot plot = panel(negativeAxis(), printAxis()).withXAbove();
        forEachRoad((road, line) -> {
            double open = road.printing().openExposure().value();
            double from = Math.max(0, open - road.paper().highestExposure().value());
            double to = Math.min(densest, open - road.paper().lowestExposure().value());
            add(
                    plot,
                    line,
                    from,
                    to,
                    x -> x,
                    x -> road.paper()
                            .densityAt(road.printing().exposureUnder(Density.of(x)))
                            .value());
        });
        for (ReproducedTone tone : followed()) {
            double x = tone.negativeDensity().value();
            double y = tone.printDensity().value();
            trace(plot, x, 0, x, y, 0, y);
        }
        return named(plot, "III  printing on the paper", densest, blackest, Anchor.START);
    }

    private Plot reproduction() {
        Plot plot = panel(subject, printAxis()).withXAbove().withYAtRight();
        ToneReproduction reference = roads.get(0);
        double grey = reference.tone(SubjectTone.METERED).printDensity().value();
        double left = Math.max(DARKEST, grey - blackest);
        double right = Math.min(LIGHTEST, grey);
        plot.line(new double[] {left, right}, new double[] {grey - left, grey - right}, KEPT);
        forEachRoad((road, line) -> add(
                plot,
                line,
                DARKEST,
                LIGHTEST,
                x -> x,
                x -> road.tone(new SubjectTone(x)).printDensity().value()));
        for (ReproducedTone tone : followed()) {
            double x = tone.tone().logLuminance();
            double y = tone.printDensity().value();
            trace(plot, DARKEST, y, x, y, x, 0);
        }
        return named(plot, "IV  reproduction", LIGHTEST, blackest, Anchor.END);
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

    /** Draws something for a road with its line. */
    private interface RoadMark {
        void draw(ToneReproduction road, Line line);
    }

    /** The dashed reference on top, so that both lines show where they run together. */
    private void forEachRoad(RoadMark mark) {
        mark.draw(roads.get(1), ChartStyle.line(1));
        mark.draw(roads.get(0), ChartStyle.line(0));
    }

    private static void add(
            Plot plot, Line line, double from, double to, DoubleUnaryOperator x, DoubleUnaryOperator y) {
        List<double[]> run = new ArrayList<>();
        for (int i = 0; i <= SAMPLES; i++) {
            double at = from + (to - from) * i / SAMPLES;
            OptionalDouble value = whereDetermined(y, at);
            if (value.isPresent()) {
                run.add(new double[] {x.applyAsDouble(at), value.getAsDouble()});
            } else {
                addRun(plot, line, run);
                run.clear();
            }
        }
        addRun(plot, line, run);
    }

    /** A line without a gap. */
    private static void addRun(Plot plot, Line line, List<double[]> run) {
        if (!run.isEmpty()) {
            plot.line(
                    run.stream().mapToDouble(point -> point[0]).toArray(),
                    run.stream().mapToDouble(point -> point[1]).toArray(),
                    line);
        }
    }

    private static OptionalDouble whereDetermined(DoubleUnaryOperator function, double at) {
        try {
            return OptionalDouble.of(function.applyAsDouble(at));
        } catch (NotDeterminableException e) {
            return OptionalDouble.empty();
        }
    }

    /** A line from one edge to a point of the curve and on to another edge. */
    private static void trace(Plot plot, double x1, double y1, double x2, double y2, double x3, double y3) {
        plot.line(new double[] {x1, x2, x3}, new double[] {y1, y2, y3}, TRACE);
        plot.points(new double[] {x2}, new double[] {y2}, Symbol.CIRCLE, DOT, TRACE.colour(), true);
    }

    private static Plot named(Plot plot, String name, double x, double y, Anchor anchor) {
        plot.text(name, x, y, anchor == Anchor.END ? -8 : 8, 12, anchor, ChartStyle.INK);
        return plot;
    }
}
