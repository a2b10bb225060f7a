package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.film.Iso6Speed;

/** The page of a comparison: one HTML file with its style and script inside, beside its plots; needs no network. */
final class ReportPage {

    /** A column of the table: its heading, whether it sorts as text, and what a row shows and sorts by. */
    private record Column(String heading, boolean text, Function<Row, Cell> cell) {}

    private record Cell(String shown, String sorted, String style) {

        static Cell text(String text) {
            return new Cell(escape(text), escape(text), "text");
        }

        static Cell number(OptionalDouble value, Function<Double, String> format) {
            return value.isPresent()
                    ? new Cell(format.apply(value.getAsDouble()), Double.toString(value.getAsDouble()), "")
                    : new Cell("–", "", "none");
        }
    }

    /** A row with its fields and figures at hand. */
    private record Row(StripComparison comparison, Map<String, String> fields) {

        Cell figure(String column) {
            return Cell.number(parse(fields.get(column)), ReportPage::twoDecimals);
        }

        Cell stops(String column) {
            return Cell.number(parse(fields.get(column)), ReportPage::stops);
        }

        private static OptionalDouble parse(String field) {
            return field.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(Double.parseDouble(field));
        }
    }

    private static final List<Column> COLUMNS = List.of(
            new Column("Strip", true, row -> Cell.text(row.fields().get("strip"))),
            new Column("Film", true, row -> Cell.text(row.fields().get("film"))),
            new Column("Developer", true, row -> Cell.text(row.fields().get("developer"))),
            new Column("min", false, row -> row.figure("minutes")),
            new Column("°C", false, row -> Cell.number(Row.parse(row.fields().get("celsius")), ReportPage::oneDecimal)),
            new Column("Base + fog", false, row -> row.figure("base_fog")),
            new Column("Greatest density", false, row -> row.figure("d_max")),
            new Column("log H of speed point", false, row -> row.figure("log_h_m")),
            new Column(
                    "Exact speed",
                    false,
                    row -> Cell.number(Row.parse(row.fields().get("speed_exact")), ReportPage::threeDigits)),
            new Column("Rounded speed", false, ReportPage::roundedSpeed),
            new Column("Against box", false, row -> row.stops("stops_vs_box")),
            new Column("Against reference", false, row -> row.stops("stops_vs_reference")),
            new Column("ΔD over 1.30", false, row -> row.figure("delta_d_1_30")),
            new Column("Contrast condition", true, ReportPage::condition),
            new Column("Average gradient", false, row -> row.figure("average_gradient")),
            new Column("Contrast index", false, row -> row.figure("contrast_index")),
            new Column("Gamma", false, row -> row.figure("gamma")),
            new Column("Toe length", false, row -> row.figure("toe_length")),
            new Column("Straight line", false, row -> row.figure("straight_line_length")),
            new Column("Shoulder from density", false, row -> row.figure("shoulder_start_density")),
            new Column("Print exposure", false, row -> row.stops("print_stops_vs_reference")));

    private final FilmComparison comparison;
    private final Fits fits;
    private final List<Row> rows;
    private final Page page;

    ReportPage(FilmComparison comparison, Fits fits, String title, List<String> notes) {
        this.comparison = comparison;
        this.fits = fits;
        rows = comparison.rows().stream()
                .map(row -> new Row(row, ComparisonCsv.byColumn(row, fits)))
                .toList();
        page = new Page(title, lead(), notes);
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
        rows.forEach(row -> strip(row, plots));
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
        return Page.resource(ReportPage.class, "definitions.html")
                .replace("<!-- curve -->", Page.resource(ReportPage.class, curve));
    }

    private String lead() {
        long withSpeed = rows.stream()
                .filter(row -> ComparisonCsv.hasResult(row.comparison()))
                .count();
        long met = rows.stream()
                .filter(row -> row.fields().get("contrast_condition").equals("met"))
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
        for (Column column : COLUMNS) {
            html.append("<th scope=\"col\"")
                    .append(column.text() ? " class=\"text\"" : "")
                    .append("><button type=\"button\">")
                    .append(escape(column.heading()))
                    .append("</button></th>");
        }
        html.append("</tr></thead>\n<tbody>\n");
        for (Row row : rows) {
            html.append(row.comparison().figures() == comparison.reference() ? "<tr class=\"reference\">" : "<tr>");
            for (Column column : COLUMNS) {
                Cell cell = column.cell().apply(row);
                html.append("<td class=\"")
                        .append(cell.style())
                        .append("\" data-value=\"")
                        .append(cell.sorted())
                        .append("\">")
                        .append(cell.shown())
                        .append("</td>");
            }
            html.append("</tr>\n");
        }
        html.append("</tbody></table></div>\n");
        page.markup(html.toString());
    }

    private void strip(Row row, Function<Strip, String> plots) {
        Strip strip = row.comparison().figures().strip();
        page.markup("<section>\n<h3>" + escape(name(strip)) + "</h3>\n")
                .figure(new ReportFigure(plots.apply(strip), "", caption(row.comparison())))
                .list(ComparisonCsv.notes(row.comparison(), fits))
                .markup("</section>\n");
    }

    private static String caption(StripComparison row) {
        StringBuilder text =
                new StringBuilder(row.figures().strip().processing().toString());
        ComparisonCsv.roundedSpeed(row)
                .ifPresent(
                        speed -> text.append("; speed ").append(speed.toString().substring("ISO ".length())));
        append(text, row.figures().stopsFromBoxSpeed().value(), "against box", ReportPage::stops);
        append(text, row.stopsFromReference().value(), "against reference", ReportPage::stops);
        append(text, row.figures().averageGradient().value(), "average gradient", ReportPage::twoDecimals);
        append(text, row.printStopsFromReference().value(), "print exposure", ReportPage::stops);
        return text.append('.').toString();
    }

    private static void append(
            StringBuilder text, OptionalDouble value, String label, Function<Double, String> format) {
        value.ifPresent(found -> text.append("; ").append(label).append(' ').append(format.apply(found)));
    }

    private static String name(Strip strip) {
        return strip.film().equals(strip.id()) ? strip.id() : strip.id() + " – " + strip.film();
    }

    /** The rounded speed, in brackets where its contrast condition is not met. */
    private static Cell roundedSpeed(Row row) {
        boolean conditionsMet = row.comparison()
                .figures()
                .iso6Speed()
                .filter(Iso6Speed::conditionsMet)
                .isPresent();
        return ComparisonCsv.roundedSpeed(row.comparison())
                .map(speed -> {
                    String rounded = speed.toString().substring("ISO ".length());
                    return new Cell(
                            conditionsMet ? rounded : "(" + rounded + ")", Double.toString(speed.arithmetic()), "");
                })
                .orElse(new Cell("–", "", "none"));
    }

    private static Cell condition(Row row) {
        String condition = row.fields().get("contrast_condition");
        return condition.isEmpty()
                ? new Cell("–", "", "text none")
                : new Cell(condition, condition, "text " + condition);
    }

    private static String stops(double stops) {
        String text = twoDecimals(stops);
        return stops > 0 && !text.equals("0.00") ? "+" + text : text;
    }

    private static String twoDecimals(double value) {
        return format("%.2f", value);
    }

    private static String oneDecimal(double value) {
        return format("%.1f", value);
    }

    private static String threeDigits(double value) {
        return value >= 100 ? format("%.0f", value) : format(value >= 10 ? "%.1f" : "%.2f", value);
    }

    private static String format(String pattern, double value) {
        String text = String.format(Locale.ROOT, pattern, value);
        return Double.parseDouble(text) == 0 ? text.replace("-", "") : text.replace('-', '\u2212');
    }
}
