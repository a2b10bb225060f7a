package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * Fits a {@link ShapeKind} to {@link Readings} through {@link SeparableObjective} and {@link LevenbergMarquardt}.
 *
 * <p>The search runs in stages, each from where the last one ended: plainly, then with a {@link SoftnessPenalty} if a
 * softness is all but undetermined. With a robust loss both stages are reweighed, and the first one starts from a fit to
 * running medians, which a single bad reading can hardly lead astray. Where that distrusts a reading, or fails, or the
 * readings are few, a second search starts from the plain fit that leaves out the one reading it gains most by, and the
 * better of the two counts, or the second where that reading does not belong to the others.
 * Whenever the offset falls below its least value, it is held there from then on.
 *
 * <p>An instance is a reusable workspace for one thread.
 */
public final class ShapeFitter {

    private static final ThreadLocal<ShapeFitter> OF_THREAD = ThreadLocal.withInitial(ShapeFitter::new);

    /** Parameters are found to a ten-thousandth of their standard errors. */
    private static final double TOLERANCE = 1e-4;

    /** Parameters whose spread alone is asked for: a hundredth, which adds a ten-thousandth to their variance. */
    private static final double REFIT_TOLERANCE = 0.01;

    /** Most searches need fewer than ten; along a corner between two steps the end may take a hundred. */
    private static final int MOST_ITERATIONS = 500;

    /** For the fits that leave out one reading: those that leave in a bad one need not end. */
    private static final int MOST_TRIAL_ITERATIONS = 30;

    private static final int MOST_REWEIGHTINGS = 60;
    private static final double SETTLED = 1e-5;
    /** A robust fit that trusts a reading less than this is looked at twice. */
    private static final double DOUBTFUL = 0.5;
    /** With so few readings for each parameter a robust fit may trust a bad one. */
    private static final int FEW = 3;
    /** How often good readings alone may look as if one were bad. */
    private static final double FALSE_ALARM = 0.01;
    /** What a reading that is left out must gain at least: it counts as a parameter more, as in Akaike's criterion. */
    private static final double GAIN = 2;

    /** The spread of ln softness in the penalty, and the standard error of ln softness from which it is used. */
    private static final double PENALTY_SPREAD = 1;

    private static final double[] SOFTER_STARTS = {0.1, 0.2, 0.4};
    private static final double LEAST_DEVIATION = 1e-9;

    private final LevenbergMarquardt search = new LevenbergMarquardt(SeparableObjective.MOST_SHAPE_PARAMETERS);
    private final SeparableObjective objective = new SeparableObjective();
    /** The search that is under way. */
    private double tolerance;

    private int mostIterations = MOST_ITERATIONS;
    private double leastOffset;
    /** The least sum of squares of a plain fit that leaves out one reading. */
    private double leastOfAllButOne;

    private int iterations;
    /** How the loss is met; null for squares. */
    private Reweighting reweighting;
    /** The covariance at the end of the last search, once it was asked for. */
    private double[][] shapeCovariance;

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
        tolerance = TOLERANCE;
        double[] q = start.clone();
        if (settings.loss == Loss.SQUARES) {
            return fit(kind, readings, settings, q, null, Double.NaN);
        }
        Readings medians = readings.withDensities(RunningMedian.of(readings.densities(), readings.exposed()));
        double[] residuals = moveToMedians(kind, readings, medians, settings, q);
        ShapeFit fit = fit(kind, readings, settings, q, residuals, Double.NaN);
        boolean few = !settings.isVarianceKnown() && readings.size() <= FEW * (q.length + 2);
        boolean failed = !fit.search().stopReason().isConverged();
        int distrusted = distrusted(fit);
        if (!failed && distrusted == 0 && !few) {
            return fit;
        }
        q = start.clone();
        residuals = moveToAllButOne(kind, readings, settings, q);
        double deviation = deviation(readings, settings, residuals);
        boolean oneIsBad = few && distrusted <= 1 && isOneBad(kind, readings, settings, start);
        ShapeFit other = fit(kind, readings, settings, q, residuals, deviation);
        boolean found = oneIsBad && other.search().stopReason().isConverged();
        return found || isBetter(other, fit, readings, settings.loss) ? other : fit;
    }

    private ShapeFit fit(
            ShapeKind kind,
            Readings readings,
            Settings settings,
            double[] q,
            double[] firstResiduals,
            double firstDeviation) {
        double[] lossWeights = new double[readings.size()];
        ShapeFit.Search how = search(kind, readings, settings, q, lossWeights, firstResiduals, firstDeviation);
        double[] residuals = Arrays.copyOf(objective.residuals(), readings.size());
        double sum = 0;
        for (int i = 0; i < residuals.length; i++) {
            sum += readings.weights()[i] * residuals[i] * residuals[i];
        }
        int freedom = objective.degreesOfFreedom();
        double[] linear = {objective.offset(), objective.scale()};
        double readingVariance = settings.isVarianceKnown() ? settings.knownVariance : sum / Math.max(1, freedom);
        double variance = readingVariance;
        double[][] covariance;
        if (reweighting == null) {
            covariance = objective.covariance(shapeCovariance(q.length));
        } else {
            readingVariance = reweighting.deviation * reweighting.deviation;
            variance = reweighting.variance();
            covariance = unweightedCovariance(kind, readings, linear, q, how.penalised());
        }
        return new ShapeFit(
                kind, linear, q, covariance, residuals, lossWeights, how, sum, freedom, variance, readingVariance);
    }

    /**
     * Fits a shape once more to other readings of like errors, and tells the parameters alone, to a hundredth of their
     * standard errors. A robust loss goes on with the standard deviation of the earlier fit.
     *
     * @param earlier the fit to start from
     * @param all the readings, more than the shape has parameters
     * @param settings what to take for granted
     * @return offset, scale and shape parameters; null if the search did not converge
     * @source M. Salibian-Barrera and R. H. Zamar, Bootstrapping robust estimates of regression, Annals of Statistics 30
     *     (2002), 556–582: to start each search anew would let the bad readings break it (from memory)
     */
    public double[] refit(ShapeFit earlier, Readings all, Settings settings) {
        ShapeKind kind = earlier.kind();
        Readings readings = kind.shape().reachesBase() ? all : all.exposedOnly();
        double[] q = earlier.shape().clone();
        tolerance = REFIT_TOLERANCE;
        double[] residuals = settings.loss == Loss.SQUARES ? null : earlier.residualsOf(readings);
        double deviation = Math.sqrt(earlier.readingVariance());
        if (!search(kind, readings, settings, q, new double[readings.size()], residuals, deviation)
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

    /**
     * Moves the shape parameters from a start to the least sum of squares, and writes the weights of the loss, which begin
     * with the residuals given, or those of the start. They keep to the standard deviation given, or find their own where
     * that is NaN.
     */
    private ShapeFit.Search search(
            ShapeKind kind,
            Readings readings,
            Settings settings,
            double[] q,
            double[] lossWeights,
            double[] firstResiduals,
            double firstDeviation) {
        double[] start = q.clone();
        Bounds bounds = prepare(kind, readings, settings);
        Arrays.fill(lossWeights, 1);
        reweighting = settings.loss == Loss.SQUARES
                ? null
                : new Reweighting(readings, settings, q, bounds, lossWeights, firstDeviation);
        StopReason reason = reweighting == null ? minimise(q, bounds) : reweighting.run(firstResiduals);
        if (!settings.penalised && reweighting == null && isStuck(kind, reason)) {
            reason = retry(kind, q, bounds, start, reason);
        }
        boolean penalised = settings.penalised && isSoftnessUndetermined(kind, reason, settings);
        if (penalised) {
            penalise(kind, varianceOfReading(settings));
            if (!reason.isConverged()) {
                System.arraycopy(start, 0, q, 0, q.length);
            }
            if (reweighting == null) {
                reason = minimise(q, bounds);
            } else {
                reason = reweighting.run(reason.isConverged() ? null : firstResiduals);
                penalised = !(reason.isConverged() && isDeterminedAfterAll(kind, settings, q));
                reason = penalised && reason.isConverged() ? reweighting.run(null) : reason;
            }
        }
        int held = -1;
        for (int k = 0; k < q.length; k++) {
            if (search.isHeld(k) && (held < 0 || kind.isRun(held))) {
                held = k; // one that stops the fit goes before a run, which does not
            }
        }
        return new ShapeFit.Search(reason, iterations, penalised, objective.holdsOffset(), held);
    }

    private void penalise(ShapeKind kind, double variance) {
        objective.penalise(new SoftnessPenalty(kind, Math.log(ShapeKind.USUAL_SOFTNESS), PENALTY_SPREAD, variance));
    }

    /**
     * Whether the reweighed search gets on without the penalty from where it ended with it: bad readings may have made a
     * softness look undetermined. Otherwise the penalty is back in place, with the variance that is known by now.
     */
    private boolean isDeterminedAfterAll(ShapeKind kind, Settings settings, double[] q) {
        double variance = varianceOfReading(settings);
        double[] penalisedShape = q.clone();
        objective.penalise(null);
        StopReason reason = reweighting.run(null);
        if (reason.isConverged() && !isSoftnessUndetermined(kind, reason, settings)) {
            return true;
        }
        System.arraycopy(penalisedShape, 0, q, 0, q.length);
        penalise(kind, variance);
        return false;
    }

    /** Makes ready for a search, and returns the bounds of the shape parameters. */
    private Bounds prepare(ShapeKind kind, Readings readings, Settings settings) {
        int n = kind.shape().size();
        double[] lower = new double[n];
        double[] upper = new double[n];
        double[] x = readings.logExposures();
        kind.limit(x[0], x[x.length - 1], lower, upper);
        objective.reset(kind.shape(), x, readings.exposed(), readings.densities(), readings.weights());
        leastOffset = kind.shape().reachesBase() ? settings.leastOffset : Double.NEGATIVE_INFINITY;
        iterations = 0;
        return Bounds.of(lower, upper);
    }

    /**
     * Moves the shape parameters to those of a plain fit to running medians, or to where that would start.
     *
     * @return how far that curve lies from the readings themselves
     */
    private double[] moveToMedians(ShapeKind kind, Readings readings, Readings medians, Settings settings, double[] q) {
        double[] start = start(kind, medians);
        System.arraycopy(start, 0, q, 0, q.length);
        Bounds bounds = prepare(kind, medians, settings);
        if (minimise(start, bounds).isConverged()) {
            System.arraycopy(start, 0, q, 0, q.length);
        }
        objective.sumOfSquares(q);
        double[] residuals = new double[readings.size()];
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] = objective.residuals()[i] + medians.densities()[i] - readings.densities()[i];
        }
        return residuals;
    }

    /**
     * Moves the shape parameters to those of the plain fit to all readings but one, whichever that is, that has the least
     * sum of squares.
     *
     * @return how far that curve lies from the readings
     */
    private double[] moveToAllButOne(ShapeKind kind, Readings readings, Settings settings, double[] q) {
        double least = Double.POSITIVE_INFINITY;
        double[] weights = readings.weights();
        mostIterations = MOST_TRIAL_ITERATIONS;
        for (int i = 0; i < readings.size(); i++) {
            Readings others = readings.without(i);
            double[] trial = start(kind, others);
            if (minimise(trial, prepare(kind, others, settings)).isConverged() && search.sumOfSquares() < least) {
                least = search.sumOfSquares();
                System.arraycopy(trial, 0, q, 0, q.length);
                weights = readings.weights().clone();
                weights[i] = 0;
            }
        }
        leastOfAllButOne = least;
        mostIterations = MOST_ITERATIONS;
        prepare(kind, readings, settings);
        objective.reweigh(weights);
        objective.sumOfSquares(q);
        return Arrays.copyOf(objective.residuals(), readings.size());
    }

    /**
     * Whether the reading that is best left out lies too far off the plain fit to the others to belong to them: Student's t
     * of its deleted residual, against the greatest of as many readings. Among few readings a bad one widens the scale of
     * the fit until it looks like the others.
     *
     * @source R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982), 2.2.2 (from memory)
     */
    private boolean isOneBad(ShapeKind kind, Readings readings, Settings settings, double[] start) {
        double[] q = start.clone();
        if (!minimise(q, prepare(kind, readings, settings)).isConverged()) {
            return false;
        }
        int freedom = objective.degreesOfFreedom() - 1;
        if (freedom < 1 || !(leastOfAllButOne < search.sumOfSquares())) {
            return false;
        }
        double t = Math.sqrt((search.sumOfSquares() - leastOfAllButOne) * freedom / leastOfAllButOne);
        return t > Quantiles.student(1 - FALSE_ALARM / readings.size(), freedom);
    }

    private static int distrusted(ShapeFit fit) {
        return (int) Arrays.stream(fit.lossWeights())
                .filter(weight -> weight < DOUBTFUL)
                .count();
    }

    /** Whether a fit loses enough less than another, both measured with the greater of their standard deviations. */
    private static boolean isBetter(ShapeFit one, ShapeFit other, Readings readings, Loss loss) {
        if (!one.search().stopReason().isConverged()
                || !other.search().stopReason().isConverged()) {
            return one.search().stopReason().isConverged();
        }
        double variance = Math.max(one.readingVariance(), other.readingVariance());
        return deviance(one, readings, loss, variance) + GAIN < deviance(other, readings, loss, variance);
    }

    private static double deviance(ShapeFit fit, Readings readings, Loss loss, double variance) {
        double[] weights = readings.weights();
        double[] residuals = fit.residuals();
        double sum = 0;
        for (int i = 0; i < residuals.length; i++) {
            sum += loss.deviance(residuals[i] * Math.sqrt(weights[i] / variance));
        }
        return sum;
    }

    /** The variance of a reading of weight 1, as the last search tells it. */
    private double varianceOfReading(Settings settings) {
        if (settings.isVarianceKnown()) {
            return settings.knownVariance;
        }
        return reweighting == null
                ? search.sumOfSquares() / Math.max(1, objective.degreesOfFreedom())
                : reweighting.deviation * reweighting.deviation;
    }

    /**
     * The covariance of offset, scale and shape parameters for readings of variance 1, all trusted alike: Huber's
     * estimate of the covariance of a robust fit is a multiple of it.
     */
    private double[][] unweightedCovariance(
            ShapeKind kind, Readings readings, double[] linear, double[] q, boolean penalised) {
        int n = q.length;
        double[] parameters = new double[n + 2];
        System.arraycopy(linear, 0, parameters, 0, 2);
        System.arraycopy(q, 0, parameters, 2, n);
        boolean[] held = new boolean[n + 2];
        held[0] = objective.holdsOffset();
        for (int k = 0; k < n; k++) {
            held[k + 2] = search.isHeld(k);
        }
        HouseholderObjective linearised = new HouseholderObjective(
                new WholeProblem(kind, readings, penalised ? 1 / PENALTY_SPREAD : 0), parameters, Bounds.none(n + 2));
        double[][] triangle = new double[n + 2][n + 2];
        linearised.sumOfSquares(parameters);
        linearised.linearise(parameters, triangle, new double[n + 2]);
        return Triangle.ofFree(triangle, held).covariance();
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
        StopReason reason = minimiseOnce(q, bounds);
        if (!objective.holdsOffset() && objective.offset() < leastOffset) {
            objective.holdOffset(leastOffset);
            reason = minimiseOnce(q, bounds);
        }
        return reason;
    }

    private StopReason minimiseOnce(double[] q, Bounds bounds) {
        shapeCovariance = null;
        if (q.length == 0) {
            boolean rises = objective.sumOfSquares(q) < Double.POSITIVE_INFINITY;
            return rises ? StopReason.GRADIENT : StopReason.UNDEFINED_START;
        }
        StopReason reason = search.minimise(objective, q, bounds, tolerance, mostIterations);
        iterations += search.iterations();
        return reason;
    }

    private boolean isStuck(ShapeKind kind, StopReason reason) {
        for (int k = 0; k < kind.shape().size(); k++) {
            if ((kind.isSoftness(k) || kind.isRun(k)) && search.isHeld(k)) {
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
        double variance = varianceOfReading(settings);
        double[][] covariance = shapeCovariance(n);
        for (int k = 0; k < n; k++) {
            if (kind.isSoftness(k)
                    && (search.isHeld(k) || !(variance * covariance[k][k] < PENALTY_SPREAD * PENALTY_SPREAD))) {
                return true;
            }
        }
        return false;
    }

    /**
     * The standard deviation of a reading of weight 1: that which is known, or the median absolute residual, scaled. As
     * many residuals as there are parameters can be made 0 by a fit, so the smallest, one fewer than those, do not count.
     *
     * @source W. DuMouchel and F. O'Brien, Integrating a robust option into a multiple regression computing environment,
     *     Proc. 21st Symposium on the Interface (1989), 297–302 (from memory)
     */
    private double deviation(Readings readings, Settings settings, double[] residuals) {
        if (settings.isVarianceKnown()) {
            return Math.sqrt(settings.knownVariance);
        }
        double[] sizes = new double[readings.size()];
        for (int k = 0; k < sizes.length; k++) {
            sizes[k] = Math.abs(residuals[k]) * Math.sqrt(readings.weights()[k]);
        }
        Arrays.sort(sizes);
        int fitted = sizes.length - objective.degreesOfFreedom();
        double median = RunningMedian.median(sizes, Math.max(0, fitted - 1), sizes.length);
        return Math.max(LEAST_DEVIATION, 1.4826 * median);
    }

    /**
     * Iteratively reweighed least squares: Huber's loss to the end, then Tukey's with the scale that Huber's found; or the
     * loss itself with the scale of the first residuals, as an M-estimate follows a robust start.
     *
     * @source V. J. Yohai, High breakdown-point and high efficiency robust estimates for regression, Annals of Statistics
     *     15 (1987), 642–656: the loss follows a robust start whose scale it keeps (from memory)
     */
    private final class Reweighting {

        private final Readings readings;
        private final Settings settings;
        private final double[] q;
        private final Bounds bounds;
        private final double[] lossWeights;
        private final double[] weights;
        private final boolean keepsDeviation;
        private double[] residuals;
        private double deviation;

        Reweighting(
                Readings readings,
                Settings settings,
                double[] q,
                Bounds bounds,
                double[] lossWeights,
                double firstDeviation) {
            keepsDeviation = firstDeviation > 0;
            deviation = firstDeviation;
            this.readings = readings;
            this.settings = settings;
            this.q = q;
            this.bounds = bounds;
            this.lossWeights = lossWeights;
            weights = new double[readings.size()];
        }

        StopReason run(double[] firstResiduals) {
            residuals = firstResiduals;
            if (residuals == null) {
                if (!(objective.sumOfSquares(q) < Double.POSITIVE_INFINITY)) {
                    return StopReason.UNDEFINED_START;
                }
                residuals = objective.residuals();
            }
            if (keepsDeviation) {
                return repeat(settings.loss, false);
            }
            StopReason reason = repeat(Loss.HUBER, true);
            return settings.loss == Loss.TUKEY && reason.isConverged() ? repeat(Loss.TUKEY, false) : reason;
        }

        private StopReason repeat(Loss loss, boolean updatesScale) {
            StopReason reason = StopReason.ITERATION_LIMIT;
            for (int i = 0; i < MOST_REWEIGHTINGS; i++) {
                if (updatesScale) {
                    deviation = deviation(readings, settings, residuals);
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
                residuals = objective.residuals();
                if (!reason.isConverged()) {
                    return reason;
                }
            }
            return reason; // the weights still move in the fifth decimal: the fit itself has converged
        }

        private double standardised(int k) {
            return residuals[k] * Math.sqrt(readings.weights()[k]) / deviation;
        }

        /**
         * The factor from the covariance for readings of variance 1 to that of this fit: σ² κ² [Σ ψ²/(n − p)]/(mean ψ′)²,
         * κ = 1 + p/n · var ψ′/(mean ψ′)²; the known variance over the efficiency of the loss where it is known.
         *
         * @source P. J. Huber, Robust Statistics (1981), 7.6 (from memory)
         */
        double variance() {
            if (settings.isVarianceKnown()) {
                return settings.knownVariance / Loss.EFFICIENCY;
            }
            int n = weights.length;
            double squares = 0;
            double slopes = 0;
            double slopeSquares = 0;
            for (int k = 0; k < n; k++) {
                double u = standardised(k);
                double score = settings.loss.weight(u) * u;
                double slope = settings.loss.slope(u);
                squares += score * score;
                slopes += slope;
                slopeSquares += slope * slope;
            }
            int freedom = Math.max(1, objective.degreesOfFreedom());
            double mean = slopes / n;
            double spread = slopeSquares / n - mean * mean;
            double correction = 1 + (n - freedom) / (double) n * spread / (mean * mean);
            return deviation * deviation * correction * correction * (squares / freedom) / (mean * mean);
        }
    }

    /** All parameters together at a solution: residuals and their derivatives, with rows for a penalty. */
    private static final class WholeProblem implements LeastSquaresProblem {

        private final ShapeKind kind;
        private final Readings readings;
        private final double penaltyRoot;

        WholeProblem(ShapeKind kind, Readings readings, double penaltyRoot) {
            this.kind = kind;
            this.readings = readings;
            this.penaltyRoot = penaltyRoot;
        }

        @Override
        public int parameterCount() {
            return kind.shape().size() + 2;
        }

        @Override
        public int residualCount() {
            return readings.size() + kind.shape().size();
        }

        @Override
        public void residuals(double[] parameters, double[] residuals) {
            Arrays.fill(residuals, 0); // the derivatives alone are asked for
        }

        @Override
        public boolean jacobian(double[] parameters, double[][] columns) {
            int n = kind.shape().size();
            int exposed = readings.exposed();
            double[] values = new double[exposed];
            double[][] partials = new double[n][exposed];
            kind.shape()
                    .fill(readings.logExposures(), exposed, Arrays.copyOfRange(parameters, 2, n + 2), values, partials);
            for (double[] column : columns) {
                Arrays.fill(column, 0);
            }
            for (int i = 0; i < readings.size(); i++) {
                double root = Math.sqrt(readings.weights()[i]);
                columns[0][i] = root;
                if (i < exposed) {
                    columns[1][i] = root * values[i];
                    for (int k = 0; k < n; k++) {
                        columns[k + 2][i] = root * parameters[1] * partials[k][i];
                    }
                }
            }
            for (int k = 0; k < n; k++) {
                columns[k + 2][readings.size() + k] = kind.isSoftness(k) ? penaltyRoot : 0;
            }
            return true;
        }
    }
}
