package org.tonewedge.fitting.internal;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.tonewedge.fitting.numeric.Distributions;

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
    private record Place(double[] shape, double[] residuals) {}

    /** The plain fit to all readings but one: the one that leaves the least sum of squares. */
    private record AllButOne(Place place, double sumOfSquares) {}

    private Reweighting.Settled run(double[] start) {
        Place medians = medians();
        Reweighting.Settled first = new Reweighting(minimiser, settings, OptionalDouble.empty(), Effort.FULL)
                .run(problem, medians.shape, medians.residuals);
        boolean few = settings.knownVariance().isEmpty()
                && problem.readings().size() <= FEW * (problem.kind().shape().size() + 2);
        long distrusted = Arrays.stream(first.lossWeights())
                .filter(weight -> weight < DOUBTFUL)
                .count();
        if (first.isConverged() && distrusted == 0 && !few) {
            return first;
        }
        AllButOne allButOne = allButOne(start);
        Place place = allButOne.place;
        double deviation = Reweighting.deviation(problem, settings, place.residuals);
        Reweighting.Settled second = new Reweighting(minimiser, settings, OptionalDouble.of(deviation), Effort.FULL)
                .run(problem, place.shape, place.residuals);
        boolean oneIsBad = few && distrusted <= 1 && second.isConverged() && isOneBad(allButOne.sumOfSquares, start);
        return oneIsBad || isBetter(second, first) ? second : first;
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
        return new Place(minimum.isConverged() ? minimum.shape() : start, residuals);
    }

    private AllButOne allButOne(double[] start) {
        Readings readings = problem.readings();
        double least = Double.POSITIVE_INFINITY;
        double[] shape = start;
        double[] weights = readings.weights();
        for (int i = 0; i < readings.size(); i++) {
            Readings others = readings.without(i);
            ShapeMinimum trial = minimiser.minimise(
                    ShapeProblem.of(problem.kind(), others, settings),
                    ShapeSearch.start(problem.kind(), others),
                    Effort.TRIAL);
            if (trial.isConverged() && trial.sumOfSquares() < least) {
                least = trial.sumOfSquares();
                shape = trial.shape();
                weights = readings.weights().clone();
                weights[i] = 0;
            }
        }
        return new AllButOne(new Place(shape, minimiser.residualsAt(problem.weighted(weights), shape)), least);
    }

    /**
     * Whether the reading that is best left out lies too far off the plain fit to the others to belong to them: Student's t
     * of its deleted residual, against the greatest of as many readings. Among few readings a bad one widens the scale of
     * the fit until it looks like the others.
     *
     * @source R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982), 2.2.2 (from memory)
     */
    private boolean isOneBad(double sumWithoutIt, double[] start) {
        ShapeMinimum all = minimiser.minimise(problem, start, Effort.FULL);
        int freedom = all.problem().degreesOfFreedom() - 1;
        if (!all.isConverged() || freedom < 1 || !(sumWithoutIt < all.sumOfSquares())) {
            return false;
        }
        double t = Math.sqrt((all.sumOfSquares() - sumWithoutIt) * freedom / sumWithoutIt);
        return t > Distributions.coverageFactor(1 - FALSE_ALARM / problem.readings().size(), freedom);
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
