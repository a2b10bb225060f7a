// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;

/**
 * How often the 95 % intervals that the comparison program writes hold the truth, of every figure, and how far the figures
 * are off. Each job invents a reference and four films, writes a readings table as a user would, to two decimals, with errors
 * of 0.01 before rounding, runs the program and reads its tables. True figures are computed here from the formulas of the
 * curves, by the definitions that the tables give.
 *
 * <p>Run with the number of jobs, and perhaps names of designs; prints the rows of a table for each:
 *
 * <pre>java … org.tonewedge.examples.comparison.PublishedFiguresSimulation 150 USUAL COARSE</pre>
 */
final class PublishedFiguresSimulation {

    private static final double NOISE = 0.01;
    private static final double BOX_SPEED = 100;
    private static final String BESIDE = "vs_reference";
    /** Half-widths in tables are those of 95 % intervals. */
    private static final double NORMAL_95 = 1.959964;

    private static final double LOG_2 = Math.log10(2);

    private static final List<String> FIGURES = List.of(
            "base_plus_fog",
            "d_max",
            "log_h_m",
            "speed_exact",
            "stops_vs_box",
            "stops_vs_reference",
            "delta_d_1_30",
            "average_gradient",
            "contrast_index",
            "gamma",
            "toe_length",
            "straight_line_length",
            "shoulder_start_density",
            "print_stops_vs_reference");

    /** How strips are exposed, read and drawn. */
    enum Design {
        USUAL(21, 0.15, 1, 2, 1, 0, Curves.MIXED, ""),
        ONE_BASE(21, 0.15, 1, 1, 1, 0, Curves.MIXED, ""),
        COARSE(13, 0.30, 1, 3, 1, 0, Curves.MIXED, ""),
        REPEATS(13, 0.30, 2, 2, 1, 0, Curves.MIXED, ""),
        NO_BASE(21, 0.15, 1, 0, 1, 0, Curves.MIXED, ""),
        SPLINE(21, 0.15, 1, 2, 1, 0, Curves.MIXED, "--curve=spline --repeatability=0.01"),
        THROUGH(21, 0.15, 1, 2, 1, 0, Curves.MIXED, "--curve=through --repeatability=0.01"),
        TWO_STRIPS(21, 0.15, 1, 2, 2, 0.03, Curves.MIXED, ""),
        THREE_STRIPS(21, 0.15, 1, 2, 3, 0.03, Curves.MIXED, ""),
        FAMILY(21, 0.15, 1, 2, 1, 0, Curves.FAMILY, ""),
        LAYERS(21, 0.15, 1, 2, 1, 0, Curves.LAYERS, ""),
        UPSWEPT(21, 0.15, 1, 2, 1, 0, Curves.UPSWEPT, "");

        private final int steps;
        private final double distance;
        private final int readings;
        private final int baseReadings;
        private final int strips;
        private final double stripToStrip;
        private final Curves curves;
        private final String options;

        Design(
                int steps,
                double distance,
                int readings,
                int baseReadings,
                int strips,
                double stripToStrip,
                Curves curves,
                String options) {
            this.steps = steps;
            this.distance = distance;
            this.readings = readings;
            this.baseReadings = baseReadings;
            this.strips = strips;
            this.stripToStrip = stripToStrip;
            this.curves = curves;
            this.options = options;
        }

        double from() {
            return -3.0;
        }

        double to() {
            return from() + (steps - 1) * distance;
        }
    }

    /** The shapes of the films. */
    enum Curves {
        FAMILY,
        LAYERS,
        UPSWEPT,
        /** Of the family, but one film in four of two layers and one upswept. */
        MIXED
    }

    /** What became of a figure. */
    private static final class Tally {
        private int asked;
        private int invented;
        private int valued;
        private int given;
        private int held;
        private double errors;
        private double squares;
        private double variances;

        @Override
        public String toString() {
            return valued == 0
                    ? String.format(Locale.ROOT, "refused | invented %d of %d", invented, asked)
                    : String.format(
                            Locale.ROOT,
                            "%.1f %%, %+.3f | value %.0f %%, with interval %.0f %% of %d, invented %d, off %.4f, u %.4f",
                            100.0 * held / given,
                            errors / valued,
                            100.0 * valued / asked,
                            100.0 * given / asked,
                            asked,
                            invented,
                            Math.sqrt(squares / valued),
                            Math.sqrt(variances / given));
        }
    }

    private final Design design;
    private final Random random;
    private final Map<String, Tally> tallies = new LinkedHashMap<>();

    PublishedFiguresSimulation(Design design, long seed) {
        this.design = design;
        random = new Random(seed);
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** A film whose curve is known. */
    private record Film(DoubleUnaryOperator curve, double base) {

        double density(double x) {
            return curve.applyAsDouble(x);
        }

        /** Where a rising function passes a value; empty if it does not within the limits. */
        private static OptionalDouble where(DoubleUnaryOperator rising, double value, double from, double to) {
            if (rising.applyAsDouble(from) > value || rising.applyAsDouble(to) < value) {
                return OptionalDouble.empty();
            }
            double low = from;
            double high = to;
            for (int i = 0; i < 60; i++) {
                double middle = 0.5 * (low + high);
                if (rising.applyAsDouble(middle) < value) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            return OptionalDouble.of(low);
        }

        /** The figures by the definitions that the tables give, over a range of exposures. */
        Map<String, Double> figures(Design design) {
            Map<String, Double> figures = new HashMap<>();
            double from = design.from();
            double to = design.to();
            figures.put("base_plus_fog", base);
            figures.put("d_max", density(to));
            where(curve, base + 0.1, from, to).ifPresent(point -> {
                figures.put("log_h_m", point);
                figures.put("speed_exact", 0.8 / Math.pow(10, point));
                figures.put("stops_vs_box", Math.log10(0.8 / Math.pow(10, point) / BOX_SPEED) / LOG_2);
                if (point + 1.3 <= to) {
                    figures.put("delta_d_1_30", density(point + 1.3) - base - 0.1);
                }
                if (point + 1.5 <= to) {
                    figures.put("average_gradient", (density(point + 1.5) - base - 0.1) / 1.5);
                }
            });
            contrastIndex(from, to).ifPresent(index -> figures.put("contrast_index", index));
            anatomy(from, to, figures);
            return figures;
        }

        /** The least angle at which the chord of 2.0 ends on the curve; empty if it first ends beyond the range. */
        private OptionalDouble contrastIndex(double from, double to) {
            DoubleUnaryOperator lower = angle ->
                    where(curve, base + 0.2 * Math.sin(angle), from, to).orElse(Double.NaN);
            DoubleUnaryOperator above =
                    angle -> base + 2.2 * Math.sin(angle) - density(lower.applyAsDouble(angle) + 2 * Math.cos(angle));
            for (double angle = 0.1; angle < 1.4; angle += 0.01) {
                if (above.applyAsDouble(angle + 0.01) > 0) {
                    OptionalDouble found = where(above, 0, angle, angle + 0.01);
                    return found.isPresent()
                                    && lower.applyAsDouble(found.getAsDouble()) + 2 * Math.cos(found.getAsDouble())
                                            <= to
                            ? OptionalDouble.of(Math.tan(found.getAsDouble()))
                            : OptionalDouble.empty();
                }
            }
            return OptionalDouble.empty();
        }

        /** Parts by the gradient averaged over one stop, on a fine grid. */
        private void anatomy(double from, double to, Map<String, Double> figures) {
            double cell = 0.0005;
            int cells = (int) Math.round((to - from - LOG_2) / cell);
            double[] gradients = new double[cells + 1];
            int steepest = 0;
            for (int i = 0; i <= cells; i++) {
                double x = from + 0.5 * LOG_2 + i * cell;
                gradients[i] = (density(x + 0.5 * LOG_2) - density(x - 0.5 * LOG_2)) / LOG_2;
                steepest = gradients[i] > gradients[steepest] ? i : steepest;
            }
            int start = steepest;
            while (start >= 0 && gradients[start] >= 0.8 * gradients[steepest]) {
                start--;
            }
            int toe = start;
            while (toe >= 0 && gradients[toe] >= 0.1 * gradients[steepest]) {
                toe--;
            }
            int end = steepest;
            while (end <= cells && gradients[end] >= 0.8 * gradients[steepest]) {
                end++;
            }
            double lineFrom = start < 0 ? from : from + 0.5 * LOG_2 + start * cell;
            double lineTo = end > cells ? to : from + 0.5 * LOG_2 + end * cell;
            double span = 0.3 * (lineTo - lineFrom);
            boolean rises = end > cells
                    && density(to) - density(to - span) > 1.01 * (density(to - span) - density(to - 2 * span));
            if (!rises) {
                double gamma = 0;
                for (double x = lineFrom; x + span <= lineTo; x += cell) {
                    gamma = Math.max(gamma, (density(x + span) - density(x)) / span);
                }
                figures.put("gamma", gamma);
                if (toe >= 0) {
                    figures.put("toe_length", (start - toe) * cell);
                }
            }
            if (start >= 0 && end <= cells) {
                figures.put("straight_line_length", lineTo - lineFrom);
            }
            if (end <= cells) {
                figures.put("shoulder_start_density", density(lineTo));
            }
        }
    }

    private Film film(Curves curves) {
        double base = between(0.1, 0.35);
        double start = between(-2.2, -1.7);
        switch (curves) {
            case FAMILY -> {
                ParametricForm form = CurveFamily.TOE_SHOULDER.form(
                        base,
                        between(0.45, 0.95),
                        start,
                        between(0.10, 0.25),
                        start + between(1.6, 2.6),
                        between(0.10, 0.25));
                return new Film(form::density, base);
            }
            case LAYERS -> {
                double middle = start + between(0.8, 1.1);
                ParametricForm fast = CurveFamily.TOE_SHOULDER.form(
                        base, between(0.4, 0.7), start, between(0.08, 0.2), middle, between(0.08, 0.2));
                ParametricForm slow = CurveFamily.TOE_SHOULDER.form(
                        0,
                        between(0.6, 1.0),
                        middle + between(-0.1, 0.2),
                        between(0.08, 0.2),
                        middle + between(0.8, 1.3),
                        between(0.08, 0.2));
                return new Film(x -> fast.density(x) + slow.density(x), base);
            }
            case UPSWEPT -> {
                double gradient = between(0.25, 0.45);
                double sweep = between(0.12, 0.25);
                ParametricForm toe = CurveFamily.TOE_STRAIGHT_LINE.form(0, 1, start, between(0.08, 0.3));
                return new Film(x -> base + (gradient + sweep * toe.density(x)) * toe.density(x), base);
            }
            default -> throw new AssertionError(curves);
        }
    }

    private List<Film> films() {
        List<Film> films = new ArrayList<>();
        Stream.of(Curves.FAMILY, Curves.FAMILY, Curves.FAMILY, Curves.LAYERS, Curves.UPSWEPT)
                .map(mixed -> film(design.curves == Curves.MIXED || films.isEmpty() ? mixed : design.curves))
                .forEach(films::add);
        return films;
    }

    private String read(double density) {
        return String.format(Locale.ROOT, "%.2f", Math.max(0, density + NOISE * random.nextGaussian()));
    }

    private String table(List<Film> films) {
        StringBuilder table =
                new StringBuilder("strip,film,developer,minutes,celsius,box_speed,log_exposure,density\n");
        for (int f = 0; f < films.size(); f++) {
            Film film = films.get(f);
            for (int s = 0; s < design.strips; s++) {
                String row = name(f, s) + ",Film " + f + ",invented,8,20,100,";
                double more = design.stripToStrip * random.nextGaussian();
                for (int i = 0; i < design.baseReadings; i++) {
                    table.append(row).append(',').append(read(film.base)).append('\n');
                }
                for (int i = 0; i < design.steps; i++) {
                    double x = design.from() + i * design.distance;
                    for (int k = 0; k < design.readings; k++) {
                        table.append(row)
                                .append(String.format(Locale.ROOT, "%.2f,", x))
                                .append(read(film.density(x + more)))
                                .append('\n');
                    }
                }
            }
        }
        return table.toString();
    }

    private static String name(int film, int strip) {
        return "F" + film + "S" + strip;
    }

    private Tally tally(String figure) {
        return tallies.computeIfAbsent(figure, any -> new Tally());
    }

    private void count(String name, Double truth, OptionalDouble value, Estimate estimate) {
        Tally tally = tally(name);
        if (truth == null) {
            tally.invented += value.isPresent() ? 1 : 0;
            return;
        }
        tally.asked++;
        if (value.isPresent()) {
            double error = value.getAsDouble() - truth;
            tally.valued++;
            tally.errors += error;
            tally.squares += error * error;
        }
        if (estimate != null) {
            tally.given++;
            tally.held += estimate.interval(0.95).contains(truth) ? 1 : 0;
            tally.variances += estimate.standardUncertainty() * estimate.standardUncertainty();
        }
    }

    /** Runs so many jobs in a folder. */
    PublishedFiguresSimulation run(int jobs, Path folder) {
        try {
            for (int job = 0; job < jobs; job++) {
                job(folder);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return this;
    }

    private void job(Path folder) throws IOException {
        List<Film> films = films();
        Path readings = Files.writeString(folder.resolve("readings.csv"), table(films));
        Path out = folder.resolve("results");
        List<String> arguments = new ArrayList<>(List.of(
                readings.toString(),
                "--reference",
                name(0, 0),
                "--no-plots",
                "--no-film-pages",
                "--out",
                out.toString()));
        if (!design.options.isEmpty()) {
            arguments.addAll(List.of(design.options.split(" ", -1)));
        }
        StringWriter said = new StringWriter();
        int status = FilmComparisonProgram.run(
                arguments.toArray(String[]::new), new PrintWriter(said), new PrintWriter(said));
        if (status > 1) {
            throw new IllegalStateException(said.toString());
        }
        List<Map<String, Double>> truths =
                films.stream().map(film -> film.figures(design)).toList();
        truths.forEach(truth -> beside(truth, truths.get(0)));
        Uncertainties uncertainties = Uncertainties.read(out.resolve("uncertainty.csv"));
        for (NamedCsvRecord row : records(out.resolve("comparison.csv"))) {
            String strip = row.getField("strip");
            int film = strip.charAt(1) - '0';
            for (String figure : FIGURES) {
                if (film > 0 || !figure.endsWith(BESIDE)) {
                    count(
                            figure,
                            truths.get(film).get(figure),
                            value(row.getField(figure)),
                            uncertainties.all(strip).get(figure));
                }
            }
        }
        betweenFilms(truths, uncertainties);
        if (design.strips > 1) {
            means(truths, records(out.resolve("films.csv")));
        }
    }

    /** Films beside each other, by the uncertainties of their own that the table gives for this. */
    private void betweenFilms(List<Map<String, Double>> truths, Uncertainties uncertainties) {
        for (int one = 1; one < truths.size(); one++) {
            for (int other = 1; other < one; other++) {
                for (String figure : List.of("stops_vs_reference", "print_stops_vs_reference", "gamma")) {
                    Estimate a = uncertainties.own(name(one, 0)).get(figure);
                    Estimate b = uncertainties.own(name(other, 0)).get(figure);
                    Double first = truths.get(one).get(figure);
                    Double second = truths.get(other).get(figure);
                    if (a != null && b != null && first != null && second != null) {
                        Estimate apart = a.minus(b);
                        count("between films: " + figure, first - second, OptionalDouble.of(apart.value()), apart);
                    }
                }
            }
        }
    }

    private void means(List<Map<String, Double>> truths, List<NamedCsvRecord> films) {
        for (int film = 0; film < films.size(); film++) {
            for (String figure : FIGURES) {
                if (film > 0 || !figure.endsWith(BESIDE)) {
                    OptionalDouble value = value(films.get(film).getField(figure));
                    OptionalDouble half = value(films.get(film).getField(figure + "_u95"));
                    count(
                            "mean: " + figure,
                            truths.get(film).get(figure),
                            value,
                            half.isEmpty() ? null : Estimate.of(value.getAsDouble(), half.getAsDouble() / NORMAL_95));
                }
            }
        }
    }

    /** The table of uncertainties, by strip and figure. */
    private record Uncertainties(Map<String, Map<String, Estimate>> all, Map<String, Map<String, Estimate>> own) {

        static Uncertainties read(Path file) throws IOException {
            Uncertainties read = new Uncertainties(new HashMap<>(), new HashMap<>());
            for (NamedCsvRecord row : records(file)) {
                String freedom = row.getField("degrees_of_freedom");
                double degrees = freedom.equals("infinite") ? Double.POSITIVE_INFINITY : Double.parseDouble(freedom);
                put(read.all, row, "standard_uncertainty", degrees);
                put(read.own, row, "own_uncertainty", degrees);
            }
            return read;
        }

        private static void put(
                Map<String, Map<String, Estimate>> into, NamedCsvRecord row, String column, double degrees) {
            into.computeIfAbsent(row.getField("strip"), any -> new HashMap<>())
                    .put(
                            row.getField("figure"),
                            Estimate.of(
                                    Double.parseDouble(row.getField("value")),
                                    Double.parseDouble(row.getField(column)),
                                    degrees));
        }

        Map<String, Estimate> all(String strip) {
            return all.getOrDefault(strip, Map.of());
        }

        Map<String, Estimate> own(String strip) {
            return own.getOrDefault(strip, Map.of());
        }
    }

    private static void beside(Map<String, Double> own, Map<String, Double> reference) {
        own.put("print_stops_vs_reference", (own.get("base_plus_fog") - reference.get("base_plus_fog")) / LOG_2);
        if (own.containsKey("log_h_m") && reference.containsKey("log_h_m")) {
            own.put("stops_vs_reference", (reference.get("log_h_m") - own.get("log_h_m")) / LOG_2);
        }
    }

    private static OptionalDouble value(String field) {
        return field.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(Double.parseDouble(field));
    }

    private static List<NamedCsvRecord> records(Path file) throws IOException {
        try (CsvReader<NamedCsvRecord> csv = CsvReader.builder().ofNamedCsvRecord(file)) {
            return csv.stream().toList();
        }
    }

    /** The share of 95 % intervals that hold the truth. */
    double coverage(String figure) {
        return (double) tally(figure).held / tally(figure).given;
    }

    /**
     * Prints a line for each design and figure: coverage and bias, the share of films for which it was given, of how many, how many
     * times it was given though the film has none in the readings, and root mean squares of errors and standard uncertainties.
     *
     * @param args the number of jobs, and perhaps names of designs
     * @throws IOException if a file cannot be written
     */
    public static void main(String[] args) throws IOException {
        Path folder = Files.createTempDirectory("published-figures");
        List<Design> designs = args.length > 1
                ? Arrays.stream(args).skip(1).map(Design::valueOf).toList()
                : List.of(Design.values());
        for (Design design : designs) {
            PublishedFiguresSimulation simulation =
                    new PublishedFiguresSimulation(design, 1).run(Integer.parseInt(args[0]), folder);
            System.out.println(design);
            simulation.tallies.forEach((figure, tally) -> System.out.printf("  %-42s %s%n", figure, tally));
        }
    }
}
