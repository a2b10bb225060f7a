// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/** Makes strips from plain numbers. */
final class Strips {

    private Strips() {}

    static Strip.Builder builder(double[] x, double[] y) {
        Strip.Builder builder = Strip.builder("T1");
        for (int i = 0; i < x.length; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(x[i]), Density.of(y[i]));
        }
        return builder;
    }

    static Strip of(double[] x, double[] y) {
        return builder(x, y).basePlusFog(0.2).build();
    }
}
