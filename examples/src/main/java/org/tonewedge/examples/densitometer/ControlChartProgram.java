// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;
import org.tonewedge.examples.chart.Symbol;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.command.NumberTable;
import org.tonewedge.examples.command.PlotOptions;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;
import org.tonewedge.standards.densitometer.control.ControlChart;
import org.tonewedge.standards.densitometer.control.ControlPoint;
import org.tonewedge.standards.densitometer.control.ControlRule;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Keeps the record of a check piece, adds a session to it and says whether the densitometer is in control. */
@Command(
        name = "control-chart",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Watches a densitometer over weeks by the readings of one check piece.",
            "The first sessions set the control limits; each later one is in control or out of it.",
            ""
        },
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:the last session is in control, or the first sessions are not complete",
            "1:the last session is out of control",
            "2:the chart could not be made"
        })
public final class ControlChartProgram extends CommandProgram {

    private static final String HEADER = "date,reading";
    private static final double RING = 2;
    private static final double WIDTH = 620;
    private static final double HEIGHT = 320;

    @Parameters(
            paramLabel = "RECORD",
            description =
                    "the record, CSV with the columns date (2026-01-31) and reading; rows of one date are one session."
                            + " With --add a row for each new reading is appended; the file is created if it does not exist")
    private Path record;

    @Option(
            names = "--add",
            paramLabel = "D",
            split = ",",
            description = "append a session of these readings, such as 1.502,1.503,1.501")
    private List<Double> added = List.of();

    @Option(names = "--date", paramLabel = "DATE", description = "the date of the session to add (default: today)")
    private Optional<LocalDate> date = Optional.empty();

    @Option(
            names = "--baseline",
            paramLabel = "N",
            defaultValue = "20",
            description = "how many of the first sessions set the limits, 10 or more (default: ${DEFAULT-VALUE})")
    private int baseline;

    @Option(names = "--out", paramLabel = "DIR", description = "where report.html and control.svg/.png go")
    private Path out;

    @Mixin
    private PlotOptions plots;

    private ControlChartProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new ControlChartProgram(), args);
    }

    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new ControlChartProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        if (baseline < ControlChart.FEWEST_SESSIONS) {
            throw new IllegalArgumentException(
                    "--baseline takes " + ControlChart.FEWEST_SESSIONS + " or more, was " + baseline);
        }
        String text = added.isEmpty() || Files.exists(record) ? Files.readString(InputFiles.existing(record)) : HEADER;
        String extended = added.isEmpty() ? text : extended(text);
        Map<String, Double> sessions = sessions(extended);
        double[] values =
                sessions.values().stream().mapToDouble(Double::doubleValue).toArray();
        if (values.length <= baseline) {
            output().println("the record has " + values.length + " of the " + baseline
                    + " sessions that set the limits; go on reading the check piece, each session on its own day,"
                    + " while the densitometer is known to be good");
            output().flush();
            save(extended);
            return DONE;
        }
        ControlChart chart = ControlChart.fromBaseline(Arrays.copyOf(values, baseline));
        List<ControlPoint> points = chart.watch(Arrays.copyOfRange(values, baseline, values.length));
        warnOfBaseline(chart, Arrays.copyOf(values, baseline));
        List<String> dates = List.copyOf(sessions.keySet()).subList(baseline, values.length);
        ControlPoint last = points.get(points.size() - 1);
        String verdict = "Session of " + dates.get(dates.size() - 1) + ", mean reading " + number(last.value()) + ": "
                + (last.isInControl() ? "IN CONTROL" : "OUT OF CONTROL") + words(last);
        if (out != null) {
            Provenance made = provenance();
            publish(out, directory -> {
                plots.files(directory).write(drawn(chart, values), "control");
                Files.writeString(directory.resolve("report.html"), page(verdict, chart, dates, points, made));
            });
            say("wrote " + out.resolve("report.html"));
        }
        save(extended);
        output().println(verdict);
        output().println(chart);
        output().flush();
        return last.isInControl() ? DONE : INCOMPLETE;
    }

    /** The record with the readings to add. */
    private String extended(String text) {
        LocalDate day = date.orElseGet(() -> LocalDate.now(ZoneId.systemDefault()));
        StringBuilder rows = new StringBuilder(text);
        rows.append(text.endsWith("\n") ? "" : "\n");
        for (double reading : added) {
            rows.append(day).append(',').append(reading).append('\n');
        }
        return rows.toString();
    }

    /** Puts the record with the new session in place of the old one, all or nothing. */
    private void save(String extended) throws IOException {
        if (added.isEmpty()) {
            return;
        }
        Path file = record.toAbsolutePath();
        Path beside = file.resolveSibling("." + file.getFileName() + ".new");
        try {
            Files.writeString(beside, extended);
            Files.move(beside, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(beside);
        }
    }

    /** The mean reading of each date. */
    private Map<String, Double> sessions(String text) throws IOException {
        NumberTable table = NumberTable.read(record, text, List.of("date", "reading"));
        Map<String, List<Double>> readings = new LinkedHashMap<>();
        warnOfUnit(table);
        String before = "";
        for (NumberTable.Row row : table.rows()) {
            String day = table.field(row, "date");
            if (!day.matches("\\d{4}-\\d\\d-\\d\\d") || day.compareTo(before) < 0) {
                throw table.refused(
                        row,
                        "the date \"" + day
                                + "\" must be of the form 2026-01-31 and not before the one above; put the rows in order");
            }
            before = day;
            readings.computeIfAbsent(day, key -> new ArrayList<>()).add(table.density(row, "reading"));
        }
        Map<String, Double> means = new LinkedHashMap<>();
        readings.forEach((day, all) -> means.put(
                day, all.stream().mapToDouble(Double::doubleValue).average().orElseThrow()));
        return means;
    }

    /** Tells readings that are another unit's number for the density of the piece, which most readings give. */
    private void warnOfUnit(NumberTable table) {
        double[] readings = table.rows().stream()
                .mapToDouble(row -> table.number(row, "reading"))
                .sorted()
                .toArray();
        double usual = readings[readings.length / 2];
        for (NumberTable.Row row : table.rows()) {
            PrintedUnit.ofSession(usual, table.number(row, "reading"))
                    .map(words -> table.refused(
                                    row,
                                    "reading",
                                    "reading " + table.field(row, "reading") + " of a piece that usually reads "
                                            + number(usual) + ": " + words)
                            .getMessage())
                    .ifPresent(this::say);
        }
    }

    private void warnOfBaseline(ControlChart chart, double[] values) {
        String strange = chart.watch(values).stream()
                .filter(point -> point.signals().contains(ControlRule.BEYOND_LIMITS))
                .map(point -> Integer.toString(point.number()))
                .collect(Collectors.joining(", "));
        if (!strange.isEmpty()) {
            say("beyond the limits that they helped to set, session " + strange
                    + ": find out why, and remove a session from the record only if there is a reason");
        }
    }

    private static String words(ControlPoint point) {
        return point.signals().isEmpty()
                ? ""
                : point.signals().stream().map(ControlRule::description).collect(Collectors.joining("; ", " (", ")"));
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.4f", value);
    }

    private Chart drawn(ControlChart chart, double[] values) {
        double[] numbers =
                IntStream.rangeClosed(1, values.length).mapToDouble(i -> i).toArray();
        double[] ends = {0, values.length + 1.0};
        double furthest = Arrays.stream(values)
                .map(value -> Math.abs(value - chart.centre()))
                .reduce(1.1 * (chart.upperLimit() - chart.centre()), Math::max);
        Plot plot = new Plot(
                Axis.round("session", 0, values.length + 1.0),
                Axis.round("mean reading", chart.centre() - 1.1 * furthest, chart.centre() + 1.1 * furthest),
                WIDTH,
                HEIGHT);
        Line limit = Line.dashed(ChartStyle.film(2), 1.4);
        Line average = Line.solid(ChartStyle.film(3), 1.6);
        plot.line(ends, new double[] {chart.centre(), chart.centre()}, Line.solid(ChartStyle.PALE, 1));
        plot.line(ends, new double[] {chart.lowerLimit(), chart.lowerLimit()}, limit);
        plot.line(ends, new double[] {chart.upperLimit(), chart.upperLimit()}, limit);
        List<ControlPoint> points = chart.watch(Arrays.copyOfRange(values, baseline, values.length));
        plot.line(
                points.stream().mapToDouble(point -> baseline + point.number()).toArray(),
                points.stream().mapToDouble(ControlPoint::movingAverage).toArray(),
                average);
        plot.points(numbers, values, Symbol.CIRCLE, ChartStyle.SYMBOL, ChartStyle.film(1), true);
        for (ControlPoint point : points) {
            if (!point.isInControl()) {
                plot.points(
                        new double[] {baseline + point.number()},
                        new double[] {point.value()},
                        Symbol.SQUARE,
                        ChartStyle.SYMBOL * RING,
                        ChartStyle.film(2),
                        false);
            }
        }
        return new Chart(
                "Control chart of the check piece",
                "limits from the first " + baseline + " sessions",
                plot,
                List.of(
                        LegendItem.points("mean of a session", Symbol.CIRCLE, ChartStyle.film(1), true),
                        LegendItem.points("out of control", Symbol.SQUARE, ChartStyle.film(2), false),
                        LegendItem.line("control limits", limit),
                        LegendItem.line("moving average", average)));
    }

    private String page(
            String verdict, ControlChart chart, List<String> dates, List<ControlPoint> points, Provenance made) {
        List<List<String>> rows = IntStream.range(0, points.size())
                .mapToObj(i -> List.of(
                        // a date is not broken over two lines
                        dates.get(i).replace('-', '\u2011'),
                        number(points.get(i).value()),
                        number(points.get(i).movingAverage()),
                        number(points.get(i).movingAverageLimit()),
                        (points.get(i).isInControl() ? "in control" : "out of control") + words(points.get(i))))
                .toList();
        return new Page("Control chart of a densitometer", verdict, List.of(), plots.formats())
                .figure(new ReportFigure("control", "", "mean reading of the check piece in each session"))
                .paragraph("Limits: " + chart + ".")
                .table(new ReportTable(
                        "sessions",
                        "Sessions since the limits were set",
                        "the moving average may be as far from the centre as its limit",
                        List.of("date", "reading", "moving average", "its limit", "verdict"),
                        rows))
                .provenance(made)
                .finished();
    }
}
