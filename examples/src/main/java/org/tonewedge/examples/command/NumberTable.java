// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.examples.spreadsheet.Spreadsheets;

/**
 * Rows of a table with a header, with numbers whose faults are told with their place. It is read as readings tables are: CSV
 * in any dialect, XLSX or ODS.
 */
public final class NumberTable {

    private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?");

    private final Path file;
    private final RowSource source;
    private final List<String> header;
    private final List<Row> rows;

    private NumberTable(Path file, RowSource source, List<String> header, List<Row> rows) {
        this.file = file;
        this.source = source;
        this.header = header;
        this.rows = rows;
    }

    /** A row below the header. */
    public static final class Row {

        private final long number;
        private final List<String> fields;

        private Row(long number, List<String> fields) {
            this.number = number;
            this.fields = List.copyOf(fields);
        }
    }

    /**
     * Reads a table; lines that begin with # are remarks.
     *
     * @param file the file
     * @param columns the columns it must have
     * @return the table
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if it has no row or lacks a column
     * @throws org.tonewedge.core.strip.ReadingsException if it is not a table
     */
    public static NumberTable read(Path file, List<String> columns) throws IOException {
        return read(
                file, Spreadsheets.open(InputFiles.rereadable(file), Optional.empty(), CsvDialect.guessed()), columns);
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
     * @throws org.tonewedge.core.strip.ReadingsException if it is not a table
     */
    public static NumberTable read(Path file, String text, List<String> columns) throws IOException {
        return read(file, CsvDialect.guessed().open(String.valueOf(file), new StringReader(text)), columns);
    }

    private static NumberTable read(Path file, RowSource source, List<String> columns) throws IOException {
        List<String> header = new ArrayList<>();
        List<Row> rows = new ArrayList<>();
        source.read((number, fields) -> {
            if (fields.get(0).startsWith("#")) {
                return;
            }
            if (header.isEmpty()) {
                fields.forEach(name -> header.add(name.strip().toLowerCase(Locale.ROOT)));
            } else {
                rows.add(new Row(number, fields));
            }
        });
        for (String column : columns) {
            if (!header.isEmpty() && !header.contains(column)) {
                throw new IllegalArgumentException(file + ": the header lacks the column " + column + "; begin with: "
                        + String.join(",", columns));
            }
        }
        if (rows.isEmpty()) {
            throw new IllegalArgumentException(
                    file + ": there is no row; begin with the header " + String.join(",", columns));
        }
        return new NumberTable(file, source, List.copyOf(header), List.copyOf(rows));
    }

    /**
     * Returns the rows.
     *
     * @return the rows below the header
     */
    public List<Row> rows() {
        return rows;
    }

    /**
     * Tells whether the table has a column.
     *
     * @param column its name
     * @return true if the header has it
     */
    public boolean has(String column) {
        return header.contains(column);
    }

    /**
     * Returns the text of a field, which may be empty.
     *
     * @param row the row
     * @param column the column
     * @return the text without blanks around it; empty if there is no such field
     */
    public String field(Row row, String column) {
        int index = header.indexOf(column);
        return index < 0 || index >= row.fields.size()
                ? ""
                : row.fields.get(index).strip();
    }

    /**
     * Returns the text of a field.
     *
     * @param row the row
     * @param column the column
     * @return the text without blanks around it
     * @throws IllegalArgumentException if the field is empty
     */
    public String text(Row row, String column) {
        String text = field(row, column);
        if (text.isEmpty()) {
            throw refused(row, column, column + " is empty; fill it in");
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
    public double number(Row row, String column) {
        String text = field(row, column);
        String plain = source.decimalMark() == ',' ? text.replace(',', '.') : text;
        double value = NUMBER.matcher(plain).matches() ? Double.parseDouble(plain) : Double.NaN;
        if (!Double.isFinite(value)) {
            throw refused(row, column, column + " \"" + text + "\" is not a number; enter one such as 0.052");
        }
        return value;
    }

    /**
     * Returns the density of a field.
     *
     * @param row the row
     * @param column the column
     * @return the density
     * @throws IllegalArgumentException if the field is not a number, or no density
     */
    public double density(Row row, String column) {
        double value = number(row, column);
        try {
            return Density.of(value).value();
        } catch (IllegalArgumentException e) {
            throw refused(row, column, column + " is no density: " + e.getMessage());
        }
    }

    /**
     * Returns an exception that names the place of a row.
     *
     * @param row the row
     * @param fault what is wrong, and the remedy
     * @return the exception
     */
    public IllegalArgumentException refused(Row row, String fault) {
        return new IllegalArgumentException(file + ", " + source.place(row.number, -1) + ": " + fault);
    }

    /**
     * Returns an exception that names the place of a field.
     *
     * @param row the row
     * @param column the column
     * @param fault what is wrong, and the remedy
     * @return the exception
     */
    public IllegalArgumentException refused(Row row, String column, String fault) {
        return new IllegalArgumentException(
                file + ", " + source.place(row.number, header.indexOf(column)) + ": " + fault);
    }
}
