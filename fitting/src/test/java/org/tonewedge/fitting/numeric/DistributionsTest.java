// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Expected values: SciPy 1.17.1, with the call named at each. */
class DistributionsTest {

    /** scipy.stats.chi2.ppf(p, dof). */
    @ParameterizedTest
    @CsvSource({
        "0.95, 1, 3.841458820694124",
        "0.95, 19, 30.14352720564616",
        "0.05, 3, 0.35184631774927144",
        "0.999, 100, 149.44925277903886"
    })
    void chiSquaredQuantiles(double probability, double degreesOfFreedom, double expected) {
        assertEquals(expected, Distributions.chiSquared(probability, degreesOfFreedom), 1e-11 * expected);
    }

    /** scipy.stats.f.sf(x, numerator, denominator), thin tails included. */
    @ParameterizedTest
    @CsvSource({
        "1, 5, 5, 0.5",
        "3, 2, 12, 0.0877914951989026",
        "4.5, 24, 37, 2.2310149010668925e-05",
        "60, 3, 40, 7.285030976345483e-15",
        "0.001, 4, 9, 0.9999975602574956",
        "0, 3, 4, 1"
    })
    void upperTailsOfFisher(double ratio, double numerator, double denominator, double expected) {
        assertEquals(expected, Distributions.fisherExceeds(ratio, numerator, denominator), 1e-11 * expected);
    }

    /** scipy.stats.norm.cdf(z). */
    @ParameterizedTest
    @CsvSource({
        "-8, 6.22096057427174e-16",
        "-1.959963984540054, 0.025",
        "0, 0.5",
        "1, 0.8413447460685429",
        "5, 0.9999997133484281"
    })
    void lowerTailsOfTheNormal(double z, double expected) {
        assertEquals(expected, Distributions.normalBelow(z), 1e-13 * expected);
    }

    /** By hand: the ranks are 0 to 3, so 0.5 lies midway between 2 and 3 and 0.9 at rank 2.7. */
    @Test
    void quantilesOfASample() {
        double[] sample = {4, 1, 3, 2};
        assertEquals(2.5, Distributions.ofSample(sample, 0.5));
        assertEquals(3.7, Distributions.ofSample(sample, 0.9), 1e-15);
        assertEquals(4, Distributions.ofSample(sample, 1));
        assertEquals(4, sample[0], "the sample is not sorted in place");
    }
}
