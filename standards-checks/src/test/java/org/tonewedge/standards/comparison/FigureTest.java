// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.standards.SystematicUncertainty;

/** The uncertainty of the readings together with that of stated errors (JCGM 100:2008, 5.1.2). */
class FigureTest {

    private static final SystematicUncertainty STATED = SystematicUncertainty.ofContributions(Map.of("tablet", 0.04));

    /** By hand: √(0.03² + 0.04²) = 0.05; the readings have 0.36 of its square, so 10/0.36 = 27.78 degrees of freedom. */
    @Test
    void statedErrorsAddInSquares() {
        Estimate both = Figure.of(Estimate.of(1.5, 0.03, 10))
                .withStatedErrors(STATED)
                .estimate()
                .orElseThrow();
        assertEquals(1.5, both.value());
        assertEquals(0.05, both.standardUncertainty(), 1e-12);
        assertEquals(27.78, both.degreesOfFreedom(), 0.005);
    }

    /**
     * A figure scatters by 1 and a stated error moves it by a multiple. Of the estimates s² of the scatter, χ²/ν, those at equal
     * steps of probability are taken, for ν = 1 as squares of normal and for ν = 2 as exponential quantiles; the share of the
     * figures in an interval follows from the normal distribution. The expected coverage is that sum for 200,000 estimates with
     * SciPy 1.17.1 (chi2.ppf, t.ppf, norm.cdf); with Welch and Satterthwaite's degrees of freedom (JCGM 100:2008, G.4.1) it
     * would be 0.872, 0.889, 0.929, 0.924, 0.925 and 0.941.
     */
    @ParameterizedTest
    @CsvSource({"1, 0.25, 0.939", "1, 0.5, 0.957", "1, 1, 0.976", "2, 0.25, 0.942", "2, 0.5, 0.947", "2, 1, 0.960"})
    void intervalsBesideAStatedErrorContainTheTruth(int degrees, double stated, double expected) {
        SystematicUncertainty error = SystematicUncertainty.ofContributions(Map.of("tablet", stated));
        int estimates = 400;
        double contained = 0;
        for (int i = 0; i < estimates; i++) {
            double probability = (i + 0.5) / estimates;
            double scatter = degrees == 1
                    ? StudentT.coverageFactor(probability, Double.POSITIVE_INFINITY)
                    : Math.sqrt(-Math.log1p(-probability));
            double half = Figure.of(Estimate.of(0, scatter, degrees))
                    .withStatedErrors(error)
                    .estimate()
                    .orElseThrow()
                    .interval(0.95)
                    .upper();
            contained += 2 * Distributions.normalBelow(half / Math.hypot(1, stated)) - 1;
        }
        assertEquals(expected, contained / estimates, 0.002);
    }

    @Test
    void statedErrorsAloneAreCertain() {
        Estimate exact = Figure.of(Estimate.of(1.5, 0, 10))
                .withStatedErrors(STATED)
                .estimate()
                .orElseThrow();
        assertEquals(0.04, exact.standardUncertainty(), 1e-12);
        assertEquals(Double.POSITIVE_INFINITY, exact.degreesOfFreedom());
        Estimate unknown = Figure.of(1.5).withStatedErrors(STATED).estimate().orElseThrow();
        assertEquals(0.04, unknown.standardUncertainty(), 1e-12);
        assertTrue(Figure.of(1.5).estimate().isEmpty());
    }

    @Test
    void figuresAreEqualByWhatTheyTell() {
        assertEquals(Figure.of(1.5), Figure.of(1.5));
        assertNotEquals(Figure.of(1.5), Figure.of(1.6));
        assertNotEquals(Figure.of(1.5), Figure.missing("not read"));
        assertEquals("1.50", Figure.of(1.5).toString());
    }
}
