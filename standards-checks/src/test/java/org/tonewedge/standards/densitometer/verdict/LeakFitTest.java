// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Eight invented steps whose uncertainties rise with density. Expected: SciPy 1.17.1, {@code
 * curve_fit(lambda x, a, b, l: a - b * log10(10**-x + l), x, y, p0=p, sigma=w, absolute_sigma=True, xtol=1e-14, ftol=1e-14)},
 * repeated with w = √(uy² + (s ux)²), s = b 10^−x/(10^−x + l) of the fit before, until nothing changes. The values on the
 * curve follow from the formula, their variances from g·C·g of NumPy 2.4.6.
 */
class LeakFitTest {

    private static final double[] X = {0.05, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.4};
    private static final double[] Y = {0.061, 0.505, 0.988, 1.471, 1.930, 2.350, 2.690, 2.862};
    private static final double[] X_UNCERTAINTY = {0.002, 0.002, 0.003, 0.004, 0.008, 0.012, 0.02, 0.03};
    private static final double[] Y_UNCERTAINTY = {0.001, 0.001, 0.002, 0.002, 0.003, 0.005, 0.010, 0.02};

    private final LeakFit fit =
            LeakFit.through(X, X_UNCERTAINTY, Y, Y_UNCERTAINTY).orElseThrow();

    @Test
    void parametersAndTheirUncertaintiesAreThoseOfTheWeightedFit() {
        assertEquals(0.0144418861, fit.offset(), 1e-8);
        assertEquals(0.978049676, fit.slope(), 1e-8);
        assertEquals(8.54639850e-4, fit.leak(), 1e-9);
        assertEquals(1.95425562e-3, Math.sqrt(fit.offsetVariance()), 1e-8);
        assertEquals(2.84892806e-3, Math.sqrt(fit.slopeVariance()), 1e-8);
        assertEquals(5.44102447e-5, Math.sqrt(fit.leakVariance()), 1e-10);
        assertEquals(5, fit.degreesOfFreedom());
        assertEquals(3.7163762, fit.weightedSquares(), 1e-5);
        assertEquals(0.8621341, fit.residualDeviation(), 1e-6, "the root of 3.7163762/5");
    }

    @ParameterizedTest
    @CsvSource({
        "0.0, 0.014079022952, 0.977214509680, 3.852789561e-06",
        "1.0, 0.988876805189, 0.969761706149, 3.387510826e-06",
        "3.0, 2.686219712183, 0.527352885248, 8.831848922e-05",
        "3.8, 2.943050439605, 0.153001642853, 3.505010201e-04"
    })
    void theCurveKnowsItsSlopeAndVariance(double density, double read, double slope, double variance) {
        assertEquals(read, fit.at(density), 1e-7);
        assertEquals(slope, fit.slopeAt(density), 1e-6);
        assertEquals(variance, fit.varianceAt(density), 1e-4 * variance);
    }

    /** Without errors the fit returns what made the readings, too much dark subtracted included. */
    @ParameterizedTest
    @ValueSource(doubles = {-3.5e-4, -2e-5, 1e-7, 4e-5, 0.003, 0.1})
    void exactReadingsGiveTheirLeak(double leak) {
        double[] y = new double[X.length];
        double[] u = new double[X.length];
        for (int i = 0; i < X.length; i++) {
            y[i] = 0.02 - 1.03 * Math.log10(Math.pow(10, -X[i]) + leak);
            u[i] = 0.001;
        }
        LeakFit exact = LeakFit.through(X, u, y, u).orElseThrow();
        assertEquals(leak, exact.leak(), 1e-5 * Math.abs(leak) + 1e-11);
        assertEquals(0.02, exact.offset(), 1e-6);
        assertEquals(1.03, exact.slope(), 1e-6);
    }

    @Test
    void equalDensitiesDoNotTellALeakFromALine() {
        double[] alike = {1, 1, 1, 1};
        double[] u = {0.01, 0.01, 0.01, 0.01};
        assertTrue(LeakFit.through(alike, u, new double[] {1, 1.01, 0.99, 1}, u).isEmpty());
    }
}
