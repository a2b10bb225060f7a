// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import java.awt.Color;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Temperature;
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
import org.tonewedge.fitting.development.ContrastFit;
import org.tonewedge.fitting.development.DevelopedFigure;
import org.tonewedge.fitting.development.DevelopmentFamily;
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

    private static final Color BLUE = COLOURS[0];
    private static final Color ORANGE = new Color(0xD5, 0x5E, 0x00);

    private DevelopmentCharts() {}

    /** The strips with the curves of the family, and the curve of the planned development. */
    static Chart family(DevelopmentReport report, Optional<PlannedDevelopment> planned) {
        DevelopmentFamily family = report.family();
        List<LegendItem> legend = new ArrayList<>();
        List<Strip> strips = report.series().strips();
        List<CharacteristicCurve> curves = strips.stream()
                .map(strip -> curveAt(
                        family,
                        strip.processing().time().orElseThrow(),
                        strip.processing().temperature()))
                .toList();
        Optional<PlannedDevelopment> aimed = planned.filter(line -> line.time().isPresent());
        Optional<CharacteristicCurve> aim = aimed.map(line ->
                curveAt(family.withExtrapolation(), line.time().orElseThrow().time(), line.temperature()));
        CharacteristicCurve any = curves.get(0);
        double left = Math.floor((any.lowestExposure().value() - 0.05) * 4) / 4;
        double right = Math.ceil((any.highestExposure().value() + 0.05) * 4) / 4;
        double densest = java.util.stream.Stream.concat(curves.stream(), aim.stream())
                .mapToDouble(curve -> curve.maximumDensity().value())
                .max()
                .orElseThrow();
        double top = Math.ceil((densest + 0.05) * 4) / 4;
        String unit = any.axis().isAbsolute() ? "lux seconds" : any.axis().toString();
        Plot plot = new Plot(
                Axis.of("log H (" + unit + ")", left, right, 0.5),
                Axis.of("density", 0, top, 0.5),
                (right - left) * UNITS_PER_LOG,
                top * UNITS_PER_LOG);
        for (int i = 0; i < strips.size(); i++) {
            Line line = Line.solid(COLOURS[i % COLOURS.length], 1.3);
            addCurve(plot, curves.get(i), line);
            addReadings(plot, strips.get(i), line.colour());
            legend.add(LegendItem.line(strips.get(i).id() + "  " + DevelopmentReport.developed(strips.get(i)), line));
        }
        Line heavy = Line.solid(Color.BLACK, 2.8);
        aim.ifPresent(curve -> addCurve(plot, curve, heavy));
        aimed.ifPresent(line -> legend.add(LegendItem.line(answer(line), heavy)));
        return new Chart(strips.get(0).film() + ": family of curves", "", plot, legend);
    }

    /** The target of a plan, its time and its temperature. */
    private static String answer(PlannedDevelopment line) {
        return line.target().name() + ": "
                + DevelopmentTimes.inWords(line.time().orElseThrow().time())
                + line.temperature()
                        .map(at -> " at " + DevelopmentTimes.inWords(at))
                        .orElse("");
    }

    private static CharacteristicCurve curveAt(
            DevelopmentFamily family, Duration time, Optional<Temperature> temperature) {
        return temperature.map(at -> family.curveAt(time, at)).orElseGet(() -> family.curveAt(time));
    }

    private static void addCurve(Plot plot, CharacteristicCurve curve, Line line) {
        double[] exposures =
                samples(curve.lowestExposure().value(), curve.highestExposure().value());
        double[] densities = new double[exposures.length];
        for (int i = 0; i < exposures.length; i++) {
            densities[i] = curve.density(exposures[i]);
        }
        plot.line(exposures, densities, line);
    }

    private static double[] samples(double from, double to) {
        double[] values = new double[SAMPLES + 1];
        for (int i = 0; i <= SAMPLES; i++) {
            values[i] = i == SAMPLES ? to : from + (to - from) * i / SAMPLES;
        }
        return values;
    }

    private static void addReadings(Plot plot, Strip strip, Color colour) {
        List<double[]> points = new ArrayList<>();
        for (ExposedStep step : strip.steps()) {
            step.readings()
                    .forEach(reading -> points.add(new double[] {step.exposure().value(), reading.value()}));
        }
        plot.points(
                points.stream().mapToDouble(point -> point[0]).toArray(),
                points.stream().mapToDouble(point -> point[1]).toArray(),
                Symbol.CIRCLE,
                2,
                colour,
                true);
    }

    /** Contrast against time at each temperature, with bands, strips and the target. */
    static Chart contrastTime(DevelopmentReport report, Optional<PlannedDevelopment> planned) {
        ContrastFit fit = report.contrast().best();
        List<Temperature> temperatures = report.series().temperatures();
        List<DevelopedFigure> strips = fit.contrasts();
        List<LegendItem> legend = new ArrayList<>();
        double longest =
                strips.stream().mapToDouble(DevelopmentCharts::minutes).max().orElseThrow();
        double right = Math.ceil(longest + 0.5);
        double highest =
                strips.stream().mapToDouble(DevelopedFigure::value).max().orElseThrow();
        double top = Math.ceil(highest * 10 + 1) / 10;
        Plot plot = new Plot(
                new Axis("time of development (minutes)", 0, right, 2, value -> Axis.decimals(value, 0)),
                Axis.of("contrast (ΔD over 1.30)", 0, top, 0.1),
                560,
                380);
        if (temperatures.isEmpty()) {
            addContrast(plot, legend, fit, Optional.empty(), BLUE);
        }
        for (int i = 0; i < temperatures.size(); i++) {
            addContrast(plot, legend, fit, Optional.of(temperatures.get(i)), COLOURS[i % COLOURS.length]);
        }
        addStrips(plot, strips, temperatures);
        legend.add(LegendItem.points("strips, with 95 % intervals", Symbol.SQUARE, ChartStyle.INK, true));
        planned.filter(line -> line.time().isPresent()).ifPresent(line -> addTarget(plot, legend, line, right));
        String film = report.series().strips().get(0).film();
        return new Chart(film + ": contrast against time", "", plot, legend);
    }

    private static void addContrast(
            Plot plot, List<LegendItem> legend, ContrastFit fit, Optional<Temperature> at, Color colour) {
        double[] own = fit.contrasts().stream()
                .filter(strip -> at.isEmpty() || strip.temperature().equals(at))
                .mapToDouble(DevelopmentCharts::minutes)
                .sorted()
                .toArray();
        double[] times = samples(own[0], own[own.length - 1]);
        double[] contrasts = new double[times.length];
        List<double[]> upper = new ArrayList<>();
        List<double[]> lower = new ArrayList<>();
        for (int i = 0; i < times.length; i++) {
            Duration time = DevelopmentTimes.ofMinutes(times[i]);
            PredictedFigure contrast = at.map(temperature -> fit.contrastAfter(time, temperature))
                    .orElseGet(() -> fit.contrastAfter(time));
            contrasts[i] = contrast.value();
            if (contrast.standardUncertainty().isPresent()) {
                CoverageInterval band = contrast.interval(CONFIDENCE);
                upper.add(new double[] {times[i], band.upper()});
                lower.add(0, new double[] {times[i], band.lower()});
            }
        }
        List<double[]> edge = new ArrayList<>(upper);
        edge.addAll(lower);
        if (!edge.isEmpty()) {
            plot.area(
                    edge.stream().mapToDouble(point -> point[0]).toArray(),
                    edge.stream().mapToDouble(point -> point[1]).toArray(),
                    new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), 60));
        }
        Line line = Line.solid(colour, 2.2);
        plot.line(times, contrasts, line);
        String label = at.map(temperature -> DevelopmentTimes.inWords(temperature) + ": ")
                .orElse("");
        legend.add(LegendItem.line(label + fit.modelName() + ", 95 % band", line));
    }

    private static double minutes(DevelopedFigure strip) {
        return DevelopmentTimes.minutes(strip.time());
    }

    private static void addStrips(Plot plot, List<DevelopedFigure> strips, List<Temperature> temperatures) {
        for (DevelopedFigure strip : strips) {
            Color colour = strip.temperature()
                    .map(at -> COLOURS[temperatures.indexOf(at) % COLOURS.length])
                    .orElse(BLUE);
            double reach = 1.96 * strip.standardUncertainty().orElse(0);
            double at = minutes(strip);
            plot.upwardInterval(at, strip.value() - reach, strip.value() + reach, Line.solid(colour, 1));
            plot.points(new double[] {at}, new double[] {strip.value()}, Symbol.SQUARE, 3.3, colour, true);
            plot.text(strip.name().replaceAll("strip '(.*)'", "$1"), at, strip.value(), 7, 11, Anchor.START, colour);
        }
    }

    private static void addTarget(Plot plot, List<LegendItem> legend, PlannedDevelopment line, double right) {
        Duration time = line.time().orElseThrow().time();
        double minutes = DevelopmentTimes.minutes(time);
        double target = line.target().value();
        Line level = Line.dashed(ORANGE, 1.4);
        plot.line(new double[] {0, right}, new double[] {target, target}, level);
        plot.line(new double[] {minutes, minutes}, new double[] {target, 0}, Line.solid(ORANGE, 1));
        plot.points(new double[] {minutes}, new double[] {target}, Symbol.CIRCLE, 5, ORANGE, true);
        plot.text(DevelopmentTimes.inWords(time), minutes, 0, 8, -14, Anchor.START, ORANGE);
        legend.add(LegendItem.line(answer(line), level));
    }
}
