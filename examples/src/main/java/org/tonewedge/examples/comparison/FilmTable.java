// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;
import org.tonewedge.examples.page.Table;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.FilmMean;
import org.tonewedge.standards.comparison.StripFigures;

/** The films of a comparison, strips developed alike taken together: means with their standard uncertainties. */
final class FilmTable {

    private FilmTable() {}

    static Table<FilmMean> of(List<FilmMean> films) {
        List<Column<FilmMean>> columns = new ArrayList<>();
        columns.add(Column.text("film", "Film", film -> Cell.text(film.film())));
        columns.add(Column.text(
                "processing", "Development", film -> Cell.text(film.processing().toString())));
        columns.add(Column.text(
                "strips",
                "Strips",
                film -> Cell.text(String.join(
                        " ",
                        film.strips().stream()
                                .map(StripFigures::strip)
                                .map(strip -> strip.id())
                                .toList()))));
        for (FilmFigure figure : FilmFigure.values()) {
            columns.add(Column.estimate(figure.id(), figure.heading(), film -> cell(film.get(figure), figure)));
        }
        return Table.of(columns, films).withRemarks(FilmTable::remarks);
    }

    private static List<String> remarks(FilmMean film) {
        List<String> remarks = new ArrayList<>();
        if (!film.includesStripToStrip()) {
            remarks.add("one strip: its uncertainties do not include the variation from strip to strip");
        }
        String assumption = film.get(FilmFigure.EXACT_SPEED).assumption();
        if (!assumption.isEmpty()) {
            remarks.add("speed, stops from the box and log exposure are assumed: " + assumption);
        }
        return remarks;
    }

    private static Cell cell(Figure found, FilmFigure figure) {
        if (found.value().isEmpty()) {
            return Cell.missing(found.reason());
        }
        return found.estimate()
                .map(estimate -> Cell.estimate(
                        estimate, figure.inWords(estimate) + (found.assumption().isEmpty() ? "" : Assumed.MARK)))
                .orElseGet(() -> ComparisonTable.cell(found, figure));
    }
}
