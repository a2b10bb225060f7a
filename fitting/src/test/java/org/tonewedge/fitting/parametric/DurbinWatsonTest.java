// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Chances of Durbin and Watson's ratio against closed forms, and against integrals over eigenvalues by SciPy. */
class DurbinWatsonTest {

    private static double chance(double[] x, double ratio, int degree, int unexposed) {
        double[][] directions = new double[degree + 1][x.length + unexposed];
        for (int j = 0; j <= degree; j++) {
            for (int i = 0; i < directions[j].length; i++) {
                directions[j][i] = i < x.length ? Math.pow(x[i], j) : j == 0 ? 1 : 0;
            }
            for (int pass = 0; pass < 2; pass++) {
                for (int l = 0; l < j; l++) {
                    add(-product(directions[l], directions[j]), directions[l], directions[j]);
                }
            }
            double norm = Math.sqrt(product(directions[j], directions[j]));
            add(1 / norm - 1, directions[j].clone(), directions[j]);
        }
        return DurbinWatson.chance(ratio, x.length, directions);
    }

    private static double product(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    private static void add(double factor, double[] from, double[] to) {
        for (int i = 0; i < to.length; i++) {
            to[i] += factor * from[i];
        }
    }

    private static double[] steps(int n) {
        double[] x = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = 2.0 * i / (n - 1) - 1;
        }
        return x;
    }

    /**
     * By hand: four equal steps about a line leave a z + b w, with z and w standard normal, a = (1 −1 −1 1)/2 and b =
     * (1 −3 3 −1)/√20. Their differences have the squares 2 and 68/20 and are orthogonal, so that the ratio is c or
     * less if w²/z² ≤ (c − 2)/(3.4 − c): P = (2/π) arctan √((c − 2)/(3.4 − c)).
     */
    @Test
    void fourStepsByHand() {
        for (double c : new double[] {2.0001, 2.1, 2.7, 3.3, 3.3999}) {
            double expected = 2 / Math.PI * Math.atan(Math.sqrt((c - 2) / (3.4 - c)));
            assertEquals(expected, chance(steps(4), c, 1, 0), 1e-8, "ratio " + c);
        }
    }

    /** By hand as above: no errors give a ratio below 2 or above 3.4. */
    @Test
    void impossibleRatios() {
        assertEquals(0, chance(steps(4), 1.9, 1, 0), 1e-8);
        assertEquals(1, chance(steps(4), 3.5, 1, 0), 1e-8);
        assertEquals(0, chance(steps(301), 0.1, 4, 0), 1e-8);
        assertEquals(1, chance(steps(301), 3.9, 4, 0), 1e-8);
    }

    /** {@code durbin_watson.py}, SciPy 1.17.1: polynomials, whose constant unexposed readings also show. */
    @ParameterizedTest
    @CsvSource({
        "9, 2.5, 3, 0, 0.244032928",
        "9, 1.6, 3, 2, 0.024588000",
        "7, 1.5, 4, 1, 0.044335777",
        "21, 1.5, 4, 3, 0.012031333",
        "21, 2.9, 4, 3, 0.906335370",
        "31, 1.4, 4, 0, 0.004291394",
        "301, 1.8, 4, 0, 0.024051508",
        "301, 1.5, 4, 0, 0.000001669",
        "1001, 1.8, 4, 0, 0.000483486",
        "1001, 2.2, 4, 3, 0.998839550",
    })
    void againstEigenvalues(int steps, double ratio, int degree, int unexposed, double expected) {
        assertEquals(expected, chance(steps(steps), ratio, degree, unexposed), 1e-8);
    }
}
