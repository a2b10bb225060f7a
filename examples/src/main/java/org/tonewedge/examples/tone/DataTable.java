package org.tonewedge.examples.tone;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;

/**
 * A table of a tone report for programs.
 *
 * @param name the name of its file without the ending
 * @param rows the rows, one at least, all with the same columns
 */
record DataTable(String name, List<DataRow> rows) {

    /** Copies the rows. */
    DataTable {
        rows = List.copyOf(rows);
    }

    /** Writes the table as CSV into a directory. */
    void write(Path directory) throws IOException {
        try (CsvWriter csv = CsvWriter.builder()
                .lineDelimiter(LineDelimiter.LF)
                .build(directory.resolve(name + ".csv"), StandardCharsets.UTF_8)) {
            csv.writeRecord(rows.get(0).fields().keySet());
            rows.forEach(row -> csv.writeRecord(row.fields().values()));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
