// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.examples.command.InputFiles;

/** Rows of a table with a header, with numbers whose faults are told with their place. */
final class BenchTable {

    private final Path file;
    private final List<NamedCsvRecord> rows;

    private BenchTable(Path file, List<NamedCsvRecord> rows) {
        this.file = file;
        this.rows = rows;
    }

    static BenchTable read(Path file, List<String> columns) throws IOException {
        return read(file, Files.readString(InputFiles.existing(file)), columns);
    }

    /** The text is what the file contains, or is about to. */
    static BenchTable read(Path file, String text, List<String> columns) throws IOException {
        try (CsvReader<NamedCsvRecord> csv =
                CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(text)) {
            List<NamedCsvRecord> rows = csv.stream().toList();
            if (rows.isEmpty()) {
                throw new IllegalArgumentException(
                        file + ": there is no row; begin with the header " + String.join(",", columns));
            }
            for (String column : columns) {
                if (!rows.get(0).getHeader().contains(column)) {
                    throw new IllegalArgumentException(file + ": the header lacks the column " + column
                            + "; begin with: " + String.join(",", columns));
                }
            }
            return new BenchTable(file, rows);
        } catch (CsvParseException e) {
            throw new IllegalArgumentException(file + ": " + e.getMessage() + "; save it as comma-separated text", e);
        }
    }

    List<NamedCsvRecord> rows() {
        return rows;
    }

    double number(NamedCsvRecord row, String column) {
        String text = row.findField(column).orElse("").strip();
        try {
            double value = Double.parseDouble(text);
            if (Double.isFinite(value)) {
                return value;
            }
        } catch (NumberFormatException e) {
            // told below
        }
        throw new IllegalArgumentException(file + ", line " + row.getStartingLineNumber() + ": " + column + " \"" + text
                + "\" is not a number; enter one such as 0.052");
    }
}
