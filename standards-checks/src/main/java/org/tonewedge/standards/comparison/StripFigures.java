package org.tonewedge.standards.comparison;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripCheck;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.standards.film.Iso6Contrast;
import org.tonewedge.standards.film.Iso6Speed;

/**
 * Everything that is read off one strip of negative film: base plus fog, speed, contrast by several measures, and the
 * lengths of toe and straight line; {@link FilmFigure} lists it. A figure that cannot be had gives its reason instead; one strip's trouble never stops
 * the others.
 *
 * <p>A strip read backwards, or below its base plus fog, by more than noise ({@link StripCheck}) gets no curve. Where a
 * density falls, or steps crowd, the cubic through the readings gets no figures either: one read beside a speck of dust
 * would be wrong without saying so. A curve of the caller's choice, such as a robust fit, decides that for itself.
 *
 * <p>Immutable and thread safe.
 */
public final class StripFigures {

    private final List<StripFinding> findings;
    private final StripReading reading;
    private final List<Figure> figures;

    private StripFigures(Strip strip, Function<Strip, CharacteristicCurve> drawing) {
        findings = StripCheck.withDefaults().check(strip);
        reading = new StripReading(strip, () -> draw(strip, drawing));
        figures = FilmFigure.readAll(reading);
    }

    private CharacteristicCurve draw(Strip strip, Function<Strip, CharacteristicCurve> drawing) {
        refuse(findings, StripFinding.Kind.RUNS_BACKWARDS, StripFinding.Kind.BELOW_BASE_PLUS_FOG);
        return drawing.apply(strip);
    }

    private static CharacteristicCurve throughReadings(Strip strip) {
        refuse(
                StripCheck.withDefaults().check(strip),
                StripFinding.Kind.DENSITY_FALLS,
                StripFinding.Kind.STEPS_CROWDED);
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
     * Reads a strip by the monotone cubic through its readings.
     *
     * @param strip the strip
     * @return its figures
     */
    public static StripFigures of(Strip strip) {
        return of(strip, StripFigures::throughReadings);
    }

    /**
     * Reads a strip by a curve of the caller's choice.
     *
     * @param strip the strip
     * @param drawing how its curve is made, such as a fit; may throw {@link NotDeterminableException} or
     *     {@link IllegalArgumentException}, whose message becomes the reason of the figures
     * @return its figures
     */
    public static StripFigures of(Strip strip, Function<Strip, CharacteristicCurve> drawing) {
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
     * Returns what a person should look at in the readings.
     *
     * @return the findings; empty if there is none
     */
    public List<StripFinding> findings() {
        return findings;
    }

    /**
     * Returns the curve.
     *
     * @return the curve, or nothing if it could not be drawn
     */
    public Optional<CharacteristicCurve> curve() {
        return reading.curve();
    }

    /**
     * Returns the ISO 6 speed point and contrast.
     *
     * @return the points and the contrast condition; nothing if the speed point is not reached
     */
    public Optional<Iso6Contrast> iso6Contrast() {
        return reading.contrast();
    }

    /**
     * Returns the speed by ISO 6.
     *
     * @return the speed, which is an ISO speed only if its conditions are met; nothing if the speed point is not reached
     *     or exposures are relative
     */
    public Optional<Iso6Speed> iso6Speed() {
        return reading.speed();
    }

    /**
     * Returns the parts of the curve.
     *
     * @return toe, straight line and shoulder; nothing if there is no curve or it has no contrast
     */
    public Optional<CurveAnatomy> anatomy() {
        return reading.anatomy();
    }

    /**
     * Returns a figure of the strip.
     *
     * @param figure which one
     * @return the figure, or why it cannot be had
     * @throws IllegalArgumentException if it {@linkplain FilmFigure#isBesideReference() sets the strip beside a reference},
     *     which {@link StripComparison#get} does
     */
    @SuppressWarnings("EnumOrdinal") // the list has them in their order
    public Figure get(FilmFigure figure) {
        if (figure.isBesideReference()) {
            throw new IllegalArgumentException(
                    figure.id() + " sets a strip beside a reference; ask a StripComparison for it");
        }
        return figures.get(figure.ordinal());
    }

    /** A figure, or what of it is set beside the reference. */
    @SuppressWarnings("EnumOrdinal") // the list has them in their order
    Figure read(FilmFigure figure) {
        return figures.get(figure.ordinal());
    }

    /**
     * Returns the main figures in words.
     *
     * @return the strip, its speed or why there is none, average gradient and gamma
     */
    @Override
    public String toString() {
        String found = iso6Speed()
                .map(Iso6Speed::toString)
                .orElseGet(() -> get(FilmFigure.EXACT_SPEED).toString());
        return strip().id() + " " + strip().film() + ": " + found + "; average gradient "
                + get(FilmFigure.AVERAGE_GRADIENT) + ", gamma " + get(FilmFigure.GAMMA);
    }
}
