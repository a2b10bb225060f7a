package org.tonewedge.examples.densitometer;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;

/** Writes a correction as a table and as numbers a firmware can carry. */
final class CorrectionFiles {

    private static final String NAME = "density_correction";

    private CorrectionFiles() {}

    static void writeCsv(DensityCorrection correction, int rows, Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord("reading", "density", "standard_uncertainty");
            for (DensityCorrection.Row row : correction.table(rows)) {
                csv.writeRecord(number(row.reading()), number(row.corrected()), number(row.standardUncertainty()));
            }
        }
    }

    static void writeHeader(DensityCorrection correction, int rows, Path file) throws IOException {
        List<DensityCorrection.Row> table = correction.table(rows);
        String guard = NAME.toUpperCase(Locale.ROOT) + "_H";
        StringBuilder code = new StringBuilder("/* From a reading to the true density: "
                + correction.toString().replace('\u2212', '-') + ".\n"
                + "   Readings are equally spaced; interpolate on a straight line between two rows, and mark\n"
                + "   readings outside the first and last row as out of range. */\n");
        code.append("#ifndef ").append(guard).append("\n#define ").append(guard).append("\n\n");
        code.append("#define DENSITY_CORRECTION_ROWS ").append(rows).append("\n\n");
        array(code, "reading", table, DensityCorrection.Row::reading);
        array(code, "density", table, DensityCorrection.Row::corrected);
        array(code, "uncertainty", table, DensityCorrection.Row::standardUncertainty);
        Files.writeString(file, code.append("#endif\n").toString());
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
