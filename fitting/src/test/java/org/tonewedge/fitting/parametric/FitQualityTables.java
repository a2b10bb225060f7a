// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Measures the tables of coverage on the page on fit quality and writes them into it. One run measures for 200 seconds and
 * keeps what it found in {@code target/fit-quality.csv}; run it again until it says that the page is written. Delete that
 * file after a change of the fits. If a change touches one way of fitting alone, name it: the other rows of the page stay.
 */
@SuppressWarnings("EnumOrdinal") // tallies are arrays by figure
final class FitQualityTables {

    private static final Path MEASURED = Path.of("target", "fit-quality.csv");
    private static final String BEGIN = "<!-- tables of FitQualityTables -->\n";
    private static final String END = "<!-- end of the tables -->\n";

    private FitQualityTables() {}

    /** A row of every table: one way of fitting one kind of film. */
    private record Row(FitCoverage.Truth truth, FitCoverage.Way way, int base) {

        static List<Row> all() {
            List<Row> rows = new ArrayList<>();
            for (FitCoverage.Truth truth : FitCoverage.Truth.values()) {
                for (FitCoverage.Way way : FitCoverage.Way.values()) {
                    for (int base : new int[] {0, 3}) {
                        Row row = new Row(truth, way, base);
                        if (row.strips() > 0) {
                            rows.add(row);
                        }
                    }
                }
            }
            return rows;
        }

        /** The dearer a way, the fewer strips. A spline needs readings of base plus fog. */
        int strips() {
            boolean inFamily = truth == FitCoverage.Truth.IN_FAMILY;
            return switch (way) {
                case DEFAULT, HUBER, TUKEY -> inFamily ? 10_000 : 1_000;
                case CHECKED -> inFamily ? 5_000 : 1_000;
                case SPLINE -> base == 0 ? 0 : inFamily ? 5_000 : 1_000;
                case BEST -> inFamily ? 2_000 : 0;
            };
        }

        String film() {
            return switch (truth) {
                case IN_FAMILY -> "the family";
                case TWO_LAYERS -> "two layers";
                case UPSWEPT -> "upswept";
            };
        }

        String method() {
            return switch (way) {
                case DEFAULT -> "<code>CurveFits.toeShoulder</code>";
                case HUBER -> "the same, Huber";
                case TUKEY -> "the same, Tukey";
                case BEST -> "<code>CurveFits.best</code>";
                case CHECKED -> "<code>StripFit</code>";
                case SPLINE -> "<code>SmoothingSpline</code>, monotone";
            };
        }

        String key(int steps, FitCoverage.Figure figure) {
            return truth + "," + way + "," + base + "," + steps + "," + figure;
        }
    }

    /**
     * Measures and, when all is measured, writes.
     *
     * @param args the seconds after which no other row is begun, 200 if not given; then the ways of fitting to measure, all if
     *     none is given
     * @throws IOException if the files cannot be read or written
     */
    public static void main(String[] args) throws IOException {
        long end = System.nanoTime() + (args.length > 0 ? Long.parseLong(args[0]) : 200) * 1_000_000_000L;
        List<FitCoverage.Way> ways =
                Arrays.stream(args).skip(1).map(FitCoverage.Way::valueOf).toList();
        List<Row> rows = Row.all().stream()
                .filter(row -> ways.isEmpty() || ways.contains(row.way()))
                .toList();
        Map<String, double[]> measured = read();
        List<FitCoverage.Figure> figures = List.of(FitCoverage.Figure.values());
        for (Row row : rows) {
            for (int steps : FitCoverage.STEPS) {
                if (measured.containsKey(row.key(steps, figures.get(0)))) {
                    continue;
                }
                if (System.nanoTime() > end) {
                    System.out.println("time is up before " + row.key(steps, figures.get(0)) + "; run it again");
                    return;
                }
                FitCoverage.Tally[] tallies = FitCoverage.measure(
                        row.truth(),
                        row.way(),
                        row.base(),
                        new int[] {steps},
                        row.strips(),
                        1000L * row.base() + steps,
                        figures);
                StringBuilder lines = new StringBuilder();
                for (FitCoverage.Figure figure : figures) {
                    FitCoverage.Tally tally = tallies[figure.ordinal()];
                    double[] values = {tally.told(), tally.coverage(), tally.bias()};
                    measured.put(row.key(steps, figure), values);
                    lines.append(row.key(steps, figure));
                    for (double value : values) {
                        lines.append(',').append(value);
                    }
                    lines.append('\n');
                }
                Files.createDirectories(MEASURED.toAbsolutePath().getParent());
                Files.writeString(MEASURED, lines, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
            }
        }
        write(rows, measured);
        System.out.println(FitQualityPage.PAGE + " is written");
    }

    private static Map<String, double[]> read() throws IOException {
        Map<String, double[]> measured = new LinkedHashMap<>();
        if (Files.exists(MEASURED)) {
            for (String line : Files.readAllLines(MEASURED)) {
                String[] fields = line.split(",", -1);
                measured.put(String.join(",", List.of(fields).subList(0, 5)), new double[] {
                    Double.parseDouble(fields[5]), Double.parseDouble(fields[6]), Double.parseDouble(fields[7])
                });
            }
        }
        return measured;
    }

    private static void write(List<Row> rows, Map<String, double[]> measured) throws IOException {
        String page = Files.readString(FitQualityPage.PAGE);
        StringBuilder tables = new StringBuilder();
        for (FitCoverage.Figure figure : FitCoverage.Figure.values()) {
            tables.append(table(figure, rows, measured, page));
        }
        int begin = page.indexOf(BEGIN) + BEGIN.length();
        Files.writeString(FitQualityPage.PAGE, page.substring(0, begin) + tables + page.substring(page.indexOf(END)));
    }

    private static String table(
            FitCoverage.Figure figure, List<Row> rows, Map<String, double[]> measured, String page) {
        String unit = switch (figure) {
            case SPEED_POINT, TOE_LENGTH -> "log units";
            case RISE_OVER_130, SHOULDER_START -> "density";
            case GAMMA -> "density per log unit";
        };
        String name = switch (figure) {
            case SPEED_POINT -> "the speed point";
            case RISE_OVER_130 -> "the rise of density over the 1.30 log units above it";
            case GAMMA -> "gamma";
            case TOE_LENGTH -> "the length of the toe";
            case SHOULDER_START -> "the density at which the shoulder starts";
        };
        String caption = "<caption>Percentage of 95 % intervals of " + name + " that contain the true one</caption>";
        String present = page.substring(page.indexOf(caption));
        StringBuilder table = new StringBuilder("<table>\n" + caption + "\n<thead>\n<tr>");
        for (String head : List.of(
                "True curve",
                "Method",
                "Base-plus-fog readings",
                "9 steps",
                "13",
                "21",
                "31",
                "Least share given, %",
                "Greatest bias, " + unit,
                "Strips in a column")) {
            table.append("<th scope=\"col\">").append(head).append("</th>");
        }
        table.append("</tr>\n</thead>\n<tbody>\n");
        for (Row row : Row.all()) {
            String head = String.format(
                    Locale.ROOT,
                    "<tr><th scope=\"row\">%s</th><td>%s</td><td>%d</td>",
                    row.film(),
                    row.method(),
                    row.base());
            if (!rows.contains(row)) {
                present.lines()
                        .takeWhile(line -> !line.equals("</table>"))
                        .filter(line -> line.startsWith(head))
                        .forEach(line -> table.append(line).append('\n'));
                continue;
            }
            double least = 1;
            double bias = 0;
            StringBuilder cells = new StringBuilder();
            for (int steps : FitCoverage.STEPS) {
                double[] values = measured.get(row.key(steps, figure));
                if (Double.isNaN(values[0])) {
                    continue; // the true curves do not have the figure
                }
                cells.append(String.format(Locale.ROOT, "<td>%.1f</td>", 100 * values[1]));
                least = Math.min(least, values[0]);
                bias = Math.abs(values[2]) > Math.abs(bias) ? values[2] : bias;
            }
            if (!cells.isEmpty()) {
                table.append(String.format(
                        Locale.ROOT,
                        "%s%s<td>%.1f</td><td>%s</td><td>%,d</td></tr>%n",
                        head,
                        cells,
                        100 * least,
                        String.format(Locale.ROOT, "%+.4f", bias).replace('-', '−'),
                        row.strips()));
            }
        }
        return table.append("</tbody>\n</table>\n").toString();
    }
}
