// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.page.TableMarkup.Field;
import org.tonewedge.examples.page.TableMarkup.Heading;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6Contrast;

/** What stands in the tables of pages on a strip: its verdict, and any of its figures. */
final class RowFields {

    /** The columns of a verdict. */
    static final List<Heading> VERDICT = List.of(
            new Heading("Film", true),
            new Heading("Speed", false),
            new Heading("Box", false),
            new Heading("Stops from box", false),
            new Heading("Stops from reference", false),
            new Heading("Contrast, ΔD over 1.30", false));

    /** The figures of the columns of a verdict; nothing for those that have none. */
    static final List<FilmFigure> VERDICT_FIGURES = Arrays.asList(
            null,
            FilmFigure.EXACT_SPEED,
            null,
            FilmFigure.STOPS_FROM_BOX_SPEED,
            FilmFigure.STOPS_FROM_REFERENCE,
            FilmFigure.CONTRAST_OVER_130);

    private static final Field NONE = new Field("–", "", "none");

    private RowFields() {}

    /** The columns of a verdict on these rows. */
    static List<Heading> headings(List<StripComparison> rows) {
        List<Heading> headings = new ArrayList<>();
        for (int i = 0; i < VERDICT.size(); i++) {
            Heading heading = VERDICT.get(i);
            headings.add(new Heading(Assumed.heading(heading.text(), VERDICT_FIGURES.get(i), rows), heading.isText()));
        }
        return headings;
    }

    /** The verdict on a strip, its name in front. */
    static List<Field> verdict(Field name, StripComparison row) {
        return List.of(
                name,
                speed(row),
                box(row.figures().strip()),
                of(row, FilmFigure.STOPS_FROM_BOX_SPEED),
                of(row, FilmFigure.STOPS_FROM_REFERENCE),
                contrast(row));
    }

    /** A figure for readers; a bound where only that is known. */
    static Field of(StripComparison row, FilmFigure figure) {
        Figure found = row.get(figure);
        if (found.value().isEmpty()) {
            OptionalDouble least = found.reason().contains("at least")
                    ? leastStraightLine(row.figures(), figure)
                    : OptionalDouble.empty();
            return least.isPresent()
                    ? Field.number("≥ " + figure.inWords(least.getAsDouble()), Double.toString(least.getAsDouble()))
                    : NONE;
        }
        return of(found, figure);
    }

    /** A figure for readers; a dash where it is missing. */
    static Field of(Figure found, FilmFigure figure) {
        return found.value().isEmpty() ? NONE : Field.of(ComparisonTable.cell(found, figure));
    }

    /** A number with a fixed count of decimals. */
    static Field number(int decimals, OptionalDouble value) {
        return value.isPresent()
                ? Field.number(
                        String.format(Locale.ROOT, "%." + decimals + "f", value.getAsDouble()),
                        Double.toString(value.getAsDouble()))
                : NONE;
    }

    private static Field speed(StripComparison row) {
        Field exact = of(row, FilmFigure.EXACT_SPEED);
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
                : NONE;
    }

    private static Field contrast(StripComparison row) {
        Field found = of(row, FilmFigure.CONTRAST_OVER_130);
        return row.figures()
                .iso6Contrast()
                .map(Iso6Contrast::verdict)
                .filter(verdict -> verdict != Iso6Contrast.Verdict.NOT_MEASURED)
                .map(verdict -> verdict == Iso6Contrast.Verdict.MET
                        ? found.under("as ISO asks", "")
                        : found.under(verdict.name().toLowerCase(Locale.ROOT), "warn"))
                .orElse(found);
    }

    /** A straight line that runs on beyond the readings is at least as long as they show. */
    private static OptionalDouble leastStraightLine(StripFigures figures, FilmFigure figure) {
        return figure == FilmFigure.STRAIGHT_LINE_LENGTH
                ? figures.anatomy().map(CurveAnatomy::straightLine).stream()
                        .filter(line -> !line.isComplete())
                        .mapToDouble(line -> line.length().logUnits())
                        .findFirst()
                : OptionalDouble.empty();
    }
}
