// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class PropagationTest {

    /** JCGM 100:2008, H.2, tables H.2 and H.4: R = (V/I) cos φ is 127.732 Ω with u = 0.071 Ω (from memory). */
    @Test
    void resistanceOfTheGuide() {
        double[][] readings = {
            {5.007, 4.994, 5.005, 4.990, 4.999},
            {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3},
            {1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
        };
        double[] means = Arrays.stream(readings)
                .mapToDouble(row -> Arrays.stream(row).average().orElseThrow())
                .toArray();
        double[][] covariance = new double[3][3];
        double[] steps = new double[3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                for (int k = 0; k < 5; k++) {
                    covariance[i][j] += (readings[i][k] - means[i]) * (readings[j][k] - means[j]) / (5 * 4);
                }
            }
            steps[i] = 0.01 * Math.sqrt(covariance[i][i]);
        }
        double value = means[0] / means[1] * Math.cos(means[2]);
        double[] gradient = DeltaMethod.gradient(p -> p[0] / p[1] * Math.cos(p[2]), value, means, steps);
        assertEquals(127.732, value, 0.0005);
        assertEquals(0.071, Math.sqrt(DeltaMethod.variance(gradient, covariance)), 0.0005);
    }

    /** √x at 1 and 0: central away from the end, one-sided at it, 0 where nothing varies, NaN where nothing is defined. */
    @Test
    void derivativesStayWhereTheFigureIsDefined() {
        double[] steps = {1e-4, 1e-4, 0};
        double[] gradient = DeltaMethod.gradient(
                p -> Math.sqrt(p[0]) + Math.sqrt(1 - p[1]) + p[2], 6, new double[] {1, 1, 5}, steps);
        assertArrayEquals(new double[] {0.5, -100, 0}, gradient, 1e-6);
        double[] undefined = DeltaMethod.gradient(p -> Double.NaN, 1, new double[] {1}, new double[] {1});
        assertTrue(Double.isNaN(undefined[0]));
    }

    /** L = (2, 0, 0; 6, 1, 0; −8, 5, 3) and L Lᵀ, multiplied out by hand; a parameter between that does not vary has no error. */
    @Test
    void independentErrorsMakeUpTheCovariance() {
        double[][] covariance = {{4, 0, 12, -16}, {0, 0, 0, 0}, {12, 0, 37, -43}, {-16, 0, -43, 98}};
        double[][] errors = Matrices.independentErrors(covariance);
        double[][] expected = {{2, 0, 6, -8}, {0, 0, 0, 0}, {0, 0, 1, 5}, {0, 0, 0, 3}};
        for (int k = 0; k < 4; k++) {
            assertArrayEquals(expected[k], errors[k], 1e-12);
        }
    }

    /** n = 10, k = 4, RSS = 0.4: 10 ln 0.04 + 8 + 2·4·5/5 = −32.188758 + 16, by hand. */
    @Test
    void criterionOfAkaike() {
        assertEquals(-16.188758248682, AkaikeCriterion.corrected(10, 4, AkaikeCriterion.misfit(10, 0.4, 1e-20)), 1e-11);
        assertEquals(Double.POSITIVE_INFINITY, AkaikeCriterion.corrected(5, 4, 0));
        assertEquals(5 * Math.log(1e-20), AkaikeCriterion.misfit(5, 0, 1e-20));
    }

    /** Closed forms: a diagonal's condition is its ratio; the correlation 0.6 has the eigenvalues 1.6 and 0.4. */
    @Test
    void conditionsAndSolutions() {
        assertEquals(50, Matrices.condition(new double[][] {{2, 0}, {0, 100}}), 1e-12);
        assertEquals(1, Matrices.condition(new double[0][0]));
        double[][] covariance = {{4, 0, 3.6}, {0, 0, 0}, {3.6, 0, 9}};
        assertEquals(2, Matrices.correlationCondition(covariance), 1e-12);
        assertArrayEquals(
                new double[] {1, 2}, Matrices.solve(new double[][] {{0, 1}, {3, 1}}, new double[] {2, 5}), 1e-14);
        assertThrows(
                ArithmeticException.class, () -> Matrices.solve(new double[][] {{1, 2}, {2, 4}}, new double[] {1, 1}));
    }
}
