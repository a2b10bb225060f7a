// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/** Readings of different weights, by hand. */
class WeightsTest {

    private static Strip repeated() {
        double[][] steps = {{0.1, 0.3}, {0.5}, {0.9, 1.0, 1.1}, {1.4}};
        Strip.Builder strip = Strip.builder("W");
        for (int i = 0; i < steps.length; i++) {
            for (double reading : steps[i]) {
                strip.reading(LogExposure.ofLogLuxSeconds(-2 + i), Density.of(reading));
            }
        }
        return strip.build();
    }

    /**
     * By hand: deviations 0.1, 0.05, 0.2 and 0.1 of a reading have the reciprocal variances 100, 400, 25 and 100. Readings of 2, 1, 3
     * and 1 repeats add up to 775, which seven readings of weight 1 make 7. About the means of their steps the squares are
     * 100 · 0.02 + 25 · 0.02, in the same measure.
     */
    @Test
    void stepsCountByTheirRepeatsAndRepeatability() {
        Repeatability stated =
                Repeatability.of(density -> density < 0.4 ? 0.1 : density < 0.7 ? 0.05 : density < 1.2 ? 0.2 : 0.1);
        double[] means = {0.2, 0.5, 1.0, 1.4};
        WeightedReadings weighted = WeightedReadings.of(repeated(), means, Optional.of(stated));
        double unit = 7.0 / 775;
        assertArrayEquals(new double[] {200 * unit, 400 * unit, 75 * unit, 100 * unit}, weighted.weights, 1e-12);
        assertEquals(7, weighted.readings);
        assertEquals(2.5 * unit, weighted.squaresWithinSteps, 1e-12);
        assertEquals(unit, weighted.statedVariance.orElseThrow(), 1e-15);
        // A step's mean has the deviation of a reading over the root of its repeats.
        ReinschSystem system = new ReinschSystem(new double[] {-2, -1, 0, 1}, means, weighted.weights);
        SplineSolution solution = SplineSolution.of(system, weighted, 0.01);
        assertEquals(0.1 / Math.sqrt(2), solution.standardDeviationOfStep(0), 1e-12);
        assertEquals(0.05, solution.standardDeviationOfStep(1), 1e-12);
        assertEquals(0.2 / Math.sqrt(3), solution.standardDeviationOfStep(2), 1e-12);

        WeightedReadings alike = WeightedReadings.of(repeated(), means, Optional.empty());
        assertArrayEquals(new double[] {2, 1, 3, 1}, alike.weights, 1e-12);
        assertEquals(0.04, alike.squaresWithinSteps, 1e-12);
        assertTrue(alike.statedVariance.isEmpty());
    }

    @Test
    void aRepeatabilityWhoseSquareIsNoNumberIsRefused() {
        for (double none : new double[] {1e-200, 1e200}) {
            Repeatability stated = Repeatability.of(density -> density > 0.4 ? none : 0.1);
            SmoothingFailedException refused = assertThrows(
                    SmoothingFailedException.class,
                    () -> WeightedReadings.of(repeated(), new double[4], Optional.of(stated)));
            assertTrue(refused.getMessage().contains("step 2"), refused.getMessage());
        }
    }

    /** By hand: with equal weights a line through the values falls, without the first it rises; so turned round. */
    @Test
    void theTrendIsThatOfTheWeightedLine() {
        double[] x = {-3, -2, -1.5, 0};
        double[] y = {0.9, 0.1, 0.15, 0.4};
        double[] fallen = {-0.9, -0.1, -0.15, -0.4};
        double[] alike = {1, 1, 1, 1};
        double[] withoutFirst = {0.001, 1, 2, 1};
        assertEquals(-1, new ReinschSystem(x, y, alike).trend());
        assertEquals(1, new ReinschSystem(x, y, withoutFirst).trend());
        assertEquals(1, new ReinschSystem(x, fallen, alike).trend());
        assertEquals(-1, new ReinschSystem(x, fallen, withoutFirst).trend());
        // The mean of y must be taken off: far from 0 the sign stays.
        double[] raised = {100.9, 100.1, 100.15, 100.4};
        assertEquals(1, new ReinschSystem(x, raised, withoutFirst).trend());
        double[] farOff = {97, 98, 98.5, 100};
        assertEquals(1, new ReinschSystem(farOff, raised, withoutFirst).trend());
        WeightedReadings one = new WeightedReadings(alike, 4, 0, OptionalDouble.empty(), Double.NaN);
        assertEquals(
                -1, SplineSolution.of(new ReinschSystem(x, y, alike), one, 0.1).trend());
    }

    /** By hand: the natural spline through 0, 1, 0 at 0, 1, 2 bends by −3 in the middle and has the end slopes ± 1.5. */
    @Test
    void aNaturalSplineGoesOnStraight() {
        NaturalSpline spline = new NaturalSpline(new double[] {0, 1, 2}, new double[] {0, 1, 0}, new double[] {-3});
        assertEquals(1.5, spline.gradient(0), 1e-12);
        assertEquals(0, spline.gradient(1), 1e-12);
        assertEquals(-1.5, spline.gradient(2), 1e-12);
        assertEquals(0.6875, spline.density(0.5), 1e-12);
        assertEquals(-1.5, spline.density(-1), 1e-12);
        assertEquals(-3, spline.density(4), 1e-12);
        assertEquals(-1.5, spline.gradient(4), 1e-12);
    }
}
