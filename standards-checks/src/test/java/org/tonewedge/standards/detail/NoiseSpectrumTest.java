// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.tone.DensityImage;

/** A small image by formula; the expected values are those of {@code noise_spectrum.py} beside the test resources. */
class NoiseSpectrumTest {

    private static final double PITCH = 5;

    private static DensityImage image(double scale) {
        double[] densities = new double[12 * 14];
        for (int i = 0; i < densities.length; i++) {
            double x = i % 14;
            double y = Math.floorDiv(i, 14);
            densities[i] = 0.8
                    + scale
                            * (0.1 * Math.sin(1.3 * x + 0.9 * y + 0.05 * x * y)
                                    + 0.05 * Math.cos(2.1 * x - 1.7 * y)
                                    + 0.01 * x);
        }
        return DensityImage.of(densities, 14, PITCH);
    }

    private static NoiseSpectrum spectrum() {
        return NoiseSpectrum.of(image(1), 8);
    }

    @ParameterizedTest
    @CsvSource({
        "1, 0, 0.015790787517755634",
        "0, 1, 0.002645613786909627",
        "2, 3, 0.06161246291918326",
        "-1, 2, 0.004074313158323577",
        "-4, -4, 7.990849442307989e-05",
        "0, 0, 0.001500103297125153"
    })
    void powersInTwoDimensions(int across, int down, double expected) {
        assertEquals(expected, spectrum().power(across, down), 1e-9);
    }

    @ParameterizedTest
    @CsvSource({
        "1, 0.08894930634736115, 0.03882065993815223",
        "2, 0.2773428531000925, 0.09883066047342107",
        "3, 0.23711907106452096, 0.07317653401030984",
        "4, 0.09751941502800564, 0.02566522576366459"
    })
    void powersOfRingsAndTheirUncertainties(int ring, double expected, double uncertainty) {
        Estimate power = spectrum().powers()[ring - 1];
        assertEquals(expected, power.value(), 1e-9);
        assertEquals(uncertainty, power.standardUncertainty(), 1e-9);
        assertEquals(ring * 1000 / 40.0, spectrum().frequencies()[ring - 1], 1e-9);
    }

    @Test
    void deviationThroughAnAperture() {
        Estimate found = spectrum().deviationThrough(12);
        assertEquals(0.03388972831086123, found.value(), 1e-9);
        assertEquals(0.007250191122237948, found.standardUncertainty(), 1e-9);
    }

    /**
     * Half of the contrast is a quarter of the power. At the frequencies of the first ring the scanner passes 0.8 with u = 0.02, so the
     * power left is 0.75 W/0.64; the two spectra of equal length scatter by √(1 + 1/16) W/√n, and the transfer adds 2 · 0.02/0.8
     * of the power left. Beyond 50 cycles per millimetre it passes nothing that is known.
     */
    @Test
    void aScannerIsTakenOut() {
        ModulationTransfer scanner = ModulationTransfer.of(
                new double[] {0, 25, 25 * Math.sqrt(2), 50},
                new double[] {0.8, 0.8, 0.8, 0.8},
                new double[] {0.02, 0.02, 0.02, 0.02});
        NoiseSpectrum left = spectrum().corrected(NoiseSpectrum.of(image(0.5), 8), scanner);
        double whole = spectrum().power(1, 0);
        assertEquals(0.75 * whole / 0.64, left.power(1, 0), 1e-12);
        assertEquals(0.75 * spectrum().power(1, 1) / 0.64, left.power(1, 1), 1e-12);
        assertEquals(0, left.power(3, 0));
        assertEquals(0, left.power(-4, -4));
        Estimate before = spectrum().powers()[0];
        Estimate after = left.powers()[0];
        assertEquals(0.75 * before.value() / 0.64, after.value(), 1e-12);
        assertEquals(
                Math.hypot(
                        Math.sqrt(1 + 1 / 16.0) * before.standardUncertainty() / 0.64, 2 * 0.02 / 0.8 * after.value()),
                after.standardUncertainty(),
                2e-5,
                "the uncertainty of the transfer is that of its alternatives, to a part in a hundred");
    }

    @Test
    void blocksArePowersOfTwoThatFit() {
        for (int side : new int[] {4, 12, 2048}) {
            assertThrows(IllegalArgumentException.class, () -> NoiseSpectrum.of(image(1), side));
        }
        assertThrows(NotDeterminableException.class, () -> NoiseSpectrum.of(image(1), 16));
        assertEquals(
                5,
                NoiseSpectrum.of(DensityImage.of(new double[64], 8, 1), 8).powers().length + 1,
                "a single block fits");
    }
}
