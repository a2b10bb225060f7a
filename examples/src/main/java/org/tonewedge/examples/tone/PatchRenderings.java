// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.tone.PatchDifference;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.RenderedPatch;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/**
 * How films render coloured patches in grey, each against neutrals and against the reference film.
 *
 * <p>Immutable and thread safe.
 */
final class PatchRenderings {

    private final Map<String, PatchRendering> byFilm = new LinkedHashMap<>();
    private final Optional<PatchRendering> ofReference;

    /** The groups of a film, against neutrals or against the reference. */
    private record GroupRow(String film, String against, String shown, Map<PatchGroup, Estimate> stops) {}

    /** A patch of a film. */
    private record PatchRow(String film, RenderedPatch patch, Finding<PatchDifference> difference) {}

    PatchRenderings(MatchedFrames frames, Notices notices) {
        for (Bracket bracket : frames.brackets()) {
            try {
                PatchRendering rendering = rendering(frames, bracket);
                notices.addAll(rendering.refusals().values());
                if (!rendering.patches().isEmpty()) {
                    byFilm.put(bracket.film(), rendering);
                }
            } catch (NotDeterminableException e) {
                notices.add(e.getMessage());
            }
        }
        ofReference = Optional.ofNullable(byFilm.get(frames.reference().film()));
    }

    /** Along the curve of the film, unless it or that of the reference is missing: only like renderings compare. */
    private static PatchRendering rendering(MatchedFrames frames, Bracket bracket) {
        String frame = frames.frame(bracket).label();
        Repeatability repeatability = frames.repeatability(bracket);
        Optional<FilmCurve> film = frames.filmCurve(frames.reference()).flatMap(any -> frames.filmCurve(bracket));
        return film.isPresent()
                ? PatchRendering.throughCurve(
                        bracket, frame, film.get().curve(), film.get().estimator(), repeatability)
                : PatchRendering.onFrame(bracket, frame, repeatability);
    }

    /** The renderings in the order of the films, without films that have none. */
    Map<String, PatchRendering> byFilm() {
        return Collections.unmodifiableMap(byFilm);
    }

    /** Groups and patches; nothing without a rendering of the reference film. */
    List<Section> sections() {
        return ofReference
                .map(reference -> List.of(groups(reference), patches(reference)))
                .orElse(List.of());
    }

    private Section groups(PatchRendering reference) {
        Set<PatchGroup> present = EnumSet.noneOf(PatchGroup.class);
        List<GroupRow> rows = new ArrayList<>();
        byFilm.forEach((film, rendering) -> {
            present.addAll(rendering.groups().keySet());
            rows.add(new GroupRow(film, "neutral", "from neutral", rendering.groups()));
            if (rendering != reference) {
                rows.add(new GroupRow(film, "reference", "from the reference", rendering.groupsAgainst(reference)));
            }
        });
        List<Column<GroupRow>> columns = new ArrayList<>();
        columns.add(Column.text("film", "Film", row -> Cell.text(row.film())));
        columns.add(Column.text("against", "Stops lighter (k = 1)", row -> Cell.text(row.against(), row.shown())));
        present.forEach(group -> columns.add(Column.estimate(
                Words.of(group) + "_stops",
                group.label(),
                row -> Optional.ofNullable(row.stops().get(group))
                        .map(Words::stopsCell)
                        .orElseGet(() ->
                                Cell.missing("no patch of the group could be compared with the " + row.against())))));
        return Section.of(
                "colour-groups",
                "Colours in monochrome, by group",
                "Stops lighter (+) or darker (\u2212) than a neutral of the same reflectance on the matched frame, and"
                        + " than on the reference film, with standard uncertainties from the readings and, along a film's"
                        + " curve, from the curve.",
                columns,
                rows);
    }

    private Section patches(PatchRendering reference) {
        List<PatchRow> rows = new ArrayList<>();
        byFilm.forEach((film, rendering) -> {
            Map<String, PatchDifference> differences = new LinkedHashMap<>();
            if (rendering != reference) {
                rendering
                        .against(reference)
                        .forEach(found -> differences.put(found.patch().label(), found));
            }
            String none = rendering == reference
                    ? "this is the reference film"
                    : "the reference film has no figure for the patch";
            for (RenderedPatch patch : rendering.patches()) {
                rows.add(new PatchRow(
                        film,
                        patch,
                        Finding.ofNullable(differences.get(patch.patch().label()), none)));
            }
        });
        List<Column<PatchRow>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.film())),
                Column.text(
                        "patch", "Patch", row -> Cell.text(row.patch().patch().label())),
                Column.text("group", "Group", row -> {
                    PatchGroup group = row.patch().patch().group();
                    return Cell.text(Words.of(group), group.label());
                }),
                Column.number(
                        "reflectance",
                        "Reflectance",
                        row -> Words.twoDecimalsCell(
                                row.patch().patch().reflectance().orElseThrow())),
                Column.number(
                        "density",
                        "Density",
                        row -> Words.twoDecimalsCell(row.patch().density().value())),
                Column.estimate(
                        "stops_vs_neutral",
                        "From neutral, stops ± u (k = 1)",
                        row -> Words.stopsCell(row.patch().stops())),
                Column.text(
                        "shade_vs_neutral",
                        "Shade",
                        row -> Cell.text(Words.of(row.patch().shade()))),
                Column.estimate(
                        "stops_vs_reference",
                        "From the reference, stops ± u (k = 1)",
                        row -> row.difference().cell(found -> Words.stopsCell(found.stops()))),
                Column.text(
                        "shade_vs_reference",
                        "Shade",
                        row -> row.difference().cell(found -> Cell.text(Words.of(found.shade())))));
        return Section.of(
                "colour-patches",
                "Colours in monochrome, by patch",
                "As above. Alike means no more than the expanded uncertainty (k = 2).",
                columns,
                rows);
    }
}
