// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

/** Running sums of squares and products of three quantities about their means. */
final class CoMoments {

    private static final int SIZE = 3;

    private final double[] means = new double[SIZE];
    private final double[][] products = new double[SIZE][SIZE];
    private long count;

    void add(double first, double second, double third) {
        count++;
        double[] change = {first - means[0], second - means[1], third - means[2]};
        for (int i = 0; i < SIZE; i++) {
            means[i] += change[i] / count;
        }
        double[] after = {first - means[0], second - means[1], third - means[2]};
        for (int i = 0; i < SIZE; i++) {
            for (int j = 0; j < SIZE; j++) {
                products[i][j] += change[i] * after[j];
            }
        }
    }

    /** Adds other quantities: Chan, Golub and LeVeque, The American Statistician 37 (1983), from memory. */
    void add(CoMoments others) {
        if (others.count == 0) {
            return;
        }
        long together = count + others.count;
        double[] change = new double[SIZE];
        for (int i = 0; i < SIZE; i++) {
            change[i] = others.means[i] - means[i];
        }
        for (int i = 0; i < SIZE; i++) {
            means[i] += change[i] * others.count / together;
            for (int j = 0; j < SIZE; j++) {
                products[i][j] += others.products[i][j] + change[i] * change[j] * count / together * others.count;
            }
        }
        count = together;
    }

    long count() {
        return count;
    }

    double mean(int index) {
        return means[index];
    }

    double product(int first, int second) {
        return products[first][second];
    }
}
