// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import org.tonewedge.core.quantity.CoverageInterval;
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
import org.tonewedge.standards.densitometer.agreement.DemingRegression;
import org.tonewedge.standards.densitometer.agreement.LimitsOfAgreement;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Compares two densitometers on the same samples: limits of agreement, and the line between them. */
@Command(
        name = "instrument-comparison",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {"Compares two densitometers that read the same samples.", ""},
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:the instruments agree within the tolerance",
            "1:they do not, or it is uncertain",
            "2:they could not be compared"
        })
public final class InstrumentComparisonProgram extends CommandProgram {

    private static final double CONFIDENCE = 0.95;
    private static final double WIDTH = 620;
    private static final double HEIGHT = 320;

    @Parameters(
            paramLabel = "PAIRS",
            description = "CSV with the columns sample, first, second; rows of one sample are averaged")
    private Path pairs;

    @Option(
            names = "--tolerance",
            paramLabel = "D",
            defaultValue = "0.02",
            description = "the greatest difference that still counts as agreement (default: ${DEFAULT-VALUE})")
    private double tolerance;

    @Option(
            names = "--error-ratio",
            paramLabel = "R",
            defaultValue = "1",
            description =
                    "variance of the second instrument's errors divided by that of the first's (default: ${DEFAULT-VALUE})")
    private double ratio;

    @Option(names = "--out", paramLabel = "DIR", description = "where report.html and agreement.svg/.png go")
    private Path out;

    @Mixin
    private PlotOptions plots;

    private InstrumentComparisonProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new InstrumentComparisonProgram(), args);
    }

    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new InstrumentComparisonProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        double[][] means = means();
        LimitsOfAgreement limits = LimitsOfAgreement.of(means[0], means[1]);
        DemingRegression line = DemingRegression.of(means[0], means[1], ratio);
        boolean agree = limits.isWithin(tolerance);
        String verdict = (agree ? "the instruments agree within " : "the instruments are not shown to agree within ")
                + tolerance + ": " + limits;
        List<List<String>> rows = List.of(
                row("bias, second minus first", limits.bias(), 4),
                row("lower limit of agreement", limits.lower(), 4),
                row("upper limit of agreement", limits.upper(), 4),
                row("change of the difference per unit of density", limits.slope(), 4),
                row("slope of the line (errors in both)", line.slope(), 4),
                row("intercept of the line", line.intercept(), 4));
        output().println(verdict);
        rows.forEach(row -> output().printf(
                        Locale.ROOT, "  %-46s %9s  u %s  95 %% %s%n", row.get(0), row.get(1), row.get(2), row.get(3)));
        output().flush();
        if (out != null) {
            Provenance made = provenance();
            publish(out, directory -> {
                plots.files(directory).write(drawn(means, limits), "agreement");
                Files.writeString(
                        directory.resolve("report.html"),
                        new Page("Two densitometers compared", verdict, List.of(), plots.formats())
                                .figure(new ReportFigure(
                                        "agreement",
                                        "",
                                        "difference against mean of each sample; dashed: limits of agreement"))
                                .table(new ReportTable(
                                        "figures",
                                        "Figures",
                                        limits.pairs() + " samples",
                                        List.of("figure", "value", "u", "95 %"),
                                        rows.stream().map(CheckWords::typeset).toList()))
                                .provenance(made)
                                .finished());
            });
            say("wrote " + out.resolve("report.html"));
        }
        return agree ? DONE : INCOMPLETE;
    }

    private static List<String> row(String name, Estimate figure, int decimals) {
        CoverageInterval interval = figure.interval(CONFIDENCE);
        return List.of(
                name,
                CheckWords.signed(figure.value(), decimals),
                String.format(Locale.ROOT, "%." + decimals + "f", figure.standardUncertainty()),
                CheckWords.signed(interval.lower(), decimals) + " to " + CheckWords.signed(interval.upper(), decimals));
    }

    /** The mean readings of each sample by both instruments. */
    private double[][] means() throws IOException {
        NumberTable table = NumberTable.read(pairs, List.of("sample", "first", "second"));
        PrintedUnit.check(table, "second", "first");
        Map<String, List<double[]>> samples = new LinkedHashMap<>();
        for (NumberTable.Row row : table.rows()) {
            samples.computeIfAbsent(table.field(row, "sample"), key -> new ArrayList<>())
                    .add(new double[] {table.number(row, "first"), table.number(row, "second")});
        }
        return IntStream.range(0, 2)
                .mapToObj(instrument -> samples.values().stream()
                        .mapToDouble(readings -> readings.stream()
                                .mapToDouble(pair -> pair[instrument])
                                .average()
                                .orElseThrow())
                        .toArray())
                .toArray(double[][]::new);
    }

    private Chart drawn(double[][] means, LimitsOfAgreement limits) {
        int count = limits.pairs();
        double[] x = IntStream.range(0, count)
                .mapToDouble(i -> (means[0][i] + means[1][i]) / 2)
                .toArray();
        double[] y = IntStream.range(0, count)
                .mapToDouble(i -> means[1][i] - means[0][i])
                .toArray();
        double furthest = Arrays.stream(y)
                .map(Math::abs)
                .reduce(
                        Math.max(
                                tolerance,
                                Math.max(-limits.lower().value(), limits.upper().value())),
                        Math::max);
        double right = Arrays.stream(x).max().orElse(1) * 1.05;
        double left = Math.min(0, Arrays.stream(x).min().orElse(0));
        Plot plot = new Plot(
                Axis.round("mean of both readings", left, right),
                Axis.round("second minus first", -1.15 * furthest, 1.15 * furthest),
                WIDTH,
                HEIGHT);
        Line dashed = Line.dashed(ChartStyle.film(2), 1.4);
        Line bias = Line.solid(ChartStyle.film(3), 1.4);
        double[] ends = {left, right};
        plot.line(ends, new double[] {0, 0}, Line.solid(ChartStyle.PALE, 1));
        for (Estimate limit : List.of(limits.lower(), limits.upper())) {
            plot.line(ends, new double[] {limit.value(), limit.value()}, dashed);
        }
        plot.line(ends, new double[] {limits.bias().value(), limits.bias().value()}, bias);
        plot.points(x, y, Symbol.CIRCLE, ChartStyle.SYMBOL, ChartStyle.film(1), true);
        return new Chart(
                "Agreement of two densitometers",
                count + " samples",
                plot,
                List.of(
                        LegendItem.points("sample", Symbol.CIRCLE, ChartStyle.film(1), true),
                        LegendItem.line("limits of agreement", dashed),
                        LegendItem.line("bias", bias)));
    }
}
