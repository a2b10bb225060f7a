// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.List;
import org.tonewedge.core.tone.PaperChoice;
import org.tonewedge.core.tone.PaperRange;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/** The paper for each film, of those offered. */
final class PaperChoices {

    private PaperChoices() {}

    /** The paper for a film. */
    private record Row(String film, Finding<PaperChoice> choice) {}

    static Section section(MatchedFrames frames, List<PaperRange> papers, Notices notices) {
        List<Row> rows = frames.brackets().stream()
                .map(bracket -> new Row(
                        bracket.film(),
                        notices.determine(
                                bracket.film() + ", paper",
                                () -> PaperChoice.among(frames.neutralDensityRange(bracket), papers))))
                .toList();
        List<Column<Row>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.film())),
                Column.number(
                        "density_range",
                        "Density range",
                        row -> row.choice()
                                .cell(found -> Words.twoDecimalsCell(
                                        found.negativeRange().value()))),
                Column.text(
                        "paper",
                        "Paper",
                        row -> row.choice()
                                .cell(found -> Cell.text(found.paper().label()))),
                Column.number(
                        "paper_range",
                        "Its range",
                        row -> row.choice()
                                .cell(found -> Words.twoDecimalsCell(
                                        found.paper().logExposureRange().logUnits()))),
                Column.number(
                        "excess",
                        "Excess",
                        row -> row.choice()
                                .cell(found -> Words.signedCell(found.excess().value()))));
        return Section.of(
                "paper-choice",
                "Paper for the negative",
                "The paper whose log exposure range is nearest the density range between the darkest and the lightest"
                        + " neutral of the matched frame. A positive excess prints the ends to pure white or black.",
                columns,
                rows);
    }
}
