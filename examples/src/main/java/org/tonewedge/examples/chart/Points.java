// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

/** Places on a drawing, in their order; the arrays are its own. */
final class Points {

    private final double[] xs;
    private final double[] ys;

    Points(double[] xs, double[] ys) {
        if (xs.length != ys.length) {
            throw new IllegalArgumentException(
                    "as many places downwards as to the right, were " + ys.length + " and " + xs.length);
        }
        this.xs = xs.clone();
        this.ys = ys.clone();
    }

    int count() {
        return xs.length;
    }

    double x(int i) {
        return xs[i];
    }

    double y(int i) {
        return ys[i];
    }
}
