// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import org.tonewedge.core.internal.Minimum;
import org.tonewedge.core.internal.Roots;

/**
 * Searches for the smoothing along its logarithm. A grid runs from near interpolation to nearly a straight line and is
 * finer where the score is near its minimum. Each local minimum of the grid is then refined by parabolas and golden sections.
 *
 * <p>A score may have several local minima, some only half a decade apart. Each of its terms, 1 / (1 + λd), changes
 * from 1 to 0 within two decades of λ, and its nearest pole lies π from the real axis of log λ. A grid of half decades
 * therefore misses less than exp(−2π<sup>2</sup> / log 10), 2 parts in 10,000, of a term, and a grid of quarter decades
 * less than 1 in 10 million.
 */
final class SmoothingSearch {

    /** The cost of a degree of freedom in penalised cross-validation. */
    private static final double PENALTY = 1.2;

    private static final double GRID_STEP = 0.5 * Math.log(10);
    /** A score is examined if it exceeds the least by no more than this fraction of the residual variance. */
    private static final double NEAR = 0.3;

    /**
     * The tolerance of the logarithm: the score is flat at its minimum, so a thousandth of a percent changes nothing
     * visible.
     */
    private static final double TOLERANCE = 1e-6;

    private static final double ROUNDING = 1e-13;

    private final ReinschSystem system;
    private final BandedFactor factor;
    private final double[] gamma;
    private final double readings;
    private final double squaresWithinSteps;
    private final double statedVariance;

    SmoothingSearch(ReinschSystem system, WeightedReadings weighted) {
        this.system = system;
        readings = weighted.readings;
        squaresWithinSteps = weighted.squaresWithinSteps;
        statedVariance = weighted.statedVariance.orElse(Double.NaN);
        factor = new BandedFactor(system);
        gamma = new double[system.size];
    }

    double degreesOfFreedom(double smoothing) {
        factor.factor(smoothing);
        return system.x.length - smoothing * factor.trace();
    }

    double score(SmoothingCriterion criterion, double smoothing) {
        factor.factor(smoothing);
        double product = factor.solve(system.z, gamma);
        if (criterion == SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD) {
            double variance = (smoothing * product + squaresWithinSteps) / (readings - 2);
            return (readings - 2) * Math.log(variance) + factor.logDeterminant() - system.size * Math.log(smoothing);
        }
        double squares = smoothing * smoothing * system.roughness(gamma) + squaresWithinSteps;
        double steps = system.x.length;
        double left = smoothing * factor.trace();
        if (criterion == SmoothingCriterion.UNBIASED_RISK) {
            return squares / statedVariance + 2 * (steps - left);
        }
        double cost = criterion == SmoothingCriterion.PENALISED_CROSS_VALIDATION ? PENALTY : 1;
        double free = readings - steps + left - (cost - 1) * (steps - left);
        return free > 0 ? readings * squares / (free * free) : Double.POSITIVE_INFINITY;
    }

    /** The smoothing with the least score. */
    double best(SmoothingCriterion criterion) {
        double straight = system.straightLineSmoothing();
        if (isStraight(straight)) {
            return straight;
        }
        double lowest = Math.log(1e-3 * system.balancedSmoothing());
        double highest = Math.log(straight);
        int cells = (int) Math.ceil((highest - lowest) / GRID_STEP);
        double step = (highest - lowest) / cells;
        double[] grid = new double[cells + 1];
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= cells; i++) {
            grid[i] = score(criterion, Math.exp(lowest + i * step));
            least = Math.min(least, grid[i]);
        }
        double near =
                least + NEAR * (criterion == SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD ? readings - 2 : least);
        double[] at = new double[2 * cells + 1];
        double[] scores = new double[2 * cells + 1];
        int count = 0;
        for (int i = 0; i <= cells; i++) {
            at[count] = lowest + i * step;
            scores[count++] = grid[i];
            if (i < cells && Math.min(grid[i], grid[i + 1]) <= near) {
                at[count] = lowest + (i + 0.5) * step;
                scores[count] = score(criterion, Math.exp(at[count]));
                count++;
            }
        }
        double best = straight;
        least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < count; i++) {
            int before = Math.max(0, i - 1);
            int after = Math.min(count - 1, i + 1);
            if (scores[i] <= near && scores[i] <= scores[before] && scores[i] <= scores[after]) {
                double smoothing = Math.exp(Minimum.around(
                        log -> score(criterion, Math.exp(log)),
                        new double[] {at[before], at[i], at[after]},
                        new double[] {scores[before], scores[i], scores[after]},
                        TOLERANCE));
                double score = score(criterion, smoothing);
                if (score < least) {
                    least = score;
                    best = smoothing;
                }
            }
        }
        return best;
    }

    /** Whether the readings lie on a straight line except for rounding; every score is then rounding too. */
    private boolean isStraight(double smoothing) {
        factor.factor(smoothing);
        factor.solve(system.z, gamma);
        double largest = 0;
        for (double value : system.y) {
            largest = Math.max(largest, Math.abs(value));
        }
        double squares = smoothing * smoothing * system.roughness(gamma);
        return squares <= readings * (ROUNDING * largest) * (ROUNDING * largest);
    }

    /**
     * The smoothing that gives the curve the stated degrees of freedom, more than 2 and less than the number of knots.
     */
    double forDegreesOfFreedom(double degreesOfFreedom) {
        double low = system.balancedSmoothing();
        while (low > Double.MIN_NORMAL && degreesOfFreedom(low) < degreesOfFreedom) {
            low *= 1e-3;
        }
        double high = system.straightLineSmoothing();
        while (high < 1 / Double.MIN_NORMAL && degreesOfFreedom(high) > degreesOfFreedom) {
            high *= 1e3;
        }
        return Math.exp(Roots.boundary(
                at -> degreesOfFreedom(Math.exp(at)) > degreesOfFreedom, Math.log(low), Math.log(high), 1e-13));
    }
}
