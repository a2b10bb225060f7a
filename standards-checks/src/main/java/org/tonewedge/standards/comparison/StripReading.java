// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;
import org.tonewedge.standards.film.Iso6Speed;

/**
 * A strip with one curve and the methods that many figures share. Each is applied once and gives a result or a reason.
 */
final class StripReading {

    private final Strip strip;
    private final Attempt<CharacteristicCurve> curve;
    private final Attempt<Iso6Contrast> contrast;
    private final Attempt<Iso6Speed> speed;
    private final Attempt<CurveAnatomy> anatomy;
    /** Each figure as it was first read: estimates from several sides ask for the same one again. */
    private final Map<FilmFigure, Figure> read = new EnumMap<>(FilmFigure.class);

    /** What tells how well a reading is known, where there is a curve. */
    private final Optional<DrawnCurve> drawn;

    StripReading(Strip strip, Optional<DrawnCurve> drawn, Supplier<CharacteristicCurve> drawing) {
        this.strip = strip;
        this.drawn = drawn;
        curve = Attempt.of(drawing);
        Iso6 iso6 = Iso6.withDefaults().with(strip.testConditions());
        contrast = curve.then(iso6::contrast);
        speed = curve.then(iso6::determine);
        anatomy = curve.then(CurveAnatomy::of);
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

    Figure read(FilmFigure figure) {
        return read.computeIfAbsent(figure, any -> figure.read(this));
    }

    Strip strip() {
        return strip;
    }

    Optional<CharacteristicCurve> curve() {
        return Optional.ofNullable(curve.value());
    }

    Optional<Iso6Contrast> contrast() {
        return Optional.ofNullable(contrast.value());
    }

    Optional<Iso6Speed> speed() {
        return Optional.ofNullable(speed.value());
    }

    Optional<CurveAnatomy> anatomy() {
        return Optional.ofNullable(anatomy.value());
    }

    /** The curve, for a figure that is read only if there is one. */
    CharacteristicCurve drawn() {
        return curve.value();
    }

    Figure fromCurve(ToDoubleFunction<CharacteristicCurve> reading) {
        return curve.figure(reading);
    }

    Figure fromContrast(ToDoubleFunction<Iso6Contrast> reading) {
        return contrast.figure(reading);
    }

    Figure fromSpeed(ToDoubleFunction<Iso6Speed> reading) {
        return speed.figure(reading);
    }

    Figure fromAnatomy(ToDoubleFunction<CurveAnatomy> reading) {
        return anatomy.figure(reading);
    }

    /** The length of a part that the readings show from end to end. */
    double length(Optional<CurveRegion> region, String reason) {
        return region.filter(CurveRegion::isComplete)
                .orElseThrow(() -> new OutsideMeasuredRangeException(strip + ": " + reason))
                .length()
                .logUnits();
    }

    Figure basePlusFog() {
        return strip.basePlusFog()
                .map(density -> mean(density, strip.basePlusFogReadings().size()))
                .orElseGet(
                        () -> Figure.missing(strip + " has no base-plus-fog reading; read an unexposed, processed part"
                                + " of the film and enter it with an empty exposure"));
    }

    Figure greatestDensity() {
        ExposedStep densest = strip.steps().stream()
                .max(Comparator.comparing(ExposedStep::density))
                .orElseThrow();
        return mean(densest.density(), densest.readings().size());
    }

    /** A mean of readings; with its uncertainty where the curve tells how well a reading is known. */
    private Figure mean(Density mean, int count) {
        return drawn.flatMap(curve -> curve.mean(mean, count)).map(Figure::of).orElseGet(() -> Figure.of(mean.value()));
    }

    /** The log exposure of the speed point on the axis of the strip. */
    Figure speedPoint() {
        return fromContrast(found -> found.speedPoint().logExposure().value());
    }

    Figure absoluteSpeedPoint() {
        return strip.axis().isAbsolute() || contrast.value() == null
                ? speedPoint()
                : Figure.missing("exposures are relative; stops_vs_reference compares the speed points");
    }

    Figure stopsFromBoxSpeed() {
        return strip.boxSpeed().isEmpty()
                ? Figure.missing(strip + " has no box speed; enter it in the column box_speed")
                : fromSpeed(found ->
                        found.comparedWith(strip.boxSpeed().getAsDouble()).stops());
    }
}
