// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;

/** Writes a correction as a table and as numbers a firmware can carry. */
final class CorrectionFiles {

    private static final String NAME = "density_correction";

    private CorrectionFiles() {}

    /**
     * The last columns are what one standard uncertainty of each error that all readings share adds to the density. The errors of
     * the tablet bear its name, as other instruments checked against it share them.
     */
    static void writeCsv(DensityCorrection correction, int rows, Path file) throws IOException {
        Map<String, DoubleUnaryOperator> bySource = correction.forReadings(NAME).commonErrors();
        List<DoubleUnaryOperator> errors = List.copyOf(bySource.values());
        try (CsvWriter csv = CsvWriter.builder().build(file, StandardCharsets.UTF_8)) {
            List<String> header = new ArrayList<>(List.of("reading", "density", "standard_uncertainty"));
            int own = 0;
            for (String source : bySource.keySet()) {
                boolean isOfTablet = !source.contains(NAME);
                header.add("common_error_" + (isOfTablet ? source : ++own));
            }
            csv.writeRecord(header);
            for (DensityCorrection.Row row : correction.table(rows)) {
                List<String> cells = new ArrayList<>(
                        List.of(number(row.reading()), number(row.corrected()), number(row.standardUncertainty())));
                errors.forEach(error -> cells.add(number(error.applyAsDouble(row.corrected()))));
                csv.writeRecord(cells);
            }
        }
    }

    static void writeHeader(
            DensitometerVerdict verdict, DensityCorrection correction, int rows, Instant when, Path file)
            throws IOException {
        List<DensityCorrection.Row> table = correction.table(rows);
        String guard = NAME.toUpperCase(Locale.ROOT) + "_H";
        StringBuilder code = new StringBuilder("/* From a reading to the true density: "
                + remark(correction.toString()) + ".\n"
                + "   Check of " + LocalDate.ofInstant(when, ZoneOffset.UTC) + ": " + remark(verdict.toString()) + ".\n"
                + "   Tablet: " + remark(verdict.summary().tablet().toString()) + ".\n"
                + "   Readings are equally spaced; interpolate on a straight line between two rows, which is at most\n"
                + "   " + number(correction.interpolationError(rows)) + " off, and mark readings outside "
                + number(correction.lowestReading()) + " to " + number(correction.highestReading())
                + " as out of range. */\n");
        code.append("#ifndef ").append(guard).append("\n#define ").append(guard).append("\n\n");
        correction.offset().ifPresent(offset -> constant(code, "OFFSET", number(offset)));
        correction.slope().ifPresent(slope -> constant(code, "SLOPE", number(slope)));
        correction.leak().ifPresent(leak -> constant(code, "LEAK", String.format(Locale.ROOT, "%.6e", leak)));
        constant(code, "LOWEST_READING", number(correction.lowestReading()));
        constant(code, "HIGHEST_READING", number(correction.highestReading()));
        code.append("#define DENSITY_CORRECTION_ROWS ").append(rows).append("\n\n");
        array(code, "reading", table, DensityCorrection.Row::reading);
        array(code, "density", table, DensityCorrection.Row::corrected);
        array(code, "uncertainty", table, DensityCorrection.Row::standardUncertainty);
        Files.writeString(file, code.append("#endif\n").toString());
    }

    private static void constant(StringBuilder code, String name, String value) {
        code.append("#define DENSITY_CORRECTION_")
                .append(name)
                .append(" (")
                .append(value)
                .append("f)\n");
    }

    /** Text of a user in a comment of C: printable ASCII that does not end the comment. */
    private static String remark(String text) {
        return text.replace('\u2212', '-')
                .replaceAll("[^ -~]", "?")
                .replace("*/", "* /")
                .replace("/*", "/ *");
    }

    private static void array(
            StringBuilder code,
            String what,
            List<DensityCorrection.Row> table,
            ToDoubleFunction<DensityCorrection.Row> value) {
        code.append("static const float ")
                .append(NAME)
                .append('_')
                .append(what)
                .append("[DENSITY_CORRECTION_ROWS] = {\n    ");
        code.append(table.stream()
                .map(row -> number(value.applyAsDouble(row)) + "f")
                .collect(Collectors.joining(",\n    ")));
        code.append("\n};\n\n");
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.6f", value);
    }
}
