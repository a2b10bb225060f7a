package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * Fits a {@link ShapeKind} to {@link Readings} through {@link SeparableObjective} and {@link LevenbergMarquardt}.
 *
 * <p>The search runs in stages, each from where the last one ended: plainly; with the offset held if it fell below its
 * least value; with a {@link SoftnessPenalty} if a softness is all but undetermined; and reweighed for a robust loss.
 *
 * <p>An instance is a reusable workspace for one thread.
 */
public final class ShapeFitter {

    private static final ThreadLocal<ShapeFitter> OF_THREAD = ThreadLocal.withInitial(ShapeFitter::new);

    /** Parameters are found to a ten-thousandth of their standard errors. */
    private static final double TOLERANCE = 1e-4;

    /** Parameters whose spread alone is asked for: a hundredth, which adds a ten-thousandth to their variance. */
    private static final double REFIT_TOLERANCE = 0.01;

    private static final int MOST_ITERATIONS = 60;
    private static final int MOST_REWEIGHTINGS = 60;
    private static final double SETTLED = 1e-5;
    /** The spread of ln softness in the penalty, and the standard error of ln softness from which it is used. */
    private static final double PENALTY_SPREAD = 1;

    private static final double[] SOFTER_STARTS = {0.1, 0.2, 0.4};
    private static final double LEAST_DEVIATION = 1e-9;

    private final LevenbergMarquardt search = new LevenbergMarquardt(SeparableObjective.MOST_SHAPE_PARAMETERS);
    private final SeparableObjective objective = new SeparableObjective();
    private double tolerance;

    /** The results of the last search that are asked for now and then; null and NaN where there is none. */
    private double[][] shapeCovariance;

    private double robustVariance;

    private ShapeFitter() {}

    /**
     * What a fit is to take for granted.
     *
     * @param loss how residuals count
     * @param knownVariance the variance of a reading of weight 1; NaN if it is to be taken from the residuals
     * @param penalised whether softnesses may be held near usual ones where they are undetermined
     * @param leastOffset the least offset allowed
     */
    public record Settings(Loss loss, double knownVariance, boolean penalised, double leastOffset) {

        private boolean isVarianceKnown() {
            return !Double.isNaN(knownVariance);
        }
    }

    /**
     * Returns the workspace of the calling thread.
     *
     * @return the fitter
     */
    public static ShapeFitter ofThread() {
        return OF_THREAD.get();
    }

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
    public ShapeFit fit(ShapeKind kind, Readings all, Settings settings, double[] start) {
        Readings readings = kind.shape().reachesBase() ? all : all.exposedOnly();
        double[] q = start.clone();
        tolerance = TOLERANCE;
        double[] lossWeights = new double[readings.size()];
        ShapeFit.Search how = search(kind, readings, settings, q, lossWeights);
        double[][] covariance = objective.covariance(shapeCovariance(q.length));
        double[] residuals = Arrays.copyOf(objective.residuals(), readings.size());
        double sum = 0;
        for (int i = 0; i < residuals.length; i++) {
            sum += readings.weights()[i] * residuals[i] * residuals[i];
        }
        int freedom = objective.degreesOfFreedom();
        double variance = settings.isVarianceKnown()
                ? settings.knownVariance
                : Double.isNaN(robustVariance) ? sum / Math.max(1, freedom) : robustVariance;
        return new ShapeFit(
                kind,
                new double[] {objective.offset(), objective.scale()},
                q,
                covariance,
                residuals,
                lossWeights,
                how,
                sum,
                freedom,
                variance);
    }

    /**
     * Fits a shape once more, from near its parameters, and tells these alone, to a hundredth of their standard errors.
     *
     * @param kind the shape
     * @param all the readings, more than the shape has parameters
     * @param settings what to take for granted
     * @param start the shape parameters to start from
     * @return offset, scale and shape parameters; null if the search did not converge
     */
    public double[] refit(ShapeKind kind, Readings all, Settings settings, double[] start) {
        Readings readings = kind.shape().reachesBase() ? all : all.exposedOnly();
        double[] q = start.clone();
        tolerance = REFIT_TOLERANCE;
        if (!search(kind, readings, settings, q, new double[readings.size()])
                .stopReason()
                .isConverged()) {
            return null;
        }
        double[] parameters = new double[q.length + 2];
        parameters[0] = objective.offset();
        parameters[1] = objective.scale();
        System.arraycopy(q, 0, parameters, 2, q.length);
        return parameters;
    }

    /** Moves the shape parameters from a start to the least sum of squares, and writes the weights of the loss. */
    private ShapeFit.Search search(
            ShapeKind kind, Readings readings, Settings settings, double[] q, double[] lossWeights) {
        int n = q.length;
        double[] start = q.clone();
        double[] lower = new double[n];
        double[] upper = new double[n];
        double[] x = readings.logExposures();
        kind.limit(x[0], x[x.length - 1], lower, upper);
        Bounds bounds = Bounds.of(lower, upper);
        objective.reset(kind.shape(), x, readings.exposed(), readings.densities(), readings.weights());

        StopReason reason = minimise(q, bounds);
        int iterations = search.iterations();
        boolean offsetHeld = kind.shape().reachesBase() && objective.offset() < settings.leastOffset;
        if (offsetHeld) {
            objective.holdOffset(settings.leastOffset);
            reason = minimise(q, bounds);
            iterations += search.iterations();
        }
        boolean penalised = settings.penalised && isSoftnessUndetermined(kind, reason, settings);
        if (!settings.penalised && isStuck(kind, reason)) {
            reason = retry(kind, q, bounds, start, reason);
            iterations += search.iterations();
        }
        if (penalised) {
            double variance = settings.isVarianceKnown()
                    ? settings.knownVariance
                    : search.sumOfSquares() / Math.max(1, objective.degreesOfFreedom());
            objective.penalise(new SoftnessPenalty(kind, Math.log(ShapeKind.USUAL_SOFTNESS), PENALTY_SPREAD, variance));
            if (!reason.isConverged()) {
                System.arraycopy(start, 0, q, 0, n);
            }
            reason = minimise(q, bounds);
            iterations += search.iterations();
        }
        Arrays.fill(lossWeights, 1);
        robustVariance = Double.NaN;
        if (settings.loss != Loss.SQUARES && reason.isConverged()) {
            Reweighting reweighting = new Reweighting(readings, settings, q, bounds, lossWeights);
            reason = reweighting.run();
            iterations += reweighting.iterations;
            robustVariance = reweighting.variance();
        }
        int held = -1;
        for (int k = 0; k < n; k++) {
            held = search.isHeld(k) ? k : held;
        }
        return new ShapeFit.Search(reason, iterations, penalised, offsetHeld, held);
    }

    /** The covariance of the shape parameters where the last search ended, for readings of variance 1. */
    private double[][] shapeCovariance(int n) {
        if (shapeCovariance == null) {
            boolean[] held = new boolean[n];
            for (int k = 0; k < n; k++) {
                held[k] = search.isHeld(k);
            }
            shapeCovariance = Triangle.ofFree(search.triangle(), held).covariance();
        }
        return shapeCovariance;
    }

    private StopReason minimise(double[] q, Bounds bounds) {
        shapeCovariance = null;
        if (q.length == 0) {
            boolean rises = objective.sumOfSquares(q) < Double.POSITIVE_INFINITY;
            return rises ? StopReason.GRADIENT : StopReason.UNDEFINED_START;
        }
        return search.minimise(objective, q, bounds, tolerance, MOST_ITERATIONS);
    }

    private boolean isStuck(ShapeKind kind, StopReason reason) {
        for (int k = 0; k < kind.shape().size(); k++) {
            if (kind.isSoftness(k) && search.isHeld(k)) {
                return true;
            }
        }
        return kind.hasSoftness() && !reason.isConverged();
    }

    /** Searches from softer starts too, and ends at the least sum of squares of all. */
    private StopReason retry(ShapeKind kind, double[] q, Bounds bounds, double[] start, StopReason reason) {
        double least = search.sumOfSquares();
        double[] best = q.clone();
        StopReason bestReason = reason;
        for (double softness : SOFTER_STARTS) {
            for (int k = 0; k < q.length; k++) {
                q[k] = kind.isSoftness(k) ? Math.log(softness) : start[k];
            }
            StopReason again = minimise(q, bounds);
            if (again.isConverged() && (search.sumOfSquares() < least || !bestReason.isConverged())) {
                least = search.sumOfSquares();
                best = q.clone();
                bestReason = again;
            }
        }
        System.arraycopy(best, 0, q, 0, q.length);
        return bestReason.isConverged() ? minimise(q, bounds) : bestReason;
    }

    private boolean isSoftnessUndetermined(ShapeKind kind, StopReason reason, Settings settings) {
        if (!kind.hasSoftness() || reason == StopReason.EXACT_FIT) {
            return false;
        }
        if (!reason.isConverged()) {
            return true;
        }
        int n = kind.shape().size();
        double variance = settings.isVarianceKnown()
                ? settings.knownVariance
                : search.sumOfSquares() / Math.max(1, objective.degreesOfFreedom());
        double[][] covariance = shapeCovariance(n);
        for (int k = 0; k < n; k++) {
            if (kind.isSoftness(k)
                    && (search.isHeld(k) || !(variance * covariance[k][k] < PENALTY_SPREAD * PENALTY_SPREAD))) {
                return true;
            }
        }
        return false;
    }

    /** Iteratively reweighed least squares: Huber's loss to the end, then Tukey's with the scale that Huber's found. */
    private final class Reweighting {

        private final Readings readings;
        private final Settings settings;
        private final double[] q;
        private final Bounds bounds;
        private final double[] lossWeights;
        private final double[] weights;
        private double deviation;
        private int iterations;

        Reweighting(Readings readings, Settings settings, double[] q, Bounds bounds, double[] lossWeights) {
            this.readings = readings;
            this.settings = settings;
            this.q = q;
            this.bounds = bounds;
            this.lossWeights = lossWeights;
            weights = new double[readings.size()];
        }

        StopReason run() {
            StopReason reason = repeat(Loss.HUBER, true);
            return settings.loss == Loss.TUKEY && reason.isConverged() ? repeat(Loss.TUKEY, false) : reason;
        }

        private StopReason repeat(Loss loss, boolean updatesScale) {
            StopReason reason = StopReason.ITERATION_LIMIT;
            for (int i = 0; i < MOST_REWEIGHTINGS; i++) {
                if (updatesScale) {
                    deviation = settings.isVarianceKnown() ? Math.sqrt(settings.knownVariance) : medianDeviation();
                }
                double change = 0;
                for (int k = 0; k < weights.length; k++) {
                    double weight = loss.weight(standardised(k));
                    change = Math.max(change, Math.abs(weight - lossWeights[k]));
                    lossWeights[k] = weight;
                    weights[k] = weight * readings.weights()[k];
                }
                if (i > 0 && change < SETTLED) {
                    return reason;
                }
                objective.reweigh(weights);
                reason = minimise(q, bounds);
                iterations += search.iterations();
                if (!reason.isConverged()) {
                    return reason;
                }
            }
            return reason; // the weights still move in the fifth decimal: the fit itself has converged
        }

        private double standardised(int k) {
            return objective.residuals()[k] * Math.sqrt(readings.weights()[k]) / deviation;
        }

        /** The median absolute residual, scaled to a standard deviation and for the parameters fitted. */
        private double medianDeviation() {
            double[] sizes = new double[weights.length];
            for (int k = 0; k < sizes.length; k++) {
                sizes[k] = Math.abs(objective.residuals()[k]) * Math.sqrt(readings.weights()[k]);
            }
            Arrays.sort(sizes);
            int n = sizes.length;
            double median = 0.5 * (sizes[(n - 1) / 2] + sizes[n / 2]);
            double correction = Math.sqrt(n / (double) Math.max(1, objective.degreesOfFreedom()));
            return Math.max(LEAST_DEVIATION, 1.4826 * median * correction);
        }

        /** Huber's estimate of the variance for the covariance of a fit with this loss. */
        double variance() {
            double squares = 0;
            double slopes = 0;
            for (int k = 0; k < weights.length; k++) {
                double u = standardised(k);
                double score = settings.loss.weight(u) * u;
                squares += score * score;
                slopes += settings.loss.slope(u);
            }
            int n = weights.length;
            return deviation * deviation * (squares / Math.max(1, objective.degreesOfFreedom())) / (slopes / n);
        }
    }
}
