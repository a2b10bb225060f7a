// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.standards.SystematicUncertainty;

/** Strips of one film with and without errors in common, worked by hand. */
class StripScatterTest {

    private static Figure figure(double value, Map<String, Double> stated) {
        return Figure.of(Estimate.of(value, 0.01)).withStatedErrors(SystematicUncertainty.ofContributions(stated));
    }

    private static void check(double variance, int degrees, Map<String, Double> common, Figure... given) {
        StripScatter scatter = StripScatter.of(List.of(given));
        assertEquals(variance, scatter.variance(), 1e-12);
        assertEquals(degrees, scatter.degreesOfFreedom());
        Map<String, Double> found = scatter.common().contributions();
        assertEquals(common.keySet(), found.keySet());
        common.forEach((source, contribution) -> assertEquals(contribution, found.get(source), 1e-12, source));
    }

    /** The sum of squares about the mean 2 is 2, with 2 degrees of freedom; the error in common is told beside it. */
    @Test
    void strips() {
        Map<String, Double> tablet = Map.of("T", 0.3);
        check(1, 2, Map.of("T", 0.3), figure(1, tablet), figure(2, tablet), figure(3, tablet));
    }

    /**
     * Two instruments of one tablet: among 1.0 and 1.2 the squares are 0.02, among 2.0 and 2.4 0.08, with 2 degrees of freedom
     * together. The error of either instrument moves half of the strips and so the mean by half.
     */
    @Test
    void twoInstrumentsOfOneTablet() {
        Map<String, Double> first = Map.of("T", 0.1, "A", 0.3);
        Map<String, Double> second = Map.of("T", 0.1, "B", -0.2);
        check(
                0.05,
                2,
                Map.of("T", 0.1, "A", 0.15, "B", -0.1),
                figure(1.0, first),
                figure(2.0, second),
                figure(1.2, first),
                figure(2.4, second));
    }

    /** The error of an instrument that read one strip shows in no scatter if the others share another instrument. */
    @Test
    void anInstrumentThatReadOneStrip() {
        Map<String, Double> first = Map.of("A", 0.3);
        check(
                0.02,
                1,
                Map.of("A", 0.2, "B", 0.05),
                figure(1.0, first),
                figure(1.2, first),
                figure(2.0, Map.of("B", 0.15)));
    }

    /** Errors of single strips, as of their exposures, show in the scatter, here (0.4² + 0.4²)/1. */
    @Test
    void errorsOfSingleStripsShowInTheScatter() {
        check(
                0.32,
                1,
                Map.of("T", 0.25),
                figure(1.0, Map.of("T", 0.2, "exposure of 1", 0.5)),
                figure(1.8, Map.of("T", 0.3, "exposure of 2", 0.5)));
    }

    /** If no two strips share the same errors, the scatter is that of all: 0.2² + 0.2², with 2 degrees of freedom. */
    @Test
    void everyStripIsAGroup() {
        check(
                0.04,
                2,
                Map.of("A", 0.2, "B", 0.1),
                figure(2.0, Map.of("A", 0.3, "B", 0.15)),
                figure(2.2, Map.of("A", 0.3)),
                figure(2.4, Map.of("B", 0.15)));
    }
}
