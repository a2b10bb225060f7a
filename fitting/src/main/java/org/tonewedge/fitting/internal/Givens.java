// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** Plane rotations that bring a small matrix to triangular form. */
final class Givens {

    private Givens() {}

    /** Rotates two rows of a matrix with its right-hand side so that the lower row is 0 in the column of the upper. */
    static void rotateRows(double[][] matrix, double[] right, int upper, int lower, int columns) {
        double[] a = matrix[upper];
        double[] b = matrix[lower];
        if (b[upper] == 0) {
            return;
        }
        double radius = Math.hypot(a[upper], b[upper]);
        double cosine = a[upper] / radius;
        double sine = b[upper] / radius;
        for (int j = upper; j < columns; j++) {
            double above = a[j];
            a[j] = cosine * above + sine * b[j];
            b[j] = cosine * b[j] - sine * above;
        }
        double above = right[upper];
        right[upper] = cosine * above + sine * right[lower];
        right[lower] = cosine * right[lower] - sine * above;
    }
}
