// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;
import java.util.Comparator;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.tonewedge.core.internal.StudentT;

/**
 * The search of a robust fit: {@link Reweighting} from a fit to running medians, which a single bad reading can hardly
 * lead astray. Where that distrusts a reading, or fails, or the readings are few, a second search starts from the plain
 * fit that leaves out the one reading it gains most by, and the better of the two counts, or the second where that
 * reading does not belong to the others.
 */
final class RobustSearch {

    /** A robust fit that trusts a reading less than this is looked at twice. */
    private static final double DOUBTFUL = 0.5;
    /** With so few readings for each parameter a robust fit may trust a bad one. */
    private static final int FEW = 3;
    /** How often good readings alone may look as if one were bad. */
    private static final double FALSE_ALARM = 0.01;
    /** How many readings are left out for trial, by what each of three looks finds worst. */
    private static final int WORST_BY_GAIN = 3;

    private static final int WORST_BY_DISTANCE = 2;
    private static final int WORST_BY_BEND = 2;
    /** How much more than a robust fit a plain one may scatter, as a ratio of variances, that is to confirm it. */
    private static final double MOST_SCATTER = 1.5;

    /** In standard deviations. */
    private static final double FAR = 3;

    /** A reading that the fit passes through whatever it is has a leverage of 1. */
    private static final double LEAST_FREEDOM = 1e-6;
    /** What a reading that is left out must gain at least: it counts as a parameter more, as in Akaike's criterion. */
    private static final double GAIN = 2;

    private final ShapeMinimiser minimiser;
    private final ShapeProblem problem;
    private final FitSettings settings;

    private RobustSearch(ShapeMinimiser minimiser, ShapeProblem problem, FitSettings settings) {
        this.minimiser = minimiser;
        this.problem = problem;
        this.settings = settings;
    }

    /**
     * Searches.
     *
     * @param start the shape parameters that a plain fit would start from
     * @return the robust fit
     */
    static Reweighting.Settled run(
            ShapeMinimiser minimiser, ShapeProblem problem, FitSettings settings, double[] start) {
        return new RobustSearch(minimiser, problem, settings).run(start);
    }

    /** A place to begin at: shape parameters, and how far a curve that bad readings do not bend lies from the readings. */
    @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
    private record Place(double[] shape, double[] residuals, int iterations) {}

    /** The plain fit to all readings but one: the one that leaves the least sum of squares. */
    private record AllButOne(Place place, double sumOfSquares) {}

    private Reweighting.Settled run(double[] start) {
        Place medians = medians();
        Reweighting.Settled first = new Reweighting(minimiser, settings, OptionalDouble.empty(), Effort.FULL)
                .run(problem, medians.shape, medians.residuals)
                .plus(medians.iterations);
        boolean few = settings.knownVariance().isEmpty()
                && problem.readings().size() <= FEW * (problem.kind().shape().size() + 2);
        long distrusted = Arrays.stream(first.lossWeights())
                .filter(weight -> weight < DOUBTFUL)
                .count();
        if (first.isConverged() && distrusted == 0 && !few) {
            return first;
        }
        int worst = greatest(squares(first.minimum().residuals()), 1).sum();
        ShapeMinimum without = without(worst);
        if (!few && distrusted == 1 && confirms(without, first)) {
            return first.plus(without.iterations());
        }
        ShapeMinimum all = minimiser.minimise(problem, start, few ? Effort.FULL : Effort.TRIAL);
        AllButOne allButOne = allButOne(all, first);
        Place place = allButOne.place;
        double deviation = Reweighting.deviation(problem, settings, place.residuals);
        Reweighting.Settled second = new Reweighting(minimiser, settings, OptionalDouble.of(deviation), Effort.FULL)
                .run(problem, place.shape, place.residuals);
        boolean oneIsBad = few && distrusted <= 1 && second.isConverged() && isOneBad(allButOne.sumOfSquares, all);
        int looked = all.iterations() + place.iterations;
        return oneIsBad || isBetter(second, first)
                ? second.plus(first.minimum().iterations() + looked)
                : first.plus(second.minimum().iterations() + looked);
    }

    /** A plain fit to running medians, or where that would start. */
    private Place medians() {
        Readings readings = problem.readings();
        Readings medians = readings.withDensities(RunningMedian.of(readings.densities(), readings.exposed()));
        double[] start = ShapeSearch.start(problem.kind(), medians);
        ShapeProblem smooth = ShapeProblem.of(problem.kind(), medians, settings);
        ShapeMinimum minimum = minimiser.minimise(smooth, start, Effort.FULL);
        double[] residuals =
                minimum.isConverged() ? minimum.residuals() : minimiser.residualsAt(minimum.problem(), start);
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] = residuals[i] + medians.densities()[i] - readings.densities()[i];
        }
        return new Place(minimum.isConverged() ? minimum.shape() : start, residuals, minimum.iterations());
    }

    /**
     * Tries the readings that look worst: those that lie farthest off the robust fit, whose loss would lower the sum of
     * squares of the plain fit most, to first order, and that lie farthest off their neighbours.
     *
     * @source the sum of squares without reading i is less by w e²/(1 − h), h being its leverage: R. D. Cook and S. Weisberg,
     *     Residuals and Influence in Regression (1982), 2.2 (from memory)
     */
    private AllButOne allButOne(ShapeMinimum all, Reweighting.Settled robust) {
        IntStream candidates = IntStream.concat(
                greatest(squares(robust.minimum().residuals()), WORST_BY_DISTANCE),
                IntStream.concat(greatest(gains(all), WORST_BY_GAIN), greatest(squares(bends()), WORST_BY_BEND)));
        ShapeMinimum best = all;
        boolean found = false;
        int iterations = 0;
        for (int i : candidates.distinct().toArray()) {
            ShapeMinimum trial = without(i);
            iterations += trial.iterations();
            if (!found || trial.sumOfSquares() < best.sumOfSquares()) {
                found = true;
                best = trial;
            }
        }
        ShapeMinimum chosen = minimiser.minimise(best.problem(), best.shape(), Effort.CHOSEN);
        return new AllButOne(
                new Place(chosen.shape(), chosen.residuals(), iterations + chosen.iterations()), chosen.sumOfSquares());
    }

    /** A plain fit that leaves out one reading. */
    private ShapeMinimum without(int reading) {
        Readings readings = problem.readings();
        double[] weights = readings.weights().clone();
        weights[reading] = 0;
        return minimiser.minimise(
                problem.weighted(weights), ShapeSearch.start(problem.kind(), readings.without(reading)), Effort.TRIAL);
    }

    /**
     * Whether a plain fit without the one reading that a robust fit distrusts, started apart from it, agrees with it: it
     * scatters hardly more, none of the others lies far off, and the two curves run within the scatter of one another.
     */
    private static boolean confirms(ShapeMinimum without, Reweighting.Settled robust) {
        int freedom = without.problem().degreesOfFreedom() - 1;
        double variance = without.sumOfSquares() / freedom;
        if (!without.isConverged() || !(variance <= MOST_SCATTER * robust.readingVariance())) {
            return false;
        }
        double[] weights = without.problem().weights();
        for (int i = 0; i < weights.length; i++) {
            double residual = without.residuals()[i];
            double between = residual - robust.minimum().residuals()[i];
            if (weights[i] * residual * residual > FAR * FAR * variance
                    || weights[i] * between * between > robust.readingVariance()) {
                return false;
            }
        }
        return true;
    }

    private double[] squares(double[] residuals) {
        double[] weights = problem.readings().weights();
        double[] squares = new double[residuals.length];
        for (int i = 0; i < squares.length; i++) {
            squares[i] = weights[i] * residuals[i] * residuals[i];
        }
        return squares;
    }

    /** How far each reading lies off the line between its neighbours; the unexposed ones off their median. */
    private double[] bends() {
        Readings readings = problem.readings();
        double[] d = readings.densities();
        double[] bends = d.clone();
        int exposed = readings.exposed();
        double base = exposed < d.length ? RunningMedian.median(d, exposed, d.length) : 0;
        for (int i = 0; i < d.length; i++) {
            bends[i] = i >= exposed ? d[i] - base : i == 0 || i == exposed - 1 ? 0 : d[i] - 0.5 * (d[i - 1] + d[i + 1]);
        }
        return bends;
    }

    private static IntStream greatest(double[] values, int count) {
        return IntStream.range(0, values.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> -values[i]))
                .limit(count)
                .mapToInt(i -> i);
    }

    /** How much less the sum of squares would be without each reading. */
    private double[] gains(ShapeMinimum all) {
        double[] weights = all.problem().readings().weights();
        double[] leverages = all.leverages(minimiser.covariance(all));
        double[] gains = new double[weights.length];
        for (int i = 0; i < gains.length; i++) {
            double residual = all.residuals()[i];
            gains[i] = weights[i] * residual * residual / Math.max(LEAST_FREEDOM, 1 - leverages[i]);
        }
        return gains;
    }

    /**
     * Whether the reading that is best left out lies too far off the plain fit to the others to belong to them: Student's t
     * of its deleted residual, against the greatest of as many readings. Among few readings a bad one widens the scale of
     * the fit until it looks like the others.
     *
     * @source R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982), 2.2.2 (from memory)
     */
    private boolean isOneBad(double sumWithoutIt, ShapeMinimum all) {
        int freedom = all.problem().degreesOfFreedom() - 1;
        if (!all.isConverged() || freedom < 1 || !(sumWithoutIt < all.sumOfSquares())) {
            return false;
        }
        double t = Math.sqrt((all.sumOfSquares() - sumWithoutIt) * freedom / sumWithoutIt);
        return t > StudentT.coverageFactor(1 - FALSE_ALARM / problem.readings().size(), freedom);
    }

    /** Whether a fit loses enough less than another, both measured with the greater of their standard deviations. */
    private boolean isBetter(Reweighting.Settled one, Reweighting.Settled other) {
        if (!one.isConverged() || !other.isConverged()) {
            return one.isConverged();
        }
        double variance = Math.max(one.readingVariance(), other.readingVariance());
        return deviance(one, variance) + GAIN < deviance(other, variance);
    }

    private double deviance(Reweighting.Settled fit, double variance) {
        double[] weights = problem.readings().weights();
        double[] residuals = fit.minimum().residuals();
        double sum = 0;
        for (int i = 0; i < residuals.length; i++) {
            sum += settings.loss().deviance(residuals[i] * Math.sqrt(weights[i] / variance));
        }
        return sum;
    }
}
