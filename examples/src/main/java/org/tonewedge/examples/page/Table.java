// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/**
 * Columns over rows: one table, written as CSV for programs and on a page for readers.
 *
 * <p>The CSV has a last column {@code notes}, which names every empty field with its reason.
 *
 * <p>Immutable and thread safe if its rows are.
 *
 * @param <T> what a row is about
 */
public final class Table<T> {

    private static final String NOTES = "notes";

    private final List<Column<T>> columns;
    private final List<T> rows;
    private final Function<T, List<String>> remarks;

    private Table(List<Column<T>> columns, List<T> rows, Function<T, List<String>> remarks) {
        this.columns = List.copyOf(columns);
        this.rows = List.copyOf(rows);
        this.remarks = remarks;
    }

    /**
     * Returns a table.
     *
     * @param <T> what a row is about
     * @param columns its columns
     * @param rows its rows
     * @return the table
     */
    public static <T> Table<T> of(List<Column<T>> columns, List<T> rows) {
        return new Table<>(columns, rows, row -> List.of());
    }

    /**
     * Returns a copy whose rows have remarks besides the reasons of their empty fields.
     *
     * @param more what to add to the notes of a row
     * @return the copy
     */
    public Table<T> withRemarks(Function<T, List<String>> more) {
        return new Table<>(columns, rows, more);
    }

    /**
     * Returns the columns that readers see.
     *
     * @return the columns with a heading
     */
    public List<Column<T>> pageColumns() {
        return columns.stream().filter(Column::isOnPage).toList();
    }

    /**
     * Returns the rows.
     *
     * @return the rows
     */
    public List<T> rows() {
        return rows;
    }

    /**
     * Returns why fields of a row are empty, fields with one reason sharing a note, and its remarks.
     *
     * @param row the row
     * @return notes of the form {@code names: reason} in the order of the columns, then the remarks that repeat none of the
     *     reasons
     */
    public List<String> notes(T row) {
        Map<String, List<String>> namesByReason = new LinkedHashMap<>();
        for (Column<T> column : columns) {
            if (!column.names().isEmpty()) {
                column.cell(row)
                        .reason()
                        .ifPresent(reason -> namesByReason
                                .computeIfAbsent(reason, any -> new ArrayList<>())
                                .addAll(column.names()));
            }
        }
        List<String> notes = new ArrayList<>();
        namesByReason.forEach((reason, names) -> notes.add(String.join(", ", names) + ": " + reason));
        remarks.apply(row).stream()
                .filter(remark -> !namesByReason.containsKey(remark))
                .forEach(notes::add);
        return notes;
    }

    /**
     * Writes the table as CSV.
     *
     * @param file the file, replaced if it is there
     * @throws IOException if it cannot be written
     */
    public void writeCsv(Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(names());
            rows.forEach(row -> csv.writeRecord(fields(row)));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private List<String> names() {
        List<String> names = new ArrayList<>();
        columns.forEach(column -> names.addAll(column.names()));
        names.add(NOTES);
        return names;
    }

    private List<String> fields(T row) {
        List<String> fields = new ArrayList<>();
        columns.forEach(column -> fields.addAll(column.fields(row)));
        fields.add(String.join(" | ", notes(row)));
        return fields;
    }
}
