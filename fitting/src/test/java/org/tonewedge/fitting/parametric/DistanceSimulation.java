// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingFailedException;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * What {@link StripFit} would cover if the squared distance d² to the spline counted only as far as it exceeds what the scatter
 * of the readings alone would give: the mean of d² over simulated readings about the fit. Run by hand, with the number of strips
 * of each number of steps; the results stand on the page on fit quality.
 *
 * <pre>java -cp … org.tonewedge.fitting.parametric.DistanceSimulation 400</pre>
 */
final class DistanceSimulation {

    private static final int SETS = 30;
    private static final int BASE_PLUS_FOG_READINGS = 3;
    private static final SmoothingSpline SPLINE = SmoothingSpline.withDefaults().with(SplineShape.MONOTONE);

    private DistanceSimulation() {}

    /** The readings of a fitted strip, or simulated readings about its fit if there is a generator. */
    private static Strip readings(FittedCurve fit, double deviation, Random random) {
        Strip.Builder strip = Strip.builder("simulated");
        for (FittedReading reading : fit.readings()) {
            double density = reading.density().value();
            boolean exposed = reading.exposure().isPresent();
            if (random != null) {
                double fitted = exposed
                        ? fit.curve().form().density(reading.exposure().get().value())
                        : fit.curve().basePlusFog().value();
                density = fitted + deviation * random.nextGaussian();
            }
            if (exposed) {
                strip.reading(reading.exposure().get(), Density.of(density));
            } else {
                strip.basePlusFog(density);
            }
        }
        return strip.build();
    }

    /** The mean of d² over simulated readings, with the smoothing of the strip; 0 if none gives the figure. */
    private static double expected(
            FittedCurve fit, double smoothing, ToDoubleFunction<CharacteristicCurve> figure, Random random) {
        double sum = 0;
        int count = 0;
        for (int i = 0; i < SETS; i++) {
            try {
                Strip strip = readings(fit, fit.residualStandardDeviation(), random);
                double distance = figure.applyAsDouble(
                                SPLINE.withSmoothing(smoothing).fit(strip).curve())
                        - figure.applyAsDouble(CurveFits.toeShoulder(strip).curve());
                sum += distance * distance;
                count++;
            } catch (NotDeterminableException | IllegalArgumentException e) {
                // this set does not give it
            }
        }
        return count == 0 ? 0 : sum / count;
    }

    /**
     * Prints how often the intervals contain the truth, for each kind of film, figure and number of steps.
     *
     * @param args the number of strips
     */
    public static void main(String[] args) {
        int strips = Integer.parseInt(args[0]);
        for (FitCoverage.Truth shape : List.of(FitCoverage.Truth.IN_FAMILY, FitCoverage.Truth.TWO_LAYERS)) {
            for (FitCoverage.Figure figure : List.of(FitCoverage.Figure.SPEED_POINT, FitCoverage.Figure.GAMMA)) {
                for (int steps : FitCoverage.STEPS) {
                    measure(shape, figure, steps, strips);
                }
            }
        }
    }

    private static void measure(FitCoverage.Truth shape, FitCoverage.Figure figure, int steps, int strips) {
        Random random = new Random(1000L * BASE_PLUS_FOG_READINGS + steps);
        Random sets = new Random(5);
        int told = 0;
        int whole = 0;
        int lessened = 0;
        for (int i = 0; i < strips; i++) {
            CharacteristicCurve truth = shape.draw(random);
            Strip strip = FitCoverage.strip(truth, steps, BASE_PLUS_FOG_READINGS, random);
            try {
                StripFit fit = StripFit.of(strip);
                double exact = figure.of(truth);
                Estimate estimate = fit.estimate(figure::of);
                told++;
                whole += estimate.interval(0.95).contains(exact) ? 1 : 0;
                lessened += lessened(fit, estimate, figure, sets).interval(0.95).contains(exact) ? 1 : 0;
            } catch (NotDeterminableException e) {
                // not told
            }
        }
        System.out.printf(
                Locale.ROOT,
                "%-10s %-11s %2d steps: of %d intervals %.1f %% contain the truth; with the scatter taken off %.1f %%%n",
                shape,
                figure,
                steps,
                told,
                100.0 * whole / told,
                100.0 * lessened / told);
    }

    private static Estimate lessened(StripFit fit, Estimate estimate, FitCoverage.Figure figure, Random sets) {
        if (fit.family().isEmpty()) {
            return estimate;
        }
        FittedCurve family = fit.family().get();
        double own = family.ownEstimate(figure::of).standardUncertainty();
        double square = estimate.standardUncertainty() * estimate.standardUncertainty() - own * own;
        try {
            SplineFit rougher = SPLINE.fit(readings(family, 0, null)).lessSmoothed();
            double lessened = square - expected(family, rougher.smoothing(), figure::of, sets);
            return Estimate.of(
                    estimate.value(), Math.hypot(own, Math.sqrt(Math.max(0, lessened))), estimate.degreesOfFreedom());
        } catch (SmoothingFailedException e) {
            return estimate;
        }
    }
}
