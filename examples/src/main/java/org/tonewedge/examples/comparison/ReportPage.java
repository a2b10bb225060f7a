package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;
import static org.tonewedge.examples.page.Page.isolated;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import org.tonewedge.core.curve.CurveAnatomy;
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
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
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

    private final FilmComparison comparison;
    private final DrawingChoice drawing;
    private final Table<StripComparison> table;
    private final Map<StripComparison, String> anchors = new LinkedHashMap<>();
    private final PlainNotes notes;
    private final Set<ChartFiles.Format> plots;
    private final Page page;

    ReportPage(
            FilmComparison comparison,
            DrawingChoice drawing,
            String title,
            List<String> remarks,
            Set<ChartFiles.Format> plots) {
        this.comparison = comparison;
        this.drawing = drawing;
        this.plots = plots;
        table = ComparisonTable.of(comparison.rows());
        Map<StripComparison, List<String>> all = new LinkedHashMap<>();
        for (StripComparison row : table.rows()) {
            anchors.put(row, Integer.toString(anchors.size() + 1));
            all.put(row, table.notes(row));
        }
        notes = new PlainNotes(all);
        page = new Page(title, lead(), remarks, plots);
    }

    /** The page, for further sections. */
    Page page() {
        return page;
    }

    /** Adds the sections on strips; {@code names} gives the file name of a strip's plot without its ending. */
    void addComparison(String overlay, Function<Strip, String> names) {
        page.heading("Speed and contrast").markup(verdict());
        page.markup(
                "<p class=\"hint\">Press a heading to sort. A dash means that the readings do not give the figure; full"
                        + " precision, and the reason for every missing figure, are in <a href=\"comparison.csv\">comparison.csv</a>."
                        + " Stops: positive is faster. ± is the standard uncertainty.</p>\n");
        page.list(notes.shared());
        curves(overlay);
        page.heading("Shape of the curves").markup(shape());
        page.heading("Densities and processing").markup(densities());
        page.markup("<h2 class=\"new-page\">Strip by strip</h2>\n<div class=\"strips\">\n");
        table.rows().forEach(row -> strip(row, names));
        page.markup("</div>\n");
    }

    private void curves(String overlay) {
        CurveData live = new CurveData(
                table.rows().stream().map(StripComparison::figures).toList(), comparison.reference());
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
                + CurveData.name(comparison.reference()) + ". " + withSpeed + " reach the speed point, " + met
                + " of them with the contrast that an ISO speed asks for.";
    }

    private String verdict() {
        TableMarkup markup = new TableMarkup(
                        "Speed and contrast beside " + CurveData.name(comparison.reference()),
                        List.of(
                                new Heading("Film", true),
                                new Heading("Speed", false),
                                new Heading("Box", false),
                                new Heading("Stops from box", false),
                                new Heading("Stops from reference", false),
                                new Heading("Contrast, ΔD over 1.30", false)))
                .styled("verdict");
        for (StripComparison row : table.rows()) {
            markup.row(
                    "film-" + anchors.get(row),
                    row.figures() == comparison.reference() ? "reference" : "",
                    List.of(
                            film(row),
                            speed(row),
                            box(row.figures().strip()),
                            field(row, FilmFigure.STOPS_FROM_BOX_SPEED),
                            field(row, FilmFigure.STOPS_FROM_REFERENCE),
                            contrast(row)));
        }
        return markup.markup();
    }

    private Field film(StripComparison row) {
        String name = CurveData.name(row.figures());
        String link = "<a href=\"#strip-" + anchors.get(row) + "\">" + isolated(name) + "</a>";
        Field field = new Field(link, name, "");
        return row.figures() == comparison.reference() ? field.under("reference", "") : field;
    }

    private static Field speed(StripComparison row) {
        Field exact = field(row, FilmFigure.EXACT_SPEED);
        return ComparisonTable.rounded(row)
                .map(rounded -> ComparisonTable.isIsoSpeed(row)
                        ? exact.under(escape(rounded.toString()), "")
                        : exact.under("not an ISO speed", "warn"))
                .orElse(exact);
    }

    private static Field box(Strip strip) {
        OptionalDouble box = strip.boxSpeed();
        return box.isPresent()
                ? Field.number(
                        Double.toString(box.getAsDouble()).replaceAll("\\.0$", ""), Double.toString(box.getAsDouble()))
                : new Field("–", "", "none");
    }

    private static Field contrast(StripComparison row) {
        Field found = field(row, FilmFigure.CONTRAST_OVER_130);
        return row.figures()
                .iso6Contrast()
                .map(Iso6Contrast::verdict)
                .filter(verdict -> verdict != Iso6Contrast.Verdict.NOT_MEASURED)
                .map(verdict -> verdict == Iso6Contrast.Verdict.MET
                        ? found.under("as ISO asks", "")
                        : found.under(verdict.name().toLowerCase(Locale.ROOT), "warn"))
                .orElse(found);
    }

    /** A figure for readers; a bound where only that is known. */
    private static Field field(StripComparison row, FilmFigure figure) {
        Figure found = row.get(figure);
        if (found.value().isEmpty()) {
            OptionalDouble least = found.reason().contains("at least")
                    ? leastStraightLine(row.figures(), figure)
                    : OptionalDouble.empty();
            return least.isPresent()
                    ? Field.number("≥ " + figure.inWords(least.getAsDouble()), Double.toString(least.getAsDouble()))
                    : new Field("–", "", "none");
        }
        return Field.of(ComparisonTable.cell(found, figure));
    }

    /** A straight line that runs on beyond the readings is at least as long as they show. */
    private static OptionalDouble leastStraightLine(StripFigures figures, FilmFigure figure) {
        return figure == FilmFigure.STRAIGHT_LINE_LENGTH
                ? figures.anatomy().map(CurveAnatomy::straightLine).stream()
                        .filter(line -> !line.complete())
                        .mapToDouble(line -> line.length().logUnits())
                        .findFirst()
                : OptionalDouble.empty();
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
            fields.add(number(
                    2,
                    done.time().stream()
                            .mapToDouble(time -> time.toMillis() / 60_000.0)
                            .findFirst()));
            fields.add(number(
                    1,
                    done.temperature().stream()
                            .mapToDouble(Temperature::celsius)
                            .findFirst()));
            markup.row("", style(row), fields);
        }
        return markup.markup();
    }

    private static Field number(int decimals, OptionalDouble value) {
        return value.isPresent()
                ? Field.number(
                        String.format(Locale.ROOT, "%." + decimals + "f", value.getAsDouble()),
                        Double.toString(value.getAsDouble()))
                : new Field("–", "", "none");
    }

    private String style(StripComparison row) {
        return row.figures() == comparison.reference() ? "reference" : "";
    }

    private static List<Heading> headings(List<FilmFigure> figures, List<Heading> more) {
        List<Heading> headings = new ArrayList<>();
        headings.add(new Heading("Film", true));
        figures.forEach(figure -> headings.add(new Heading(figure.heading(), false)));
        headings.addAll(more);
        return headings;
    }

    private List<Field> fields(StripComparison row, List<FilmFigure> figures) {
        List<Field> fields = new ArrayList<>();
        String name = CurveData.name(row.figures());
        fields.add(new Field("<a href=\"#strip-" + anchors.get(row) + "\">" + isolated(name) + "</a>", name, ""));
        figures.forEach(figure -> fields.add(field(row, figure)));
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
                        .append(ComparisonTable.isIsoSpeed(row) ? "" : ", not an ISO speed"));
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
}
