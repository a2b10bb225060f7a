// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The natural spline with the least penalised sum of squares among those whose gradient keeps one sign everywhere: a
 * convex quadratic programme with one constraint at each of infinitely many positions.
 *
 * <p>Solved from the free spline by the dual active-set method of D. Goldfarb and A. Idnani, A numerically stable dual
 * method for solving strictly convex quadratic programs, Mathematical Programming 27 (1983) 1–33. Each new constraint
 * is the deepest violation found anywhere on the curve, not only at the knots, in the manner of B. A. Turlach, Shape
 * constrained smoothing using smoothing splines, Computational Statistics 20 (2005) 81–104 (both citations from
 * memory). The gradient is kept above a millionth of the average gradient, not above 0, so that the search ends with a
 * curve that nowhere turns back.
 */
final class MonotoneProjection {

    private static final double MARGIN = 1e-6;
    /** A new constraint that adds less than this fraction of itself depends on the active ones. */
    private static final double DEPENDENT = 1e-13;

    private static final int MOST_STEPS = 2000;

    private final SplineSpace space;
    private final BandedFactor factor;
    private final double[] free;
    private final double sign;
    private final double margin;
    private final double firstBound;
    private final double firstTolerance;
    private final List<Constraint> held = new ArrayList<>();
    private double[] values;

    /** Position weights · values ≥ bound, with the covariance times the weights, and the multiplier. */
    private static final class Constraint {
        final double[] weights;
        final double[] response;
        final double bound;
        double multiplier;

        Constraint(double[] weights, double[] response, double bound) {
            this.weights = weights;
            this.response = response;
            this.bound = bound;
        }

        double shortfall(double[] values) {
            return bound - dot(weights, values);
        }
    }

    /**
     * Takes the free spline's values at the knots, and the sign of the gradient wanted.
     *
     * @param firstBound the bound of the first value: at least this if the curve rises, at most this if it falls
     */
    MonotoneProjection(
            ReinschSystem system,
            SplineSpace space,
            BandedFactor factor,
            double[] free,
            double sign,
            OptionalDouble firstBound) {
        this.space = space;
        this.factor = factor;
        this.free = free;
        this.sign = sign;
        double range = Arrays.stream(system.y).max().orElseThrow()
                - Arrays.stream(system.y).min().orElseThrow();
        margin = MARGIN * range / (system.x[system.x.length - 1] - system.x[0]);
        this.firstBound = firstBound.isPresent() ? sign * firstBound.getAsDouble() : Double.NEGATIVE_INFINITY;
        firstTolerance = MARGIN * range * MARGIN;
        values = free.clone();
    }

    /** The values at the knots; empty if the search did not end. */
    Optional<double[]> solve() {
        for (int step = 0; step < MOST_STEPS; ) {
            Optional<Constraint> violated = deepestViolation();
            if (violated.isEmpty()) {
                return Optional.of(values);
            }
            Constraint added = violated.get();
            boolean complete = false;
            while (!complete && step++ < MOST_STEPS) {
                complete = moveTowards(added);
            }
            restoreFromMultipliers();
        }
        return Optional.empty();
    }

    private Optional<Constraint> deepestViolation() {
        NaturalSpline spline = space.spline(values);
        double at = spline.leastGradientPosition(sign);
        if (sign * spline.gradient(at) < 0.5 * margin) {
            return Optional.of(constraint(space.slopeFunctional(at), margin));
        }
        if (sign * values[0] < firstBound - firstTolerance) {
            double[] first = new double[values.length];
            first[0] = 1;
            return Optional.of(constraint(first, firstBound));
        }
        return Optional.empty();
    }

    private Constraint constraint(double[] functional, double bound) {
        double[] weights = new double[functional.length];
        for (int i = 0; i < weights.length; i++) {
            weights[i] = sign * functional[i];
        }
        return new Constraint(weights, factor.covarianceTimes(weights), bound);
    }

    /**
     * Raises the multiplier of a violated constraint until it is met (true) or an active one must be released (false).
     */
    private boolean moveTowards(Constraint added) {
        double[] share = sharesOfHeld(added);
        double curvature = dot(added.weights, added.response);
        double own = curvature;
        for (int k = 0; k < share.length; k++) {
            own -= share[k] * dot(held.get(k).weights, added.response);
        }
        double fullStep =
                own > DEPENDENT * curvature ? Math.max(0, added.shortfall(values)) / own : Double.POSITIVE_INFINITY;
        double step = fullStep;
        int leaving = -1;
        for (int k = 0; k < share.length; k++) {
            if (share[k] > 0 && held.get(k).multiplier / share[k] < step) {
                step = held.get(k).multiplier / share[k];
                leaving = k;
            }
        }
        if (step == Double.POSITIVE_INFINITY) {
            return true; // met but for rounding by those held
        }
        for (int k = 0; k < share.length; k++) {
            held.get(k).multiplier -= step * share[k];
        }
        added.multiplier += step;
        if (fullStep < Double.POSITIVE_INFINITY) {
            add(step, added.response);
            for (int k = 0; k < share.length; k++) {
                add(-step * share[k], held.get(k).response);
            }
        }
        if (leaving >= 0) {
            held.remove(leaving);
            return false;
        }
        held.add(added);
        return true;
    }

    /** How the response of a constraint is composed of those of the active constraints, by Cholesky's method. */
    private double[] sharesOfHeld(Constraint added) {
        int m = held.size();
        double[][] lower = new double[m][m];
        double[] share = new double[m];
        for (int i = 0; i < m; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = dot(held.get(i).weights, held.get(j).response);
                for (int k = 0; k < j; k++) {
                    sum -= lower[i][k] * lower[j][k];
                }
                lower[i][j] = i == j ? Math.sqrt(sum) : sum / lower[j][j];
            }
            double sum = dot(held.get(i).weights, added.response);
            for (int k = 0; k < i; k++) {
                sum -= lower[i][k] * share[k];
            }
            share[i] = sum / lower[i][i];
        }
        for (int i = m - 1; i >= 0; i--) {
            for (int k = i + 1; k < m; k++) {
                share[i] -= lower[k][i] * share[k];
            }
            share[i] /= lower[i][i];
        }
        return share;
    }

    private void restoreFromMultipliers() {
        values = free.clone();
        for (Constraint constraint : held) {
            add(constraint.multiplier, constraint.response);
        }
    }

    private void add(double factorOfResponse, double[] response) {
        for (int i = 0; i < values.length; i++) {
            values[i] += factorOfResponse * response[i];
        }
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
