// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;
import org.tonewedge.examples.page.Table;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6Contrast;
import org.tonewedge.standards.film.Iso6Speed;
import org.tonewedge.standards.film.IsoSpeed;

/** The table of a comparison: what strips are, every figure of the library's list, and what to know about the row. */
final class ComparisonTable {

    private static final int MOST_STOPS_FROM_BOX = 4;
    /** A difference of base plus fog that moves a speed by about a tenth of a stop. */
    private static final double BASE_DIFFERENCE = 0.01;

    private ComparisonTable() {}

    static Table<StripComparison> of(List<StripComparison> rows) {
        return Table.of(columns(), rows).withRemarks(ComparisonTable::remarks);
    }

    private static List<Column<StripComparison>> columns() {
        List<Column<StripComparison>> columns = new ArrayList<>();
        columns.add(Column.text("strip", "Strip", row -> Cell.text(strip(row).id())));
        columns.add(Column.text("film", "Film", row -> Cell.text(strip(row).film())));
        columns.add(Column.text(
                "developer",
                "Developer",
                row -> strip(row).processing().developer().map(Cell::text).orElse(Cell.empty())));
        columns.add(Column.number(
                "minutes",
                "min",
                row -> strip(row)
                        .processing()
                        .time()
                        .map(time -> time.toMillis() / 60_000.0)
                        .map(minutes -> Cell.number(minutes, decimals(2, minutes)))
                        .orElse(Cell.empty())));
        columns.add(Column.number(
                "celsius",
                "°C",
                row -> strip(row)
                        .processing()
                        .temperature()
                        .map(Temperature::celsius)
                        .map(celsius -> Cell.number(celsius, decimals(1, celsius)))
                        .orElse(Cell.empty())));
        for (FilmFigure figure : FilmFigure.values()) {
            columns.add(Column.number(figure.id(), figure.heading(), row -> cell(row, figure)));
            columns.addAll(companions(figure));
        }
        columns.add(Column.text(
                "curve",
                "",
                row -> row.figures().curve().isPresent()
                        ? Cell.text(row.figures().verdict())
                        : Cell.missing(row.get(FilmFigure.CONTRAST_OVER_130).reason())));
        columns.add(Column.text(
                "test_conditions",
                "",
                row -> Cell.text(strip(row).testConditions().toString())));
        return columns;
    }

    /** Columns that say something of a figure in other words. */
    private static List<Column<StripComparison>> companions(FilmFigure figure) {
        return switch (figure) {
            case EXACT_SPEED ->
                List.of(
                        Column.number("speed_iso", "Rounded speed", ComparisonTable::roundedSpeed),
                        Column.number("speed_degrees", "", ComparisonTable::degrees));
            case CONTRAST_OVER_130 ->
                List.of(Column.text("contrast_condition", "Contrast condition", ComparisonTable::condition));
            default -> List.of();
        };
    }

    private static Strip strip(StripComparison row) {
        return row.figures().strip();
    }

    private static Cell cell(StripComparison row, FilmFigure figure) {
        Figure found = row.get(figure);
        if (found.value().isEmpty()) {
            return Cell.missing(found.reason());
        }
        return cell(found, figure);
    }

    /** A figure that is there, with its uncertainty where that is known. */
    static Cell cell(Figure found, FilmFigure figure) {
        double value = found.value().orElseThrow();
        String shown = found.estimate().map(figure::inWords).orElseGet(() -> figure.inWords(value));
        return Cell.number(value, found.assumption().isEmpty() ? shown : shown + Assumed.MARK);
    }

    /** The rounded speed, in brackets where its contrast condition is not met. */
    private static Cell roundedSpeed(StripComparison row) {
        return rounded(row)
                .map(speed -> {
                    String shown = speed.toString();
                    String full = Double.toString(speed.arithmetic()).replaceAll("\\.0$", "");
                    String assumed =
                            row.get(FilmFigure.EXACT_SPEED).assumption().isEmpty() ? "" : Assumed.MARK;
                    return Cell.text(full, (isIsoSpeed(row) ? shown : "(" + shown + ")") + assumed)
                            .sortedBy(speed.arithmetic());
                })
                .orElseGet(() -> noRounded(row));
    }

    private static Cell degrees(StripComparison row) {
        return rounded(row)
                .map(speed -> Cell.text(Integer.toString(speed.degrees())))
                .orElseGet(() -> noRounded(row));
    }

    /** The rounded speed; nothing without a speed, or if it lies off the nominal scale. */
    static Optional<IsoSpeed> rounded(StripComparison row) {
        return row.figures().iso6Speed().flatMap(speed -> IsoSpeed.nearestOnScale(speed.exact()));
    }

    /** Whether the speed may be called an ISO speed: it was measured, and its conditions are met. */
    static boolean isIsoSpeed(StripComparison row) {
        return row.get(FilmFigure.EXACT_SPEED).assumption().isEmpty()
                && row.figures().iso6Speed().filter(Iso6Speed::conditionsMet).isPresent();
    }

    private static Cell noRounded(StripComparison row) {
        String noSpeed = row.get(FilmFigure.EXACT_SPEED).reason();
        return Cell.missing(
                noSpeed.isEmpty()
                        ? "the exact speed is outside the scale of nominal speeds, 0.8/0° to 12500/42°; check the unit of"
                                + " the exposures, lux seconds"
                        : noSpeed);
    }

    private static Cell condition(StripComparison row) {
        return row.figures()
                .iso6Contrast()
                .map(Iso6Contrast::verdict)
                .filter(verdict -> verdict != Iso6Contrast.Verdict.NOT_MEASURED)
                .map(verdict -> verdict.name().toLowerCase(Locale.ROOT))
                .map(verdict -> Cell.text(verdict).styled(verdict))
                .orElseGet(
                        () -> Cell.missing(row.get(FilmFigure.CONTRAST_OVER_130).reason()));
    }

    /** What to look at in a row besides the reasons of its missing figures. */
    private static List<String> remarks(StripComparison row) {
        List<String> remarks = new ArrayList<>();
        row.figures().findings().stream().map(StripFinding::message).forEach(remarks::add);
        remarks.addAll(row.figures().notes());
        assumed(row).ifPresent(remarks::add);
        doubts(row.figures(), remarks);
        row.figures()
                .iso6Speed()
                .filter(speed -> !speed.conditionsMet())
                .filter(speed -> speed.contrast().contrast().isPresent())
                .ifPresent(speed -> remarks.add(
                        "speed_iso: not an ISO speed; " + speed.conditions().get(0)));
        return remarks;
    }

    /** Which figures of a row are assumed, and on what. */
    private static Optional<String> assumed(StripComparison row) {
        List<String> columns = new ArrayList<>();
        String assumption = "";
        for (FilmFigure figure : FilmFigure.values()) {
            Figure found = row.get(figure);
            if (!found.assumption().isEmpty()) {
                assumption = found.assumption();
                columns.add(figure.id());
                companions(figure).forEach(column -> columns.add(column.name()));
            }
        }
        return columns.isEmpty()
                ? Optional.empty()
                : Optional.of(String.join(", ", columns) + ": assumed; " + assumption);
    }

    /** What is there but hard to believe, and what the reader of the row should know about its figures. */
    private static void doubts(StripFigures figures, List<String> remarks) {
        figures.get(FilmFigure.STOPS_FROM_BOX_SPEED).value().ifPresent(stops -> {
            if (Math.abs(stops) > MOST_STOPS_FROM_BOX) {
                remarks.add("stops_vs_box: more than " + MOST_STOPS_FROM_BOX
                        + " stops from the box speed; are the exposures"
                        + " log10 of lux seconds, and is the box speed right?");
            }
        });
        figures.curve().ifPresent(curve -> {
            double own = curve.basePlusFog().value();
            double read = figures.get(FilmFigure.BASE_PLUS_FOG).value().orElse(Double.NaN);
            if (!(Math.abs(own - read) <= BASE_DIFFERENCE)) {
                remarks.add("figures of the curve are counted from a fitted base plus fog of " + curve.basePlusFog()
                        + (Double.isNaN(read) ? ", since none was read" : ", not from the readings"));
            }
        });
    }

    /** Whether the strip has a speed point; without a curve, or a speed point on it, it has no result. */
    static boolean hasResult(StripComparison row) {
        return row.figures().iso6Contrast().isPresent();
    }

    private static String decimals(int places, double value) {
        return String.format(Locale.ROOT, "%." + places + "f", value).replace('-', '\u2212');
    }
}
