// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * What a search makes as small as it can: the weighted squares of a shape's distances from readings, with a penalty on
 * softness or without one, over shape parameters within bounds. The offset is fitted, or held at its least value.
 * Immutable; the arrays are not to be changed.
 */
final class ShapeProblem {

    private final ShapeKind kind;
    private final Readings readings;
    private final double[] weights;
    private final Bounds bounds;
    private final SoftnessPenalty penalty;
    private final double leastOffset;
    private final boolean holdsOffset;

    private ShapeProblem(
            ShapeKind kind,
            Readings readings,
            double[] weights,
            Bounds bounds,
            SoftnessPenalty penalty,
            double leastOffset,
            boolean holdsOffset) {
        this.kind = kind;
        this.readings = readings;
        this.weights = weights;
        this.bounds = bounds;
        this.penalty = penalty;
        this.leastOffset = leastOffset;
        this.holdsOffset = holdsOffset;
    }

    /** The plain problem: every reading with its own weight, no penalty, the offset fitted. */
    static ShapeProblem of(ShapeKind kind, Readings readings, FitSettings settings) {
        int n = kind.shape().size();
        double[] lower = new double[n];
        double[] upper = new double[n];
        double[] x = readings.logExposures();
        kind.limit(x[0], x[x.length - 1], lower, upper);
        return new ShapeProblem(
                kind,
                readings,
                readings.weights(),
                Bounds.of(lower, upper),
                SoftnessPenalty.none(kind),
                kind.shape().reachesBase() ? settings.leastOffset() : Double.NEGATIVE_INFINITY,
                false);
    }

    ShapeProblem weighted(double[] others) {
        return new ShapeProblem(kind, readings, others, bounds, penalty, leastOffset, holdsOffset);
    }

    ShapeProblem penalised(SoftnessPenalty other) {
        return new ShapeProblem(kind, readings, weights, bounds, other, leastOffset, holdsOffset);
    }

    ShapeProblem holdingOffset() {
        return new ShapeProblem(kind, readings, weights, bounds, penalty, leastOffset, true);
    }

    ShapeKind kind() {
        return kind;
    }

    Readings readings() {
        return readings;
    }

    double[] weights() {
        return weights;
    }

    Bounds bounds() {
        return bounds;
    }

    SoftnessPenalty penalty() {
        return penalty;
    }

    double leastOffset() {
        return leastOffset;
    }

    boolean holdsOffset() {
        return holdsOffset;
    }

    /** The readings less the parameters that are fitted. */
    int degreesOfFreedom() {
        return readings.size() - kind.shape().size() - (holdsOffset ? 1 : 2);
    }
}
