// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.StripFit;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

/** A curve as it was drawn, with the uncertainty of what is read off it and notes about it. */
final class DrawnCurve {

    /** Two standard deviations of the averaged gradient may be at most this fraction of the greatest gradient. */
    private static final double RESOLVED = 0.02;

    private final CharacteristicCurve curve;
    private final FigureEstimator estimator;
    /** How far a figure of the fitted family lies from that of a curve of no family; 0 where there are no such two. */
    private final ToDoubleFunction<ToDoubleFunction<CharacteristicCurve>> disagreement;
    /** Draws the curve of other readings of the strip in the same way: the same family, or as smooth a spline. */
    private final Function<Strip, CharacteristicCurve> again;

    private final String verdict;
    private final List<String> notes;
    private final double readingDeviation;
    private final ReadingDeviation readings;

    /**
     * How well a single reading is known.
     *
     * @param at the standard deviation of a reading of a density; 0 if readings are taken as exact
     * @param degreesOfFreedom of that standard deviation
     */
    private record ReadingDeviation(ToDoubleFunction<Density> at, double degreesOfFreedom) {

        static final ReadingDeviation NONE = new ReadingDeviation(0, Double.POSITIVE_INFINITY);

        static ReadingDeviation of(Repeatability known) {
            return new ReadingDeviation(known::standardDeviationAt, known.degreesOfFreedom());
        }

        ReadingDeviation(double deviation, double degreesOfFreedom) {
            this(density -> deviation, degreesOfFreedom);
        }
    }

    private DrawnCurve(
            CharacteristicCurve curve,
            FigureEstimator estimator,
            ToDoubleFunction<ToDoubleFunction<CharacteristicCurve>> disagreement,
            Function<Strip, CharacteristicCurve> again,
            String verdict,
            List<String> notes,
            double readingDeviation,
            ReadingDeviation readings) {
        this.curve = curve;
        this.estimator = estimator;
        this.disagreement = disagreement;
        this.again = again;
        this.verdict = verdict;
        this.notes = List.copyOf(notes);
        this.readingDeviation = readingDeviation;
        this.readings = readings;
    }

    /** A curve that is taken as exact. */
    static DrawnCurve exact(Strip strip, Function<Strip, CharacteristicCurve> drawing) {
        return new DrawnCurve(
                drawing.apply(strip), null, figure -> 0, drawing, "", List.of(), 0, ReadingDeviation.NONE);
    }

    /** The curve of a fit that was judged; its figures are as uncertain as families and a spline disagree on them. */
    static DrawnCurve fitted(Strip strip, CurveFit options) {
        StripFit fit = StripFit.of(strip, options).requireTrusted();
        List<String> notes = new ArrayList<>();
        fit.family().ifPresent(family -> {
            family.outliers().forEach(reading -> notes.add("outlier: " + reading));
            family.notes().forEach(note -> notes.add("fit: " + note));
        });
        Function<Strip, CharacteristicCurve> again = fit.family()
                .<Function<Strip, CharacteristicCurve>>map(family -> {
                    CurveFit same = options.with(family.family()).withWholeFamily();
                    return moved -> same.fit(moved).curve();
                })
                .orElseGet(() -> likewise(fit.spline().orElseThrow()));
        return new DrawnCurve(
                fit.curve(),
                fit::estimate,
                figure -> fit.disagreement(figure).orElse(0),
                again,
                fit.verdict(),
                notes,
                0,
                fit.family()
                        .map(DrawnCurve::ofResiduals)
                        .orElseGet(() -> ofResiduals(fit.spline().orElseThrow())));
    }

    static DrawnCurve throughReadings(Strip strip, Repeatability repeatability) {
        Repeatability known = repeatability.over(List.of(strip));
        double greatest = strip.steps().stream()
                .mapToDouble(step -> known.standardDeviationAt(step.density()))
                .max()
                .orElseThrow();
        CharacteristicCurve curve = StripFigures.throughReadings(strip);
        return new DrawnCurve(
                curve,
                greatest == 0 ? null : new ReadingErrors(strip, known, curve, CharacteristicCurve::through),
                figure -> 0,
                CharacteristicCurve::through,
                "monotone cubic through the readings",
                List.of(),
                greatest,
                ReadingDeviation.of(known));
    }

    static DrawnCurve spline(Strip strip, Repeatability repeatability) {
        SplineFit fit = SmoothingSpline.withDefaults()
                .with(SplineShape.MONOTONE)
                .with(repeatability)
                .fit(strip);
        return new DrawnCurve(
                fit.curve(),
                fit::estimate,
                figure -> 0,
                likewise(fit),
                "monotone smoothing spline",
                List.of(),
                0,
                ReadingDeviation.of(repeatability.over(List.of(strip))));
    }

    /** That of a good reading, which a bad one does not enlarge; 0 if the curve goes through all readings. */
    private static ReadingDeviation ofResiduals(FittedCurve fit) {
        return fit.readings().stream()
                .filter(reading -> reading.standardised() != 0)
                .findFirst()
                .map(reading -> new ReadingDeviation(
                        reading.residual().value() / reading.standardised(), fit.degreesOfFreedom()))
                .orElse(ReadingDeviation.NONE);
    }

    private static ReadingDeviation ofResiduals(SplineFit fit) {
        return new ReadingDeviation(fit.residualStandardDeviation(), fit.residualDegreesOfFreedom());
    }

    private static Function<Strip, CharacteristicCurve> likewise(SplineFit fit) {
        SmoothingSpline same =
                SmoothingSpline.withDefaults().with(SplineShape.MONOTONE).withSmoothing(fit.smoothing());
        return moved -> same.fit(moved).curve();
    }

    CharacteristicCurve curve() {
        return curve;
    }

    /** The curve of the strip with other readings or exposures. */
    CharacteristicCurve again(Strip moved) {
        return again.apply(moved);
    }

    Optional<FigureEstimator> estimator() {
        return Optional.ofNullable(estimator);
    }

    /** How far the figure of a curve of no family lies from that of the fitted one, signed; 0 if nothing was compared. */
    double disagreement(ToDoubleFunction<CharacteristicCurve> figure) {
        return disagreement.applyAsDouble(figure);
    }

    /** A mean of so many readings with its uncertainty; empty if readings are taken as exact. */
    Optional<Estimate> mean(Density mean, int count) {
        double deviation = readings.at().applyAsDouble(mean);
        return deviation == 0
                ? Optional.empty()
                : Optional.of(Estimate.of(mean.value(), deviation / Math.sqrt(count), readings.degreesOfFreedom()));
    }

    /** Which curve was drawn and, where that was judged, how it follows its readings; empty for one that is given. */
    String verdict() {
        return verdict;
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
