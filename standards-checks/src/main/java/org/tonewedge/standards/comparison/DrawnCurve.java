package org.tonewedge.standards.comparison;

import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

/** A curve as it was drawn, with the uncertainty of what is read off it and notes about it. */
final class DrawnCurve {

    /** Two standard deviations of the averaged gradient may be at most this fraction of the greatest gradient. */
    private static final double RESOLVED = 0.02;

    /** Gives a figure its uncertainty. */
    @FunctionalInterface
    interface Estimator {
        Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure);
    }

    private final CharacteristicCurve curve;
    private final Estimator estimator;
    private final List<String> notes;
    private final double readingDeviation;

    private DrawnCurve(CharacteristicCurve curve, Estimator estimator, List<String> notes, double readingDeviation) {
        this.curve = curve;
        this.estimator = estimator;
        this.notes = List.copyOf(notes);
        this.readingDeviation = readingDeviation;
    }

    /** A curve that is taken as exact. */
    static DrawnCurve exact(CharacteristicCurve curve) {
        return new DrawnCurve(curve, null, List.of(), 0);
    }

    static DrawnCurve estimated(CharacteristicCurve curve, Estimator estimator, List<String> notes) {
        return new DrawnCurve(curve, estimator, notes, 0);
    }

    static DrawnCurve throughReadings(Strip strip, double repeatability) {
        CharacteristicCurve curve = StripFigures.throughReadings(strip);
        return new DrawnCurve(
                curve,
                repeatability == 0
                        ? null
                        : new ReadingErrors(strip, repeatability, curve, CharacteristicCurve::through),
                List.of(),
                repeatability);
    }

    static DrawnCurve spline(Strip strip, double repeatability) {
        SplineFit fit = SmoothingSpline.withDefaults()
                .withShape(SplineShape.MONOTONE)
                .withRepeatability(repeatability)
                .fit(strip);
        return new DrawnCurve(fit.curve(), fit::estimate, List.of(), 0);
    }

    CharacteristicCurve curve() {
        return curve;
    }

    Optional<Estimator> estimator() {
        return Optional.ofNullable(estimator);
    }

    List<String> notes() {
        return notes;
    }

    /** Why gamma and the parts of the curve must not be read off it; empty if they may. */
    Optional<String> unresolved(CurveAnatomy anatomy) {
        double window = anatomy.criterion().window().logUnits();
        double greatest = Math.abs(anatomy.greatestGradient().value());
        double finest = RESOLVED * greatest * window / (2 * Math.sqrt(2));
        return readingDeviation <= finest
                ? Optional.empty()
                : Optional.of("a curve through readings with a repeatability of " + Figures.plain(readingDeviation)
                        + " does not resolve it; draw a fitted curve, or repeat readings until the repeatability is "
                        + Figures.plain(finest));
    }
}
