// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposureSeries;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.CorrectionKind;
import org.tonewedge.standards.densitometer.verdict.DensitometerCheck;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.film.Iso6;

/**
 * Inputs with the outputs that a right computation gives, or with the reason why it must refuse. A value is one number or a
 * row of them. Every tolerance can be met in single precision.
 */
final class GoldenVectors {

    private final String name;
    private final String remark;
    private final List<String> inputs;
    private final String output;
    private final double absoluteTolerance;
    private final double relativeTolerance;
    private final List<Vector> vectors = new ArrayList<>();

    /** The reason of a refusal is empty where a result is expected. */
    private record Vector(List<List<Double>> inputs, List<Double> expected, String refusal) {}

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
                        + " gate; full_scale is the count at which the converter is saturated, 0 if not known. The"
                        + " tolerance is that of single precision.",
                List.of("sample", "dark", "open", "open_dark", "gain_ratio", "time_ratio", "full_scale"),
                "density",
                2e-6,
                0);
        double[][] cases = {
            {60_200, 200, 60_200, 200, 1, 1, 65_535},
            {30_200, 200, 60_200, 200, 1, 1, 65_535},
            {6_200, 200, 60_200, 200, 1, 1, 65_535},
            {800, 200, 60_200, 200, 1, 1, 65_535},
            {260, 200, 60_200, 200, 1, 1, 65_535},
            {206, 200, 60_200, 200, 1, 1, 65_535},
            {201, 200, 60_200, 200, 1, 1, 65_535},
            {61_000, 200, 60_200, 200, 1, 1, 65_535},
            {65_534, 200, 60_200, 200, 1, 1, 65_535},
            {50_300, 300, 50_200, 200, 16, 4, 65_535},
            {1_924, 300, 50_200, 200, 16, 4, 65_535},
            {332, 300, 50_200, 200, 64, 10, 65_535},
            {40_000, 0, 20_000, 0, 4, 1, 65_535},
            {20_000, 0, 40_000, 0, 1, 0.5, 65_535},
            {4_000_000_100.0, 100, 4_200_000_100.0, 100, 1, 1, 0},
            {7, 3, 65_535, 3, 1, 1, 0},
            {1, 0, 4_094, 0, 1, 1, 4_095}
        };
        for (double[] values : cases) {
            made.add(density(values), values);
        }
        double[][] dark = {
            {200, 200, 60_200, 200, 1, 1, 65_535},
            {190, 200, 60_200, 200, 1, 1, 65_535},
            {0, 0, 60_200, 0, 1, 1, 65_535},
            {0, 200, 60_200, 200, 1, 1, 65_535}
        };
        made.refuse("the sample is not above the dark", dark);
        double[][] shut = {
            {6_200, 200, 200, 200, 1, 1, 65_535}, {6_200, 200, 100, 200, 1, 1, 65_535}, {0, 0, 0, 0, 1, 1, 65_535}
        };
        made.refuse("the open gate is not above its dark", shut);
        double[][] negative = {
            {-6_200, 200, 60_200, 200, 1, 1, 65_535},
            {6_200, -200, 60_200, 200, 1, 1, 65_535},
            {6_200, 200, -60_200, 200, 1, 1, 65_535},
            {6_200, 200, 60_200, -1, 1, 1, 65_535}
        };
        made.refuse("a count is negative", negative);
        double[][] saturated = {
            {65_535, 200, 60_200, 200, 1, 1, 65_535},
            {65_536, 200, 60_200, 200, 1, 1, 65_535},
            {6_200, 200, 65_535, 200, 1, 1, 65_535},
            {4_095, 20, 4_000, 20, 1, 1, 4_095}
        };
        made.refuse("the converter is saturated", saturated);
        double[][] undefined = {
            {Double.NaN, 200, 60_200, 200, 1, 1, 65_535},
            {6_200, Double.NaN, 60_200, 200, 1, 1, 65_535},
            {6_200, 200, Double.NaN, 200, 1, 1, 65_535},
            {6_200, 200, 60_200, 200, Double.NaN, 1, 65_535},
            {Double.POSITIVE_INFINITY, 200, 60_200, 200, 1, 1, 0},
            {6_200, 200, Double.POSITIVE_INFINITY, 200, 1, 1, 0}
        };
        made.refuse("a number is not finite", undefined);
        double[][] ratios = {
            {6_200, 200, 60_200, 200, 0, 1, 65_535},
            {6_200, 200, 60_200, 200, -4, 1, 65_535},
            {6_200, 200, 60_200, 200, 1, 0, 65_535}
        };
        made.refuse("a ratio is not above 0", ratios);
        return made;
    }

    private static double density(double[] values) {
        return new RawCounts(values[0], values[1], values[2], values[3], values[4], values[5]).density();
    }

    private void refuse(String reason, double[][] cases) {
        for (double[] values : cases) {
            vectors.add(new Vector(list(values).stream().map(List::of).toList(), List.of(), reason));
        }
    }

    /** The correction is that of a made-up instrument with a leak, as the check of a densitometer finds it. */
    static GoldenVectors readingToCorrectedDensity() {
        GoldenVectors made = new GoldenVectors(
                "reading-to-corrected-density",
                "D = -log10(10^(-(reading - offset) / slope) - leak) for readings from lowest_reading to highest_reading;"
                        + " with leak 0 this is (reading - offset) / slope. The tolerance can be met in single precision.",
                List.of("reading", "offset", "slope", "leak", "lowest_reading", "highest_reading"),
                "corrected_density",
                5e-6,
                0);
        double[] densities =
                IntStream.range(0, 21).mapToDouble(i -> 0.05 + 0.15 * i).toArray();
        for (double leak : new double[] {3e-4, 0}) {
            List<LogReading> readings = IntStream.range(0, 63)
                    .mapToObj(i -> LogReading.of(
                                    Density.of(0.006
                                            + 1.004 * -Math.log10(Math.pow(10, -densities[i % 21]) + leak)
                                            + 0.001 * Math.sin(2.4 * i)),
                                    4)
                            .withStep(1 + i % 21))
                    .toList();
            DensityCorrection correction = DensitometerCheck.withDefaults()
                    .judge(ReadingsSummary.of(StepTablet.calibrated("golden", 0.003, densities), readings))
                    .correction(leak > 0 ? CorrectionKind.OFFSET_SLOPE_AND_LEAK : CorrectionKind.OFFSET_AND_SLOPE);
            made.addCorrected(correction);
        }
        return made;
    }

    private void addCorrected(DensityCorrection correction) {
        double lowest = correction.lowestReading();
        double highest = correction.highestReading();
        double[] constants = {
            0,
            correction.offset().orElseThrow(),
            correction.slope().orElseThrow(),
            correction.leak().orElse(0),
            lowest,
            highest
        };
        for (int part = 1; part < 10; part++) {
            double[] values = constants.clone();
            values[0] = Math.rint(1000 * (lowest + 0.1 * part * (highest - lowest))) / 1000;
            add(correction.correct(Density.of(values[0])).value(), values);
        }
        for (double reading : new double[] {lowest - 0.001, highest + 0.001, 9, Double.NaN, Double.POSITIVE_INFINITY}) {
            double[] values = constants.clone();
            values[0] = reading;
            refuse("the reading is outside those of the tablet", new double[][] {values});
        }
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
        made.refuse("the density is not finite", new double[][] {{Double.NaN}, {Double.POSITIVE_INFINITY}});
        return made;
    }

    static GoldenVectors tabletToLogExposure() {
        GoldenVectors made = new GoldenVectors(
                "tablet-to-log-exposure",
                "log H behind step i = log H0 - D_i, from the clear end; H0 in lux seconds. The tolerance is that of single"
                        + " precision.",
                List.of("log_exposure_without_tablet", "step_densities"),
                "log_exposures",
                1e-6,
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
                made.vectors.add(new Vector(List.of(List.of(without), list(densities)), exposures, ""));
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
            made.vectors.add(
                    new Vector(List.of(List.of(film[0]), list(exposures), list(densities)), List.of(speed), ""));
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
        vectors.add(new Vector(list(values).stream().map(List::of).toList(), List.of(expected), ""));
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
            header.addAll(
                    List.of("expected_" + output, "expected_refusal", "absolute_tolerance", "relative_tolerance"));
            csv.writeRecord(header);
            for (Vector vector : vectors) {
                List<String> row = new ArrayList<>();
                vector.inputs().forEach(cell -> row.add(joined(cell, " ")));
                row.add(joined(vector.expected(), " "));
                row.add(vector.refusal());
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
            json.append("}, \"expected\": {\"");
            if (vector.refusal().isEmpty()) {
                json.append(output).append("\": ").append(value(vector.expected()));
            } else {
                json.append("refusal\": \"").append(vector.refusal()).append('"');
            }
            json.append(i == vectors.size() - 1 ? "}}\n" : "}},\n");
        }
        Files.writeString(file, json.append("  ]\n}\n").toString());
    }

    /** JSON has no number that is not finite; such a one is written as text. */
    private static String value(List<Double> cell) {
        double first = cell.get(0);
        if (cell.size() > 1) {
            return "[" + joined(cell, ", ") + "]";
        }
        return Double.isFinite(first) ? Double.toString(first) : "\"" + first + "\"";
    }

    /** The vectors of all sets as arrays of C, in single precision. */
    static void writeHeader(List<GoldenVectors> sets, Path file) throws IOException {
        StringBuilder code = new StringBuilder("""
                /* Inputs with the outputs that a right computation gives, in single precision.
                   A vector with a refusal has no output: the computation must refuse, for the reason given. */
                #ifndef GOLDEN_VECTORS_H
                #define GOLDEN_VECTORS_H

                #include <math.h>
                #include <stddef.h>

                """);
        sets.forEach(set -> set.appendTo(code));
        Files.writeString(file, code.append("#endif\n").toString());
    }

    private void appendTo(StringBuilder code) {
        String prefix = "golden_" + name.replace('-', '_');
        String constant = prefix.toUpperCase(Locale.ROOT);
        List<String> names = new ArrayList<>(inputs);
        names.add("expected_" + output);
        boolean[] rows = new boolean[names.size()];
        for (int i = 0; i < rows.length; i++) {
            int column = i;
            rows[i] = vectors.stream().anyMatch(vector -> cell(vector, column).size() > 1);
        }
        code.append("/* ").append(remark).append(" */\n");
        code.append("#define ").append(constant).append("_ABSOLUTE_TOLERANCE ").append(literal(absoluteTolerance));
        code.append("\n#define ")
                .append(constant)
                .append("_RELATIVE_TOLERANCE ")
                .append(literal(relativeTolerance));
        code.append("\n\ntypedef struct {\n");
        for (int i = 0; i < rows.length; i++) {
            code.append(rows[i] ? "    const float *" : "    float ")
                    .append(names.get(i))
                    .append(";\n");
            code.append(rows[i] ? "    size_t " + names.get(i) + "_count;\n" : "");
        }
        code.append("    const char *refusal;\n} ").append(prefix).append("_t;\n\nstatic const ");
        code.append(prefix).append("_t ").append(prefix).append("[] = {\n");
        for (Vector vector : vectors) {
            code.append("    {");
            for (int i = 0; i < rows.length; i++) {
                List<Double> cell = cell(vector, i);
                String numbers = cell.stream().map(GoldenVectors::literal).collect(Collectors.joining(", "));
                if (rows[i]) {
                    code.append("(const float[]) {")
                            .append(numbers)
                            .append("}, ")
                            .append(cell.size());
                } else {
                    code.append(cell.isEmpty() ? "0.0f" : numbers);
                }
                code.append(", ");
            }
            code.append(vector.refusal().isEmpty() ? "0" : '"' + vector.refusal() + '"')
                    .append("},\n");
        }
        code.append("};\n\n");
    }

    /** An input, or behind them what is expected. */
    private static List<Double> cell(Vector vector, int column) {
        return column < vector.inputs().size() ? vector.inputs().get(column) : vector.expected();
    }

    private static String literal(double value) {
        if (Double.isNaN(value)) {
            return "NAN";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "INFINITY" : "-INFINITY";
        }
        return Float.toString((float) value) + 'f';
    }

    private static String joined(List<Double> cell, String separator) {
        return cell.stream().map(String::valueOf).collect(Collectors.joining(separator));
    }
}
