// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.List;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.UsefulRange;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/** The useful range of each film with a curve, and the latitude that it leaves. */
final class Latitudes {

    private Latitudes() {}

    /** What a curve gives. */
    private record Row(String film, Finding<UsefulRange> range, Finding<ExposureInterval> neutrals) {

        static Row of(MatchedFrames frames, Bracket bracket, CharacteristicCurve curve, Notices notices) {
            return new Row(
                    bracket.film(),
                    notices.determine(bracket.film() + ", useful range", () -> UsefulRange.of(curve)),
                    notices.determine(
                            bracket.film() + ", range of the chart", () -> frames.neutralRange(bracket, curve)));
        }

        Finding<ExposureInterval> latitude() {
            return range.figure().isEmpty() || neutrals.figure().isEmpty()
                    ? Finding.missing(range.figure().isEmpty() ? range.reason() : neutrals.reason())
                    : range.map(found -> found.latitude(neutrals.figure().get()));
        }

        /** A number; where the useful range is at least so long, so are its density range and the latitude. */
        Cell atLeast(double value, String shown) {
            boolean open = range.figure()
                    .filter(found -> found.completeness() == UsefulRange.Completeness.AT_LEAST)
                    .isPresent();
            return Cell.number(value, (open ? "\u2265 " : "") + shown);
        }
    }

    static Section section(MatchedFrames frames, Notices notices) {
        List<Row> rows = frames.brackets().stream()
                .flatMap(
                        bracket -> frames.curve(bracket).map(curve -> Row.of(frames, bracket, curve, notices)).stream())
                .toList();
        List<Column<Row>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.film())),
                Column.number(
                        "useful_range",
                        "Useful range, log units",
                        row -> row.range().cell(found -> {
                            double logUnits = found.logExposureRange().logUnits();
                            return row.atLeast(logUnits, Words.twoDecimals(logUnits));
                        })),
                Column.number(
                        "useful_range_stops",
                        "in stops",
                        row -> row.range().cell(found -> {
                            double stops = found.logExposureRange().stops();
                            return row.atLeast(stops, Words.oneDecimal(stops));
                        })),
                Column.number(
                        "density_range",
                        "Density range",
                        row -> row.range().cell(found -> {
                            double density = found.densityRange().value();
                            return row.atLeast(density, Words.twoDecimals(density));
                        })),
                Column.text(
                        "completeness",
                        "",
                        row -> row.range().cell(found -> Cell.text(Words.of(found.completeness())))),
                Column.number(
                        "neutrals_range",
                        "Image of the neutrals, log units",
                        row -> row.neutrals().cell(found -> Words.twoDecimalsCell(found.logUnits()))),
                Column.number(
                        "latitude_stops",
                        "Latitude, stops",
                        row -> row.latitude()
                                .cell(found -> row.atLeast(found.stops(), Words.oneDecimal(found.stops())))));
        return Section.of(
                "range-latitude",
                "Range and latitude",
                "Useful range from 0.10 above base plus fog to the end of the shoulder; \u2265 if the curve was not"
                        + " measured that far. The latitude is what the useful range leaves beside the image of the"
                        + " neutral patches.",
                columns,
                rows);
    }
}
