// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Fits a {@link ShapeKind} to {@link Readings}: least squares by {@link PlainSearch}, a robust loss by
 * {@link RobustSearch}. Whenever the offset falls below its least value, it is held there from then on.
 *
 * <p>Values in, values out: every fit has the arrays that it works in to itself, so fits may run on any number of threads.
 */
public final class ShapeSearch {

    private ShapeSearch() {}

    /**
     * Returns where the search starts, from the readings.
     *
     * @param kind the shape
     * @param readings the readings
     * @return the shape parameters
     */
    public static double[] start(ShapeKind kind, Readings readings) {
        double[] q = new double[kind.shape().size()];
        kind.start(Landmarks.of(readings), q);
        return q;
    }

    /**
     * Fits a shape.
     *
     * @param kind the shape
     * @param all the readings, more than the shape has parameters, rising on the whole
     * @param settings what to take for granted
     * @param start the shape parameters to start from, such as {@link #start}
     * @return the fit; look at its {@link ShapeFit.Search#stopReason()} first
     */
    public static ShapeFit fit(ShapeKind kind, Readings all, FitSettings settings, double[] start) {
        Readings readings = reached(kind, all);
        ShapeProblem problem = ShapeProblem.of(kind, readings, settings);
        ShapeMinimiser minimiser = ShapeMinimiser.acquire(kind, readings);
        ShapeFit fit = settings.loss() == Loss.SQUARES
                ? plainFit(minimiser, problem, settings, start)
                : robustFit(RobustSearch.run(minimiser, problem, settings, start), settings);
        minimiser.release();
        return fit;
    }

    private static ShapeFit plainFit(
            ShapeMinimiser minimiser, ShapeProblem problem, FitSettings settings, double[] start) {
        ShapeMinimum minimum = PlainSearch.run(minimiser, problem, settings, start, Effort.FULL);
        double[] trust = new double[problem.readings().size()];
        Arrays.fill(trust, 1);
        double sum = sumOfSquares(minimum);
        int freedom = minimum.problem().degreesOfFreedom();
        double variance = settings.knownVariance().orElse(sum / Math.max(1, freedom));
        return new ShapeFit(minimum, minimiser.covariance(minimum), trust, sum, variance, variance);
    }

    private static ShapeFit robustFit(Reweighting.Settled fit, FitSettings settings) {
        ShapeMinimum minimum = fit.minimum();
        return new ShapeFit(
                minimum,
                RobustCovariance.unscaled(minimum),
                fit.lossWeights(),
                sumOfSquares(minimum),
                RobustCovariance.factor(fit, settings.loss(), settings.knownVariance()),
                fit.readingVariance());
    }

    /** The squares of the residuals with the weights of the readings alone. */
    private static double sumOfSquares(ShapeMinimum minimum) {
        double[] weights = minimum.problem().readings().weights();
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            sum += weights[i] * minimum.residuals()[i] * minimum.residuals()[i];
        }
        return sum;
    }

    /**
     * Fits a shape once more to other readings of like errors, and tells the parameters alone, to a hundredth of their
     * standard errors. A robust loss goes on with the standard deviation of the earlier fit.
     *
     * @param earlier the fit to start from
     * @param all the readings, more than the shape has parameters
     * @param settings what to take for granted
     * @param minimiser made for the shape and as many readings; one serves many refits on one thread
     * @return offset, scale and shape parameters; empty if the search did not converge
     * @source M. Salibian-Barrera and R. H. Zamar, Bootstrapping robust estimates of regression, Annals of Statistics 30
     *     (2002), 556–582: to start each search anew would let the bad readings break it (from memory)
     */
    public static Optional<double[]> refit(
            ShapeFit earlier, Readings all, FitSettings settings, ShapeMinimiser minimiser) {
        ShapeKind kind = earlier.kind();
        Readings readings = reached(kind, all);
        ShapeProblem problem = ShapeProblem.of(kind, readings, settings);
        OptionalDouble deviation = OptionalDouble.of(Math.sqrt(earlier.readingVariance()));
        ShapeMinimum minimum = settings.loss() == Loss.SQUARES
                ? PlainSearch.run(minimiser, problem, settings, earlier.shape(), Effort.REFIT)
                : new Reweighting(minimiser, settings, deviation, Effort.REFIT)
                        .run(problem, earlier.shape(), earlier.residualsOf(readings))
                        .minimum();
        if (!minimum.isConverged()) {
            return Optional.empty();
        }
        int n = minimum.shape().length;
        double[] parameters = new double[n + 2];
        parameters[0] = minimum.offset();
        parameters[1] = minimum.scale();
        System.arraycopy(minimum.shape(), 0, parameters, 2, n);
        return Optional.of(parameters);
    }

    /** A shape that falls without limit does not reach the unexposed readings. */
    private static Readings reached(ShapeKind kind, Readings all) {
        return kind.shape().reachesBase() ? all : all.exposedOnly();
    }
}
