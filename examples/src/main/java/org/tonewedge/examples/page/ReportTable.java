// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import java.util.List;

/**
 * A table of a report, as text.
 *
 * @param name a name for files, such as {@code shadow-match}
 * @param title the heading
 * @param note how to read it
 * @param columns the headings of the columns, with units
 * @param rows the fields, as many in each row as there are columns
 */
public record ReportTable(String name, String title, String note, List<String> columns, List<List<String>> rows) {

    /**
     * Copies the rows.
     *
     * @param name a name for files
     * @param title the heading
     * @param note how to read it
     * @param columns the headings of the columns
     * @param rows the fields
     * @throws IllegalArgumentException if a row has another number of fields than there are columns
     */
    public ReportTable {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
        for (List<String> row : rows) {
            if (row.size() != columns.size()) {
                throw new IllegalArgumentException(
                        "table '" + title + "' has " + columns.size() + " columns, a row has " + row.size());
            }
        }
    }

    /**
     * Returns what readers see of a table.
     *
     * @param <T> what a row is about
     * @param name a name for files
     * @param title the heading
     * @param note how to read it
     * @param table the table
     * @return its columns with a heading, as text
     */
    public static <T> ReportTable of(String name, String title, String note, Table<T> table) {
        List<Column<T>> columns = table.pageColumns();
        return new ReportTable(
                name,
                title,
                note,
                columns.stream().map(Column::heading).toList(),
                table.rows().stream()
                        .map(row -> columns.stream()
                                .map(column -> column.cell(row).shown())
                                .toList())
                        .toList());
    }
}
