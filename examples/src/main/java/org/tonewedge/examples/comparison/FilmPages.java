// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;
import static org.tonewedge.examples.page.Page.isolated;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.TableMarkup;
import org.tonewedge.examples.page.TableMarkup.Field;
import org.tonewedge.examples.page.TableMarkup.Heading;
import org.tonewedge.examples.tone.FilmCurve;
import org.tonewedge.examples.tone.TonePage;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FigureDifference;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.FilmMean;
import org.tonewedge.standards.comparison.StripComparison;

/**
 * A page for each strip beside the reference, and an index of them; HTML files beside the report and its plots.
 */
final class FilmPages {

    /** The file of the index. */
    static final String INDEX = "films.html";

    private static final String LEFT_OUT = "± leaves out what differs from one strip of a film to the next";

    /** What is said in words; of several measures of contrast one is enough. */
    private static final Set<FilmFigure> UNSAID = Set.of(FilmFigure.AVERAGE_GRADIENT, FilmFigure.CONTRAST_INDEX);

    private static final Field EMPTY = new Field("", "", "");

    private final FilmComparison comparison;
    private final List<StripComparison> rows;
    private final PlainNotes notes;
    private final DevelopmentAdvice development;
    private final List<FilmMean> means;
    private final Map<String, String> names;
    private final Set<ChartFiles.Format> plots;
    private final List<String> remarks;
    private final Optional<TonePage> tone;
    private final Map<String, FilmCurve> toneCurves;
    private final Provenance provenance;

    FilmPages(
            FilmComparison comparison,
            List<StripComparison> rows,
            Map<String, String> names,
            List<String> remarks,
            Set<ChartFiles.Format> plots,
            Optional<TonePage> tone,
            Map<String, FilmCurve> toneCurves,
            Provenance provenance) {
        this.comparison = comparison;
        this.rows = rows;
        this.names = names;
        this.remarks = remarks;
        this.plots = plots;
        this.tone = tone;
        this.toneCurves = toneCurves;
        this.provenance = provenance;
        notes = PlainNotes.of(ComparisonTable.of(rows));
        development = new DevelopmentAdvice(comparison);
        means = comparison.films().stream()
                .filter(FilmMean::includesStripToStrip)
                .toList();
    }

    /** The file of a strip's page. */
    static String file(String plotName) {
        return plotName + ".html";
    }

    void write(Path directory) throws IOException {
        for (int i = 0; i < rows.size(); i++) {
            Files.writeString(directory.resolve(file(rows.get(i))), page(i));
        }
        Files.writeString(directory.resolve(INDEX), index());
    }

    private String file(StripComparison row) {
        return file(names.get(row.figures().strip().id()));
    }

    private static String name(StripComparison row) {
        return CurveData.name(row.figures());
    }

    private static boolean isReference(StripComparison row) {
        return row.figures() == row.reference();
    }

    private String index() {
        Page page = new Page(
                "A page for each film", "Beside " + CurveData.name(comparison.reference()) + ".", remarks, plots);
        page.markup("<nav aria-label=\"Pages\"><a href=\"report.html\">Report on all films</a></nav>\n");
        TableMarkup table = new TableMarkup(
                "The films, and what the readings show at 95 % to differ from the reference",
                List.of(new Heading("Film", true), new Heading("Beside the reference", true)));
        for (StripComparison row : rows) {
            String name = name(row);
            table.row(
                    "",
                    isReference(row) ? "reference" : "",
                    List.of(
                            new Field("<a href=\"" + file(row) + "\">" + isolated(name) + "</a>", name, ""),
                            Field.text(inShort(row))));
        }
        return page.markup(table.markup()).provenance(provenance).finished();
    }

    private String page(int index) {
        StripComparison row = rows.get(index);
        Strip strip = row.figures().strip();
        String lead = (isReference(row) ? "The reference" : "Beside " + CurveData.name(row.reference())) + "; "
                + strip.processing() + ".";
        Page page = new Page(name(row), lead, remarks, plots);
        page.markup("<div class=\"film\">\n" + navigation(index));
        page.heading("Speed and contrast");
        TableMarkup verdict = new TableMarkup(
                        "Speed and contrast beside the reference", RowFields.headings(List.of(row)))
                .styled("verdict");
        verdict.row("", "", RowFields.verdict(Field.text(name(row)), row));
        if (!isReference(row)) {
            StripComparison reference = reference(row);
            verdict.row("", "", RowFields.verdict(Field.text(name(reference)), reference));
        }
        page.markup(verdict.markup());
        notIso(row).ifPresent(why -> page.markup("<p class=\"note warn\">" + escape(why) + "</p>\n"));
        if (!isReference(row)) {
            List<String> said = sentences(row);
            page.list(said.isEmpty() ? List.of(nothingShown(row)) : said);
        }
        mean(row).ifPresent(page::paragraph);
        page.markup("<div class=\"pair\">\n")
                .figure(new ReportFigure(
                        names.get(strip.id()),
                        "",
                        isReference(row)
                                ? "The curve and its readings."
                                : "The curve with its readings; dashed, the curve of the reference."))
                .markup(Residuals.markup(row.figures()).orElse(""))
                .markup("</div>\n");
        page.heading("All figures").markup(figures(row));
        List<String> advice = development.of(row);
        if (!advice.isEmpty()) {
            page.heading("Development").list(advice);
        }
        tone.filter(sections -> isOfTone(row))
                .ifPresent(sections -> sections.addFilm(
                        page, strip.film(), comparison.reference().strip().film()));
        List<String> own = notes.all(row);
        if (!own.isEmpty()) {
            page.heading("Notes").list(own);
        }
        return page.markup("</div>\n").provenance(provenance).finished();
    }

    /** Whether the sections on tone are about this strip, and not another one of its film. */
    private boolean isOfTone(StripComparison row) {
        FilmCurve used = toneCurves.get(row.figures().strip().film());
        return used == null
                || row.figures().curve().filter(used.curve()::equals).isPresent();
    }

    /** That the speed is no ISO speed, loudly; nothing where it may be one, or there is none. */
    private static Optional<String> notIso(StripComparison row) {
        if (ComparisonTable.isIsoSpeed(row) || ComparisonTable.rounded(row).isEmpty()) {
            return Optional.empty();
        }
        String why = row.get(FilmFigure.EXACT_SPEED).assumption().isEmpty()
                ? row.figures()
                        .iso6Speed()
                        .flatMap(speed -> speed.conditions().stream()
                                .filter(condition -> !condition.isMet())
                                .findFirst())
                        .map(Object::toString)
                        .orElse("")
                : "it rests on an assumption, "
                        + row.get(FilmFigure.EXACT_SPEED).assumption();
        return Optional.of("Not an ISO speed: " + why + ".");
    }

    private String navigation(int index) {
        StringBuilder links = new StringBuilder("<nav aria-label=\"Pages\">");
        if (index > 0) {
            links.append("<a rel=\"prev\" href=\"" + file(rows.get(index - 1)) + "\">← "
                    + isolated(name(rows.get(index - 1))) + "</a> ");
        }
        links.append("<a href=\"" + INDEX + "\">all pages</a> <a href=\"report.html\">report</a>");
        if (index + 1 < rows.size()) {
            links.append(" <a rel=\"next\" href=\"" + file(rows.get(index + 1)) + "\">"
                    + isolated(name(rows.get(index + 1))) + " →</a>");
        }
        links.append("</nav>\n");
        StripComparison row = rows.get(index);
        String others = rows.stream()
                .filter(other -> other != row)
                .filter(other -> other.figures()
                        .strip()
                        .film()
                        .equals(row.figures().strip().film()))
                .map(other -> "<a href=\"" + file(other) + "\">"
                        + isolated(other.figures().strip().id()) + "</a> ("
                        + escape(other.figures().strip().processing().toString()) + ")")
                .collect(Collectors.joining(", "));
        return others.isEmpty() ? links.toString() : links + "<p>Other strips of this film: " + others + ".</p>\n";
    }

    private String inShort(StripComparison row) {
        if (isReference(row)) {
            return "the reference";
        }
        List<String> said = sentences(row);
        if (row.unlikeDensities().isPresent()) {
            return Stream.concat(
                            said.stream(),
                            Stream.of("Densities and contrast are not compared: "
                                    + row.unlikeDensities().get() + "."))
                    .collect(Collectors.joining(" "));
        }
        return said.isEmpty() ? nothingShown(row) : String.join(" ", said);
    }

    private static String nothingShown(StripComparison row) {
        return row.differences().isEmpty()
                ? "No figure can be set beside the reference; the notes say why."
                : "The readings show no difference at 95 %.";
    }

    private static List<String> sentences(StripComparison row) {
        return row.differences().stream()
                .filter(FigureDifference::isSignificant)
                .filter(difference -> !UNSAID.contains(difference.figure()))
                .map(FigureDifference::toString)
                .toList();
    }

    /** What the strips of the film say together, where there are several developed alike. */
    private Optional<String> mean(StripComparison row) {
        return means.stream()
                .filter(film -> film.strips().contains(row.figures()))
                .findFirst()
                .map(film -> "The mean of the " + film.strips().size() + " strips of this film and development: "
                        + inWords("speed", FilmFigure.EXACT_SPEED, film.get(FilmFigure.EXACT_SPEED)) + ", "
                        + inWords(
                                "stops from the reference",
                                FilmFigure.STOPS_FROM_REFERENCE,
                                film.get(FilmFigure.STOPS_FROM_REFERENCE))
                        + ", with the variation from strip to strip in the uncertainty.");
    }

    private static String inWords(String label, FilmFigure figure, Figure found) {
        return label + " "
                + (found.value().isEmpty()
                        ? "–"
                        : ComparisonTable.cell(found, figure).shown());
    }

    private String figures(StripComparison row) {
        boolean alone = isReference(row);
        TableMarkup table = new TableMarkup(
                alone
                        ? "Figures of the strip; " + LEFT_OUT
                        : "The strip, the reference and their difference; it “differs” where the 95 % interval of the"
                                + " difference does not contain 0; "
                                + LEFT_OUT,
                alone
                        ? List.of(new Heading("Figure", true), new Heading("Strip", false))
                        : List.of(
                                new Heading("Figure", true),
                                new Heading("Strip", false),
                                new Heading("Reference", false),
                                new Heading("Difference", false)));
        StripComparison reference = reference(row);
        Map<FilmFigure, FigureDifference> differences = row.differences().stream()
                .collect(Collectors.toMap(FigureDifference::figure, difference -> difference));
        for (FilmFigure figure : FilmFigure.values()) {
            // A speed and a density are written without a unit.
            String unit = Set.of("", "density", FilmFigure.EXACT_SPEED.unit()).contains(figure.unit())
                    ? ""
                    : ", " + figure.unit();
            Field name = Field.text(figure.heading() + unit);
            Field own = RowFields.of(row, figure);
            if (alone) {
                if (!figure.isBesideReference()) {
                    table.row("", "", List.of(name, own));
                }
            } else if (figure.isBesideReference()) {
                table.row("", "", List.of(name, EMPTY, EMPTY, marked(own, differences.get(figure))));
            } else {
                table.row(
                        "",
                        "",
                        List.of(
                                name,
                                own,
                                RowFields.of(reference, figure),
                                difference(figure, differences.get(figure))));
            }
        }
        return table.markup();
    }

    private static Field difference(FilmFigure figure, FigureDifference found) {
        return found == null
                ? EMPTY
                : marked(
                        Field.number(
                                figure.inWords(found.estimate()),
                                Double.toString(found.estimate().value())),
                        found);
    }

    private static Field marked(Field field, FigureDifference found) {
        return found != null && found.isSignificant() ? field.under("differs", "") : field;
    }

    /** What a strip is compared with, beside itself. */
    private StripComparison reference(StripComparison row) {
        String id = row.reference().strip().id();
        return comparison.between(id, id);
    }
}
