// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.internal.CubicPieces;
import org.tonewedge.core.internal.Jointed;

/**
 * A natural cubic spline: cubics joined at the knots with two continuous derivatives, and straight lines beyond the
 * ends.
 */
final class NaturalSpline implements CurveForm, Jointed {

    private final double[] joints;
    private final CubicPieces pieces;
    private final double first;
    private final double last;
    private final double firstValue;
    private final double lastValue;
    private final double firstSlope;
    private final double lastSlope;

    /** Takes the values at the knots and the second derivatives at the inner knots. */
    NaturalSpline(double[] x, double[] values, double[] secondDerivatives) {
        int n = x.length;
        double[] slopes = new double[n];
        double bend = 0;
        for (int i = 0; i + 1 < n; i++) {
            double h = x[i + 1] - x[i];
            double secant = (values[i + 1] - values[i]) / h;
            double nextBend = i + 2 < n ? secondDerivatives[i] : 0;
            slopes[i] = secant - h / 6 * (2 * bend + nextBend);
            slopes[i + 1] = secant + h / 6 * (bend + 2 * nextBend);
            bend = nextBend;
        }
        joints = x;
        pieces = new CubicPieces(x, values, slopes);
        first = x[0];
        last = x[n - 1];
        firstValue = values[0];
        lastValue = values[n - 1];
        firstSlope = slopes[0];
        lastSlope = slopes[n - 1];
    }

    @Override
    public double density(double logExposure) {
        if (logExposure < first) {
            return firstValue + firstSlope * (logExposure - first);
        }
        if (logExposure > last) {
            return lastValue + lastSlope * (logExposure - last);
        }
        return pieces.value(logExposure);
    }

    @Override
    public double gradient(double logExposure) {
        return pieces.slope(Math.max(first, Math.min(last, logExposure)));
    }

    @Override
    public double[] joints() {
        return joints.clone();
    }

    @Override
    public double[] turningPoints(double from, double to) {
        return pieces.turns(from, to);
    }

    /** The position where the density rises least (sign 1) or falls least (sign −1). */
    double leastGradientPosition(double sign) {
        return pieces.leastSlopePosition(sign);
    }
}
