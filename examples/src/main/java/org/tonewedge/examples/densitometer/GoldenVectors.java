package org.tonewedge.examples.densitometer;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposureSeries;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.film.Iso6;

/** Inputs with the outputs that a right computation gives. A value is one number or a row of them. */
final class GoldenVectors {

    private final String name;
    private final String remark;
    private final List<String> inputs;
    private final String output;
    private final double absoluteTolerance;
    private final double relativeTolerance;
    private final List<Vector> vectors = new ArrayList<>();

    private record Vector(List<List<Double>> inputs, List<Double> expected) {}

    private GoldenVectors(
            String name,
            String remark,
            List<String> inputs,
            String output,
            double absoluteTolerance,
            double relativeTolerance) {
        this.name = name;
        this.remark = remark;
        this.inputs = inputs;
        this.output = output;
        this.absoluteTolerance = absoluteTolerance;
        this.relativeTolerance = relativeTolerance;
    }

    static GoldenVectors countsToDensity() {
        GoldenVectors made = new GoldenVectors(
                "counts-to-density",
                "D = log10((open - open_dark) * gain_ratio * time_ratio / (sample - dark)); ratios are sample over open"
                        + " gate. The tolerance is that of single precision.",
                List.of("sample", "dark", "open", "open_dark", "gain_ratio", "time_ratio"),
                "density",
                2e-6,
                0);
        double[][] cases = {
            {60_200, 200, 60_200, 200, 1, 1},
            {30_200, 200, 60_200, 200, 1, 1},
            {6_200, 200, 60_200, 200, 1, 1},
            {800, 200, 60_200, 200, 1, 1},
            {260, 200, 60_200, 200, 1, 1},
            {206, 200, 60_200, 200, 1, 1},
            {201, 200, 60_200, 200, 1, 1},
            {61_000, 200, 60_200, 200, 1, 1},
            {50_300, 300, 50_200, 200, 16, 4},
            {1_924, 300, 50_200, 200, 16, 4},
            {332, 300, 50_200, 200, 64, 10},
            {40_000, 0, 20_000, 0, 4, 1},
            {20_000, 0, 40_000, 0, 1, 0.5},
            {4_000_000_100.0, 100, 4_200_000_100.0, 100, 1, 1},
            {7, 3, 65_535, 3, 1, 1}
        };
        for (double[] values : cases) {
            RawCounts counts = new RawCounts(values[0], values[1], values[2], values[3], values[4], values[5]);
            made.add(counts.density(), values);
        }
        return made;
    }

    static GoldenVectors densityToOpacity() {
        GoldenVectors made = new GoldenVectors(
                "density-to-opacity",
                "opacity = 10^density. The tolerance is that of single precision.",
                List.of("density"),
                "opacity",
                0,
                2e-6);
        for (double density : new double[] {-0.02, 0, 0.05, 0.10, 0.30, 0.60, 0.90, 1, 1.5, 2, 2.4, 3, 3.6, 4, 4.5}) {
            made.add(Density.of(density).opacity(), density);
        }
        return made;
    }

    static GoldenVectors tabletToLogExposure() {
        GoldenVectors made = new GoldenVectors(
                "tablet-to-log-exposure",
                "log H behind step i = log H0 - D_i, from the clear end; H0 in lux seconds.",
                List.of("log_exposure_without_tablet", "step_densities"),
                "log_exposures",
                1e-9,
                0);
        double[][] tablets = {
            {0.05, 0.20, 0.35, 0.50, 0.65},
            {0.048, 0.352, 0.661, 0.949, 1.258, 1.551, 1.862, 2.149, 2.461, 2.748, 3.055},
        };
        for (double[] densities : tablets) {
            for (double without : new double[] {0.75, 0, -1.25}) {
                List<Double> exposures = StepTablet.calibrated("golden", densities)
                        .exposedAt(LogExposure.ofLogLuxSeconds(without), ReadingOrder.FROM_CLEAR_END)
                        .exposures()
                        .stream()
                        .map(LogExposure::value)
                        .toList();
                made.vectors.add(new Vector(List.of(List.of(without), list(densities)), exposures));
            }
        }
        return made;
    }

    static GoldenVectors readingsToSpeed() {
        GoldenVectors made = new GoldenVectors(
                "readings-to-speed",
                "S = 0.8 / H_m, H_m in lux seconds where the density is 0.10 above base plus fog (ISO 6); the curve is the"
                        + " monotone cubic of Fritsch and Carlson through the readings. The tolerance of 2 % leaves room"
                        + " for another smooth interpolation. Densities are invented.",
                List.of("base_plus_fog", "log_exposures", "densities"),
                "speed",
                0,
                0.02);
        double[][] films = {{0.20, 0.62, -2.05}, {0.28, 0.71, -2.60}, {0.12, 0.50, -1.30}};
        for (double[] film : films) {
            double[] exposures = IntStream.range(0, 21)
                    .mapToDouble(i -> Math.rint((film[2] - 0.8 + 0.15 * i) * 100) / 100)
                    .toArray();
            double[] densities = IntStream.range(0, 21)
                    .mapToDouble(i -> softRamp(film[0], film[1], exposures[i] - film[2] - 0.2))
                    .toArray();
            Strip strip = Strip.builder("golden")
                    .basePlusFog(film[0])
                    .readings(
                            ExposureSeries.of(IntStream.range(0, 21)
                                    .mapToObj(i -> LogExposure.ofLogLuxSeconds(exposures[i]))
                                    .toList()),
                            densities)
                    .build();
            double speed = Iso6.withDefaults()
                    .determine(CharacteristicCurve.through(strip))
                    .exact();
            made.vectors.add(new Vector(List.of(List.of(film[0]), list(exposures), list(densities)), List.of(speed)));
        }
        return made;
    }

    /** A toe that bends softly into a straight line, read to two decimals. */
    private static double softRamp(double base, double contrast, double logExposure) {
        double softness = 0.12;
        double density = base + contrast * softness * Math.log1p(Math.exp(logExposure / softness));
        return Math.rint(density * 100) / 100;
    }

    private void add(double expected, double... values) {
        vectors.add(new Vector(list(values).stream().map(List::of).toList(), List.of(expected)));
    }

    private static List<Double> list(double[] values) {
        return Arrays.stream(values).boxed().toList();
    }

    String name() {
        return name;
    }

    int size() {
        return vectors.size();
    }

    /** Rows of numbers are written with spaces between them. */
    void writeCsv(Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().build(file, StandardCharsets.UTF_8)) {
            csv.writeComment(' ' + remark);
            List<String> header = new ArrayList<>(inputs);
            header.addAll(List.of("expected_" + output, "absolute_tolerance", "relative_tolerance"));
            csv.writeRecord(header);
            for (Vector vector : vectors) {
                List<String> row = new ArrayList<>();
                vector.inputs().forEach(cell -> row.add(joined(cell, " ")));
                row.add(joined(vector.expected(), " "));
                row.add(Double.toString(absoluteTolerance));
                row.add(Double.toString(relativeTolerance));
                csv.writeRecord(row);
            }
        }
    }

    void writeJson(Path file) throws IOException {
        StringBuilder json = new StringBuilder("{\n  \"name\": \"" + name + "\",\n  \"remark\": \"" + remark
                + "\",\n  \"absolute_tolerance\": " + absoluteTolerance + ",\n  \"relative_tolerance\": "
                + relativeTolerance + ",\n  \"vectors\": [\n");
        for (int i = 0; i < vectors.size(); i++) {
            Vector vector = vectors.get(i);
            json.append("    {\"input\": {");
            for (int j = 0; j < inputs.size(); j++) {
                json.append(j == 0 ? "" : ", ")
                        .append('"')
                        .append(inputs.get(j))
                        .append("\": ")
                        .append(value(vector.inputs().get(j)));
            }
            json.append("}, \"expected\": {\"").append(output).append("\": ").append(value(vector.expected()));
            json.append(i == vectors.size() - 1 ? "}}\n" : "}},\n");
        }
        Files.writeString(file, json.append("  ]\n}\n").toString());
    }

    private static String value(List<Double> cell) {
        return cell.size() == 1 ? cell.get(0).toString() : "[" + joined(cell, ", ") + "]";
    }

    private static String joined(List<Double> cell, String separator) {
        return cell.stream().map(String::valueOf).collect(Collectors.joining(separator));
    }
}
