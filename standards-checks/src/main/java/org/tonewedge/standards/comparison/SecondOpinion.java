// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.FittedReading;
import org.tonewedge.fitting.parametric.StripFit;
import org.tonewedge.fitting.spline.SmoothingFailedException;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * What a fitted curve says of a figure, beside what a smoothing spline of the same readings says, which knows no family:
 * a family may follow its readings and still bend where the film does not. The two differ by chance, the variance of their
 * difference being that of the spline less that of the fit; how far they differ beyond that belongs to the uncertainty:
 * u² = u<sub>fit</sub>² + max(0, d² − max(0, u<sub>spline</sub>² − u<sub>fit</sub>²)).
 *
 * @source the variance of the difference: J. A. Hausman, Specification tests in econometrics, Econometrica 46 (1978),
 *     1251–1271 (from memory)
 */
final class SecondOpinion implements DrawnCurve.Estimator {

    private static final SmoothingSpline SPLINE = SmoothingSpline.withDefaults().with(SplineShape.MONOTONE);

    private final DrawnCurve.Estimator fit;
    private final SplineFit spline;

    private SecondOpinion(DrawnCurve.Estimator fit, SplineFit spline) {
        this.fit = fit;
        this.spline = spline;
    }

    /** A fit beside the spline of the readings that it trusts; the fit by itself where no spline can be drawn. */
    static DrawnCurve.Estimator on(Strip strip, StripFit fit, List<FittedReading> distrusted) {
        if (distrusted.isEmpty()) {
            // The spline that the fit is held against itself: what is read off its neighbours is read once.
            return fit.smoothed()
                    .<DrawnCurve.Estimator>map(spline -> new SecondOpinion(fit::estimate, spline))
                    .orElse(fit::estimate);
        }
        try {
            return without(distrusted, strip)
                    .<DrawnCurve.Estimator>map(trusted -> new SecondOpinion(fit::estimate, SPLINE.fit(trusted)))
                    .orElse(fit::estimate);
        } catch (SmoothingFailedException e) {
            return fit::estimate;
        }
    }

    /** The readings that a spline, which would bend to a speck of dust, may be drawn by; nothing if there are none. */
    private static Optional<Strip> without(List<FittedReading> distrusted, Strip strip) {
        Set<List<Double>> left = new HashSet<>();
        distrusted.forEach(reading -> left.add(place(reading.exposure(), reading.density())));
        Strip.Builder trusted = Strip.builder(strip.id());
        strip.basePlusFogReadings().stream()
                .filter(density -> !left.contains(place(Optional.empty(), density)))
                .forEach(density -> trusted.basePlusFog(density.value()));
        boolean any = false;
        for (ExposedStep step : strip.steps()) {
            for (Density density : step.readings()) {
                if (!left.contains(place(Optional.of(step.exposure()), density))) {
                    trusted.reading(step.exposure(), density);
                    any = true;
                }
            }
        }
        return any ? Optional.of(trusted.build()) : Optional.empty();
    }

    private static List<Double> place(Optional<LogExposure> exposure, Density density) {
        return List.of(exposure.map(LogExposure::value).orElse(Double.NEGATIVE_INFINITY), density.value());
    }

    @Override
    public Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure) {
        Estimate own = fit.estimate(figure);
        Estimate other;
        try {
            other = spline.estimate(figure);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return own; // the spline does not reach the figure
        }
        double variance = square(own.standardUncertainty());
        double byChance = Math.max(0, square(other.standardUncertainty()) - variance);
        double excess = Math.max(0, square(other.value() - own.value()) - byChance);
        return excess == 0 ? own : Estimate.of(own.value(), Math.sqrt(variance + excess), own.degreesOfFreedom());
    }

    private static double square(double value) {
        return value * value;
    }
}
