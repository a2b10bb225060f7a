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

/** The steps of scanned strips as a readings table, with step numbers for exposures. Not thread safe. */
final class StepReadingsTable {

    private final List<List<String>> rows = new ArrayList<>();

    /** Adds a step, or an unexposed reading where the step is empty; one without a density is left out, as its row says. */
    void add(String strip, String step, OpenScan.ReadPatch patch) {
        patch.density()
                .ifPresent(area -> rows.add(
                        List.of(strip, step, Double.toString(area.density().value()))));
    }

    void write(Path file) throws IOException {
        if (rows.isEmpty()) {
            return;
        }
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord("strip", "step", "density");
            rows.forEach(csv::writeRecord);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
