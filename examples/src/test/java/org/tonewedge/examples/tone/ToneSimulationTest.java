// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A slice of {@link ToneSimulation}, whose films are known. */
class ToneSimulationTest {

    /**
     * Patches read ten times are better known than the curve, which must then count. What should hold in 95 % and does in
     * 98 % ({@link ToneSimulation}) must hold in 94 %; a curve taken as exact must fall short.
     */
    @Test
    void intervalsOfPatchesReadAlongAFitHoldTheTruth() {
        ToneSimulation simulation = new ToneSimulation(7, 10);
        simulation.run(120);
        for (String figure : List.of("patches", "groups", "pairs", "groups against the reference")) {
            double coverage = simulation.coverage("along a fit: " + figure);
            assertTrue(coverage > 0.94, () -> figure + " " + coverage);
        }
        assertTrue(simulation.coverage("along a fit as if exact: patches") < 0.935);
        assertTrue(simulation.coverage("through readings as if exact: patches") < 0.75);
    }

    /** The limits are 95 % ± 3 standard deviations of a binomial of 200 cases, 4.6 %. */
    @Test
    void intervalsOfTheMatchingExposureHoldTheTruth() {
        ToneSimulation simulation = new ToneSimulation(7, 1);
        simulation.run(200);
        for (String way : List.of("on frames", "along a fit")) {
            double coverage = simulation.coverage("shadow " + way);
            assertTrue(coverage > 0.905 && coverage < 0.995, () -> way + " " + coverage);
        }
    }
}
