// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.ArrayList;
import java.util.List;

/** The slow change across the area that is removed before the grain is judged: uneven light or development. */
enum Trend {
    /** Only the mean is removed. */
    LEVEL(0),
    /** A plane. */
    PLANE(1),
    /** A quadratic surface. */
    QUADRATIC(2);

    private static final double DEPENDENT = 1e-9;

    private final int degree;

    Trend(int degree) {
        this.degree = degree;
    }

    /** The residuals of readings on a grid, and the number of trend terms that the grid could distinguish. */
    static final class Residuals {

        private final double[] values;
        private final int terms;

        private Residuals(double[] values, int terms) {
            this.values = values;
            this.terms = terms;
        }

        double value(int index) {
            return values[index];
        }

        int terms() {
            return terms;
        }

        double meanSquare() {
            return dot(values, values) / values.length;
        }
    }

    /** Removes the trend from readings, row by row, by least squares. */
    Residuals residuals(double[] readings, int width) {
        int height = readings.length / width;
        List<double[]> terms = new ArrayList<>();
        for (int i = 0; i <= degree; i++) {
            for (int j = 0; i + j <= degree; j++) {
                double[] term = new double[readings.length];
                for (int k = 0; k < term.length; k++) {
                    term[k] = power(k % width, width, i) * power(k / width, height, j);
                }
                addOrthonormal(terms, term);
            }
        }
        double[] left = readings.clone();
        for (double[] term : terms) {
            subtract(left, term, dot(left, term));
        }
        return new Residuals(left, terms.size());
    }

    /** A power of the position, counted from −1 to 1 across the grid. */
    private static double power(int index, int count, int exponent) {
        return exponent == 0 ? 1 : Math.pow((2.0 * index + 1) / count - 1, exponent);
    }

    /**
     * Adds a term made orthogonal to the earlier terms (Gram–Schmidt, twice), unless the grid cannot distinguish it
     * from them.
     */
    private static void addOrthonormal(List<double[]> terms, double[] term) {
        double before = Math.sqrt(dot(term, term));
        for (int pass = 0; pass < 2; pass++) {
            for (double[] other : terms) {
                subtract(term, other, dot(term, other));
            }
        }
        double norm = Math.sqrt(dot(term, term));
        if (norm > DEPENDENT * before) {
            for (int i = 0; i < term.length; i++) {
                term[i] /= norm;
            }
            terms.add(term);
        }
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    private static void subtract(double[] from, double[] term, double factor) {
        for (int i = 0; i < from.length; i++) {
            from[i] -= factor * term[i];
        }
    }
}
