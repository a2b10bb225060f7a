package org.tonewedge.fitting.internal;

import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.NormOps_DDRM;

/** R of a Jacobian, and what follows from it. */
final class Triangle {

    private final double[][] r;
    private final int[] free;
    private final int size;

    private Triangle(double[][] r, int[] free, int size) {
        this.r = r;
        this.free = free;
        this.size = size;
    }

    /** The triangle of the parameters that are not held. */
    static Triangle ofFree(double[][] triangle, boolean[] held) {
        int n = held.length;
        int[] free = IntStream.range(0, n).filter(j -> !held[j]).toArray();
        double[][] r = new double[n][free.length];
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < free.length; k++) {
                r[i][k] = free[k] >= i ? triangle[i][free[k]] : 0;
            }
        }
        double[] unused = new double[n];
        for (int k = 0; k < free.length; k++) {
            for (int i = n - 1; i > k; i--) {
                Givens.rotateRows(r, unused, k, i, free.length);
            }
        }
        return new Triangle(r, free, n);
    }

    double[][] covariance() {
        int n = free.length;
        double[][] inverse = new double[n][n];
        for (int j = 0; j < n; j++) {
            inverse[j][j] = 1 / r[j][j];
            for (int i = j - 1; i >= 0; i--) {
                double sum = 0;
                for (int k = i + 1; k <= j; k++) {
                    sum -= r[i][k] * inverse[k][j];
                }
                inverse[i][j] = sum / r[i][i];
            }
        }
        double[][] covariance = new double[size][size];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double sum = 0;
                for (int k = Math.max(i, j); k < n; k++) {
                    sum += inverse[i][k] * inverse[j][k];
                }
                covariance[free[i]][free[j]] = sum;
            }
        }
        return covariance;
    }

    double condition() {
        int n = free.length;
        if (n == 0) {
            return 1;
        }
        DMatrixRMaj scaled = new DMatrixRMaj(n, n);
        for (int j = 0; j < n; j++) {
            double norm = 0;
            for (int i = 0; i <= j; i++) {
                norm += r[i][j] * r[i][j];
            }
            norm = Math.sqrt(norm);
            if (norm == 0) {
                return Double.POSITIVE_INFINITY;
            }
            for (int i = 0; i <= j; i++) {
                scaled.set(i, j, r[i][j] / norm);
            }
        }
        return NormOps_DDRM.conditionP2(scaled);
    }
}
