// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Optional;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Densities and other units are told apart. Expected numbers are closed forms: T = 10^−D, 100 T, 1/T, 100 D, 1000 D. */
class UnitOfNumbersTest {

    private static final double ALLOWED = 0.2;
    private static final int CASES = 10_000;

    /** The densities 0.05, 0.20 … 3.05. */
    private static final double[] TABLET =
            IntStream.range(0, 21).mapToDouble(i -> 0.05 + 0.15 * i).toArray();

    private final Random random = new Random(8);

    /** Readings by an instrument with a slope of 0.9 to 1.1, an offset of ±0.05 and noise of 0.02. */
    private double[] read(double... densities) {
        double slope = 0.9 + 0.2 * random.nextDouble();
        double offset = -0.05 + 0.1 * random.nextDouble();
        return DoubleStream.of(densities)
                .map(density -> offset + slope * density + 0.02 * random.nextGaussian())
                .toArray();
    }

    private static double[] rounded(int decimals, double... values) {
        double units = Math.pow(10, decimals);
        return DoubleStream.of(values)
                .map(value -> Math.rint(units * value) / units)
                .toArray();
    }

    private static double inUnit(ArithmeticFault unit, double density) {
        return switch (unit) {
            case PERCENT_TRANSMITTANCE -> 100 * Math.pow(10, -density);
            case TRANSMITTANCE -> Math.pow(10, -density);
            case OPACITY -> Math.pow(10, density);
            case TIMES_HUNDRED -> 100 * density;
            case TIMES_THOUSAND -> 1000 * density;
            default -> throw new IllegalArgumentException(unit + " is no unit");
        };
    }

    @ParameterizedTest
    @CsvSource({
        "PERCENT_TRANSMITTANCE, 0",
        "PERCENT_TRANSMITTANCE, 2",
        "TRANSMITTANCE, 2",
        "TRANSMITTANCE, 4",
        "OPACITY, 1",
        "TIMES_HUNDRED, 0",
        "TIMES_THOUSAND, 0",
    })
    void theUnitOfAnInstrumentBesideAnotherIsNamed(ArithmeticFault unit, int decimals) {
        int missed = 0;
        for (int i = 0; i < CASES; i++) {
            double[] densities = rounded(3, read(TABLET));
            double[] printed = rounded(
                    decimals,
                    DoubleStream.of(read(TABLET))
                            .map(density -> inUnit(unit, density))
                            .toArray());
            Optional<ArithmeticFault> found = ArithmeticFault.ofUnit(densities, printed, ALLOWED);
            missed += found.equals(Optional.of(unit)) ? 0 : 1;
        }

        assertEquals(0, missed);
    }

    /** Among them samples where two units give the same number: T = D at 0.399, 100 T = D at 1.756. */
    @ParameterizedTest
    @ValueSource(strings = {"tablet", "0.399", "1.756", "0", "any"})
    void twoSoundInstrumentsAreNeverAccused(String samples) {
        int accused = 0;
        for (int i = 0; i < CASES; i++) {
            double[] densities = samples.equals("tablet")
                    ? TABLET
                    : random.doubles(3 + random.nextInt(5))
                            .map(u -> samples.equals("any") ? 4 * u : Double.parseDouble(samples) + 0.2 * u)
                            .toArray();
            double[] first = rounded(random.nextInt(4), read(densities));
            double[] second = rounded(random.nextInt(4), read(densities));
            accused += ArithmeticFault.ofUnit(first, second, ALLOWED).isPresent() ? 1 : 0;
            accused += ArithmeticFault.ofUnit(second, first, ALLOWED).isPresent() ? 1 : 0;
        }

        assertEquals(0, accused);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.399, 1.5, 1.756, 3})
    void aSoundSessionIsNeverAccused(double density) {
        int accused = 0;
        for (int i = 0; i < CASES; i++) {
            accused +=
                    ArithmeticFault.ofUnit(read(density), read(density), 0.02).isPresent() ? 1 : 0;
        }

        assertEquals(0, accused);
    }

    /** D 1.5 is 3.162 %; one decimal tells 3.2, but 0.03 of 0.0316 could be any density from 1.46 to 1.60. */
    @ParameterizedTest
    @CsvSource({
        "3.162, PERCENT_TRANSMITTANCE",
        "3.2, PERCENT_TRANSMITTANCE",
        "0.0316, TRANSMITTANCE",
        "0.032, TRANSMITTANCE",
        "31.6, OPACITY",
        "150, TIMES_HUNDRED",
        "1500, TIMES_THOUSAND",
        "0.03,",
        "0,",
        "1.53,",
        "2.2,",
        "5,",
        "-1.5,",
    })
    void oneNumberTellsItsUnitOnlyIfItIsFine(double printed, ArithmeticFault unit) {
        assertEquals(
                Optional.ofNullable(unit), ArithmeticFault.ofUnit(new double[] {1.5}, new double[] {printed}, 0.02));
    }

    /** Nine of ten numbers must be explained: of 21 all but two. */
    @ParameterizedTest
    @CsvSource({"2, true", "3, false"})
    void aFewWildNumbersDoNotHideTheUnit(int wild, boolean named) {
        double[] printed = DoubleStream.of(TABLET)
                .map(density -> inUnit(ArithmeticFault.TIMES_THOUSAND, density))
                .toArray();
        for (int i = 0; i < wild; i++) {
            printed[10 + i] = 9999;
        }

        assertEquals(named, ArithmeticFault.ofUnit(TABLET, printed, ALLOWED).isPresent());
    }

    @Test
    void aDeadInstrumentAndOneReadBackwardsHaveNoOtherUnit() {
        double[] backwards =
                DoubleStream.of(TABLET).map(density -> 3.1 - density).toArray();

        assertEquals(Optional.empty(), ArithmeticFault.ofUnit(TABLET, new double[21], ALLOWED));
        assertEquals(Optional.empty(), ArithmeticFault.ofUnit(new double[] {2.2, 2.5, 3}, new double[3], ALLOWED));
        assertEquals(
                Optional.empty(),
                ArithmeticFault.ofUnit(new double[] {1.9, 2, 2.1}, new double[] {0.01, 0.01, 0.01}, ALLOWED));
        assertEquals(Optional.empty(), ArithmeticFault.ofUnit(TABLET, backwards, ALLOWED));
        assertEquals(Optional.empty(), ArithmeticFault.ofUnit(new double[0], new double[0], ALLOWED));
        assertThrows(IllegalArgumentException.class, () -> ArithmeticFault.ofUnit(TABLET, new double[20], ALLOWED));
    }
}
