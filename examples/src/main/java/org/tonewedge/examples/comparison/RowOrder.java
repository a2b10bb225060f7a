// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.examples.page.TableMarkup;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;

/**
 * The order of the strips on the pages: as given, by name, or by a figure, the greatest first. What has no such figure comes
 * last either way.
 */
record RowOrder(String key, boolean reversed) {

    static final String GIVEN = "given";
    private static final String NAME = "name";
    private static final Map<String, FilmFigure> SHORT = Map.of(
            "speed", FilmFigure.EXACT_SPEED,
            "box", FilmFigure.STOPS_FROM_BOX_SPEED,
            "reference", FilmFigure.STOPS_FROM_REFERENCE,
            "contrast", FilmFigure.CONTRAST_OVER_130);

    /** Refuses a key that is none. */
    RowOrder {
        if (!key.equals(GIVEN) && !key.equals(NAME) && !SHORT.containsKey(key)) {
            try {
                FilmFigure.of(key);
            } catch (IllegalArgumentException e) {
                throw new IllegalArgumentException(
                        "--sort takes given, name, speed, box, reference, contrast or the name"
                                + " of a figure's column: " + e.getMessage());
            }
        }
    }

    List<StripComparison> sorted(List<StripComparison> rows) {
        List<StripComparison> sorted = new ArrayList<>(rows);
        figure().ifPresentOrElse(figure -> sorted.sort(byFigure(figure)), () -> {
            if (key.equals(NAME)) {
                sorted.sort(directed(Comparator.comparing(RowOrder::name, String.CASE_INSENSITIVE_ORDER)));
            } else if (reversed) {
                java.util.Collections.reverse(sorted);
            }
        });
        return List.copyOf(sorted);
    }

    private Comparator<StripComparison> byFigure(FilmFigure figure) {
        return Comparator.comparing(
                        (StripComparison row) -> row.get(figure).value().isEmpty())
                .thenComparing(directed(Comparator.comparingDouble(row -> -value(row, figure))));
    }

    private static double value(StripComparison row, FilmFigure figure) {
        OptionalDouble value = row.get(figure).value();
        return value.orElse(0);
    }

    private Comparator<StripComparison> directed(Comparator<StripComparison> order) {
        return reversed ? order.reversed() : order;
    }

    private static String name(StripComparison row) {
        return CurveData.name(row.figures());
    }

    /** Says on a verdict by which of its columns it is sorted. */
    void stateOn(TableMarkup verdict) {
        if (key.equals(NAME)) {
            verdict.sortedBy(0, reversed);
        }
        figure().map(RowFields.VERDICT_FIGURES::indexOf)
                .filter(column -> column >= 0)
                .ifPresent(column -> verdict.sortedBy(column, !reversed));
    }

    private Optional<FilmFigure> figure() {
        return key.equals(GIVEN) || key.equals(NAME)
                ? Optional.empty()
                : Optional.of(SHORT.containsKey(key) ? SHORT.get(key) : FilmFigure.of(key));
    }
}
