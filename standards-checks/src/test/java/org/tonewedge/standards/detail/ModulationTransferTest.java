// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/**
 * Functions worked by hand. An uncertain one has six alternatives, three above and three below its values by as much, d;
 * their standard deviation is d √(6/5).
 */
class ModulationTransferTest {

    private static final double SIX = Math.sqrt(6.0 / 5);

    private static double[] everyTen(int count) {
        double[] frequencies = new double[count];
        Arrays.setAll(frequencies, i -> 10.0 * i);
        return frequencies;
    }

    private static double[] ofEach(int count, double value) {
        double[] values = new double[count];
        Arrays.fill(values, value);
        return values;
    }

    private static ModulationTransfer exact(double... modulations) {
        return ModulationTransfer.of(everyTen(modulations.length), modulations);
    }

    private static ModulationTransfer uncertain(double[] frequencies, double[] modulations, double[] deviations) {
        double[][] alternatives = new double[6][modulations.length];
        for (int a = 0; a < alternatives.length; a++) {
            for (int i = 0; i < modulations.length; i++) {
                alternatives[a][i] = modulations[i] + (a % 2 == 0 ? 1 : -1) * deviations[i] / SIX;
            }
        }
        return ModulationTransfer.measured(frequencies, modulations, alternatives, 5);
    }

    private static ModulationTransfer uncertain(double deviation, double... modulations) {
        return uncertain(everyTen(modulations.length), modulations, ofEach(modulations.length, deviation));
    }

    /**
     * The relative variances of two samples of n, 2/(n − 1), add: 1 / (1/4 + 1/5) = 20/9 degrees of freedom. An uncertainty that
     * is stated is carried by 200 drawings, which have 199.
     */
    @Test
    void degreesOfFreedomAreThoseOfPartsAndDrawings() {
        ModulationTransfer measured = uncertain(0.01, 1, 0.8, 0.6, 0.4, 0.2);

        assertEquals(20.0 / 9, measured.at(10).degreesOfFreedom(), 1e-12);
        assertEquals(20.0 / 9, measured.mtf50().degreesOfFreedom(), 1e-12);
        assertEquals(
                199,
                ModulationTransfer.of(everyTen(2), new double[] {1, 0.5}, new double[] {0.1, 0.1})
                        .at(5)
                        .degreesOfFreedom());
    }

    /**
     * The deviation of the modulation over its slope. The slope is that of the line by least squares from the last value
     * above 1.4 times the modulation to the first below 0.6 times, four values at least: {@code numpy.polyfit}, NumPy 2.4.6.
     */
    @Test
    void aFrequencyIsAsUncertainAsTheModulationOverItsSlope() {
        double[] measured = {1, 0.98, 0.90, 0.72, 0.60, 0.51, 0.41, 0.32, 0.20, 0.19};
        double[] deviations = {0.01, 0.01, 0.01, 0.01, 0.01, 0.012, 0.022, 0.03, 0.03, 0.03};
        Estimate found = uncertain(everyTen(10), measured, deviations).mtf50();
        assertEquals(51, found.value(), 1e-9);
        assertEquals(0.013 / 0.010114285714, found.standardUncertainty(), 1e-6);

        // steep between two values: four of them, to the right and to the left
        found = uncertain(0.001, 1, 0.99, 0.98, 0.03, 0.01, 0).mtf50();
        assertEquals(20 + 10 * 0.48 / 0.95, found.value(), 1e-9);
        assertEquals(0.001 / 0.0296, found.standardUncertainty(), 1e-9);
        found = uncertain(0.001, 1, 0.99, 0.98, 0.97, 0.96, 0.04).mtf50();
        assertEquals(45, found.value(), 1e-9);
        assertEquals(0.001 / 0.0283, found.standardUncertainty(), 1e-9);
        // no more than three values: 0.4 in 10
        found = uncertain(0.001, 1, 0.6, 0.2).mtf50();
        assertEquals(0.001 / 0.04, found.standardUncertainty(), 1e-9);
    }

    /** The stated limit: a quarter of the modulation, and of the frequency. */
    @Test
    void aCrossingLostInNoiseIsNotDetermined() {
        double[] high = {200, 220, 240, 260, 280, 300};
        double[] fall = {1, 0.8, 0.6, 0.4, 0.2, 0};
        assertEquals(12, uncertain(high, fall, ofEach(6, 0.12)).mtf50().standardUncertainty(), 1e-9);
        ModulationTransfer noisy = uncertain(high, fall, ofEach(6, 0.13));
        assertThrows(NotDeterminableException.class, noisy::mtf50);

        // at a fifth of the way: 0.04 is 4 of 20 cycles per millimetre, 0.06 is 6
        double[] low = {0, 20, 40, 60, 80, 100};
        assertEquals(4, uncertain(low, fall, ofEach(6, 0.04)).frequencyAt(0.8).standardUncertainty(), 1e-9);
        ModulationTransfer flat = uncertain(low, fall, ofEach(6, 0.06));
        assertThrows(NotDeterminableException.class, () -> flat.frequencyAt(0.8));
    }

    /** The stated limit: one alternative in forty. */
    @Test
    void oneAlternativeInFortyMayMissTheModulation() {
        double[] values = {1, 0.8, 0.6, 0.4};
        double[][] alternatives = new double[40][];
        Arrays.fill(alternatives, values);
        alternatives[0] = new double[] {1.15, 0.95, 0.75, 0.55};
        assertEquals(
                25,
                ModulationTransfer.measured(everyTen(4), values, alternatives.clone(), 5)
                        .mtf50()
                        .value(),
                1e-9);
        alternatives[1] = alternatives[0];
        ModulationTransfer two = ModulationTransfer.measured(everyTen(4), values, alternatives, 5);
        assertThrows(NotDeterminableException.class, two::mtf50);
    }

    /** A rise of 0.05 is noise if 3 deviations and 0.005 exceed it; else the fall ends before it. */
    @ParameterizedTest
    @CsvSource({"0.02, true", "0.0155, true", "0.0145, false", "0.01, false"})
    void aRiseBeyondNoiseEndsTheFall(double deviation, boolean isNoise) {
        ModulationTransfer found = uncertain(deviation, 1, 0.8, 0.6, 0.65, 0.4, 0.2, 0.0);
        if (isNoise) {
            // 0.6 and 0.65 pool to 0.625: 0.7 lies at 0.1 of 0.175 from 0.8, and 0.5 at 0.125 of 0.225 to 0.4
            assertEquals(10 + 10 * 0.1 / 0.175, found.frequencyAt(0.7).value(), 1e-9);
            assertEquals(30 + 10 * 0.125 / 0.225, found.mtf50().value(), 1e-9);
        } else {
            assertEquals(15, found.frequencyAt(0.7).value(), 1e-9);
            assertThrows(NotDeterminableException.class, found::mtf50);
        }
    }

    /** In exact values a rise by up to 0.005 above the least value before it is rounding. */
    @Test
    void aRiseOfRoundingDoesNotEndTheFall() {
        assertEquals(
                30 + 10 * 0.102 / 0.402, exact(1, 0.8, 0.6, 0.604, 0.2).mtf50().value(), 1e-9);
        assertThrows(NotDeterminableException.class, exact(1, 0.8, 0.6, 0.606, 0.2)::mtf50);
        assertThrows(NotDeterminableException.class, exact(1, 0.8, 0.6, 0.604, 0.608, 0.2)::mtf50);
        // the least value moves on: 0.59 to 0.594
        assertEquals(
                40 + 10 * 0.092 / 0.392,
                exact(1, 0.8, 0.6, 0.59, 0.594, 0.2).mtf50().value(),
                1e-9);
    }

    /** Adjacency effects of the developer lift the function above its start; its fall begins at its greatest value. */
    @Test
    void theFallBeginsAtTheGreatestValue() {
        assertEquals(32.5, exact(0.5, 0.8, 1, 0.7, 0.3).frequencyAt(0.6).value(), 1e-9);
        // 0.4 and 0.5 pool to 0.45
        assertEquals(
                20 + 10 * 0.2 / 0.35,
                uncertain(0.05, 0.9, 1, 0.8, 0.4, 0.5, 0.1).frequencyAt(0.6).value(),
                1e-9);
    }

    /**
     * Noise at the highest frequency exceeds 1. The function does not fall from there: at 25 it has fallen to a half by 0.2 in 10,
     * and 0.01 over that is 0.5.
     */
    @Test
    void theFallDoesNotBeginInNoise() {
        double[] modulations = {1, 0.8, 0.6, 0.4, 0.2, 0.1, 0.05, 0, 0, 0, 0, 0, 0, 1.1};
        double[] deviations = ofEach(14, 0.01);
        deviations[13] = 0.5;
        Estimate found = uncertain(everyTen(14), modulations, deviations).mtf50();
        assertEquals(25, found.value(), 1e-9);
        assertEquals(0.01 / 0.02, found.standardUncertainty(), 1e-9);
    }

    /** The falling function closest by least squares: {@code scipy.optimize.isotonic_regression}, SciPy 1.17.1. */
    @ParameterizedTest
    @CsvSource({
        "0.62 0.50 0.54 0.56 0.30, 0.533333333, 0.30",
        "0.55 0.50 0.62 0.2 0.1, 0.556666667, 0.2",
        "0.52 0.50 0.54 0.60 0.2, 0.54, 0.2",
        "0.60 0.59 0.30 0.35 0.31, 0.59, 0.325"
    })
    void noiseIsPooled(String values, double before, double after) {
        double[] modulations = Arrays.stream(("1 " + values + " 0.05").split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();
        int last = 0;
        while (modulations[last] >= 0.4) {
            last++;
        }
        double expected = 10 * (last - 1) + 10 * (before - 0.4) / (before - after);
        assertEquals(expected, uncertain(0.05, modulations).frequencyAt(0.4).value(), 1e-6);
    }

    /** The last values, 0.35 and 0.5, pool to 0.425. */
    @Test
    void aRiseAtTheEndIsPooled() {
        assertEquals(
                40 + 10 * 0.1 / 0.175,
                uncertain(0.05, 1, 0.9, 0.8, 0.7, 0.6, 0.35, 0.5).mtf50().value(),
                1e-9);
    }

    @Test
    void valuesLieOnStraightLinesBetweenTheFrequencies() {
        ModulationTransfer found = exact(1, 0.9, 0.5, 0.1);
        assertEquals(0.95, found.at(5).value(), 1e-12);
        assertEquals(0.7, found.at(15).value(), 1e-12);
        assertEquals(0.3, found.at(25).value(), 1e-12);
        assertEquals(20, found.mtf50().value(), 1e-12);
        assertEquals(0, found.mtf50().standardUncertainty());
    }

    @Test
    void stepsAreCombinedWhereBothAreKnown() {
        double[] upper = {10, 20};
        ModulationTransfer first = exact(1, 0.8, 0.5, 0.4);
        ModulationTransfer both = first.times(ModulationTransfer.of(upper, new double[] {0.5, 0.5}));
        assertArrayEquals(upper, both.frequencies());
        assertEquals(10, both.lowestFrequency());
        assertEquals(20, both.highestFrequency());
        ModulationTransfer one = ModulationTransfer.of(new double[] {11, 20}, new double[] {1, 1});
        assertThrows(IllegalArgumentException.class, () -> first.times(one));
        // a floor that is met counts
        assertEquals(20, first.dividedBy(exact(1, 0.5, 0.25, 0.125), 0.25).highestFrequency());
        // an exact step scales the uncertainty of the other, whichever comes first
        ModulationTransfer measured = uncertain(0.02, 1, 0.8, 0.5, 0.4);
        assertEquals(0.01, measured.times(first).at(20).standardUncertainty(), 1e-12);
        assertEquals(0.01, first.times(measured).at(20).standardUncertainty(), 1e-12);
        assertEquals(20.0 / 9, first.times(measured).at(20).degreesOfFreedom(), 1e-12);
    }

    @Test
    void tablesThatDoNotFitAreRefused() {
        double[] three = {1, 0.5, 0.2};
        double[] two = {1, 0.5};
        assertThrows(IllegalArgumentException.class, () -> ModulationTransfer.of(everyTen(3), two, two));
        assertThrows(IllegalArgumentException.class, () -> ModulationTransfer.of(everyTen(3), three, two));
        assertThrows(
                IllegalArgumentException.class,
                () -> ModulationTransfer.of(everyTen(3), three, new double[] {0.1, -0.1, 0.1}));
        assertThrows(
                IllegalArgumentException.class,
                () -> ModulationTransfer.of(everyTen(3), new double[] {1, -0.5, 0.2}, three));
    }
}
