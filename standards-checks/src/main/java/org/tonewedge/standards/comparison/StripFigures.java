package org.tonewedge.standards.comparison;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripCheck;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;
import org.tonewedge.standards.film.Iso6Speed;

/**
 * Everything that is read off one strip of negative film: base plus fog, speed, contrast by several measures, and the
 * lengths of toe and straight line. A figure that cannot be had gives its reason instead; one strip's trouble never stops
 * the others.
 *
 * <p>A strip read backwards, or below its base plus fog, by more than noise ({@link StripCheck}) gets no curve. Where a
 * density falls, or steps crowd, the cubic through the readings gets no figures either: one read beside a speck of dust
 * would be wrong without saying so. A curve of the caller's choice, such as a robust fit, decides that for itself.
 *
 * <p>Immutable and thread safe.
 */
public final class StripFigures {

    private final Strip strip;
    private final List<StripFinding> findings;
    private final CharacteristicCurve curve;
    private final Iso6Contrast contrast;
    private final Iso6Speed speed;
    private final CurveAnatomy anatomy;
    private final Figure basePlusFog;
    private final Figure speedPoint;
    private final Figure exactSpeed;
    private final Figure contrastOver130;
    private final Figure averageGradient;
    private final Figure contrastIndex;
    private final Figure gamma;
    private final Figure toeLength;
    private final Figure straightLineLength;
    private final Figure shoulderStart;

    private StripFigures(Strip strip, Function<Strip, CharacteristicCurve> drawing) {
        this.strip = strip;
        findings = StripCheck.withDefaults().check(strip);
        basePlusFog = strip.basePlusFog()
                .map(density -> Figure.of(density.value()))
                .orElseGet(
                        () -> Figure.missing(strip + " has no base-plus-fog reading; read an unexposed, processed part"
                                + " of the film and enter it with an empty exposure"));
        Attempt<CharacteristicCurve> drawn = Attempt.of(() -> draw(drawing));
        Attempt<Iso6Contrast> contrasted = drawn.then(Iso6.withDefaults()::contrast);
        Attempt<Iso6Speed> speeded = drawn.then(Iso6.withDefaults()::determine);
        Attempt<CurveAnatomy> divided = drawn.then(CurveAnatomy::of);
        curve = drawn.value();
        contrast = contrasted.value();
        speed = speeded.value();
        anatomy = divided.value();
        speedPoint = contrasted.figure(found -> found.speedPoint().logExposure().value());
        exactSpeed = speeded.figure(Iso6Speed::exact);
        contrastOver130 = contrasted.figure(found -> found.contrast()
                .orElseThrow(() -> new NotDeterminableException(
                        strip + ": " + found.conditions().get(0)))
                .value());
        averageGradient = drawn.figure(
                c -> AverageGradient.withDefaults().determine(c).gradient().value());
        // A strip that never reaches the speed point has a line through its noise, but no contrast.
        contrastIndex = contrasted.figure(found ->
                ContrastIndex.withDefaults().determine(drawn.value()).gradient().value());
        gamma = divided.figure(parts -> parts.gamma().value());
        toeLength = divided.figure(parts ->
                length(parts.toe(), "the toe is not measured from its beginning; read steps of less exposure"));
        straightLineLength = divided.figure(parts -> length(
                Optional.of(parts.straightLine()),
                "the straight line runs on beyond the readings; it is at least "
                        + Figures.plain(parts.straightLine().length().logUnits()) + " log units long"));
        shoulderStart = divided.figure(parts -> parts.shoulder()
                .orElseThrow(() -> new NotDeterminableException(strip + ": no shoulder is reached up to "
                        + drawn.value().maximumDensity() + "; read steps of more exposure"))
                .thinEnd()
                .density()
                .value());
    }

    private CharacteristicCurve draw(Function<Strip, CharacteristicCurve> drawing) {
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

    private double length(Optional<CurveRegion> region, String reason) {
        return region.filter(CurveRegion::complete)
                .orElseThrow(() -> new NotDeterminableException(strip + ": " + reason))
                .length()
                .logUnits();
    }

    /** A step of the reading that may fail: its result, or the reason. */
    private record Attempt<T>(T value, String reason) {

        static <T> Attempt<T> of(Supplier<T> step) {
            try {
                return new Attempt<>(step.get(), "");
            } catch (NotDeterminableException | IllegalArgumentException e) {
                return new Attempt<>(null, e.getMessage());
            }
        }

        <U> Attempt<U> then(Function<T, U> next) {
            return value == null ? new Attempt<>(null, reason) : of(() -> next.apply(value));
        }

        Figure figure(ToDoubleFunction<T> reading) {
            return value == null ? Figure.missing(reason) : Figure.read(() -> reading.applyAsDouble(value));
        }
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
        return strip;
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
        return Optional.ofNullable(curve);
    }

    /**
     * Returns the ISO 6 speed point and contrast.
     *
     * @return the points and the contrast condition; nothing if the speed point is not reached
     */
    public Optional<Iso6Contrast> iso6Contrast() {
        return Optional.ofNullable(contrast);
    }

    /**
     * Returns the speed by ISO 6.
     *
     * @return the speed, which is an ISO speed only if its conditions are met; nothing if the speed point is not reached
     *     or exposures are relative
     */
    public Optional<Iso6Speed> iso6Speed() {
        return Optional.ofNullable(speed);
    }

    /**
     * Returns the parts of the curve.
     *
     * @return toe, straight line and shoulder; nothing if there is no curve or it has no contrast
     */
    public Optional<CurveAnatomy> anatomy() {
        return Optional.ofNullable(anatomy);
    }

    /**
     * Returns base plus fog.
     *
     * @return the mean gross density of the unexposed, processed film
     */
    public Figure basePlusFog() {
        return basePlusFog;
    }

    /**
     * Returns the greatest density read.
     *
     * @return the greatest mean gross density of a step
     */
    public Figure maximumDensity() {
        return Figure.of(strip.steps().stream()
                .map(step -> step.density())
                .max(Density::compareTo)
                .orElseThrow()
                .value());
    }

    /**
     * Returns the log exposure of the speed point, 0.10 above base plus fog.
     *
     * @return log<sub>10</sub> H<sub>m</sub>, on the axis of the strip
     */
    public Figure speedPointLogExposure() {
        return speedPoint;
    }

    /**
     * Returns the speed before rounding.
     *
     * @return S = 0.8 / H<sub>m</sub>
     */
    public Figure exactSpeed() {
        return exactSpeed;
    }

    /**
     * Returns how far the film is from its box speed.
     *
     * @return stops, positive if it is faster than the box says
     */
    public Figure stopsFromBoxSpeed() {
        if (strip.boxSpeed().isEmpty()) {
            return Figure.missing(strip + " has no box speed; enter it in the column box_speed");
        }
        return speed == null
                ? Figure.missing(exactSpeed.reason())
                : Figure.read(
                        () -> speed.comparedWith(strip.boxSpeed().getAsDouble()).stops());
    }

    /**
     * Returns the contrast of ISO 6.
     *
     * @return how much denser the film is 1.30 log units beyond the speed point
     */
    public Figure contrastOver130() {
        return contrastOver130;
    }

    /**
     * Returns the average gradient.
     *
     * @return the slope of the chord from 0.10 above base plus fog over 1.50 log units
     */
    public Figure averageGradient() {
        return averageGradient;
    }

    /**
     * Returns the contrast index.
     *
     * @return the slope of the line from base plus fog through two points 2.0 apart
     */
    public Figure contrastIndex() {
        return contrastIndex;
    }

    /**
     * Returns gamma.
     *
     * @return the slope of the straight line
     */
    public Figure gamma() {
        return gamma;
    }

    /**
     * Returns the length of the toe.
     *
     * @return log units, by the default {@link org.tonewedge.core.curve.AnatomyCriterion}
     */
    public Figure toeLength() {
        return toeLength;
    }

    /**
     * Returns the length of the straight line.
     *
     * @return log units, by the default {@link org.tonewedge.core.curve.AnatomyCriterion}
     */
    public Figure straightLineLength() {
        return straightLineLength;
    }

    /**
     * Returns the density at which the shoulder begins.
     *
     * @return the gross density at the dense end of the straight line
     */
    public Figure shoulderStartDensity() {
        return shoulderStart;
    }

    /**
     * Returns the main figures in words.
     *
     * @return the strip, its speed or why there is none, average gradient and gamma
     */
    @Override
    public String toString() {
        String found = speed == null ? exactSpeed.toString() : speed.toString();
        return strip.id() + " " + strip.film() + ": " + found + "; average gradient " + averageGradient + ", gamma "
                + gamma;
    }
}
