package org.tonewedge.fitting.internal;

/**
 * A weak preference for usual softnesses: ((ln s − ln s₀)/τ)² times a variance of readings is added to the sum of squares
 * for each softness of a shape.
 */
public final class SoftnessPenalty {

    private final ShapeKind kind;
    private final double usual;
    private final double weight;

    /**
     * Makes a penalty.
     *
     * @param kind the shape, some of whose parameters are logarithms of softness
     * @param usual ln s₀
     * @param spread τ, in units of ln s
     * @param variance the variance of a reading of weight 1
     */
    public SoftnessPenalty(ShapeKind kind, double usual, double spread, double variance) {
        this.kind = kind;
        this.usual = usual;
        weight = variance / (spread * spread);
    }

    double sumOfSquares(double[] q) {
        double sum = 0;
        for (int k = 0; k < kind.shape().size(); k++) {
            if (kind.isSoftness(k)) {
                sum += (q[k] - usual) * (q[k] - usual);
            }
        }
        return weight * sum;
    }

    void addTo(double[] q, double[][] normal, double[] gradient) {
        for (int k = 0; k < kind.shape().size(); k++) {
            if (kind.isSoftness(k)) {
                normal[k][k] += weight;
                gradient[k] += weight * (q[k] - usual);
            }
        }
    }
}
