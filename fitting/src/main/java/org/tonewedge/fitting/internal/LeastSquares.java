// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * Nonlinear least squares for any model: the one engine of this module.
 *
 * <p>Describe the residuals as a {@link LeastSquaresProblem}, then solve from a start:
 *
 * <pre>{@code
 * LeastSquaresSolution solution = LeastSquares.withDefaults().
 *         withBounds(Bounds.of(lower, upper)). // optional
 *         solve(problem, start);
 * if (!solution.stopReason().isConverged()) { … }
 * double[] best = solution.parameters();
 * double[] errors = solution.standardErrors(); // scaled by the residual standard deviation
 * }</pre>
 *
 * <p>Without analytic derivatives the engine takes differences of fourth order. The search is that of
 * {@link LevenbergMarquardt}; it does not depend on the units of the parameters. Curves whose density is linear in two of
 * their parameters are searched by the same engine through {@link SeparableObjective}, over the other parameters alone.
 *
 * <p>Immutable and thread safe.
 */
public final class LeastSquares {

    /** The default of {@link #withTolerance(double)}. */
    public static final double DEFAULT_TOLERANCE = 1e-9;

    /** The default of {@link #withMostIterations(int)}. */
    public static final int DEFAULT_MOST_ITERATIONS = 1000;

    private static final LeastSquares DEFAULTS = new LeastSquares(null, DEFAULT_TOLERANCE, DEFAULT_MOST_ITERATIONS);

    private final Bounds bounds;
    private final double tolerance;
    private final int mostIterations;

    private LeastSquares(Bounds bounds, double tolerance, int mostIterations) {
        this.bounds = bounds;
        this.tolerance = tolerance;
        this.mostIterations = mostIterations;
    }

    /**
     * Returns the engine without bounds and with the default tolerance and limit of iterations.
     *
     * @return the engine
     */
    public static LeastSquares withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns this engine with bounds.
     *
     * @param limits the bounds
     * @return a copy with the bounds
     */
    public LeastSquares withBounds(Bounds limits) {
        return new LeastSquares(limits, tolerance, mostIterations);
    }

    /**
     * Returns this engine with another tolerance.
     *
     * @param relativeOffset the relative offset at which the search ends: about the error of the parameters as a fraction
     *     of their standard errors
     * @return a copy with the tolerance
     */
    public LeastSquares withTolerance(double relativeOffset) {
        return new LeastSquares(bounds, relativeOffset, mostIterations);
    }

    /**
     * Returns this engine with another limit of iterations.
     *
     * @param limit the limit, above 0
     * @return a copy with the limit
     */
    public LeastSquares withMostIterations(int limit) {
        return new LeastSquares(bounds, tolerance, limit);
    }

    /**
     * Finds the parameters with the least sum of squared residuals.
     *
     * @param problem the residuals
     * @param start where the search starts; a value outside its bounds is moved to the bound
     * @return what was found, and why the search ended; look at {@link LeastSquaresSolution#stopReason()} first
     * @throws IllegalArgumentException if the start or the bounds have another number of parameters than the problem, or
     *     the problem has fewer residuals than parameters
     */
    public LeastSquaresSolution solve(LeastSquaresProblem problem, double... start) {
        int n = problem.parameterCount();
        Bounds limits = bounds == null ? Bounds.none(n) : bounds;
        if (start.length != n || limits.size() != n) {
            throw new IllegalArgumentException("the problem has " + n + " parameters, the start " + start.length
                    + " and the bounds " + limits.size());
        }
        if (problem.residualCount() < n) {
            throw new IllegalArgumentException("least squares needs as many residuals as parameters, had "
                    + problem.residualCount() + " and " + n);
        }
        double[] parameters = start.clone();
        HouseholderObjective objective = new HouseholderObjective(problem, start.clone(), limits);
        LevenbergMarquardt search = new LevenbergMarquardt(n, false);
        StopReason reason = search.minimise(objective, parameters, limits, tolerance, mostIterations);
        double[] residuals = new double[problem.residualCount()];
        problem.residuals(parameters, residuals);
        boolean[] held = new boolean[n];
        for (int j = 0; j < n; j++) {
            held[j] = search.isHeld(j);
        }
        return new LeastSquaresSolution(parameters, residuals, search, held, reason);
    }
}
