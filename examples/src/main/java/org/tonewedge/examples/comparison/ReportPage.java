package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;

import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.Table;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.film.Iso6Contrast;

/** The page of a comparison: one HTML file with its style and script inside, beside its plots; needs no network. */
final class ReportPage {

    private final FilmComparison comparison;
    private final Fits fits;
    private final Table<StripComparison> table;
    private final Page page;

    ReportPage(FilmComparison comparison, Fits fits, String title, List<String> notes, Set<ChartFiles.Format> plots) {
        this.comparison = comparison;
        this.fits = fits;
        table = ComparisonTable.of(comparison.rows(), fits);
        page = new Page(title, lead(), notes, plots);
    }

    /** The page, for further sections. */
    Page page() {
        return page;
    }

    /** Adds the sections on strips; {@code plots} gives the file name of a strip's plot without its ending. */
    void addComparison(String overlay, Function<Strip, String> plots) {
        page.heading("All curves")
                .figure(
                        new ReportFigure(
                                overlay,
                                "",
                                "Characteristic curves of all strips, coloured by speed; the reference is the heavy black line."));
        table();
        page.heading("Strip by strip").markup("<div class=\"strips\">\n");
        table.rows().forEach(row -> strip(row, plots));
        page.markup("</div>\n");
    }

    /** Ends the page with its definitions and cautions. */
    String finished() {
        return page.markup(definitions())
                .markup("<script>\n" + Page.resource(ReportPage.class, "report.js") + "</script>\n")
                .finished();
    }

    private String definitions() {
        String curve = fits.isEmpty() ? "curve-readings.html" : "curve-fit.html";
        StringBuilder figures = new StringBuilder();
        for (FilmFigure figure : FilmFigure.values()) {
            figures.append("<dt>").append(escape(figure.heading())).append("</dt><dd>");
            figures.append(escape(figure.definition()));
            figures.append(" <span class=\"source\">(")
                    .append(escape(figure.source()))
                    .append(")</span></dd>\n");
        }
        return Page.resource(ReportPage.class, "definitions.html")
                .replace("<!-- curve -->\n", Page.resource(ReportPage.class, curve))
                .replace("<!-- figures -->\n", figures);
    }

    private String lead() {
        List<StripComparison> rows = table.rows();
        long withSpeed = rows.stream().filter(ComparisonTable::hasResult).count();
        long met = rows.stream()
                .flatMap(row -> row.figures().iso6Contrast().stream())
                .filter(found -> found.verdict() == Iso6Contrast.Verdict.MET)
                .count();
        return rows.size() + (rows.size() == 1 ? " strip" : " strips") + "; reference "
                + name(comparison.reference().strip()) + ". " + withSpeed + " reach the speed point, " + met
                + " of them with the contrast that an ISO speed asks for.";
    }

    private void table() {
        page.heading("Table");
        StringBuilder html = new StringBuilder();
        html.append(
                "<p class=\"hint\">Press a heading to sort. Full precision and the reason for every missing figure are"
                        + " in <a href=\"comparison.csv\">comparison.csv</a>. A speed in brackets is no ISO speed: its contrast"
                        + " condition is not met. Stops against box and reference: positive is faster.</p>\n"
                        + "<div class=\"wide\"><table class=\"sortable\">\n<thead><tr>");
        for (Column<StripComparison> column : table.pageColumns()) {
            html.append("<th scope=\"col\"")
                    .append(column.isText() ? " class=\"text\"" : "")
                    .append("><button type=\"button\">")
                    .append(escape(column.heading()))
                    .append("</button></th>");
        }
        html.append("</tr></thead>\n<tbody>\n");
        for (StripComparison row : table.rows()) {
            html.append(row.figures() == comparison.reference() ? "<tr class=\"reference\">" : "<tr>");
            for (Column<StripComparison> column : table.pageColumns()) {
                Cell cell = column.cell(row);
                html.append("<td class=\"")
                        .append(((column.isText() ? "text " : "") + cell.style()).strip())
                        .append("\" data-value=\"")
                        .append(escape(cell.sorted()))
                        .append("\">")
                        .append(escape(cell.shown()))
                        .append("</td>");
            }
            html.append("</tr>\n");
        }
        html.append("</tbody></table></div>\n");
        page.markup(html.toString());
    }

    private void strip(StripComparison row, Function<Strip, String> plots) {
        Strip strip = row.figures().strip();
        page.markup("<section>\n<h3>" + escape(name(strip)) + "</h3>\n")
                .figure(new ReportFigure(plots.apply(strip), "", caption(row)))
                .list(table.notes(row))
                .markup("</section>\n");
    }

    private static String caption(StripComparison row) {
        StringBuilder text =
                new StringBuilder(row.figures().strip().processing().toString());
        ComparisonTable.rounded(row)
                .ifPresent(
                        speed -> text.append("; speed ").append(speed.toString().substring("ISO ".length())));
        append(text, row, FilmFigure.STOPS_FROM_BOX_SPEED, "against box");
        append(text, row, FilmFigure.STOPS_FROM_REFERENCE, "against reference");
        append(text, row, FilmFigure.AVERAGE_GRADIENT, "average gradient");
        append(text, row, FilmFigure.PRINT_STOPS_FROM_REFERENCE, "print exposure");
        return text.append('.').toString();
    }

    private static void append(StringBuilder text, StripComparison row, FilmFigure figure, String label) {
        row.get(figure)
                .value()
                .ifPresent(found -> text.append("; ").append(label).append(' ').append(figure.inWords(found)));
    }

    private static String name(Strip strip) {
        return strip.film().equals(strip.id()) ? strip.id() : strip.id() + " – " + strip.film();
    }
}
