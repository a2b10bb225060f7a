package org.tonewedge.fitting.spline;

/**
 * The search for the smoothing, along its logarithm: a coarse grid from all but interpolation to all but a straight line,
 * then R. P. Brent's method of parabolas and golden sections (Algorithms for Minimization without Derivatives, 1973,
 * chapter 5; citation from memory).
 */
final class SmoothingSearch {

    /** What a degree of freedom costs in penalised cross-validation. */
    private static final double PENALTY = 1.2;

    private static final double GRID_STEP = Math.log(10);
    private static final double GOLDEN = 0.5 * (3 - Math.sqrt(5));
    /** Of the logarithm: the score is flat at its least, so that a thousandth of a percent changes nothing seen. */
    private static final double TOLERANCE = 1e-6;

    private static final int MOST_ITERATIONS = 100;
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

    /** The smoothing of the least score. */
    double best(SmoothingCriterion criterion) {
        double straight = system.straightLineSmoothing();
        if (isStraight(straight)) {
            return straight;
        }
        double lowest = Math.log(1e-3 * system.balancedSmoothing());
        double highest = Math.log(straight);
        int cells = (int) Math.ceil((highest - lowest) / GRID_STEP);
        double step = (highest - lowest) / cells;
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= cells; i++) {
            double score = score(criterion, Math.exp(lowest + i * step));
            if (score < least) {
                least = score;
                best = i;
            }
        }
        return Math.exp(narrow(
                criterion,
                lowest + Math.max(0, best - 1) * step,
                lowest + Math.min(cells, best + 1) * step,
                lowest + best * step,
                least));
    }

    /** Whether the readings lie on a straight line but for rounding, where every score is rounding too. */
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

    private double narrow(SmoothingCriterion criterion, double from, double to, double start, double startScore) {
        double a = from;
        double b = to;
        double x = start;
        double w = start;
        double v = start;
        double fx = startScore;
        double fw = startScore;
        double fv = startScore;
        double step = 0;
        double stepBefore = 0;
        for (int k = 0; k < MOST_ITERATIONS; k++) {
            double middle = 0.5 * (a + b);
            if (Math.abs(x - middle) <= 2 * TOLERANCE - 0.5 * (b - a)) {
                break;
            }
            double r = (x - w) * (fx - fv);
            double q = (x - v) * (fx - fw);
            double p = (x - v) * q - (x - w) * r;
            q = 2 * (q - r);
            p = q > 0 ? -p : p;
            q = Math.abs(q);
            boolean parabola = Math.abs(stepBefore) > TOLERANCE
                    && Math.abs(p) < Math.abs(0.5 * q * stepBefore)
                    && p > q * (a - x)
                    && p < q * (b - x);
            if (parabola) {
                stepBefore = step;
                step = p / q;
                if (x + step - a < 2 * TOLERANCE || b - x - step < 2 * TOLERANCE) {
                    step = Math.copySign(TOLERANCE, middle - x);
                }
            } else {
                stepBefore = x < middle ? b - x : a - x;
                step = GOLDEN * stepBefore;
            }
            double u = x + (Math.abs(step) >= TOLERANCE ? step : Math.copySign(TOLERANCE, step));
            double fu = score(criterion, Math.exp(u));
            if (fu <= fx) {
                if (u < x) {
                    b = x;
                } else {
                    a = x;
                }
                v = w;
                fv = fw;
                w = x;
                fw = fx;
                x = u;
                fx = fu;
            } else {
                if (u < x) {
                    a = u;
                } else {
                    b = u;
                }
                if (fu <= fw || w == x) {
                    v = w;
                    fv = fw;
                    w = u;
                    fw = fu;
                } else if (fu <= fv || v == x || v == w) {
                    v = u;
                    fv = fu;
                }
            }
        }
        return x;
    }

    /** The smoothing that leaves the curve stated degrees of freedom, more than 2 and less than the number of knots. */
    double forDegreesOfFreedom(double degreesOfFreedom) {
        double low = system.balancedSmoothing();
        while (low > Double.MIN_NORMAL && degreesOfFreedom(low) < degreesOfFreedom) {
            low *= 1e-3;
        }
        double high = system.straightLineSmoothing();
        while (high < 1 / Double.MIN_NORMAL && degreesOfFreedom(high) > degreesOfFreedom) {
            high *= 1e3;
        }
        double a = Math.log(low);
        double b = Math.log(high);
        for (int k = 0; k < MOST_ITERATIONS && b - a > 1e-13; k++) {
            double middle = 0.5 * (a + b);
            if (degreesOfFreedom(Math.exp(middle)) > degreesOfFreedom) {
                a = middle;
            } else {
                b = middle;
            }
        }
        return Math.exp(0.5 * (a + b));
    }
}
