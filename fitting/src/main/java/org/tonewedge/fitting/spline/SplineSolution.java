// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.util.Optional;
import java.util.OptionalDouble;

/** A spline solved for one smoothing, as plain numbers, with its uncertainty. Immutable. */
final class SplineSolution {

    private final ReinschSystem system;
    private final WeightedReadings readings;
    private final BandedFactor factor;
    private final SplineSpace space;
    private final double[] values;
    private final double squares;
    private final double degreesLost;

    private SplineSolution(
            ReinschSystem system,
            WeightedReadings readings,
            BandedFactor factor,
            SplineSpace space,
            double[] values,
            double squares,
            double degreesLost) {
        this.system = system;
        this.readings = readings;
        this.factor = factor;
        this.space = space;
        this.values = values;
        this.squares = squares;
        this.degreesLost = degreesLost;
    }

    /** The free spline. */
    static SplineSolution of(ReinschSystem system, WeightedReadings readings, double smoothing) {
        BandedFactor factor = new BandedFactor(system);
        factor.factor(smoothing);
        double[] values = factor.fittedValues();
        double squares = readings.squaresWithinSteps;
        for (int i = 0; i < values.length; i++) {
            squares += system.weights[i] * (system.y[i] - values[i]) * (system.y[i] - values[i]);
        }
        return new SplineSolution(
                system, readings, factor, new SplineSpace(system), values, squares, smoothing * factor.trace());
    }

    /**
     * The monotone spline at the same smoothing, rising or falling as the readings do on the whole; empty if the search
     * did not converge.
     */
    Optional<SplineSolution> monotone(OptionalDouble firstBound) {
        return new MonotoneProjection(system, space, factor, values, trend(), firstBound)
                .solve()
                .map(found -> new SplineSolution(system, readings, factor, space, found, squares, degreesLost));
    }

    NaturalSpline spline() {
        return space.spline(values);
    }

    /** The spline with another value at one knot. */
    NaturalSpline splineWith(int knot, double change) {
        double[] changed = values.clone();
        changed[knot] += change;
        return space.spline(changed);
    }

    double smoothing() {
        return factor.smoothing();
    }

    double degreesOfFreedom() {
        return values.length - degreesLost;
    }

    double residualDegreesOfFreedom() {
        return readings.readings - values.length + degreesLost;
    }

    /** The degrees of freedom of the variance behind the standard errors. */
    double freedomOfVariance() {
        return readings.statedVariance.isPresent() ? readings.statedFreedom : residualDegreesOfFreedom();
    }

    /** A step's mean minus the density of the curve. */
    double residual(int step) {
        return system.y[step] - values[step];
    }

    /** The residual variance of the free spline: how much freedom a shape takes away is not known. */
    double residualVariance() {
        return squares / residualDegreesOfFreedom();
    }

    /** The variance of a reading of weight 1, as stated or as the residuals show it. */
    double readingVariance() {
        return readings.statedVariance.orElseGet(this::residualVariance);
    }

    /** 1 if the readings rise on the whole, −1 if they fall. */
    double trend() {
        return system.trend() < 0 ? -1 : 1;
    }

    /** The standard deviation of a step's mean, as stated or as the residuals show it. */
    double standardDeviationOfStep(int step) {
        return Math.sqrt(readingVariance() / system.weights[step]);
    }

    double standardErrorOfDensity(double at) {
        return standardError(space.valueFunctional(at));
    }

    double standardErrorOfGradient(double at) {
        return standardError(space.slopeFunctional(at));
    }

    /** The standard error of a figure, given its change for each unit of the values at the knots. */
    double standardError(double[] functional) {
        double[] response = factor.covarianceTimes(functional);
        double variance = 0;
        for (int i = 0; i < response.length; i++) {
            variance += functional[i] * response[i];
        }
        return Math.sqrt(readingVariance() * Math.max(0, variance));
    }
}
