// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * Iteratively reweighed least squares: Huber's loss to the end, then Tukey's with the scale that Huber's found; or the
 * loss itself with a given scale, as an M-estimate follows a robust start.
 *
 * @source V. J. Yohai, High breakdown-point and high efficiency robust estimates for regression, Annals of Statistics
 *     15 (1987), 642–656: the loss follows a robust start whose scale it keeps (from memory)
 */
final class Reweighting {

    private static final int MOST_REWEIGHTINGS = 60;
    private static final double SETTLED = 1e-4;
    private static final double LEAST_DEVIATION = 1e-9;

    private final ShapeMinimiser minimiser;
    private final FitSettings settings;
    /** The standard deviation of a reading of weight 1 that the loss is to keep to. */
    private final OptionalDouble keptDeviation;

    private final Effort effort;

    Reweighting(ShapeMinimiser minimiser, FitSettings settings, OptionalDouble keptDeviation, Effort effort) {
        this.minimiser = minimiser;
        this.settings = settings;
        this.keptDeviation = keptDeviation;
        this.effort = effort;
    }

    /**
     * Where the reweighing ended. The arrays are not to be changed.
     *
     * @param minimum the least for the last weights
     * @param lossWeights how much the loss trusts each reading, 0 to 1
     * @param deviation the standard deviation of a reading of weight 1
     */
    @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
    record Settled(ShapeMinimum minimum, double[] lossWeights, double deviation) {

        double readingVariance() {
            return deviation * deviation;
        }

        boolean isConverged() {
            return minimum.isConverged();
        }

        private Settled after(Settled earlier) {
            return plus(earlier.minimum.iterations());
        }

        /** The same with the iterations of another stage added. */
        Settled plus(int iterations) {
            return new Settled(minimum.plus(iterations), lossWeights, deviation);
        }
    }

    /**
     * Searches from a start in the stages of {@link PlainSearch}; the first weights come from residuals, which need not be
     * those of the start.
     */
    Settled run(ShapeProblem problem, double[] start, double[] residuals) {
        Settled free = settle(problem, start, residuals);
        if (!settings.penalised() || !isSoftnessOpen(free)) {
            return free;
        }
        ShapeProblem next = penalised(free);
        Settled held = (free.isConverged() ? resettle(next, free) : settle(next, start, residuals)).after(free);
        if (!held.isConverged()) {
            return held;
        }
        // Bad readings may have made a softness look open: does the search get on without the penalty from here?
        Settled freed = resettle(held.minimum.problem().penalised(SoftnessPenalty.none(problem.kind())), held)
                .after(held);
        if (freed.isConverged() && !isSoftnessOpen(freed)) {
            return freed;
        }
        return resettle(penalised(held), held).after(freed); // with the variance that is known by now
    }

    private boolean isSoftnessOpen(Settled settled) {
        return settled.minimum.isSoftnessOpen(
                settled.readingVariance(), settings.knownVariance().isPresent());
    }

    private static ShapeProblem penalised(Settled settled) {
        ShapeProblem problem = settled.minimum.problem();
        return problem.penalised(SoftnessPenalty.of(problem.kind(), settled.readingVariance()));
    }

    private Settled resettle(ShapeProblem problem, Settled earlier) {
        return settle(problem, earlier.minimum.shape(), earlier.minimum.residuals());
    }

    private Settled settle(ShapeProblem problem, double[] start, double[] residuals) {
        if (keptDeviation.isPresent()) {
            return repeat(settings.loss(), problem, start, residuals, keptDeviation);
        }
        Settled huber = repeat(Loss.HUBER, problem, start, residuals, OptionalDouble.empty());
        if (settings.loss() != Loss.TUKEY || !huber.isConverged()) {
            return huber;
        }
        ShapeMinimum minimum = huber.minimum;
        return repeat(
                        Loss.TUKEY,
                        minimum.problem(),
                        minimum.shape(),
                        minimum.residuals(),
                        OptionalDouble.of(huber.deviation))
                .after(huber);
    }

    /** Reweighs until the weights hardly change; where they still do in the fourth decimal, the fit itself has converged. */
    private Settled repeat(
            Loss loss, ShapeProblem problem, double[] start, double[] firstResiduals, OptionalDouble kept) {
        double[] own = problem.readings().weights();
        double deviation = kept.orElseGet(() -> deviation(problem, settings, firstResiduals));
        double[] lossWeights = lossWeights(loss, own, firstResiduals, deviation);
        Settled settled = new Settled(
                minimiser.minimise(problem.weighted(products(own, lossWeights)), start, effort),
                lossWeights,
                deviation);
        for (int i = 1; i < MOST_REWEIGHTINGS && settled.isConverged(); i++) {
            ShapeMinimum last = settled.minimum;
            deviation = kept.isPresent() ? deviation : deviation(last.problem(), settings, last.residuals());
            lossWeights = lossWeights(loss, own, last.residuals(), deviation);
            if (greatestDifference(lossWeights, settled.lossWeights) < SETTLED) {
                return new Settled(last, lossWeights, deviation);
            }
            ShapeMinimum next =
                    minimiser.minimise(last.problem().weighted(products(own, lossWeights)), last.shape(), effort);
            settled = new Settled(next.after(last), lossWeights, deviation);
        }
        return settled;
    }

    private static double[] lossWeights(Loss loss, double[] weights, double[] residuals, double deviation) {
        double[] lossWeights = new double[residuals.length];
        for (int k = 0; k < lossWeights.length; k++) {
            lossWeights[k] = loss.weight(residuals[k] * Math.sqrt(weights[k]) / deviation);
        }
        return lossWeights;
    }

    private static double[] products(double[] a, double[] b) {
        double[] products = new double[a.length];
        for (int k = 0; k < a.length; k++) {
            products[k] = b[k] * a[k];
        }
        return products;
    }

    private static double greatestDifference(double[] a, double[] b) {
        double greatest = 0;
        for (int k = 0; k < a.length; k++) {
            greatest = Math.max(greatest, Math.abs(a[k] - b[k]));
        }
        return greatest;
    }

    /**
     * The standard deviation of a reading of weight 1: that which is known, or the median absolute residual, scaled. As
     * many residuals as there are parameters can be made 0 by a fit, so the smallest, one fewer than those, do not count.
     *
     * @source W. DuMouchel and F. O'Brien, Integrating a robust option into a multiple regression computing environment,
     *     Proc. 21st Symposium on the Interface (1989), 297–302 (from memory)
     */
    static double deviation(ShapeProblem problem, FitSettings settings, double[] residuals) {
        if (settings.knownVariance().isPresent()) {
            return Math.sqrt(settings.knownVariance().getAsDouble());
        }
        double[] weights = problem.readings().weights();
        double[] sizes = new double[weights.length];
        for (int k = 0; k < sizes.length; k++) {
            sizes[k] = Math.abs(residuals[k]) * Math.sqrt(weights[k]);
        }
        Arrays.sort(sizes);
        int fitted = sizes.length - problem.degreesOfFreedom();
        double median = RunningMedian.median(sizes, Math.max(0, fitted - 1), sizes.length);
        return Math.max(LEAST_DEVIATION, 1.4826 * median);
    }
}
