// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripCheck;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.standards.film.Iso6Contrast;
import org.tonewedge.standards.film.Iso6Speed;

/**
 * Everything that is read off one strip of negative film: base plus fog, speed, contrast by several measures, and the
 * lengths of toe and straight line; {@link FilmFigure} lists it. A missing figure gives its reason; a problem of one
 * strip never stops the others.
 *
 * <p>A strip read backwards, or below its base plus fog, by more than noise, or whose exposures are not logarithms
 * ({@link StripCheck}) gets no curve.
 * {@link CurveDrawing} decides how the curves of the other strips are drawn and where uncertainties come from.
 *
 * <p>Toe, straight line and shoulder are named only if the readings show them at 95 %. The gradient at that end of the
 * readings, averaged over one stop, must lie below the level at which the part begins; its one-sided 95 % limit is
 * compared. Otherwise the figure gives this as its reason.
 *
 * <p>Uncertainties are those of one strip. They do not include the variation between two strips of the same film and
 * development; to include it, expose several strips and see {@link FilmMean}.
 *
 * <p>Immutable and thread safe.
 */
public final class StripFigures implements Recorded {

    private final List<StripFinding> findings;
    private final StripReading reading;
    private final String verdict;
    private final List<String> notes;
    private final List<Figure> figures;
    private final FigureEstimator estimator;

    private StripFigures(Strip strip, CurveDrawing drawing) {
        findings = StripCheck.withDefaults().check(strip);
        Optional<DrawnCurve> drawn = Optional.empty();
        StripReading read;
        try {
            refuse(
                    findings,
                    StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS,
                    StripFinding.Kind.DENSITIES_REVERSED,
                    StripFinding.Kind.BELOW_BASE_PLUS_FOG);
            drawn = Optional.of(drawing.draw(strip));
            CharacteristicCurve curve = drawn.get().curve();
            read = new StripReading(strip, drawn, () -> curve);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            read = new StripReading(strip, drawn, () -> {
                throw e;
            });
        }
        reading = read;
        verdict = drawn.map(DrawnCurve::verdict).orElse("");
        notes = drawn.map(curve -> notes(strip, curve)).orElse(List.of());
        estimator = drawn.flatMap(DrawnCurve::estimator).orElse(null);
        FigureEstimates estimates = new FigureEstimates(reading, drawn);
        figures = Arrays.stream(FilmFigure.values()).map(estimates::of).toList();
    }

    private static List<String> notes(Strip strip, DrawnCurve drawn) {
        if (strip.basePlusFog().isPresent()) {
            return drawn.notes();
        }
        List<String> notes = new ArrayList<>(drawn.notes());
        notes.add("base plus fog was not read and is that of the curve, "
                + drawn.curve().basePlusFog()
                + ": the speed is less sure; read an unexposed, processed part of the film");
        return List.copyOf(notes);
    }

    static CharacteristicCurve throughReadings(Strip strip) {
        refuse(
                StripCheck.withDefaults().check(strip),
                StripFinding.Kind.DENSITY_FALLS,
                StripFinding.Kind.STEPS_TOO_CLOSE);
        return CharacteristicCurve.through(strip);
    }

    private static void refuse(List<StripFinding> findings, StripFinding.Kind... kinds) {
        findings.stream()
                .filter(finding -> List.of(kinds).contains(finding.kind()))
                .findFirst()
                .ifPresent(finding -> {
                    throw new NotDeterminableException(finding.message());
                });
    }

    /**
     * Reads a strip by its {@linkplain CurveDrawing#fitted() fitted curve}.
     *
     * @param strip the strip
     * @return its figures
     */
    public static StripFigures of(Strip strip) {
        return of(strip, CurveDrawing.fitted());
    }

    /**
     * Reads a strip by a curve drawn as you choose.
     *
     * @param strip the strip
     * @param drawing how its curve is drawn; if that fails, the failure becomes the reason why the figures are missing
     * @return its figures
     */
    public static StripFigures of(Strip strip, CurveDrawing drawing) {
        return new StripFigures(strip, drawing);
    }

    /**
     * Returns the strip.
     *
     * @return the strip
     */
    public Strip strip() {
        return reading.strip();
    }

    /**
     * Returns the findings about the readings that a person should look at.
     *
     * @return the findings; empty if there are none
     */
    public List<StripFinding> findings() {
        return findings;
    }

    /**
     * Returns which curve was drawn and, where {@link CurveDrawing#fitted()} judged it, whether it follows its readings.
     *
     * @return for example {@code toe, straight line and shoulder, which follows the readings (F against the repeat readings, p =
     *     0.410)}; empty if there is no curve, or the caller's own
     */
    public String verdict() {
        return verdict;
    }

    /**
     * Returns notes on the curve: readings that a fit distrusts, parts that the strip does not show, base plus
     * fog that was not read.
     *
     * @return sentences; empty if there are none
     */
    public List<String> notes() {
        return notes;
    }

    /**
     * Returns the curve.
     *
     * @return the curve, or empty if it could not be drawn
     */
    public Optional<CharacteristicCurve> curve() {
        return reading.curve();
    }

    /**
     * Returns what gives any other figure read off the curve its uncertainty.
     *
     * @return the estimator; empty if there is no curve, or it is taken as exact
     */
    public Optional<FigureEstimator> estimator() {
        return Optional.ofNullable(estimator);
    }

    /**
     * Returns the ISO 6 speed point and contrast.
     *
     * @return the points and the contrast condition; empty if the speed point is not reached
     */
    public Optional<Iso6Contrast> iso6Contrast() {
        return reading.contrast();
    }

    /**
     * Returns the speed by ISO 6.
     *
     * @return the speed, which is an ISO speed only if its conditions are met and its exposures were measured, not
     *     {@linkplain FilmComparison#withReferenceSpeed assumed}; empty if the speed point is not reached or exposures are
     *     relative
     */
    public Optional<Iso6Speed> iso6Speed() {
        return reading.speed();
    }

    /**
     * Returns the parts of the curve.
     *
     * @return toe, straight line and shoulder; empty if there is no curve or it has no contrast
     */
    public Optional<CurveAnatomy> anatomy() {
        return reading.anatomy();
    }

    /**
     * Returns a figure of the strip.
     *
     * @param figure which one
     * @return the figure, or why it cannot be had
     * @throws IllegalArgumentException if it {@linkplain FilmFigure#isBesideReference() compares the strip with a
     *     reference}, which {@link StripComparison#get StripComparison.get} does
     */
    @SuppressWarnings("EnumOrdinal") // the list has them in their order
    public Figure get(FilmFigure figure) {
        if (figure.isBesideReference()) {
            throw new IllegalArgumentException(
                    figure.id() + " compares a strip with a reference; ask a StripComparison for it");
        }
        return figures.get(figure.ordinal());
    }

    /** A figure, or the quantity that is compared with the reference. */
    @SuppressWarnings("EnumOrdinal") // the list has them in their order
    Figure read(FilmFigure figure) {
        return figures.get(figure.ordinal());
    }

    /**
     * Returns the main figures in words.
     *
     * @return the strip, its speed or the reason why there is none, average gradient and gamma
     */
    @Override
    public String toString() {
        return inWords(iso6Speed()
                .map(Iso6Speed::toString)
                .orElseGet(() -> get(FilmFigure.EXACT_SPEED).toString()));
    }

    /** The main figures, with the speed in these words. */
    String inWords(String found) {
        return strip().id() + " " + strip().film() + ": " + found + "; average gradient "
                + get(FilmFigure.AVERAGE_GRADIENT) + ", gamma " + get(FilmFigure.GAMMA);
    }

    /**
     * Returns the figures as named values: {@code strip}, {@code film}, {@code density_response} and {@code
     * density_geometry} if they are stated, then each {@link FilmFigure} that needs no reference, by its identifier; one that
     * cannot be had has the reason as its text.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return FigureRecords.of(strip(), this::get, figure -> !figure.isBesideReference());
    }
}
