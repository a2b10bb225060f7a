// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * The search for the least sum of squares: Levenberg and Marquardt's method in the trust-region form of Moré, with
 * simple bounds by an active set and a statistical end.
 *
 * <p>Each step minimises ‖R δ + z‖ with ‖D δ‖ ≤ Δ, where D holds the greatest norm yet seen of every column, so the
 * search does not depend on the units of the parameters. Parameters at a bound that the gradient pushes outward are held.
 *
 * <p>It ends when Bates and Watts's relative offset is small: the length of the residuals along the model, per
 * parameter, as a fraction of their length across it, per degree of freedom. An offset of 10<sup>−3</sup> means that the
 * parameters are off by about a thousandth of their standard errors, whatever their units. Once it is below a tenth,
 * steps are taken by the second derivatives, if the objective gives them and they do not differ much from the linear model:
 * few more are then needed. At the very end, where the sum of squares can no longer tell better from worse, full steps are
 * taken for as long as the offset falls.
 *
 * <p>An instance is a reusable workspace for one thread.
 *
 * @source J. J. Moré, The Levenberg–Marquardt algorithm: implementation and theory, Lecture Notes in Mathematics 630
 *     (1978), 105–116; D. M. Bates and D. G. Watts, A relative offset orthogonality convergence criterion for nonlinear
 *     least squares, Technometrics 23 (1981), 179–183 (both from memory)
 */
final class LevenbergMarquardt {

    private static final double FIRST_RADIUS = 1;
    private static final double LEAST_RATIO = 1e-4;
    /** Below this relative offset the second derivatives are asked for: farther off they lead astray. */
    private static final double NEAR = 0.1;
    /** Below this relative reduction the sum of squares does not tell better from worse. */
    private static final double ROUNDING = 1e-12;

    private static final double LEAST_SHARE = 0.01;
    private static final double LEAST_FALL = 0.98;
    private static final int MOST_SHORTENINGS = 60;
    private static final double EXACT = 1e-22;
    private static final double SHORTEST_STEP = 1e-14;
    /** The greatest relative offset that counts as a minimum when nothing more can be gained. */
    private static final double PRECISION_OFFSET = 1e-4;

    private final TrustRegionStep subproblem;
    private final double[][] triangle;
    private final double[][] freeTriangle;
    private final double[] projected;
    private final double[] freeProjected;
    private final double[] scale;
    private final double[] freeScale;
    private final double[] step;
    private final double[] freeStep;
    private final double[] trial;
    private final int[] free;
    private int freeCount;
    /** The model that steps are taken by: the linear one, or near the end that with the second derivatives. */
    private double[][] modelTriangle;

    private double[] modelProjected;
    /** The same of the free parameters. */
    private double[][] activeTriangle;

    private double[] activeProjected;
    private double[] activeScale;
    private double sumOfSquares;
    private int iterations;
    private int evaluations;
    private double offset;

    /** A workspace for so many parameters, and for objectives whose linear model comes from normal equations or not. */
    LevenbergMarquardt(int parameters, boolean fromNormalEquations) {
        subproblem = new TrustRegionStep(parameters, fromNormalEquations);
        triangle = new double[parameters][parameters];
        freeTriangle = new double[parameters][parameters];
        projected = new double[parameters];
        freeProjected = new double[parameters];
        scale = new double[parameters];
        freeScale = new double[parameters];
        step = new double[parameters];
        freeStep = new double[parameters];
        trial = new double[parameters];
        free = new int[parameters];
    }

    double sumOfSquares() {
        return sumOfSquares;
    }

    int iterations() {
        return iterations;
    }

    int evaluations() {
        return evaluations;
    }

    double relativeOffset() {
        return offset;
    }

    /** R at the parameters found; by rows. */
    double[][] triangle() {
        return triangle;
    }

    /** Whether a parameter was held at its bound in the end. */
    boolean isHeld(int parameter) {
        for (int k = 0; k < freeCount; k++) {
            if (free[k] == parameter) {
                return false;
            }
        }
        return true;
    }

    /** Moves the parameters, which are the start, to the least sum of squares. */
    StopReason minimise(Objective objective, double[] parameters, Bounds bounds, double tolerance, int mostIterations) {
        int n = objective.size();
        for (int j = 0; j < n; j++) {
            parameters[j] = bounds.clamp(j, parameters[j]);
        }
        evaluations = 1;
        iterations = 0;
        offset = Double.POSITIVE_INFINITY;
        sumOfSquares = objective.sumOfSquares(parameters);
        if (!(sumOfSquares < Double.POSITIVE_INFINITY)) {
            return StopReason.UNDEFINED_START;
        }
        double exact = EXACT * sumOfSquares;
        Arrays.fill(scale, 0, n, 0);
        double radius = 0;
        double damping = 0;
        linearise(objective, parameters, bounds);
        while (true) {
            double before = offset;
            offset = offset(objective);
            if (offset <= tolerance || freeCount == 0) {
                return StopReason.GRADIENT;
            }
            if (iterations == mostIterations) {
                return StopReason.ITERATION_LIMIT;
            }
            if (sumOfSquares <= exact && offset >= 0.5 * before) {
                return StopReason.EXACT_FIT;
            }
            iterations++;
            if (offset < NEAR && freeCount == n && objective.bend(parameters, freeTriangle, freeProjected)) {
                useModel(freeTriangle, freeProjected);
            }
            if (radius == 0) {
                double size = scaledNorm(parameters, n);
                radius = size > 0 ? FIRST_RADIUS * size : FIRST_RADIUS;
            }
            boolean moved = false;
            int shortened = 0;
            while (!moved) {
                damping = subproblem.solve(
                        activeTriangle, activeProjected, activeScale, freeCount, radius, damping, freeStep);
                spread(parameters, bounds, n);
                double length = scaledNorm(step, n);
                double predicted = predictedReduction(n) / sumOfSquares;
                double reached = objective.sumOfSquares(trial);
                evaluations++;
                double actual = reached < Double.POSITIVE_INFINITY ? 1 - reached / sumOfSquares : -1;
                if (Math.abs(predicted) <= ROUNDING) {
                    // Sums of squares are blind here; the offset decides.
                    if (damping > 0 || !(Math.abs(actual) <= 100 * ROUNDING)) {
                        return ended(objective, parameters, exact);
                    }
                    double offsetBefore = offset;
                    double sumBefore = sumOfSquares;
                    System.arraycopy(parameters, 0, freeStep, 0, n);
                    accept(objective, parameters, bounds, reached, n);
                    double offsetAfter = offset(objective);
                    if (offsetAfter > LEAST_FALL * offsetBefore) {
                        if (offsetAfter > offsetBefore) {
                            System.arraycopy(freeStep, 0, trial, 0, n);
                            objective.sumOfSquares(trial);
                            accept(objective, parameters, bounds, sumBefore, n);
                        }
                        offset = offset(objective);
                        return offset <= tolerance ? StopReason.GRADIENT : ended(objective, parameters, exact);
                    }
                    moved = true;
                    continue;
                }
                double ratio = predicted > 0 ? actual / predicted : -1;
                if (iterations == 1) {
                    radius = Math.min(radius, length);
                }
                if (ratio <= 0.25) {
                    double shrink = actual >= 0 ? 0.5 : slopeShrink(actual, damping, length);
                    radius = shrink * Math.min(radius, length / 0.1);
                    damping /= shrink;
                } else if (damping == 0 || ratio >= 0.75) {
                    radius = length / 0.5;
                    damping *= 0.5;
                }
                if (ratio >= LEAST_RATIO) {
                    accept(objective, parameters, bounds, reached, n);
                    moved = true;
                } else if (radius <= SHORTEST_STEP * Math.max(scaledNorm(parameters, n), Double.MIN_NORMAL)
                        || ++shortened == MOST_SHORTENINGS) {
                    return ended(objective, parameters, exact);
                }
            }
        }
    }

    private StopReason ended(Objective objective, double[] parameters, double exact) {
        objective.sumOfSquares(parameters); // the last trial may have been another
        if (sumOfSquares <= exact) {
            return StopReason.EXACT_FIT;
        }
        return offset <= PRECISION_OFFSET ? StopReason.PRECISION : StopReason.STALLED;
    }

    /** The factor from a parabola through the old and new sums of squares and the slope between them. */
    private double slopeShrink(double actual, double damping, double length) {
        double along = 0;
        for (int i = 0; i < freeCount; i++) {
            double sum = 0;
            for (int k = i; k < freeCount; k++) {
                sum += activeTriangle[i][k] * freeStep[k];
            }
            along += sum * sum;
        }
        double slope = -(along / sumOfSquares + damping * length * length / sumOfSquares);
        double shrink = 0.5 * slope / (slope + 0.5 * actual);
        return actual > -99 && shrink > 0.1 ? Math.min(shrink, 0.5) : 0.1;
    }

    private void accept(Objective objective, double[] parameters, Bounds bounds, double reached, int n) {
        System.arraycopy(trial, 0, parameters, 0, n);
        sumOfSquares = reached;
        linearise(objective, parameters, bounds);
    }

    private void linearise(Objective objective, double[] parameters, Bounds bounds) {
        int n = objective.size();
        objective.linearise(parameters, triangle, projected);
        freeCount = 0;
        for (int j = 0; j < n; j++) {
            double norm = 0;
            double slope = 0;
            for (int i = 0; i <= j; i++) {
                double element = triangle[i][j];
                norm += element * element;
                slope += element * projected[i];
            }
            scale[j] = Math.max(scale[j], Math.sqrt(norm));
            if (scale[j] == 0) {
                scale[j] = 1;
            }
            boolean held = (slope >= 0 && bounds.isAtLower(j, parameters[j]))
                    || (slope <= 0 && bounds.isAtUpper(j, parameters[j]));
            if (!held) {
                free[freeCount++] = j;
            }
        }
        useModel(triangle, projected);
        if (freeCount < n) {
            reduce(n);
        }
    }

    private void useModel(double[][] modelOfAll, double[] projectedOfAll) {
        modelTriangle = modelOfAll;
        modelProjected = projectedOfAll;
        activeTriangle = modelOfAll;
        activeProjected = projectedOfAll;
        activeScale = scale;
    }

    /** The linear model of the free parameters alone. */
    private void reduce(int n) {
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < freeCount; k++) {
                freeTriangle[i][k] = free[k] >= i ? triangle[i][free[k]] : 0;
            }
            freeProjected[i] = projected[i];
        }
        for (int k = 0; k < freeCount; k++) {
            freeScale[k] = scale[free[k]];
            for (int i = n - 1; i > k; i--) {
                Givens.rotateRows(freeTriangle, freeProjected, k, i, freeCount);
            }
        }
        activeTriangle = freeTriangle;
        activeProjected = freeProjected;
        activeScale = freeScale;
    }

    private double offset(Objective objective) {
        double along = 0;
        for (int k = 0; k < freeCount; k++) {
            along += activeProjected[k] * activeProjected[k];
        }
        double across = Math.max(sumOfSquares - along, 0);
        int freedom = Math.max(1, objective.degreesOfFreedom());
        return along == 0 ? 0 : Math.sqrt(along / Math.max(1, freeCount) / (across / freedom));
    }

    private void spread(double[] parameters, Bounds bounds, int n) {
        Arrays.fill(step, 0, n, 0);
        double share = 1;
        for (int k = 0; k < freeCount; k++) {
            int j = free[k];
            step[j] = freeStep[k];
            double inside = bounds.clamp(j, parameters[j] + step[j]) - parameters[j];
            if (inside != step[j]) {
                share = Math.min(share, inside / step[j]);
            }
        }
        // Up to the first bound along the step; where that is next to nothing, every parameter up to its own.
        share = share < LEAST_SHARE ? 1 : share;
        for (int j = 0; j < n; j++) {
            trial[j] = bounds.clamp(j, parameters[j] + share * step[j]);
            step[j] = trial[j] - parameters[j];
        }
        for (int k = 0; k < freeCount; k++) {
            freeStep[k] = step[free[k]];
        }
    }

    /** ‖z‖² − ‖R δ + z‖². */
    private double predictedReduction(int n) {
        double reduction = 0;
        for (int i = 0; i < n; i++) {
            double change = 0;
            for (int j = i; j < n; j++) {
                change += modelTriangle[i][j] * step[j];
            }
            reduction -= change * (change + 2 * modelProjected[i]);
        }
        return reduction;
    }

    private double scaledNorm(double[] vector, int n) {
        double sum = 0;
        for (int j = 0; j < n; j++) {
            double scaled = scale[j] * vector[j];
            sum += scaled * scaled;
        }
        return Math.sqrt(sum);
    }
}
