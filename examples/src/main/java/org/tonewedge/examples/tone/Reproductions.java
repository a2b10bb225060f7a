// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.CameraExposure;
import org.tonewedge.core.tone.PrintExposure;
import org.tonewedge.core.tone.Printing;
import org.tonewedge.core.tone.ReproducedTone;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneDifference;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/**
 * The road from the subject to the print of each film with a curve, all on one paper; the reference is printed to a usual
 * grey, the others with the change for base plus fog.
 *
 * <p>Immutable and thread safe.
 */
final class Reproductions {

    private static final Density GREY_PRINTS_TO = Density.of(0.75);
    private static final double SHADE_TOLERANCE = 0.04;
    private static final List<SubjectTone> TONES =
            IntStream.rangeClosed(-4, 3).mapToObj(SubjectTone::ofStops).toList();

    private final MatchedFrames frames;
    private final CharacteristicCurve paper;
    private final double flare;
    private final Map<String, ToneReproduction> byFilm = new LinkedHashMap<>();
    /** Tones by film, in the order of {@link #TONES}. */
    private final Map<String, List<Row>> rows = new LinkedHashMap<>();

    /** A tone as a film prints it, and beside the reference. */
    private record Row(String film, SubjectTone tone, Finding<ReproducedTone> own, Finding<ToneDifference> difference) {

        Cell density() {
            return own.cell(found -> Words.twoDecimalsCell(found.printDensity().value()));
        }

        Cell gradient() {
            return own.cell(found -> Words.twoDecimalsCell(found.gradient().value()));
        }

        Cell densityDifference() {
            return difference.cell(found -> Words.signedCell(found.difference().value()));
        }

        Cell shade() {
            return difference.cell(found -> Cell.text(Words.of(found.shade(SHADE_TOLERANCE))));
        }
    }

    Reproductions(MatchedFrames frames, CharacteristicCurve paper, double flare, Notices notices) {
        this.frames = frames;
        this.paper = paper;
        this.flare = flare;
        Bracket reference = frames.reference();
        Optional<ToneReproduction> ofReference = frames.curve(reference)
                .flatMap(curve -> notices.determine(what(reference), () -> road(reference, curve))
                        .figure());
        ofReference.ifPresent(road -> {
            byFilm.put(reference.film(), road);
            addOthers(road, notices);
            readTones(road, notices);
        });
    }

    private static String what(Bracket bracket) {
        return bracket.film() + ", tone reproduction";
    }

    private ToneReproduction road(Bracket reference, CharacteristicCurve curve) {
        CameraExposure camera = camera(reference, curve);
        Density grey = curve.densityAt(camera.exposureOf(SubjectTone.METERED));
        return ToneReproduction.of(camera, curve, Printing.matching(grey, paper, GREY_PRINTS_TO), paper);
    }

    private CameraExposure camera(Bracket bracket, CharacteristicCurve curve) {
        LogExposure grey = frames.exposure(bracket, curve, frames.grey(bracket));
        return CameraExposure.metered(grey.minus(ExposureInterval.ofRatio(1 + flare)))
                .withFlare(flare);
    }

    private void addOthers(ToneReproduction reference, Notices notices) {
        for (Bracket bracket : frames.brackets()) {
            if (!bracket.equals(frames.reference())) {
                frames.curve(bracket)
                        .flatMap(curve -> notices.determine(what(bracket), () -> road(bracket, curve, reference))
                                .figure())
                        .ifPresent(road -> byFilm.put(bracket.film(), road));
            }
        }
    }

    private ToneReproduction road(Bracket bracket, CharacteristicCurve curve, ToneReproduction reference) {
        ExposureInterval change = PrintExposure.forBasePlusFog(
                curve.basePlusFog(), reference.film().basePlusFog());
        return ToneReproduction.of(
                camera(bracket, curve), curve, reference.printing().changedBy(change), paper);
    }

    /** Tone by tone, so that the notices of a tone stand together. */
    private void readTones(ToneReproduction reference, Notices notices) {
        for (SubjectTone tone : TONES) {
            byFilm.forEach((film, road) -> {
                String what = film + ", print of the tone " + tone;
                Finding<ReproducedTone> own = notices.determine(what, () -> road.tone(tone));
                Finding<ToneDifference> difference = road.equals(reference)
                        ? Finding.missing("this is the reference film")
                        : notices.determine(what, () -> new ToneDifference(road.tone(tone), reference.tone(tone)));
                rows.computeIfAbsent(film, any -> new ArrayList<>()).add(new Row(film, tone, own, difference));
            });
        }
    }

    /** The roads by film, in the order of the films, the reference first; empty without that of the reference. */
    Map<String, ToneReproduction> byFilm() {
        return Collections.unmodifiableMap(byFilm);
    }

    /** A row for each film and tone; readers see a row for each tone. Nothing without the road of the reference. */
    Optional<Section> section() {
        if (byFilm.isEmpty()) {
            return Optional.empty();
        }
        List<Column<Row>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.film())),
                Column.number(
                        "tone_stops", "Tone", row -> Words.signedCell(row.tone().stops())),
                Column.number("print_density", "Print density", Row::density),
                Column.number("gradient", "Gradient", Row::gradient),
                Column.number("density_vs_reference", "Difference", Row::densityDifference),
                Column.text("shade_vs_reference", "Prints", Row::shade));
        return Optional.of(Section.of(
                        "tone-reproduction",
                        "From subject to print",
                        "The matched frames on " + paper.name()
                                + ", drawn through its readings; the reference is printed so that the grey has"
                                + " density "
                                + Figures.plain(GREY_PRINTS_TO.value())
                                + ", the others with the change for base plus fog. Flare " + Figures.plain(flare)
                                + " of the exposure of the grey. The gradient is that of reproduction; prints are alike"
                                + " within " + SHADE_TOLERANCE + ".",
                        columns,
                        rows.values().stream().flatMap(List::stream).toList())
                .shownAs(shown(), IntStream.range(0, TONES.size()).boxed().toList()));
    }

    /** The columns for readers over the indices of tones. */
    private List<Column<Integer>> shown() {
        List<Column<Integer>> columns = new ArrayList<>();
        columns.add(Column.text(
                "",
                "Tone, stops from grey",
                i -> Cell.text(Figures.signed(TONES.get(i).stops()).replaceAll("\\.00$", ""))));
        rows.forEach((film, tones) -> {
            columns.add(Column.number(
                    "", film + ", print density", i -> tones.get(i).density()));
            if (film.equals(frames.reference().film())) {
                columns.add(Column.number("", "Gradient", i -> tones.get(i).gradient()));
            } else {
                columns.add(Column.number("", "Difference", i -> tones.get(i).densityDifference()));
                columns.add(Column.text("", "Prints", i -> tones.get(i).shade()));
            }
        });
        return columns;
    }
}
