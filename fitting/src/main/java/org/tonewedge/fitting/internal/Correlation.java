package org.tonewedge.fitting.internal;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.NormOps_DDRM;

/** Correlations of estimates. */
public final class Correlation {

    private Correlation() {}

    /**
     * Returns the root of the condition number of the correlation matrix of a covariance; estimates without variance are
     * left out.
     *
     * @param covariance the covariance, by rows
     * @return 1 or more
     */
    public static double condition(double[][] covariance) {
        int[] varying = java.util.stream.IntStream.range(0, covariance.length)
                .filter(k -> covariance[k][k] > 0)
                .toArray();
        int n = varying.length;
        DMatrixRMaj correlation = new DMatrixRMaj(n, n);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double scale = Math.sqrt(covariance[varying[i]][varying[i]] * covariance[varying[j]][varying[j]]);
                correlation.set(i, j, covariance[varying[i]][varying[j]] / scale);
            }
        }
        return n == 0 ? 1 : Math.sqrt(NormOps_DDRM.conditionP2(correlation));
    }
}
