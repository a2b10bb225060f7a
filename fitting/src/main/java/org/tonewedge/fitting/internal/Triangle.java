// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;
import org.tonewedge.fitting.numeric.Matrices;

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

    /** The triangle of the parameters that are not held; it is read, not copied, where none is. */
    static Triangle ofFree(double[][] triangle, boolean[] held) {
        int n = held.length;
        int[] free = new int[n];
        int count = 0;
        for (int j = 0; j < n; j++) {
            if (!held[j]) {
                free[count++] = j;
            }
        }
        if (count == n) {
            return new Triangle(triangle, free, n);
        }
        double[][] r = new double[n][count];
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < count; k++) {
                r[i][k] = free[k] >= i ? triangle[i][free[k]] : 0;
            }
        }
        double[] unused = new double[n];
        for (int k = 0; k < count; k++) {
            for (int i = n - 1; i > k; i--) {
                Givens.rotateRows(r, unused, k, i, count);
            }
        }
        return new Triangle(r, Arrays.copyOf(free, count), n);
    }

    /** A matrix of zeros, row by row: Java 17 makes a matrix of a size known only at run time by a slow way. */
    static double[][] square(int size) {
        double[][] rows = new double[size][];
        for (int i = 0; i < size; i++) {
            rows[i] = new double[size];
        }
        return rows;
    }

    double[][] covariance() {
        int n = free.length;
        double[] inverse = new double[n * n];
        for (int j = 0; j < n; j++) {
            inverse[j * n + j] = 1 / r[j][j];
        }
        for (int i = n - 2; i >= 0; i--) {
            double[] row = r[i];
            double perDiagonal = inverse[i * n + i];
            for (int j = i + 1; j < n; j++) {
                double sum = 0;
                for (int k = i + 1; k <= j; k++) {
                    sum -= row[k] * inverse[k * n + j];
                }
                inverse[i * n + j] = sum * perDiagonal;
            }
        }
        double[][] covariance = square(size);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = 0;
                for (int k = i; k < n; k++) {
                    sum += inverse[i * n + k] * inverse[j * n + k];
                }
                covariance[free[i]][free[j]] = sum;
                covariance[free[j]][free[i]] = sum;
            }
        }
        return covariance;
    }

    double condition() {
        int n = free.length;
        double[][] scaled = new double[n][n];
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
                scaled[i][j] = r[i][j] / norm;
            }
        }
        return Matrices.condition(scaled);
    }
}
