// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Expected values: SciPy 1.17.1, with the call named. */
class StudentTTest {

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
        assertEquals(expected, StudentT.coverageFactor(confidence, degreesOfFreedom), 1e-11 * expected);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.999, -3, Double.NaN})
    void lessThanOneDegreeOfFreedomIsRefused(double degreesOfFreedom) {
        assertThrows(IllegalArgumentException.class, () -> StudentT.coverageFactor(0.95, degreesOfFreedom));
    }
}
