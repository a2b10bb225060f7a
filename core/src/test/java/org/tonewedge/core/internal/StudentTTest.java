// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Expected values: closed forms, and SciPy 1.17.1 with the call named. */
class StudentTTest {

    /**
     * With 1, 2 and 4 degrees of freedom the distribution is an elementary function of t, and so is its inverse.
     *
     * @source W. T. Shaw, Sampling Student's t distribution, Journal of Computational Finance 9/4 (2006), 37–73 (from memory)
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 0.6826894921370859, 0.9, 0.95, 0.99, 0.999, 0.9999, 0.99999})
    void closedForms(double confidence) {
        assertFactor(Math.tan(0.5 * Math.PI * confidence), confidence, 1);
        double a = (1 - confidence) * (1 + confidence);
        assertFactor(confidence * Math.sqrt(2 / a), confidence, 2);
        assertFactor(2 * Math.sqrt(Math.cos(Math.acos(Math.sqrt(a)) / 3) / Math.sqrt(a) - 1), confidence, 4);
    }

    /** scipy.stats.t.ppf((1 + c) / 2, dof); scipy.stats.norm.ppf(0.975) for infinite degrees of freedom. */
    @ParameterizedTest
    @CsvSource({
        "0.95, 1, 12.706204736174694",
        "0.95, 4.5, 2.6589123472044034",
        "0.99, 10, 3.16927267261695",
        "0.9999, 2, 99.99249984375004",
        "0.6826894921370859, 30, 1.016946754114985",
        "0.95, Infinity, 1.959963984540054"
    })
    void coverageFactors(double confidence, double degreesOfFreedom, double expected) {
        assertFactor(expected, confidence, degreesOfFreedom);
    }

    /** Four times 2⁻⁵²/(1 − confidence): in the far tail the last digit of the confidence itself moves the factor like that. */
    private static void assertFactor(double expected, double confidence, double degreesOfFreedom) {
        assertEquals(
                expected,
                StudentT.coverageFactor(confidence, degreesOfFreedom),
                4 * Math.ulp(1.0) / (1 - confidence) * expected);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.999, -3, Double.NaN})
    void lessThanOneDegreeOfFreedomIsRefused(double degreesOfFreedom) {
        assertThrows(IllegalArgumentException.class, () -> StudentT.coverageFactor(0.95, degreesOfFreedom));
    }
}
