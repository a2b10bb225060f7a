// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

/** Curves of straight segments, as some published figures were computed on. */
public final class PiecewiseLinearCurve {

    private PiecewiseLinearCurve() {}

    /** The curve through points, rising or falling throughout, on the absolute axis. */
    public static CharacteristicCurve through(String name, double[] x, double[] y, double basePlusFog) {
        return through(name, x, y, basePlusFog, ExposureAxis.LUX_SECONDS);
    }

    /** The curve through points, rising or falling throughout. */
    public static CharacteristicCurve through(
            String name, double[] x, double[] y, double basePlusFog, ExposureAxis axis) {
        CurveForm form = new CurveForm() {
            private int segment(double at) {
                int i = 0;
                while (i < x.length - 2 && at > x[i + 1]) {
                    i++;
                }
                return i;
            }

            @Override
            public double density(double logExposure) {
                int i = segment(logExposure);
                return y[i] + gradient(logExposure) * (logExposure - x[i]);
            }

            @Override
            public double gradient(double logExposure) {
                int i = segment(logExposure);
                return (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
            }

            @Override
            public double[] turningPoints(double from, double to) {
                return new double[0];
            }
        };
        return CharacteristicCurve.of(
                name,
                form,
                new LogExposure(x[0], axis),
                new LogExposure(x[x.length - 1], axis),
                Density.of(basePlusFog));
    }
}
