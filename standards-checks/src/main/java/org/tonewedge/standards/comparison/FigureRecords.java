// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Strip;

/** The figures of a comparison as records. */
final class FigureRecords {

    private FigureRecords() {}

    static List<ResultRecord> of(Strip strip, Function<FilmFigure, Figure> read, Predicate<FilmFigure> wanted) {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("strip", strip.id()));
        records.add(ResultRecord.ofText("film", strip.film()));
        strip.densityResponse()
                .ifPresent(response -> records.add(ResultRecord.ofText("density_response", response.description())));
        strip.densityGeometry()
                .ifPresent(geometry -> records.add(ResultRecord.ofText("density_geometry", geometry.description())));
        records.addAll(figures(read, wanted));
        return List.copyOf(records);
    }

    static List<ResultRecord> figures(Function<FilmFigure, Figure> read, Predicate<FilmFigure> wanted) {
        return Arrays.stream(FilmFigure.values())
                .filter(wanted)
                .map(figure -> record(figure, read.apply(figure)))
                .toList();
    }

    private static ResultRecord record(FilmFigure figure, Figure read) {
        return read.value().isPresent()
                ? ResultRecord.ofNumber(figure.id(), read.value().getAsDouble(), read.estimate(), figure.unit())
                : ResultRecord.ofMissing(figure.id(), figure.unit(), read.reason());
    }
}
