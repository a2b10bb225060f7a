// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * A weak preference for usual softnesses: ((ln s − ln s₀)/τ)² times the variance of a reading is added to the sum of
 * squares for each softness of a shape. s₀ is {@link ShapeKind#USUAL_SOFTNESS}.
 */
final class SoftnessPenalty {

    /** τ, in units of ln s; a softness whose logarithm has a greater standard error counts as open. */
    static final double SPREAD = 1;

    private static final double USUAL = Math.log(ShapeKind.USUAL_SOFTNESS);

    private final ShapeKind kind;
    private final boolean none;
    private final double weight;

    private SoftnessPenalty(ShapeKind kind, boolean none, double weight) {
        this.kind = kind;
        this.none = none;
        this.weight = weight;
    }

    static SoftnessPenalty none(ShapeKind kind) {
        return new SoftnessPenalty(kind, true, 0);
    }

    /**
     * Makes a penalty.
     *
     * @param kind the shape, some of whose parameters are logarithms of softness
     * @param variance the variance of a reading of weight 1
     */
    static SoftnessPenalty of(ShapeKind kind, double variance) {
        return new SoftnessPenalty(kind, false, variance / (SPREAD * SPREAD));
    }

    boolean isNone() {
        return none;
    }

    /** The weight of ln s beside readings of weight 1, as a row of a least-squares problem has it; 0 for no penalty. */
    double root() {
        return Math.sqrt(weight);
    }

    double sumOfSquares(double[] q) {
        double sum = 0;
        for (int k = 0; k < kind.shape().size(); k++) {
            if (kind.isSoftness(k)) {
                sum += (q[k] - USUAL) * (q[k] - USUAL);
            }
        }
        return weight * sum;
    }

    void addTo(double[] q, double[][] normal, double[] gradient) {
        for (int k = 0; k < kind.shape().size(); k++) {
            if (kind.isSoftness(k)) {
                normal[k][k] += weight;
                gradient[k] += weight * (q[k] - USUAL);
            }
        }
    }
}
