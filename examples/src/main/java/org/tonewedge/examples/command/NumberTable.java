// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Rows of a table with a header, with numbers whose faults are told with their place. */
public final class NumberTable {

    private final Path file;
    private final List<NamedCsvRecord> rows;

    private NumberTable(Path file, List<NamedCsvRecord> rows) {
        this.file = file;
        this.rows = rows;
    }

    /**
     * Reads a table; lines that begin with # are remarks.
     *
     * @param file the CSV file, in UTF-8
     * @param columns the columns it must have
     * @return the table
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if it has no row or lacks a column
     */
    public static NumberTable read(Path file, List<String> columns) throws IOException {
        return read(file, Files.readString(InputFiles.rereadable(file)), columns);
    }

    /**
     * Reads a table from text.
     *
     * @param file the name of the file that contains the text, or is about to
     * @param text the text
     * @param columns the columns it must have
     * @return the table
     * @throws IOException if the text cannot be read
     * @throws IllegalArgumentException if it has no row or lacks a column
     */
    public static NumberTable read(Path file, String text, List<String> columns) throws IOException {
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
            return new NumberTable(file, rows);
        } catch (CsvParseException e) {
            throw new IllegalArgumentException(file + ": " + e.getMessage() + "; save it as comma-separated text", e);
        }
    }

    /**
     * Returns the rows.
     *
     * @return the rows below the header
     */
    public List<NamedCsvRecord> rows() {
        return rows;
    }

    /**
     * Tells whether the table has a column.
     *
     * @param column its name
     * @return true if the header has it
     */
    public boolean has(String column) {
        return rows.get(0).getHeader().contains(column);
    }

    /**
     * Returns the text of a field.
     *
     * @param row the row
     * @param column the column
     * @return the text without blanks around it
     * @throws IllegalArgumentException if the field is empty
     */
    public String text(NamedCsvRecord row, String column) {
        String text = row.findField(column).orElse("").strip();
        if (text.isEmpty()) {
            throw new IllegalArgumentException(
                    file + ", line " + row.getStartingLineNumber() + ": " + column + " is empty; fill it in");
        }
        return text;
    }

    /**
     * Returns the number of a field.
     *
     * @param row the row
     * @param column the column
     * @return the number, finite
     * @throws IllegalArgumentException if the field is not a number
     */
    public double number(NamedCsvRecord row, String column) {
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

    /**
     * Returns an exception that names the place of a row.
     *
     * @param row the row
     * @param fault what is wrong, and the remedy
     * @return the exception
     */
    public IllegalArgumentException refused(NamedCsvRecord row, String fault) {
        return new IllegalArgumentException(file + ", line " + row.getStartingLineNumber() + ": " + fault);
    }
}
