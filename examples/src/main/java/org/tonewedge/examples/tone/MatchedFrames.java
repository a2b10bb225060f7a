// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.ReadingNoise;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.tone.ShadowMatch;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/**
 * The frame of each film whose shadow matches that of the reference frame, and what is read on it: what all further
 * sections compare.
 *
 * <p>Immutable and thread safe.
 */
final class MatchedFrames {

    private static final double USUAL_REPEATABILITY = 0.01;
    private static final double GREY = 0.18;

    private final List<Bracket> brackets;
    private final String shadow;
    private final String referenceFrame;
    private final Map<String, FilmCurve> curves;
    private final List<Row> rows = new ArrayList<>();
    private final Map<String, Frame> frames = new LinkedHashMap<>();

    /** How a film matches. */
    private record Row(
            Bracket bracket, ShadowMatch match, Finding<Estimate> stopsOnFrames, Finding<Estimate> stopsOnCurve) {

        double shadowDensity() {
            return match.target().value() + match.residual().value();
        }
    }

    /** Matches the films with the first of them. */
    MatchedFrames(
            List<Bracket> brackets,
            String shadow,
            String referenceFrame,
            Map<String, FilmCurve> curves,
            Notices notices) {
        this.brackets = brackets;
        this.shadow = shadow;
        this.referenceFrame = referenceFrame;
        this.curves = curves;
        for (Bracket bracket : brackets) {
            Row row = match(bracket, notices);
            rows.add(row);
            frames.put(
                    bracket.film(),
                    bracket.equals(reference())
                            ? bracket.frame(referenceFrame)
                            : row.match().frame());
        }
    }

    private Row match(Bracket bracket, Notices notices) {
        ShadowMatch onFrames = ShadowMatch.of(bracket, shadow, reference(), referenceFrame);
        Finding<Estimate> stopsOnFrames = notices.determine(
                bracket.film() + ", exact interval on the frames", () -> onFrames.stops(repeatability(bracket)));
        Optional<ShadowMatch> onCurve = filmCurve(bracket).map(film -> onFrames.along(film.curve(), film.estimator()));
        Finding<Estimate> stopsOnCurve = onCurve.map(match -> notices.determine(
                        bracket.film() + ", exact interval on the curve", () -> match.stops(repeatability(bracket))))
                .orElseGet(() -> Finding.missing("there is no curve of the film; give a strip of it"));
        return new Row(bracket, onCurve.orElse(onFrames), stopsOnFrames, stopsOnCurve);
    }

    /** The films, the reference first. */
    List<Bracket> brackets() {
        return brackets;
    }

    /** What to look at in the frames before their figures are believed. */
    List<String> doubts() {
        return brackets.stream().flatMap(bracket -> bracket.doubts().stream()).toList();
    }

    private static String sentence(String doubt) {
        return " " + Character.toUpperCase(doubt.charAt(0)) + doubt.substring(1) + (doubt.endsWith("?") ? "" : ".");
    }

    Bracket reference() {
        return brackets.get(0);
    }

    Optional<FilmCurve> filmCurve(Bracket bracket) {
        return Optional.ofNullable(curves.get(bracket.film()));
    }

    Optional<CharacteristicCurve> curve(Bracket bracket) {
        return filmCurve(bracket).map(FilmCurve::curve);
    }

    Frame frame(Bracket bracket) {
        return frames.get(bracket.film());
    }

    /** The standard deviation of a reading, as the repeats tell, or a usual one. */
    Repeatability repeatability(Bracket bracket) {
        return bracket.repeatability().orElse(0) > 0
                ? Repeatability.fromRepeats().over(bracket)
                : Repeatability.of(USUAL_REPEATABILITY);
    }

    /** The neutral patch nearest to 18 % on the frame; without neutral patches the shadow. */
    PatchReading grey(Bracket bracket) {
        return frame(bracket).neutrals().stream()
                .min(Comparator.comparingDouble(reading ->
                        Math.abs(Math.log10(reading.patch().reflectance().orElseThrow() / GREY))))
                .orElseGet(() -> frame(bracket).reading(shadow));
    }

    /** The exposure of a patch, along the curve of its film. */
    LogExposure exposure(Bracket bracket, CharacteristicCurve curve, PatchReading reading) {
        return curve.pointAbove(reading.density().minus(bracket.basePlusFog())).logExposure();
    }

    /** How long a part of the curve the neutral patches take. */
    ExposureInterval neutralRange(Bracket bracket, CharacteristicCurve curve) {
        return exposure(bracket, curve, lightest(bracket)).minus(exposure(bracket, curve, darkest(bracket)));
    }

    /** The density range of the neutral patches. */
    DensityDifference neutralDensityRange(Bracket bracket) {
        return lightest(bracket).density().minus(darkest(bracket).density());
    }

    private PatchReading darkest(Bracket bracket) {
        return neutrals(bracket).get(0);
    }

    private PatchReading lightest(Bracket bracket) {
        List<PatchReading> all = neutrals(bracket);
        return all.get(all.size() - 1);
    }

    private List<PatchReading> neutrals(Bracket bracket) {
        List<PatchReading> neutrals = frame(bracket).neutrals().stream()
                .sorted(Comparator.comparing(PatchReading::density))
                .toList();
        if (neutrals.size() < 2
                || neutrals.get(0)
                        .density()
                        .equals(neutrals.get(neutrals.size() - 1).density())) {
            throw new NotDeterminableException(
                    bracket + ", frame '" + frame(bracket).label() + "' has "
                            + neutrals.size()
                            + " neutral patches of known reflectance: read a dark and a light one of different"
                            + " densities");
        }
        return neutrals;
    }

    Section section() {
        List<Column<Row>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.bracket().film())),
                Column.text(
                        "frame", "Frame", row -> Cell.text(row.match().frame().label())),
                Column.number("frame_stops", "Its exposure", row -> {
                    ExposureInterval exposure = row.match().frame().exposure();
                    return Cell.number(exposure.stops(), exposure.toString());
                }),
                Column.number("shadow_density", "Shadow density", row -> Words.twoDecimalsCell(row.shadowDensity())),
                Column.number(
                        "residual",
                        "Residual",
                        row -> Words.signedCell(row.match().residual().value())),
                Column.text("bracket_reaches", "Bracket reaches", row -> reach(row.match())),
                Column.estimate(
                        "stops_on_frames",
                        "Exact on frames, stops ± u (k = 1)",
                        row -> row.stopsOnFrames().cell(Words::stopsCell)),
                Column.estimate(
                        "stops_on_curve",
                        "Exact on curve, stops ± u (k = 1)",
                        row -> row.stopsOnCurve().cell(Words::stopsCell)));
        return Section.of(
                "shadow-match",
                "Matching the shadow",
                "The frame whose patch '" + shadow + "' is nearest the reference's frame '" + referenceFrame
                        + "', densities above base plus fog. Exact intervals are stops more exposure than the"
                        + " reference frame, with standard uncertainties."
                        + doubts().stream().map(MatchedFrames::sentence).collect(Collectors.joining()),
                columns,
                rows);
    }

    private static Cell reach(ShadowMatch match) {
        return Cell.text(
                Words.of(match.verdict()),
                switch (match.verdict()) {
                    case ENCLOSED -> "yes";
                    case MORE_EXPOSURE_NEEDED ->
                        ReadingNoise.isThinner(
                                        match.target().value()
                                                + match.residual().value(),
                                        0)
                                ? "no: thinner than base plus fog"
                                : "no: expose more";
                    case LESS_EXPOSURE_NEEDED -> "no: expose less";
                });
    }
}
