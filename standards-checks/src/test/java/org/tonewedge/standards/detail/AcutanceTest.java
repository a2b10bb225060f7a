// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/**
 * Acutance by its definition, A = Σ g² / (N · DS), worked by hand on an edge that rises straight by 2 over 8 places a
 * micrometre apart, four of which make a pixel. Its gradients over a pixel are 0.0625, 0.125, 0.1875, five times 0.25, and
 * back: 11 of them with Σ g = 2 and Σ g² = 0.421875.
 */
class AcutanceTest {

    private static double ramp(double place) {
        return Math.max(0, Math.min(2, 0.25 * (place - 10)));
    }

    private static EdgeResponse edge(int places, DoubleUnaryOperator profile, double... tilts) {
        double[] at = new double[places];
        Arrays.setAll(at, i -> i);
        double[][] departures = new double[tilts.length][places];
        for (int d = 0; d < tilts.length; d++) {
            double tilt = tilts[d];
            Arrays.setAll(departures[d], i -> tilt * i);
        }
        return new EdgeResponse(
                ModulationTransfer.of(new double[] {0, 1}, new double[] {1, 1}),
                null,
                5,
                8,
                at,
                Arrays.stream(at).map(profile).toArray(),
                departures,
                List.of());
    }

    @Test
    void isTheMeanSquaredGradientOverTheDifference() {
        assertEquals(0.421875 / 11 / 2, edge(30, AcutanceTest::ramp).acutance().value(), 1e-12);
        EdgeResponse falling = edge(30, place -> 3 - ramp(place));
        assertEquals(0.421875 / 11 / 2, falling.acutance().value(), 1e-12);
        assertEquals(0, falling.acutance().standardUncertainty());
    }

    /** At a gradient of 0.125 the edge has ended: 7 gradients are above, with Σ g² = 0.3828125. */
    @Test
    void theEdgeEndsWhereTheGradientIsNotAbove() {
        EdgeResponse edge = edge(30, AcutanceTest::ramp);
        assertEquals(0.3828125 / 7 / 2, edge.acutance(0.125).value(), 1e-12);
        assertThrows(NotDeterminableException.class, () -> edge.acutance(0.25));
        // an edge that fills its profile: 9 gradients of 0.25, a difference of 3
        assertEquals(0.0625 / 3, edge(13, place -> 0.25 * place).acutance().value(), 1e-12);
    }

    /**
     * Blocks tilted against the mean by 0.003 and 0.004 per micrometre have gradients of just that: Σ g² has 11 · 0.005² of
     * noise. The uncertainty by its first order: a tilt t changes Σ g² by 2 t Σ g = 4 t, and DS, over 14 places, by 14 t, so
     * that A changes by t (4/22 − 14 A/2); of 200 drawings, the deviation is known to 15 % with three standard deviations.
     */
    @Test
    void noiseIsSubtractedAndMakesItUncertain() {
        Estimate found = edge(30, AcutanceTest::ramp, 0.003, 0.004).acutance();
        double value = (0.421875 - 11 * 0.000025) / 11 / 2;
        double first = 0.005 * (4.0 / 22 - 7 * value);
        assertEquals(value, found.value(), 1e-12);
        assertEquals(first, found.standardUncertainty(), 0.15 * first);
    }
}
