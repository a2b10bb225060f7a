// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.examples.page.Column;
import org.tonewedge.examples.page.ReportTable;
import org.tonewedge.examples.page.Table;

/**
 * A section of a report: one table, as CSV for programs and on a page for readers.
 *
 * <p>Immutable and thread safe if its rows are.
 */
final class Section {

    private final Table<?> data;
    private final ReportTable page;

    private Section(Table<?> data, ReportTable page) {
        this.data = data;
        this.page = page;
    }

    /** A section whose columns serve programs and readers; its name is that of the CSV without its ending. */
    static <T> Section of(String name, String title, String note, List<Column<T>> columns, List<T> rows) {
        Table<T> table = Table.of(columns, rows);
        return new Section(table, ReportTable.of(name, title, note, table));
    }

    /** The section with other columns and rows for readers. */
    <T> Section shownAs(List<Column<T>> columns, List<T> rows) {
        return new Section(data, ReportTable.of(page.name(), page.title(), page.note(), Table.of(columns, rows)));
    }

    ReportTable page() {
        return page;
    }

    void writeCsv(Path directory) throws IOException {
        data.writeCsv(directory.resolve(page.name() + ".csv"));
    }
}
