// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;
import static org.tonewedge.examples.page.Page.isolated;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.Table;
import org.tonewedge.examples.page.TableMarkup;
import org.tonewedge.examples.page.TableMarkup.Field;
import org.tonewedge.examples.page.TableMarkup.Heading;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.FilmMean;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.film.Iso6Contrast;

/**
 * The page of a comparison: the verdict first, then the curves, the shape of the curves, densities and processing, and
 * each strip; one HTML file beside its plots, which needs no network.
 */
final class ReportPage {

    /** What the densities and the processing say; the verdict has a table of its own, the rest is the shape. */
    private static final Set<FilmFigure> DENSITIES = EnumSet.of(
            FilmFigure.BASE_PLUS_FOG,
            FilmFigure.MAXIMUM_DENSITY,
            FilmFigure.SPEED_POINT,
            FilmFigure.PRINT_STOPS_FROM_REFERENCE);

    private static final Set<FilmFigure> VERDICT = EnumSet.of(
            FilmFigure.EXACT_SPEED,
            FilmFigure.STOPS_FROM_BOX_SPEED,
            FilmFigure.STOPS_FROM_REFERENCE,
            FilmFigure.CONTRAST_OVER_130);

    /** Up to so many strips, all plots load fast at once. */
    private static final int MANY = 60;

    private final FilmComparison comparison;
    private final DrawingChoice drawing;
    private final Table<StripComparison> table;
    private final Map<StripComparison, String> anchors = new LinkedHashMap<>();
    private final PlainNotes notes;
    private final Set<ChartFiles.Format> plots;
    private final RowOrder order;
    private final boolean ownPages;
    private final Page page;

    /**
     * Begins the page.
     *
     * @param order the order of the strips
     * @param ownPages whether each strip has a page of its own
     */
    ReportPage(
            FilmComparison comparison,
            RowOrder order,
            boolean ownPages,
            DrawingChoice drawing,
            String title,
            List<String> remarks,
            Set<ChartFiles.Format> plots) {
        this.comparison = comparison;
        this.ownPages = ownPages;
        this.drawing = drawing;
        this.plots = plots;
        this.order = order;
        table = ComparisonTable.of(order.sorted(comparison.rows()));
        table.rows().forEach(row -> anchors.put(row, Integer.toString(anchors.size() + 1)));
        notes = PlainNotes.of(table);
        page = new Page(title, lead(), remarks, plots);
    }

    /** The page, for further sections. */
    Page page() {
        return page;
    }

    /** Adds the sections on strips; {@code names} gives the file name of a strip's plot without its ending. */
    void addComparison(String overlay, Function<Strip, String> names) {
        page.heading("Speed and contrast").markup(verdict(names));
        if (ownPages) {
            page.markup("<p class=\"hint\">Each film beside the reference, on a page of its own: <a href=\""
                    + FilmPages.INDEX + "\">all pages</a>.</p>\n");
        }
        page.markup(
                "<p class=\"hint\">Press a heading to sort. A dash means that the readings do not give the figure; full"
                        + " precision, and the reason for every missing figure, are in <a href=\"comparison.csv\">comparison.csv</a>."
                        + " Stops: positive is faster. ± is the standard uncertainty.</p>\n");
        page.list(notes.shared());
        curves(overlay);
        page.heading("Shape of the curves").markup(shape());
        page.heading("Densities and processing").markup(densities());
        means();
        if (table.rows().size() > MANY) {
            page.lazyFigures();
        }
        page.markup("<h2 class=\"new-page\">Strip by strip</h2>\n<div class=\"strips\">\n");
        table.rows().forEach(row -> strip(row, names));
        page.markup("</div>\n");
    }

    private void curves(String overlay) {
        CurveData live = new CurveData(table.rows(), comparison.reference());
        if (live.isEmpty() && plots.isEmpty()) {
            return;
        }
        page.heading("All curves").markup("<div class=\"overlay\">\n<div class=\"static\">\n");
        page.figure(new ReportFigure(
                overlay,
                "",
                "Characteristic curves of all strips, coloured by speed; the reference is the heavy black line."));
        page.markup("</div>\n" + (live.isEmpty() ? "" : live.markup()) + "</div>\n");
    }

    /** Ends the page with its definitions, cautions and origin. */
    String finished(Provenance provenance) {
        return page.markup(definitions()).provenance(provenance).finished();
    }

    private String definitions() {
        StringBuilder figures = new StringBuilder();
        for (FilmFigure figure : FilmFigure.values()) {
            figures.append("<dt>").append(escape(figure.heading())).append("</dt><dd>");
            figures.append(escape(figure.definition()));
            figures.append(" <span class=\"source\">(")
                    .append(escape(figure.source()))
                    .append(")</span></dd>\n");
        }
        return Page.resource(ReportPage.class, "definitions.html")
                .replace("<!-- curve -->\n", Page.resource(ReportPage.class, drawing.definition()))
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
                + CurveData.name(comparison.reference()) + ". " + withSpeed
                + (withSpeed == 1 ? " reaches" : " reach") + " the speed point, " + met
                + " of them with the contrast that an ISO speed requires"
                + switch (Math.toIntExact(withSpeed - met)) {
                    case 0 -> ".";
                    case 1 -> "; the other is not an ISO speed.";
                    default -> "; the other " + (withSpeed - met) + " are not ISO speeds.";
                };
    }

    private String verdict(Function<Strip, String> names) {
        TableMarkup markup = new TableMarkup(
                        "Speed and contrast beside " + CurveData.name(comparison.reference()),
                        RowFields.headings(table.rows()))
                .styled("verdict");
        order.stateOn(markup);
        for (StripComparison row : table.rows()) {
            markup.row(
                    "film-" + anchors.get(row),
                    style(row),
                    RowFields.verdict(film(row, names.apply(row.figures().strip())), row));
        }
        return markup.markup();
    }

    private Field film(StripComparison row, String plot) {
        String name = CurveData.name(row.figures());
        String link = "<a href=\"#strip-" + anchors.get(row) + "\">" + isolated(name) + "</a>";
        Field field = new Field(link, name, "");
        String reference = row.figures() == comparison.reference() ? "reference" : "";
        if (!ownPages) {
            return reference.isEmpty() ? field : field.under(reference, "");
        }
        return field.under(
                (reference.isEmpty() ? "" : "reference; ") + "<a href=\"" + FilmPages.file(plot)
                        + "\" aria-label=\"own page of " + escape(name) + "\">own page</a>",
                "page-link");
    }

    private String shape() {
        List<FilmFigure> figures = Arrays.stream(FilmFigure.values())
                .filter(figure -> !VERDICT.contains(figure) && !DENSITIES.contains(figure))
                .toList();
        TableMarkup markup = new TableMarkup("Gradients, and the parts of the curve", headings(figures, List.of()));
        for (StripComparison row : table.rows()) {
            markup.row("", style(row), fields(row, figures));
        }
        return markup.markup();
    }

    private String densities() {
        List<FilmFigure> figures = List.copyOf(DENSITIES);
        List<Heading> processing =
                List.of(new Heading("Developer", true), new Heading("min", false), new Heading("°C", false));
        TableMarkup markup =
                new TableMarkup("Densities, and how each strip was developed", headings(figures, processing));
        for (StripComparison row : table.rows()) {
            List<Field> fields = fields(row, figures);
            var done = row.figures().strip().processing();
            fields.add(Field.text(done.developer().map(Checks::shortened).orElse("–")));
            fields.add(RowFields.number(
                    2,
                    done.time().stream()
                            .mapToDouble(time -> time.toMillis() / 60_000.0)
                            .findFirst()));
            fields.add(RowFields.number(
                    1,
                    done.temperature().stream()
                            .mapToDouble(Temperature::celsius)
                            .findFirst()));
            markup.row("", style(row), fields);
        }
        return markup.markup();
    }

    /** The films of which several strips were developed alike; nothing where there is none. */
    private void means() {
        List<FilmMean> films = comparison.films().stream()
                .filter(FilmMean::includesStripToStrip)
                .toList();
        if (films.isEmpty()) {
            return;
        }
        List<FilmFigure> figures = List.of(
                FilmFigure.EXACT_SPEED,
                FilmFigure.STOPS_FROM_BOX_SPEED,
                FilmFigure.STOPS_FROM_REFERENCE,
                FilmFigure.CONTRAST_OVER_130,
                FilmFigure.AVERAGE_GRADIENT,
                FilmFigure.GAMMA);
        List<Heading> headings = new ArrayList<>(
                List.of(new Heading("Film", true), new Heading("Strips", true), new Heading("Development", true)));
        figures.forEach(figure -> headings.add(new Heading(figure.heading(), false)));
        TableMarkup markup = new TableMarkup("Means of strips that were developed alike", headings);
        for (FilmMean film : films) {
            List<Field> fields = new ArrayList<>(List.of(
                    Field.text(Checks.shortened(film.film())),
                    Field.text(film.strips().stream()
                            .map(strip -> Checks.shortened(strip.strip().id()))
                            .collect(Collectors.joining(", "))),
                    Field.text(film.processing().toString())));
            figures.forEach(figure -> fields.add(RowFields.of(film.get(figure), figure)));
            markup.row("", film.strips().contains(comparison.reference()) ? "reference" : "", fields);
        }
        page.heading("Films with several strips")
                .markup(markup.markup())
                .markup(
                        "<p class=\"hint\">± includes the variation from strip to strip, which that of a single strip does"
                                + " not. Few strips tell it poorly: with two, the 95 % interval may reach 12.7 times ± to"
                                + " either side. These intervals are in <a href=\"films.csv\">films.csv</a>, for all"
                                + " films.</p>\n");
    }

    private String style(StripComparison row) {
        return row.figures() == comparison.reference() ? "reference" : "";
    }

    private List<Heading> headings(List<FilmFigure> figures, List<Heading> more) {
        List<Heading> headings = new ArrayList<>();
        headings.add(new Heading("Film", true));
        figures.forEach(
                figure -> headings.add(new Heading(Assumed.heading(figure.heading(), figure, table.rows()), false)));
        headings.addAll(more);
        return headings;
    }

    private List<Field> fields(StripComparison row, List<FilmFigure> figures) {
        List<Field> fields = new ArrayList<>();
        String name = CurveData.name(row.figures());
        fields.add(new Field("<a href=\"#strip-" + anchors.get(row) + "\">" + isolated(name) + "</a>", name, ""));
        figures.forEach(figure -> fields.add(RowFields.of(row, figure)));
        return fields;
    }

    private void strip(StripComparison row, Function<Strip, String> names) {
        Strip strip = row.figures().strip();
        page.markup("<section id=\"strip-" + anchors.get(row) + "\">\n<h3>" + isolated(CurveData.name(row.figures()))
                        + "</h3>\n")
                .figure(new ReportFigure(names.apply(strip), "", caption(row)))
                .list(notes.of(row))
                .markup("<p class=\"hint back\"><a href=\"#film-" + anchors.get(row) + "\" aria-label=\"back to "
                        + escape(CurveData.name(row.figures())) + " in the table\">in the table</a></p>\n</section>\n");
    }

    private static String caption(StripComparison row) {
        StringBuilder text =
                new StringBuilder(row.figures().strip().processing().toString());
        ComparisonTable.rounded(row)
                .ifPresent(speed -> text.append("; speed ")
                        .append(speed.toString())
                        .append(row.assumption().isEmpty() ? "" : Assumed.MARK)
                        .append(ComparisonTable.isIsoSpeed(row) ? "" : ", not an ISO speed"));
        append(text, row, FilmFigure.STOPS_FROM_BOX_SPEED, "against box");
        append(text, row, FilmFigure.STOPS_FROM_REFERENCE, "against reference");
        append(text, row, FilmFigure.AVERAGE_GRADIENT, "average gradient");
        append(text, row, FilmFigure.PRINT_STOPS_FROM_REFERENCE, "print exposure");
        if (!row.figures().verdict().isEmpty()) {
            text.append("; drawn: ").append(row.figures().verdict());
        }
        return text.append('.').toString();
    }

    private static void append(StringBuilder text, StripComparison row, FilmFigure figure, String label) {
        row.get(figure)
                .value()
                .ifPresent(found -> text.append("; ")
                        .append(label)
                        .append(' ')
                        .append(figure.inWords(found))
                        .append(row.get(figure).assumption().isEmpty() ? "" : Assumed.MARK));
    }
}
