// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.concurrent.atomic.AtomicReferenceArray;

/**
 * Finds the least of {@link ShapeProblem}s of one size: the arrays that {@link LevenbergMarquardt} and
 * {@link SeparableObjective} work in, for one thread. Nothing of one search reaches the next.
 */
public final class ShapeMinimiser {

    /**
     * Residuals whose squares are less than this share of those of the readings are rounding: a search that can go no
     * further there has ended.
     */
    private static final double ROUNDING = 1e-15;

    /** Room for so many readings is kept from fit to fit. */
    private static final int KEPT = 64;

    private static final int PLACES = 8;
    /** Places so far apart that two threads do not write to the same line of the cache. */
    private static final int APART = 16;

    /**
     * Workspaces that no fit uses, without the readings of the last one: new memory for each fit costs time. They belong to
     * this class, not to a thread, so that they go with the library when it is unloaded. Threads that share a place take
     * what is there or make another.
     */
    private static final AtomicReferenceArray<ShapeMinimiser> SPARE = new AtomicReferenceArray<>(PLACES * APART);

    private final int parameters;
    private final int room;
    private final LevenbergMarquardt search;
    private final SeparableObjective objective;
    /** The shape parameters of the last minimum, this very array, while the objective is as it was left there. */
    private double[] linearisedAt = {};

    /**
     * Makes room for fits of a shape.
     *
     * @param kind the shape
     * @param readings readings as many as there will be
     */
    public ShapeMinimiser(ShapeKind kind, Readings readings) {
        this(kind.shape().size(), readings.size());
    }

    private ShapeMinimiser(int parameters, int readings) {
        this.parameters = parameters;
        room = readings;
        search = new LevenbergMarquardt(parameters, true);
        objective = new SeparableObjective(parameters, readings);
    }

    /** A workspace for one fit, which {@link #release}s it when it is over. */
    static ShapeMinimiser acquire(ShapeKind kind, Readings readings) {
        if (readings.size() > KEPT) {
            return new ShapeMinimiser(kind, readings);
        }
        ShapeMinimiser spare = SPARE.getAndSet(place(), null);
        if (spare == null || spare.parameters != kind.shape().size()) {
            return new ShapeMinimiser(kind.shape().size(), KEPT);
        }
        return spare;
    }

    /**
     * Leaves this workspace to a later fit; nobody may use it from here on. After an exception it need not be left: the next
     * fit makes another.
     */
    void release() {
        if (room == KEPT) {
            objective.forget();
            linearisedAt = new double[0];
            SPARE.set(place(), this);
        }
    }

    private static int place() {
        return (int) (Thread.currentThread().getId() % PLACES) * APART;
    }

    /** Moves from a start to the least; where the offset falls below its least value there, once more with it held. */
    ShapeMinimum minimise(ShapeProblem problem, double[] start, Effort effort) {
        ShapeMinimum free = minimiseOnce(problem, start, effort);
        return !problem.holdsOffset() && free.offset() < problem.leastOffset()
                ? minimiseOnce(problem.holdingOffset(), free.shape(), effort).after(free)
                : free;
    }

    private ShapeMinimum minimiseOnce(ShapeProblem problem, double[] start, Effort effort) {
        objective.reset(problem);
        double[] q = start.clone();
        int n = q.length;
        StopReason reason;
        double sum;
        int iterations = 0;
        boolean[] held = new boolean[n];
        double[][] shapeCovariance;
        if (n == 0) {
            sum = objective.sumOfSquares(q);
            reason = sum < Double.POSITIVE_INFINITY ? StopReason.GRADIENT : StopReason.UNDEFINED_START;
            shapeCovariance = new double[0][];
        } else {
            reason = search.minimise(objective, q, problem.bounds(), effort.tolerance(), effort.mostIterations());
            sum = search.sumOfSquares();
            if (!reason.isConverged() && sum <= ROUNDING * squares(problem.readings())) {
                reason = StopReason.EXACT_FIT;
            }
            iterations = search.iterations();
            if (reason.isConverged()) {
                for (int k = 0; k < n; k++) {
                    held[k] = search.isHeld(k);
                }
                shapeCovariance = Triangle.ofFree(search.triangle(), held).covariance();
            } else {
                shapeCovariance = Triangle.square(n);
            }
        }
        linearisedAt = q;
        return new ShapeMinimum(
                problem,
                reason,
                iterations,
                q,
                objective.offset(),
                objective.scale(),
                sum,
                objective.residuals(),
                held,
                shapeCovariance);
    }

    /** The covariance of offset, scale and shape parameters at a minimum for readings of weight 1 and variance 1. */
    double[][] covariance(ShapeMinimum minimum) {
        int n = minimum.shape().length;
        if (minimum.shape() != linearisedAt) {
            objective.reset(minimum.problem());
            objective.sumOfSquares(minimum.shape());
            objective.linearise(minimum.shape(), new double[n][n], new double[n]);
            linearisedAt = minimum.shape();
        }
        return objective.covariance(minimum.shapeCovariance());
    }

    private static double squares(Readings readings) {
        double sum = 0;
        for (int i = 0; i < readings.size(); i++) {
            sum += readings.weights()[i] * readings.densities()[i] * readings.densities()[i];
        }
        return sum;
    }

    /** How far the best curve with given shape parameters lies from the readings. */
    double[] residualsAt(ShapeProblem problem, double[] q) {
        linearisedAt = new double[0];
        objective.reset(problem);
        objective.sumOfSquares(q);
        return objective.residuals();
    }
}
