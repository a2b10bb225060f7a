// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingFailedException.Failure;

/**
 * How much each step of a strip counts. The weights add up to the number of readings, so that the variance that goes
 * with them is that of one reading, or of one of average repeatability if it differs between steps.
 */
final class WeightedReadings {

    /** The weight of each step: the number of its readings times the weight of one. */
    final double[] weights;
    /** The number of readings, repeats included. */
    final int readings;
    /** The weighted squares of the readings about the means of their steps. */
    final double squaresWithinSteps;
    /** The variance of a reading of weight 1, if the repeatability is known without the residuals. */
    final OptionalDouble statedVariance;
    /** The degrees of freedom of that variance. */
    final double statedFreedom;

    WeightedReadings(
            double[] weights,
            int readings,
            double squaresWithinSteps,
            OptionalDouble statedVariance,
            double statedFreedom) {
        this.weights = weights;
        this.readings = readings;
        this.squaresWithinSteps = squaresWithinSteps;
        this.statedVariance = statedVariance;
        this.statedFreedom = statedFreedom;
    }

    /**
     * Weighs a strip's steps, with their means, by a known repeatability; without one, all readings count alike.
     */
    static WeightedReadings of(Strip strip, double[] means, Optional<Repeatability> repeatability) {
        List<ExposedStep> steps = strip.steps();
        double[] perReading = new double[means.length];
        double sum = 0;
        int count = 0;
        for (int i = 0; i < means.length; i++) {
            perReading[i] = repeatability.isEmpty() ? 1 : reciprocalVariance(strip, i, repeatability.get());
            int repeats = steps.get(i).readings().size();
            count += repeats;
            sum += repeats * perReading[i];
        }
        double scale = count / sum;
        double[] weights = new double[means.length];
        double squares = 0;
        for (int i = 0; i < means.length; i++) {
            List<Density> repeats = steps.get(i).readings();
            double weight = perReading[i] * scale;
            weights[i] = weight * repeats.size();
            double deviation = steps.get(i).repeatability().orElse(0);
            squares += weight * deviation * deviation * (repeats.size() - 1);
        }
        OptionalDouble variance = repeatability.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(scale);
        return new WeightedReadings(
                weights,
                count,
                squares,
                variance,
                repeatability.map(Repeatability::degreesOfFreedom).orElse(Double.NaN));
    }

    private static double reciprocalVariance(Strip strip, int index, Repeatability repeatability) {
        ExposedStep step = strip.steps().get(index);
        double deviation;
        try {
            deviation = repeatability.standardDeviationAt(step.density());
        } catch (IllegalArgumentException e) {
            throw notPositive(strip, index, e.getMessage());
        }
        double reciprocal = 1 / (deviation * deviation);
        if (!(reciprocal > 0 && reciprocal < Double.POSITIVE_INFINITY)) {
            throw notPositive(
                    strip,
                    index,
                    "the repeatability stated for " + step.density() + " must be a finite number above 0, was "
                            + deviation);
        }
        return reciprocal;
    }

    private static SmoothingFailedException notPositive(Strip strip, int index, String message) {
        return SmoothingSpline.failure(
                strip,
                Failure.REPEATABILITY_NOT_POSITIVE,
                "step " + (index + 1) + " at " + strip.steps().get(index).exposure() + ": " + message);
    }
}
