// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;
import org.tonewedge.examples.chart.Symbol;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.command.NumberTable;
import org.tonewedge.examples.command.PlotOptions;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;
import org.tonewedge.standards.densitometer.calibration.CalibrationForm;
import org.tonewedge.standards.densitometer.calibration.CalibrationPoint;
import org.tonewedge.standards.densitometer.calibration.DensitometerCalibration;
import org.tonewedge.standards.densitometer.input.RawCounts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Calibrates a densitometer at an open gate and a few film steps, and writes the constants for its firmware. */
@Command(
        name = "densitometer-calibration",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Calibrates a densitometer at an open gate (density 0, uncertainty 0) and one or more film steps:",
            "  reading = offset - slope * log10(10^-density + leak)",
            ""
        },
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:the constants were determined",
            "1:they were determined, but the points do not follow the form",
            "2:they could not be determined"
        })
public final class CalibrationProgram extends CommandProgram {

    /** A certified density that is less sure than this is of no use for a calibration: the project's own limit. */
    private static final double DOUBTFUL = 0.1;

    private static final double EXPANDED = 2;
    private static final double MISFIT = 0.01;
    private static final double STEP = 0.25;
    private static final double WIDTH = 620;
    private static final double HEIGHT = 320;

    @Parameters(
            paramLabel = "POINTS",
            description =
                    "CSV with the columns point, density, expanded_uncertainty (k = 2) and reading, or instead of"
                            + " reading the counts sample, dark, open; one row per reading, repeat readings under the same point")
    private Path file;

    @Option(
            names = "--form",
            paramLabel = "FORM",
            description = "${COMPLETION-CANDIDATES} (default: slope with one film step, slope_and_leak with two,"
                    + " offset_slope_and_leak with more)")
    private Optional<CalibrationForm> form = Optional.empty();

    @Option(
            names = "--repeatability",
            paramLabel = "S",
            description = "the standard deviation of one reading (default: from the repeat readings)")
    private Optional<Double> repeatability = Optional.empty();

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "where calibration.h, report.html and calibration.svg/.png go")
    private Path out;

    @Mixin
    private PlotOptions plots;

    private CalibrationProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new CalibrationProgram(), args);
    }

    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new CalibrationProgram(), args, output, messages);
    }

    /** One point with its readings. */
    private record Read(Estimate certified, List<Double> readings) {}

    @Override
    protected int work() throws IOException {
        Map<String, Read> read = read();
        double deviation = repeatability.orElseGet(() -> pooled(read));
        List<CalibrationPoint> points = new ArrayList<>();
        for (Read point : read.values()) {
            int count = point.readings().size();
            double mean = point.readings().stream()
                    .mapToDouble(Double::doubleValue)
                    .average()
                    .orElseThrow();
            points.add(new CalibrationPoint(point.certified(), Estimate.of(mean, deviation / Math.sqrt(count))));
        }
        long films =
                points.stream().filter(point -> point.certified().value() != 0).count();
        CalibrationForm chosen = form.orElse(
                films < 2
                        ? CalibrationForm.SLOPE
                        : films == 2 ? CalibrationForm.SLOPE_AND_LEAK : CalibrationForm.OFFSET_SLOPE_AND_LEAK);
        DensitometerCalibration found = DensitometerCalibration.of(chosen, points);
        boolean misfit = found.misfitProbability().orElse(1) < MISFIT;
        List<List<String>> constants = List.of(
                constant("offset", found.offset(), "%.5f"),
                constant("slope", found.slope(), "%.5f"),
                constant("leak, as transmittance", found.leak(), "%.2e"));
        List<List<String>> range = range(found, deviation);
        // without an offset the open gate shows only that the instrument reads 0 there
        int spare = (int) films - chosen.constants() + (chosen.hasOffset() ? points.size() - (int) films : 0);
        String test = spare == 0 && !misfit
                ? "no more points than constants: nothing shows whether the instrument follows the form"
                : String.format(
                        Locale.ROOT,
                        misfit
                                ? "the points do not fit the form (probability %.4f): choose another, or look for a wrong point"
                                : "the points fit the form (probability %.2f)",
                        found.misfitProbability().getAsDouble());
        output().println(found);
        output().println(test);
        constants.forEach(row -> output().printf("  %-24s %12s  u %s%n", row.get(0), row.get(1), row.get(2)));
        output().println("standard uncertainty of one corrected reading:");
        range.forEach(row -> output().printf("  D %s  u %s%n", row.get(0), row.get(1)));
        output().flush();
        if (out != null) {
            Provenance made = provenance();
            publish(out, directory -> {
                Files.writeString(directory.resolve("calibration.h"), header(found, deviation, made));
                plots.files(directory).write(drawn(found, deviation), "calibration");
                Files.writeString(
                        directory.resolve("report.html"),
                        new Page(
                                        "Calibration of a densitometer",
                                        CheckWords.typeset(found.toString()),
                                        List.of(test),
                                        plots.formats())
                                .figure(new ReportFigure(
                                        "calibration",
                                        "",
                                        "each point after the correction, and how sure one corrected reading is"))
                                .table(new ReportTable(
                                        "constants",
                                        "Constants",
                                        chosen.name().toLowerCase(Locale.ROOT).replace('_', ' ')
                                                + ", determined from the points",
                                        List.of("constant", "value", "u"),
                                        constants.stream()
                                                .map(CheckWords::typeset)
                                                .toList()))
                                .table(new ReportTable(
                                        "range",
                                        "Over the range",
                                        "standard uncertainty of one corrected reading",
                                        List.of("density", "u"),
                                        range))
                                .provenance(made)
                                .finished());
            });
            say("wrote " + out.resolve("calibration.h") + " and report.html");
        }
        return misfit ? INCOMPLETE : DONE;
    }

    /** Departures of the corrected points from their certified densities within the uncertainty over the range. */
    private static Chart drawn(DensitometerCalibration found, double deviation) {
        double densest = found.points().stream()
                .mapToDouble(point -> point.certified().value())
                .max()
                .orElseThrow();
        int samples = 100;
        double[] x = new double[samples + 1];
        double[] upper = new double[samples + 1];
        double[] lower = new double[samples + 1];
        double furthest = 0;
        for (int i = 0; i <= samples; i++) {
            x[i] = densest * i / samples;
            upper[i] = EXPANDED * found.uncertaintyAt(x[i], deviation);
            lower[i] = -upper[i];
            furthest = Math.max(furthest, upper[i]);
        }
        List<double[]> points = new ArrayList<>();
        for (CalibrationPoint point : found.points()) {
            double certified = point.certified().value();
            double left = found.correct(Density.of(point.reading().value()), 0).value() - certified;
            double half = EXPANDED * point.certified().standardUncertainty();
            points.add(new double[] {certified, left, half});
            furthest = Math.max(furthest, Math.abs(left) + half);
        }
        Plot plot = new Plot(
                Axis.round("density", -0.02 * densest, 1.05 * densest),
                Axis.round("corrected less certified density", -1.15 * furthest, 1.15 * furthest),
                WIDTH,
                HEIGHT);
        Line band = Line.dashed(ChartStyle.film(2), 1.4);
        plot.line(new double[] {0, densest}, new double[] {0, 0}, Line.solid(ChartStyle.PALE, 1));
        plot.line(x, upper, band);
        plot.line(x, lower, band);
        for (double[] point : points) {
            plot.upwardInterval(
                    point[0], point[1] - point[2], point[1] + point[2], Line.solid(ChartStyle.film(1), 1.2));
            plot.points(
                    new double[] {point[0]},
                    new double[] {point[1]},
                    Symbol.CIRCLE,
                    ChartStyle.SYMBOL,
                    ChartStyle.film(1),
                    true);
        }
        return new Chart(
                "Calibration at " + found.points().size() + " points",
                "bars: expanded uncertainty (k = 2) of the certificate",
                plot,
                List.of(
                        LegendItem.points("point after the correction", Symbol.CIRCLE, ChartStyle.film(1), true),
                        LegendItem.line("expanded uncertainty (k = 2) of one corrected reading", band)));
    }

    private static List<String> constant(String name, Estimate value, String format) {
        return List.of(
                name,
                String.format(Locale.ROOT, format, value.value()),
                String.format(Locale.ROOT, format, value.standardUncertainty()));
    }

    private static List<List<String>> range(DensitometerCalibration found, double deviation) {
        List<List<String>> rows = new ArrayList<>();
        double densest = found.points().stream()
                .mapToDouble(point -> point.certified().value())
                .max()
                .orElseThrow();
        for (int i = 0; i * STEP <= densest + STEP / 2; i++) {
            double density = Math.min(i * STEP, densest);
            rows.add(List.of(
                    String.format(Locale.ROOT, "%.2f", density),
                    String.format(Locale.ROOT, "%.4f", found.uncertaintyAt(density, deviation))));
        }
        return rows;
    }

    private Map<String, Read> read() throws IOException {
        NumberTable table = NumberTable.read(file, List.of("point", "density", "expanded_uncertainty"));
        if (table.has("reading")) {
            PrintedUnit.check(table, "reading", "density");
        }
        Map<String, Read> points = new LinkedHashMap<>();
        for (NumberTable.Row row : table.rows()) {
            Estimate certified =
                    Estimate.of(table.density(row, "density"), table.number(row, "expanded_uncertainty") / EXPANDED);
            double reading = table.has("reading")
                    ? table.number(row, "reading")
                    : RawCounts.of(table.number(row, "sample"), table.number(row, "dark"), table.number(row, "open"))
                            .density();
            Read point =
                    points.computeIfAbsent(table.field(row, "point"), key -> new Read(certified, new ArrayList<>()));
            if (!point.certified().equals(certified)) {
                throw table.refused(
                        row,
                        "point " + table.field(row, "point")
                                + " has another density or uncertainty than before; give each point one of each");
            }
            point.readings().add(reading);
        }
        points.forEach((name, point) -> {
            double expanded = EXPANDED * point.certified().standardUncertainty();
            if (expanded > DOUBTFUL) {
                say(name + ": the expanded uncertainty is " + Figures.plain(expanded)
                        + " in density; check whether U was typed in per cent or in other units");
            }
        });
        return points;
    }

    /** The standard deviation of one reading, pooled over the points that were read more than once. */
    private static double pooled(Map<String, Read> points) {
        double squares = 0;
        int degrees = 0;
        for (Read point : points.values()) {
            double mean = point.readings().stream()
                    .mapToDouble(Double::doubleValue)
                    .average()
                    .orElseThrow();
            squares += point.readings().stream()
                    .mapToDouble(reading -> (reading - mean) * (reading - mean))
                    .sum();
            degrees += point.readings().size() - 1;
        }
        if (degrees == 0) {
            throw new IllegalArgumentException(
                    "no point was read twice, so the scatter is not known; read again, or state --repeatability");
        }
        return Math.sqrt(squares / degrees);
    }

    private static String header(DensitometerCalibration found, double deviation, Provenance made) {
        StringBuilder code = new StringBuilder("/* Calibration of " + made.date() + ": density ="
                + " -log10(10^(-(reading - offset) / slope) - leak)\n   for readings from "
                + plain(found.lowestReading()) + " to " + plain(found.highestReading())
                + "; standard uncertainties at ");
        List<List<String>> range = range(found, deviation);
        for (int i = 0; i < range.size(); i += 4) {
            code.append(i == 0 ? "" : ", ")
                    .append("D ")
                    .append(range.get(i).get(0))
                    .append(": ")
                    .append(range.get(i).get(1));
        }
        code.append(". */\n#ifndef DENSITOMETER_CALIBRATION_H\n#define DENSITOMETER_CALIBRATION_H\n\n");
        define(code, "OFFSET", plain(found.offset().value()));
        define(code, "SLOPE", plain(found.slope().value()));
        define(code, "LEAK", String.format(Locale.ROOT, "%.6e", found.leak().value()));
        define(code, "LOWEST_READING", plain(found.lowestReading()));
        define(code, "HIGHEST_READING", plain(found.highestReading()));
        return code.append("\n#endif\n").toString();
    }

    private static void define(StringBuilder code, String name, String value) {
        code.append("#define DENSITOMETER_CALIBRATION_")
                .append(name)
                .append(" (")
                .append(value)
                .append("f)\n");
    }

    private static String plain(double value) {
        return String.format(Locale.ROOT, "%.6f", value);
    }
}
