// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;
import org.tonewedge.examples.page.Table;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;

/** The uncertainties of a comparison: one row for each strip and figure. */
final class UncertaintyTable {

    private static final double CONFIDENCE = 0.95;

    private UncertaintyTable() {}

    /** A figure of a strip that has an uncertainty. */
    private record Row(StripComparison strip, FilmFigure figure, Estimate estimate) {

        CoverageInterval interval() {
            return estimate.interval(CONFIDENCE);
        }
    }

    static Table<?> of(FilmComparison comparison) {
        List<Row> rows = new ArrayList<>();
        for (StripComparison strip : comparison.rows()) {
            for (FilmFigure figure : FilmFigure.values()) {
                strip.get(figure).estimate().ifPresent(estimate -> rows.add(new Row(strip, figure, estimate)));
            }
        }
        return Table.of(
                        List.of(
                                Column.text(
                                        "strip",
                                        "",
                                        row -> Cell.text(
                                                row.strip().figures().strip().id())),
                                Column.text(
                                        "figure",
                                        "",
                                        row -> Cell.text(row.figure().id())),
                                number("value", row -> row.estimate().value()),
                                number(
                                        "standard_uncertainty",
                                        row -> row.estimate().standardUncertainty()),
                                number(
                                        "own_uncertainty",
                                        row -> row.strip()
                                                .ownUncertainty(row.figure())
                                                .orElseThrow()),
                                number(
                                        "stated_uncertainty",
                                        row -> row.strip()
                                                .get(row.figure())
                                                .statedErrors()
                                                .standardUncertainty()),
                                Column.text("degrees_of_freedom", "", UncertaintyTable::freedom),
                                number("lower_95", row -> row.interval().lower()),
                                number("upper_95", row -> row.interval().upper())),
                        rows)
                .withRemarks(row -> {
                    String assumption = row.strip().get(row.figure()).assumption();
                    return assumption.isEmpty() ? List.of() : List.of("assumed: " + assumption);
                });
    }

    private static Column<Row> number(String name, ToDoubleFunction<Row> value) {
        return Column.number(name, "", row -> Cell.number(value.applyAsDouble(row), ""));
    }

    /** Infinite where the repeatability of the readings is stated. */
    private static Cell freedom(Row row) {
        double freedom = row.estimate().degreesOfFreedom();
        return Double.isInfinite(freedom) ? Cell.text("infinite") : Cell.number(freedom, "");
    }
}
