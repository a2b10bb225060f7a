// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * Tone reproduction from subject to print: the curves of camera, film, printing and paper, joined into one.
 *
 * <pre>{@code
 * ToneReproduction road = ToneReproduction.of(camera, film, printing, paper);
 * ReproducedTone shadow = road.tone(SubjectTone.ofStops(-3));
 * shadow.printDensity();
 * }</pre>
 *
 * <p>A tone that leaves the measured range of the film or the paper is refused, not clamped. To print to pure white or
 * the deepest black, measure the paper from one to the other.
 *
 * <p>Immutable and thread safe.
 *
 * @source the graph of four quadrants after L. A. Jones (1920 and later): from memory
 */
public final class ToneReproduction {

    private static final Comparator<LogExposure> BY_VALUE = Comparator.comparingDouble(LogExposure::value);

    private final CameraExposure camera;
    private final CharacteristicCurve film;
    private final Printing printing;
    private final CharacteristicCurve paper;
    private final ToneStage<SubjectTone, Density> road;

    private ToneReproduction(
            CameraExposure camera, CharacteristicCurve film, Printing printing, CharacteristicCurve paper) {
        camera.metered().axis().requireSame(film.axis(), "expose " + film.name() + " in the camera");
        printing.openExposure().axis().requireSame(paper.axis(), "print on " + paper.name());
        this.camera = camera;
        this.film = film;
        this.printing = printing;
        this.paper = paper;
        road = camera.stage().then(ToneStage.of(film)).then(printing.stage()).then(ToneStage.of(paper));
    }

    /**
     * Joins the stages.
     *
     * @param camera the camera
     * @param film the film's curve, on the axis of the camera's exposure
     * @param printing the setting of the printer
     * @param paper the paper's curve, on the axis of the printing exposure
     * @return the road from subject to print
     * @throws IllegalArgumentException if the axes do not fit
     */
    public static ToneReproduction of(
            CameraExposure camera, CharacteristicCurve film, Printing printing, CharacteristicCurve paper) {
        return new ToneReproduction(camera, film, printing, paper);
    }

    /**
     * Returns the same chain with another film, all settings unchanged.
     *
     * @param other the curve of the other film
     * @return the road with the other film
     * @throws IllegalArgumentException if its axis does not fit
     */
    public ToneReproduction withFilm(CharacteristicCurve other) {
        Objects.requireNonNull(other, "other");
        return new ToneReproduction(camera, other, printing, paper);
    }

    /**
     * Returns the same chain with another camera exposure or flare.
     *
     * @param other the camera
     * @return the road with the other camera
     * @throws IllegalArgumentException if its axis does not fit
     */
    public ToneReproduction withCamera(CameraExposure other) {
        Objects.requireNonNull(other, "other");
        return new ToneReproduction(other, film, printing, paper);
    }

    /**
     * Returns the same chain with another printing exposure.
     *
     * @param other the setting of the printer
     * @return the road with the other setting
     * @throws IllegalArgumentException if its axis does not fit
     */
    public ToneReproduction withPrinting(Printing other) {
        Objects.requireNonNull(other, "other");
        return new ToneReproduction(camera, film, other, paper);
    }

    /**
     * Returns the camera.
     *
     * @return the camera
     */
    public CameraExposure camera() {
        return camera;
    }

    /**
     * Returns the film.
     *
     * @return its curve
     */
    public CharacteristicCurve film() {
        return film;
    }

    /**
     * Returns the setting of the printer.
     *
     * @return the setting
     */
    public Printing printing() {
        return printing;
    }

    /**
     * Returns the paper.
     *
     * @return its curve
     */
    public CharacteristicCurve paper() {
        return paper;
    }

    /** From a tone of the subject to the density of the print; lighter tones print to lower density. */
    ToneStage<SubjectTone, Density> stage() {
        return road;
    }

    /**
     * Follows a tone through the four quadrants.
     *
     * @param tone the tone of the subject
     * @return where it passes
     * @throws OutsideMeasuredRangeException if the tone leaves the measured range of film or
     *     paper
     */
    public ReproducedTone tone(SubjectTone tone) {
        LogExposure filmExposure = camera.exposureOf(tone);
        Density negative = film.densityAt(filmExposure);
        LogExposure paperExposure = printing.exposureUnder(negative);
        return new ReproducedTone(
                tone,
                filmExposure,
                negative,
                paperExposure,
                paper.densityAt(paperExposure),
                Gradient.of(-road.gradientAt(tone).value()));
    }

    /**
     * Follows several tones.
     *
     * @param tones the tones of the subject
     * @return the path of each tone, in the same order
     * @throws OutsideMeasuredRangeException if a tone leaves the measured range of film or paper; the message names the
     *     first that does
     */
    public List<ReproducedTone> tones(List<SubjectTone> tones) {
        return tones.stream().map(this::named).toList();
    }

    /** Follows one of several tones, which a refusal has to name. */
    private ReproducedTone named(SubjectTone tone) {
        try {
            return tone(tone);
        } catch (OutsideMeasuredRangeException e) {
            throw (OutsideMeasuredRangeException)
                    new OutsideMeasuredRangeException("the tone " + tone + ": " + e.getMessage()).initCause(e);
        }
    }

    /**
     * Returns the density range of the negative between two tones.
     *
     * @param darkest the darkest tone that matters
     * @param lightest the lightest
     * @return the difference of their densities in the negative
     * @throws OutsideMeasuredRangeException if a tone leaves the measured range of the film
     */
    public DensityDifference negativeDensityRange(SubjectTone darkest, SubjectTone lightest) {
        Objects.requireNonNull(darkest, "darkest");
        Objects.requireNonNull(lightest, "lightest");
        return film.densityAt(camera.exposureOf(lightest)).minus(film.densityAt(camera.exposureOf(darkest)));
    }

    /**
     * Returns the darkest tone for which every tone between it and the metered tone stays within the measured ranges of
     * film and paper.
     *
     * @return the tone; empty if there is no such limit, because flare keeps every darker tone within the ranges
     * @throws NotDeterminableException if the metered tone itself is outside them
     */
    public Optional<SubjectTone> darkest() {
        LogExposure lowest = crossings()
                .filter(crossing -> crossing.isBelow(meteredExposure()))
                .max(BY_VALUE)
                .orElse(film.lowestExposure());
        return camera.isFlareAlone(lowest) ? Optional.empty() : Optional.of(camera.toneAt(lowest));
    }

    /**
     * Returns the lightest tone for which every tone between it and the metered tone stays within the measured ranges
     * of film and paper.
     *
     * @return the tone
     * @throws NotDeterminableException if the metered tone itself is outside them
     */
    public SubjectTone lightest() {
        return camera.toneAt(crossings()
                .filter(crossing -> meteredExposure().isBelow(crossing))
                .min(BY_VALUE)
                .orElse(film.highestExposure()));
    }

    private LogExposure meteredExposure() {
        return camera.exposureOf(SubjectTone.METERED);
    }

    /** Where the density of the film meets an end of the paper's range. */
    private Stream<LogExposure> crossings() {
        paper.densityAt(printing.exposureUnder(film.densityAt(meteredExposure())));
        return Stream.of(paper.highestExposure(), paper.lowestExposure())
                .map(end -> printing.openExposure().minus(end).logUnits())
                .filter(density -> density >= film.minimumDensity().value()
                        && density <= film.maximumDensity().value())
                .flatMap(density -> film.logExposuresAt(Density.of(density)).stream());
    }

    /**
     * Compares the prints of two films.
     *
     * @param reference the chain with the reference film, on the same paper
     * @param tones the tones of the subject to compare
     * @return the difference at each tone, in the same order
     * @throws IllegalArgumentException if the papers differ
     * @throws OutsideMeasuredRangeException if a tone leaves the measured range of a film or the paper; the message names
     *     the first that does
     */
    public List<ToneDifference> against(ToneReproduction reference, List<SubjectTone> tones) {
        if (!Objects.equals(paper, reference.paper)) {
            throw new IllegalArgumentException("prints must be on one paper to be compared, were on " + paper.name()
                    + " and " + reference.paper.name() + "; give both the same paper curve");
        }
        return tones.stream()
                .map(tone -> new ToneDifference(named(tone), reference.named(tone)))
                .toList();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ToneReproduction that
                && Objects.equals(camera, that.camera)
                && Objects.equals(film, that.film)
                && Objects.equals(printing, that.printing)
                && Objects.equals(paper, that.paper);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(camera, film, printing, paper);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the film and the paper
     */
    @Override
    public String toString() {
        return "from subject to print: " + camera + "; " + film.name() + "; " + paper.name();
    }
}
