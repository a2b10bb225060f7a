// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * The guard band is the expanded uncertainty with k = 2. A step passes by guarded acceptance, |e| ≤ T − w (JCGM 106:2012,
 * 8.3.2), and fails by guarded rejection, |e| > T + w (8.3.3; clauses from memory); between, where the binary rule of 8.3.2
 * alone would reject, it is undecided, as in the statements of ILAC-G8:09/2019 that are not binary (secondary source).
 */
class GuardBandTest {

    /**
     * The error and U = 0.0066 together are 0.0196 and 0.0206, on either side of the tolerance 0.02; with k = 1.6 both
     * would pass (0.0183, 0.0193), with k = 2.5 neither (0.0213, 0.0223). What reaches into the band is undecided, up to the
     * other side: less U, 0.026 and 0.027 are 0.0194 and 0.0204.
     */
    @ParameterizedTest
    @CsvSource({"0.013, PASS", "0.014, UNDECIDED", "0.026, UNDECIDED", "0.027, FAIL"})
    void isTwoStandardUncertainties(double error, StepOutcome expected) {
        SimulatedDensitometer instrument = new SimulatedDensitometer(1);
        instrument.optics = density -> density + error;
        ReadingsSummary summary = ReadingsSummary.of(Logs.tablet(6), instrument.read(Logs.tablet(6)));

        StepVerdict step = DensitometerCheck.withDefaults()
                .with(DecisionRule.GUARDED_ACCEPTANCE)
                .judge(summary)
                .steps()
                .get(0);

        assertTrue(Math.abs(step.expandedUncertaintyOfError() - 0.0066) < 0.0003, step.toString());
        assertEquals(expected, step.outcome());
    }
}
