// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.util.Arrays;

/**
 * The natural splines on given knots, each defined by its values there; a value or slope elsewhere is a weighted sum of
 * them.
 */
final class SplineSpace {

    private final ReinschSystem system;
    private final BandedFactor curvature;

    SplineSpace(ReinschSystem system) {
        this.system = system;
        curvature = new BandedFactor(system);
        curvature.factor(0); // without a penalty B is R, which links second derivatives to second differences
    }

    NaturalSpline spline(double[] values) {
        double[] secondDerivatives = system.secondDifferences(values);
        curvature.solve(secondDerivatives, secondDerivatives);
        return new NaturalSpline(system.x, values, secondDerivatives);
    }

    /** The weights with which the values at the knots make up the value at a position within them. */
    double[] valueFunctional(double at) {
        int i = piece(at);
        double h = system.x[i + 1] - system.x[i];
        double t = (at - system.x[i]) / h;
        double bend = -h * h / 6 * t * (1 - t);
        return functional(i, 1 - t, t, bend * (2 - t), bend * (1 + t));
    }

    /** The weights with which the values at the knots make up the slope at a position within them. */
    double[] slopeFunctional(double at) {
        int i = piece(at);
        double h = system.x[i + 1] - system.x[i];
        double t = (at - system.x[i]) / h;
        return functional(i, -1 / h, 1 / h, h / 6 * (1 - 3 * (1 - t) * (1 - t)), h / 6 * (3 * t * t - 1));
    }

    private int piece(double at) {
        int found = Arrays.binarySearch(system.x, at);
        return Math.max(0, Math.min(system.size, found >= 0 ? found : -found - 2));
    }

    /** The weights that follow from those of the two values and the two second derivatives at the ends of piece i. */
    private double[] functional(int i, double left, double right, double leftBend, double rightBend) {
        double[] bends = new double[system.size];
        if (i > 0) {
            bends[i - 1] = leftBend;
        }
        if (i < system.size) {
            bends[i] = rightBend;
        }
        curvature.solve(bends, bends);
        double[] weights = new double[system.x.length];
        weights[i] = left;
        weights[i + 1] = right;
        system.addSecondDifferencesTransposed(1, bends, weights);
        return weights;
    }
}
