// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.awt.Color;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.InverseCurveTable;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.CameraExposure;
import org.tonewedge.core.tone.Printing;
import org.tonewedge.core.tone.ReproducedTone;
import org.tonewedge.core.tone.ShadowMatch;
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
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.FittedReading;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.densitometer.input.CertificateTable;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.StepReadings;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;

/** The pictures of the guide in the Javadoc, drawn from the invented demo data by the plots of the programs. */
final class GuideFigures {

    private static final double WIDTH = 520;
    private static final double HEIGHT = 300;
    private static final Line CURVE = Line.solid(ChartStyle.film(1), 2);
    private static final Line THIN = Line.dashed(ChartStyle.PALE, 1);
    private static final Color MARK = ChartStyle.film(2);
    private static final int SAMPLES = 200;

    private final Path demo;
    private final ReadingsTable films;
    private final Map<String, String> figures = new LinkedHashMap<>();

    private GuideFigures(Path demo) throws IOException {
        this.demo = demo;
        films = ReadingsTable.read(demo.resolve("strips.csv"));
    }

    /**
     * Draws all figures.
     *
     * @param demo the folder of the demo data
     * @return the name of each with its SVG
     */
    static Map<String, String> draw(Path demo) throws IOException {
        GuideFigures figures = new GuideFigures(demo);
        figures.speedPoint();
        figures.residuals();
        figures.curveParts();
        figures.development();
        figures.shadowMatch();
        figures.densitometer();
        figures.ownModel();
        figures.inverse();
        figures.ownMethod();
        figures.comparison();
        figures.toneReproduction();
        return figures.figures;
    }

    private void add(String name, String title, Plot plot, LegendItem... legend) {
        figures.put(
                name,
                new Chart(title, "invented data", plot, List.of(legend))
                        .drawing()
                        .svg());
    }

    private static Plot densityPlot(double left, double right, double top) {
        return new Plot(
                Axis.of("log H (lux seconds)", left, right, 0.5), Axis.of("density", 0, top, 0.5), WIDTH, HEIGHT);
    }

    private static void curve(Plot plot, CharacteristicCurve curve, Line line) {
        double from = curve.lowestExposure().value();
        double to = curve.highestExposure().value();
        double[] x = new double[SAMPLES + 1];
        double[] d = new double[SAMPLES + 1];
        for (int i = 0; i <= SAMPLES; i++) {
            x[i] = i == SAMPLES ? to : from + (to - from) * i / SAMPLES;
            d[i] = curve.density(x[i]);
        }
        plot.line(x, d, line);
    }

    private static void readings(Plot plot, Strip strip) {
        List<ExposedStep> steps = strip.steps();
        plot.points(
                steps.stream().mapToDouble(step -> step.exposure().value()).toArray(),
                steps.stream().mapToDouble(step -> step.density().value()).toArray(),
                Symbol.CIRCLE,
                2.5,
                ChartStyle.INK,
                false);
    }

    private static void mark(Plot plot, CurvePoint point, String label) {
        double x = point.logExposure().value();
        double d = point.density().value();
        plot.points(new double[] {x}, new double[] {d}, Symbol.CIRCLE, 4, MARK, true);
        plot.text(label, x, d, -6, -8, Anchor.END, MARK);
    }

    private void speedPoint() {
        CharacteristicCurve curve = CharacteristicCurve.through(films.strip("R00"));
        Iso6Contrast contrast = Iso6.withDefaults().contrast(curve);
        Plot plot = densityPlot(-4, 0.5, 2);
        curve(plot, curve, CURVE);
        readings(plot, films.strip("R00"));
        CurvePoint m = contrast.speedPoint();
        CurvePoint n = contrast.contrastPoint().orElseThrow();
        double end = n.logExposure().value();
        double foot = m.density().value();
        plot.line(
                new double[] {m.logExposure().value(), end, end},
                new double[] {foot, foot, n.density().value()},
                Line.solid(MARK, 1.3));
        plot.text("1.30", 0.5 * (m.logExposure().value() + end), foot, 0, 14, Anchor.MIDDLE, MARK);
        plot.text("rise", end, 0.5 * (foot + n.density().value()), 8, 0, Anchor.START, MARK);
        mark(plot, m, "speed point, 0.10 above base plus fog");
        add("speed-point", "The speed point and the contrast over 1.30 log units", plot);
    }

    private void residuals() {
        FittedCurve fit = CurveFits.toeShoulder(films.strip("R00"));
        List<FittedReading> readings = fit.readings().stream()
                .filter(reading -> reading.exposure().isPresent())
                .toList();
        double[] x = readings.stream()
                .mapToDouble(reading -> reading.exposure().orElseThrow().value())
                .toArray();
        double[] r = readings.stream()
                .mapToDouble(reading -> reading.residual().value())
                .toArray();
        Plot plot = new Plot(
                Axis.of("log H (lux seconds)", -3.5, 0.5, 0.5),
                new Axis("reading less curve", -0.02, 0.02, 0.01, value -> Axis.decimals(value, 2)),
                WIDTH,
                180);
        plot.line(new double[] {-3.5, 0.5}, new double[] {0, 0}, THIN);
        plot.points(x, r, Symbol.CIRCLE, 3, ChartStyle.film(1), true);
        add("residuals", "What the fitted curve leaves over", plot);
    }

    private void curveParts() {
        CharacteristicCurve curve = CurveFits.toeShoulder(films.strip("S12")).curve();
        CurveAnatomy parts = CurveAnatomy.of(curve);
        Plot plot = densityPlot(-2.5, 1.5, 3);
        curve(plot, curve, THIN);
        part(plot, curve, parts.toe(), "toe", 0);
        part(plot, curve, Optional.of(parts.straightLine()), "straight line", 1);
        part(plot, curve, parts.shoulder(), "shoulder", 3);
        double base = curve.basePlusFog().value();
        plot.line(new double[] {-2.5, 1.5}, new double[] {base, base}, THIN);
        plot.text("base plus fog", 1.5, base, -4, -6, Anchor.END, ChartStyle.INK);
        add("curve-parts", "A curve and its parts", plot);
    }

    private static void part(
            Plot plot, CharacteristicCurve curve, Optional<CurveRegion> region, String label, int colour) {
        if (region.isEmpty()) {
            return;
        }
        LogExposure one = region.get().thinEnd().logExposure();
        LogExposure other = region.get().denseEnd().logExposure();
        curve(plot, curve.restrictedTo(one, other), Line.solid(ChartStyle.film(colour), 4));
        double middle = 0.5 * (one.value() + other.value());
        plot.text(label, middle, curve.density(middle), 12, 4, Anchor.START, ChartStyle.film(colour));
    }

    private void development() throws IOException {
        Plot plot = densityPlot(-3.5, 0.5, 2.5);
        List<LegendItem> legend = new ArrayList<>();
        List<Strip> strips = ReadingsTable.read(demo.resolve("development.csv")).strips();
        for (int i = 0; i < strips.size() && i < 5; i++) {
            Line line = ChartStyle.line(i);
            curve(plot, CharacteristicCurve.through(strips.get(i)), line);
            legend.add(LegendItem.line(strips.get(i).processing().toString(), line));
        }
        add("development", "One film developed for different times", plot, legend.toArray(LegendItem[]::new));
    }

    private void shadowMatch() throws IOException {
        BracketTable frames = BracketTable.read(demo.resolve("frames.csv"));
        Bracket reference = frames.bracket("Ostwick Reference 125");
        Bracket film = frames.bracket("Bellmarsh 400");
        ShadowMatch match = ShadowMatch.of(film, "shadow", reference, "metered");
        List<Frame> all = film.frames();
        double base = film.basePlusFog().value();
        double[] stops =
                all.stream().mapToDouble(frame -> frame.exposure().stops()).toArray();
        double[] net = all.stream()
                .mapToDouble(frame -> frame.reading("shadow").density().value() - base)
                .toArray();
        Plot plot = new Plot(
                Axis.of("exposure of the frame (stops)", -2, 3, 1),
                Axis.of("shadow above base plus fog", 0, 0.6, 0.1),
                WIDTH,
                HEIGHT);
        double wanted = match.target().value();
        plot.line(new double[] {-2, 3}, new double[] {wanted, wanted}, THIN);
        plot.text("the reference's shadow", -2, wanted, 4, -6, Anchor.START, ChartStyle.INK);
        plot.points(stops, net, Symbol.CIRCLE, 3, ChartStyle.film(1), true);
        double exact = match.exactExposure().stops();
        plot.line(new double[] {exact, exact}, new double[] {0, wanted}, Line.solid(MARK, 1.3));
        plot.text("matching exposure", exact, 0, 6, -8, Anchor.START, MARK);
        add("shadow-match", "The frame whose shadow has the density of the reference's", plot);
    }

    private void densitometer() throws IOException {
        Path files = demo.resolve("densitometer");
        try (Reader certificate = Files.newBufferedReader(files.resolve("tablet.csv"));
                InputStream log = Files.newInputStream(files.resolve("stray-light.csv"))) {
            StepTablet tablet = CertificateTable.read("tablet.csv", certificate);
            LogLayout layout = LogLayout.parse("comma step=1 density=2 decimals=3");
            List<StepReadings> steps = ReadingsSummary.read(log, layout, tablet).densities();
            Plot plot = new Plot(
                    Axis.of("certified density", 0, 3.5, 0.5),
                    new Axis("mean less certificate", -0.2, 0.05, 0.05, value -> Axis.decimals(value, 2)),
                    WIDTH,
                    HEIGHT);
            plot.line(new double[] {0, 3.5}, new double[] {0, 0}, THIN);
            plot.points(
                    steps.stream()
                            .mapToDouble(step -> step.step().density().value())
                            .toArray(),
                    steps.stream().mapToDouble(StepReadings::error).toArray(),
                    Symbol.CIRCLE,
                    3,
                    ChartStyle.film(1),
                    true);
            add("densitometer", "Stray light: dense steps read too thin", plot);
        }
    }

    private void ownModel() {
        Strip strip = films.strip("S12");
        Plot plot = densityPlot(-2.5, 1.5, 3);
        Line other = Line.dashed(ChartStyle.film(3), 2);
        curve(plot, CurveFits.toeShoulder(strip).curve(), CURVE);
        curve(plot, CurveFit.of(CurveFamily.GOMPERTZ).fit(strip).curve(), other);
        readings(plot, strip);
        add(
                "own-model",
                "Two models of one strip",
                plot,
                LegendItem.line("toe, straight line and shoulder", CURVE),
                LegendItem.line("another formula", other));
    }

    private void inverse() {
        CharacteristicCurve curve = CharacteristicCurve.through(films.strip("R00"));
        InverseCurveTable table = InverseCurveTable.ofSteepestBranch(curve);
        double from = table.lowestDensity().value();
        double to = table.highestDensity().value();
        double[] d = new double[SAMPLES + 1];
        double[] x = new double[SAMPLES + 1];
        for (int i = 0; i <= SAMPLES; i++) {
            d[i] = from + (to - from) * i / SAMPLES;
            x[i] = table.logExposure(d[i]);
        }
        Plot plot = new Plot(
                Axis.of("density of the scan", 0, 2, 0.5),
                Axis.of("log H of the scene", -3.5, 0.5, 0.5),
                WIDTH,
                HEIGHT);
        plot.line(d, x, CURVE);
        plot.text("too flat to tell below", from, x[0], 6, 0, Anchor.START, MARK);
        add("inverse", "A curve read backwards, where it is steep enough", plot);
    }

    private void ownMethod() {
        CharacteristicCurve curve = CharacteristicCurve.through(films.strip("R00"));
        Plot plot = densityPlot(-3.5, 0.5, 2);
        curve(plot, curve, CURVE);
        mark(plot, curve.pointAbove(DensityDifference.of(0.60)), "0.60 above base plus fog");
        add("own-method", "The point that your own method reads", plot);
    }

    private void comparison() {
        Plot plot = new Plot(Axis.of("strip", 0, 5, 1), Axis.of("stops from the reference", -2, 2, 0.5), WIDTH, HEIGHT);
        plot.line(new double[] {0, 5}, new double[] {0, 0}, THIN);
        List<StripComparison> rows =
                FilmComparison.of(films.strips().subList(0, 4), "R00").rows();
        for (int i = 0; i < rows.size(); i++) {
            OptionalDouble stops =
                    rows.get(i).get(FilmFigure.STOPS_FROM_REFERENCE).value();
            if (stops.isEmpty()) {
                continue;
            }
            double at = stops.getAsDouble();
            Optional<Estimate> estimate =
                    rows.get(i).get(FilmFigure.STOPS_FROM_REFERENCE).estimate();
            double half = estimate.map(found -> found.expandedUncertainty(2)).orElse(0.0);
            plot.upwardInterval(i + 1, at - half, at + half, CURVE);
            plot.points(new double[] {i + 1}, new double[] {at}, Symbol.CIRCLE, 3, MARK, true);
            plot.text(rows.get(i).figures().strip().film(), i + 1, at, 0, -12, Anchor.MIDDLE, ChartStyle.INK);
        }
        add("comparison", "Films beside the reference, with twice their uncertainty", plot);
    }

    private void toneReproduction() throws IOException {
        CharacteristicCurve film = CharacteristicCurve.through(films.strip("R00"));
        CharacteristicCurve paper = CharacteristicCurve.through(
                ReadingsTable.read(demo.resolve("paper.csv")).strip("P2"));
        CameraExposure camera =
                CameraExposure.metered(LogExposure.ofLogLuxSeconds(-1.2)).withFlare(0.02);
        ToneReproduction road =
                ToneReproduction.of(camera, film, Printing.matching(Density.of(0.8), paper, Density.of(0.7)), paper);
        List<ReproducedTone> tones =
                road.tones(SubjectTone.between(SubjectTone.ofStops(-2), SubjectTone.ofStops(2), 65));
        Plot plot = new Plot(
                Axis.of("subject, stops from the metered tone", -3, 3, 1),
                Axis.of("density of the print", 0, 2, 0.5),
                WIDTH,
                HEIGHT);
        plot.line(
                tones.stream().mapToDouble(tone -> tone.tone().stops()).toArray(),
                tones.stream().mapToDouble(tone -> tone.printDensity().value()).toArray(),
                CURVE);
        add("tone-reproduction", "From subject to print", plot);
    }
}
