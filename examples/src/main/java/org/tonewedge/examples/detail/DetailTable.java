// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/** The figures of regions of scans, one a row. Not thread safe. */
final class DetailTable {

    static final List<String> COLUMNS =
            List.of("scan", "region", "figure", "value", "u", "degrees_of_freedom", "unit", "notes");

    /** A figure, or why it is missing. */
    record Row(String scan, String region, String figure, Optional<Estimate> value, String unit, String notes) {

        List<String> fields() {
            return List.of(
                    scan,
                    region,
                    figure,
                    value.map(found -> Double.toString(found.value() + 0.0)).orElse(""),
                    value.filter(found -> found.standardUncertainty() > 0)
                            .map(found -> Double.toString(found.standardUncertainty()))
                            .orElse(""),
                    value.map(Estimate::degreesOfFreedom)
                            .filter(Double::isFinite)
                            .map(degrees -> Double.toString(degrees))
                            .orElse(""),
                    unit,
                    notes);
        }
    }

    private final List<Row> rows = new ArrayList<>();

    /** Adds a figure; what cannot be determined becomes a row without value that says why. */
    void add(String scan, String region, String figure, String unit, String notes, Supplier<Estimate> reading) {
        Optional<Estimate> value = Optional.empty();
        String said = notes;
        try {
            value = Optional.of(reading.get());
        } catch (NotDeterminableException e) {
            said = notes.isEmpty() ? e.getMessage() : notes + " | " + e.getMessage();
        }
        rows.add(new Row(scan, region, figure, value, unit, said));
    }

    List<Row> rows() {
        return List.copyOf(rows);
    }

    List<Row> missing() {
        return rows.stream().filter(row -> row.value().isEmpty()).toList();
    }

    void write(Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(COLUMNS);
            rows.forEach(row -> csv.writeRecord(row.fields()));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
