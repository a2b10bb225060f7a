// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.time.Duration;
import java.util.List;
import java.util.function.Function;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.PrintExposure;
import org.tonewedge.core.tone.PrintTime;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/** How to change the printing exposure against the reference. */
final class PrintExposures {

    private static final PrintTime REFERENCE_TIME = PrintTime.of(Duration.ofSeconds(10));

    private PrintExposures() {}

    /** The changes for a film. */
    private record Row(Bracket bracket, ExposureInterval forBasePlusFog, Density grey, ExposureInterval forGrey) {}

    static Section section(MatchedFrames frames) {
        Bracket reference = frames.reference();
        Density referenceGrey = frames.grey(reference).density();
        List<Row> rows = frames.brackets().stream()
                .map(bracket -> {
                    Density grey = frames.grey(bracket).density();
                    return new Row(
                            bracket,
                            PrintExposure.forBasePlusFog(bracket.basePlusFog(), reference.basePlusFog()),
                            grey,
                            PrintExposure.forDensity(grey, referenceGrey));
                })
                .toList();
        List<Column<Row>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.bracket().film())),
                Column.number(
                        "base_fog",
                        "Base + fog",
                        row -> Words.twoDecimalsCell(row.bracket().basePlusFog().value())),
                stops("base_fog_stops", "For base + fog", Row::forBasePlusFog),
                factor("base_fog_factor", Row::forBasePlusFog),
                time("base_fog_seconds", Row::forBasePlusFog),
                Column.number(
                        "grey_density",
                        "Grey density",
                        row -> Words.twoDecimalsCell(row.grey().value())),
                stops("grey_stops", "For the grey", Row::forGrey),
                factor("grey_factor", Row::forGrey),
                time("grey_seconds", Row::forGrey));
        return Section.of(
                "print-exposure",
                "Printing exposure",
                "Change against the reference, so that unexposed film, or the patch '"
                        + frames.grey(reference).patch().label() + "' of the matched frames, prints alike; times for "
                        + REFERENCE_TIME + " with the reference, on a paper without reciprocity failure.",
                columns,
                rows);
    }

    private static Column<Row> stops(String name, String heading, Function<Row, ExposureInterval> change) {
        return Column.number(name, heading, row -> {
            ExposureInterval found = change.apply(row);
            return Cell.number(found.stops(), found.toString());
        });
    }

    private static Column<Row> factor(String name, Function<Row, ExposureInterval> change) {
        return Column.number(
                name, "Factor", row -> Words.twoDecimalsCell(change.apply(row).ratio()));
    }

    private static Column<Row> time(String name, Function<Row, ExposureInterval> change) {
        return Column.number(name, "Time", row -> {
            PrintTime time = REFERENCE_TIME.changedBy(change.apply(row));
            return Cell.number(time.seconds(), time.toString());
        });
    }
}
