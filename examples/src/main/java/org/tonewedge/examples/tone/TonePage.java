// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;

/** A tone report as sections of pages, its charts and its tables as CSV beside them. */
public final class TonePage {

    private static final String FILM = "Film";
    /** Tables whose rows of a film say themselves how it compares with the reference. */
    private static final Set<String> COMPARED = Set.of("colour-groups", "colour-patches");

    private final List<ReportTable> tables;
    private final List<ReportFigure> figures;
    private final List<String> notices;

    private TonePage(List<ReportTable> tables, List<ReportFigure> figures, List<String> notices) {
        this.tables = tables;
        this.figures = figures;
        this.notices = notices;
    }

    /**
     * Writes what the sections show.
     *
     * @param report the report
     * @param directory where tables go
     * @param plots what writes the charts into that directory
     * @return the sections, for pages in that directory
     * @throws IOException if a file cannot be written
     */
    public static TonePage write(ToneReport report, Path directory, ChartFiles plots) throws IOException {
        report.writeTables(directory);
        return new TonePage(report.tables(), report.writeFigures(plots), report.notices());
    }

    /**
     * Adds the sections on all films.
     *
     * @param page the page
     */
    public void addTo(Page page) {
        tables.forEach(page::table);
        figures.forEach(page::figure);
        if (!notices.isEmpty()) {
            page.heading("What could not be determined").list(notices);
        }
    }

    /**
     * Adds what the sections say of one film.
     *
     * @param page the page
     * @param film the label of the film
     * @param reference the label of the reference film
     */
    public void addFilm(Page page, String film, String reference) {
        for (ReportTable table : tables) {
            ReportTable own = table.columns().get(0).equals(FILM)
                    ? rows(table, film, reference)
                    : columns(table, film, reference);
            if (!own.rows().isEmpty()) {
                page.table(own);
            }
        }
        List<ReportFigure> own =
                figures.stream().filter(figure -> figure.film().equals(film)).toList();
        if (!own.isEmpty()) {
            page.heading("Prints, and how they come about").markup("<div class=\"prints\">\n");
            own.forEach(figure -> page.figure(new ReportFigure(figure.name(), "", figure.caption())));
            page.markup("</div>\n");
        }
    }

    private static ReportTable rows(ReportTable table, String film, String reference) {
        List<List<String>> of =
                table.rows().stream().filter(row -> row.get(0).equals(film)).toList();
        if (COMPARED.contains(table.name())) {
            int all = table.columns().size();
            return with(
                    table,
                    table.columns().subList(1, all),
                    of.stream().map(row -> row.subList(1, all)).toList());
        }
        if (of.isEmpty() || film.equals(reference)) {
            return with(table, table.columns(), of);
        }
        List<List<String>> both = new ArrayList<>(of);
        table.rows().stream().filter(row -> row.get(0).equals(reference)).forEach(both::add);
        return with(table, table.columns(), both);
    }

    /** A table with columns for each film keeps those of the film and of the reference. */
    private static ReportTable columns(ReportTable table, String film, String reference) {
        List<Integer> kept = new ArrayList<>(List.of(0));
        boolean found = false;
        boolean keeps = false;
        for (int i = 1; i < table.columns().size(); i++) {
            String heading = table.columns().get(i);
            int comma = heading.lastIndexOf(", ");
            if (comma > 0) {
                String of = heading.substring(0, comma);
                keeps = of.equals(film) || of.equals(reference);
                found |= of.equals(film);
            }
            if (keeps) {
                kept.add(i);
            }
        }
        return with(
                table,
                kept.stream().map(table.columns()::get).toList(),
                found
                        ? table.rows().stream()
                                .map(row -> kept.stream().map(row::get).toList())
                                .toList()
                        : List.of());
    }

    private static ReportTable with(ReportTable table, List<String> columns, List<List<String>> rows) {
        return new ReportTable(table.name(), table.title(), table.note(), columns, rows);
    }
}
