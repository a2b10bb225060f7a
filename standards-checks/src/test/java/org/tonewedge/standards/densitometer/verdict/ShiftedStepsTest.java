// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Where the readings of a pass begin to be those of other steps: cases worked by hand, and rates by simulation. */
class ShiftedStepsTest {

    private static final double[] TABLET = tablet();

    /** Twenty-one steps 0.15 apart. */
    private static double[] tablet() {
        double[] densities = new double[21];
        Arrays.setAll(densities, i -> 0.05 + 0.15 * i);
        return densities;
    }

    /** What is found where a step is read as another, by index; what lies beyond the tablet is not read. */
    private static String found(DoubleUnaryOperator instrument, IntUnaryOperator gate) {
        double[] means = new double[TABLET.length];
        Arrays.setAll(means, i -> {
            int at = gate.applyAsInt(i);
            return at < 0 || at >= TABLET.length ? Double.NaN : instrument.applyAsDouble(TABLET[at]);
        });
        return found(means);
    }

    private static String found(double[] means) {
        Optional<ShiftedSteps> found = ShiftedSteps.find(TABLET, means, 0.005);
        return found.stream()
                .flatMap(shifted -> shifted.places().stream())
                .map(place -> place.first() + " by " + place.shift())
                .reduce((one, next) -> one + ", " + next)
                .orElse("none");
    }

    /** An instrument may be right, or have a slope, an offset of less than half a step, or a bend. */
    @ParameterizedTest
    @CsvSource({"1, 0, 0", "1.05, 0, 0", "0.95, 0, 0", "1, 0.07, 0", "1, -0.07, 0", "1.05, -0.03, 0.02"})
    void aShiftIsFoundWhateverTheInstrumentMakesOfDensities(double slope, double offset, double bend) {
        DoubleUnaryOperator instrument = d -> offset + slope * d + bend * d * d;
        for (int first : new int[] {1, 2, 10, 18}) {
            for (int shift = -2; shift <= 2; shift++) {
                int by = shift;
                // two steps or more are read as others
                if (shift != 0 && first + shift <= 19) {
                    String expected = Math.max(first, -shift) + " by " + shift;
                    assertEquals(expected, found(instrument, i -> i < first ? i : i + by));
                }
            }
            assertEquals("none", found(instrument, i -> i));
        }
    }

    /**
     * A first reading that is one step too dense, the others right: the same readings as if the first step had been
     * read twice by an instrument with an offset of a step, which is not believed.
     */
    @Test
    void aWrongFirstReadingIsNoShift() {
        assertEquals("none", found(d -> d, i -> i == 0 ? 1 : i));
        assertEquals("none", found(d -> d, i -> i == 20 ? 19 : i));
        assertEquals("none", found(d -> d, i -> i == 10 ? 11 : i));
    }

    /** A second place may add to the first or undo it; each has two readings or more behind it. */
    @ParameterizedTest
    @CsvSource({
        "5, 1, 12, 2, '5 by 1, 12 by 2'",
        "5, 1, 12, 0, '5 by 1, 12 by 0'",
        "5, -1, 12, 0, '5 by -1, 12 by 0'",
        "5, -1, 12, -2, '5 by -1, 12 by -2'",
        "5, 2, 12, 1, '5 by 2, 12 by 1'",
        "1, 1, 3, 0, '1 by 1, 3 by 0'",
        "5, 1, 17, 2, '5 by 1, 17 by 2'",
        // one reading behind the second place is a wrong reading, or none
        "5, 1, 18, 2, '5 by 1'",
    })
    void aSecondPlaceIsFound(int first, int shift, int second, int then, String expected) {
        for (double slope : new double[] {1, 1.05}) {
            assertEquals(expected, found(d -> slope * d, i -> i < first ? i : i < second ? i + shift : i + then));
        }
    }

    /** Densities jump at index 10, as between two gains: by the height of a step they are a skip, by others not. */
    @ParameterizedTest
    @CsvSource({"0.15, 10 by 1", "0.3, 10 by 2", "-0.15, 10 by -1", "0.1, none", "0.2, none", "0.22, none"})
    void aJumpOfAnotherHeightIsNoShift(double height, String expected) {
        assertEquals(expected, found(d -> d + (d > 1.5 ? height : 0), i -> i));
    }

    /** Readings that scatter by more than 0.3 of a step, 0.045, belong to no step. */
    @ParameterizedTest
    @CsvSource({"0.044, 10 by 2", "0.046, none"})
    void readingsThatScatterTooMuchAreNoShift(double scatter, String expected) {
        double[] means = new double[TABLET.length];
        // + - - + + - - +: no polynomial of a low degree
        Arrays.setAll(
                means,
                i -> i >= 19 ? Double.NaN : TABLET[i < 10 ? i : i + 2] + scatter * ((i + 1) / 2 % 2 == 0 ? 1 : -1));
        assertEquals(expected, found(means));
    }

    /** At least two shifted readings and three left to tell the scatter. */
    @ParameterizedTest
    @ValueSource(ints = {3, 4, 6})
    void aFewStepsSufficeIfTheyAreRead(int read) {
        double[] means = new double[TABLET.length];
        Arrays.setAll(means, i -> i < read ? TABLET[i < 2 ? i : i + 1] : Double.NaN);
        assertEquals(read < 4 ? "none" : "2 by 1", found(means));
    }

    /**
     * Single readings that scatter by 0.02 of steps 0.15 apart: 93 to 95 % are named at their place, and no sound log of
     * 500 is accused ({@link ShiftedStepsSimulation}). The limits are 93 % less three standard deviations of 60 logs,
     * and 3 %.
     */
    @Test
    @Tag("slow")
    void aShiftIsFoundAmongScatteredReadings() {
        double[] shares = new ShiftedStepsSimulation(1, 1, 0.02, ShiftedStepsSimulation.Optics.RIGHT).shares(60, 7);
        assertTrue(shares[0] >= 0.83 && shares[1] >= 0.83 && shares[2] <= 0.03, Arrays.toString(shares));
    }

    /** The dense steps all read alike, or fall on a few coarse levels: a fault of the instrument, not of the order. */
    @ParameterizedTest
    @EnumSource(names = {"CLIPPED", "EIGHT_BITS"})
    void anInstrumentThatReadsNoFurtherSkipsNoStep(ShiftedStepsSimulation.Optics optics) {
        assertEquals(
                0, new ShiftedStepsSimulation(1, 1, 0.02, optics).share(ShiftedStepsSimulation.Fault.NONE, 60, 100));
    }
}
