// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.IntStream;
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
        assertEquals(
                0.75 * spectrum().power(2, 0) / 0.64, left.power(2, 0), 1e-12, "at the last frequency that is known");
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

    /** A transfer that is stated, with u = 0.02, at each frequency of a block of 8 pixels. */
    private static ModulationTransfer flat(double passed) {
        double[] frequencies = IntStream.range(0, 25)
                .mapToDouble(i -> 25 * Math.hypot(i % 5, Math.floorDiv(i, 5)))
                .sorted()
                .distinct()
                .toArray();
        double[] transfers = new double[frequencies.length];
        double[] uncertainties = new double[frequencies.length];
        Arrays.fill(transfers, passed);
        Arrays.fill(uncertainties, 0.02);
        return ModulationTransfer.of(frequencies, transfers, uncertainties);
    }

    /** A frequency of which less than 0.2 is transmitted keeps no power. */
    @Test
    void whatTheScannerHardlyTransmitsIsLeftOut() {
        NoiseSpectrum quiet = NoiseSpectrum.of(image(0), 8);
        assertEquals(
                spectrum().power(1, 0) / 0.04,
                spectrum().corrected(quiet, flat(0.2)).power(1, 0),
                1e-9);
        assertEquals(0, spectrum().corrected(quiet, flat(0.199)).power(1, 0));
    }

    /**
     * A transfer of 0.8 with u = 0.02 at all frequencies but 0, where it is 1: the variance of density through an aperture grows
     * by 1/0.64, and u by 2 · 0.02/0.8 = 0.05 of it, common to all frequencies. Taken out twice, by 0.05 √2.
     */
    @Test
    void theUncertaintyOfTheTransferIsCommonToAllFrequencies() {
        NoiseSpectrum quiet = NoiseSpectrum.of(image(0), 8);
        NoiseSpectrum once = spectrum().corrected(quiet, flat(0.8));
        Estimate before = spectrum().deviationThrough(12);
        Estimate after = once.deviationThrough(12);
        double mean = spectrum().power(0, 0) / (40 * 40);
        double rest = before.value() * before.value() - mean;
        assertEquals(rest / 0.64 + mean, after.value() * after.value(), 1e-12);
        double squares = Math.pow(2 * before.value() * before.standardUncertainty(), 2);
        double ofMean = 4 * mean * mean / (14.0 / 8 * 12 / 8);
        double scatter = (squares - ofMean) / (0.64 * 0.64) + ofMean;
        assertEquals(
                Math.hypot(Math.sqrt(scatter), 0.05 * rest / 0.64) / (2 * after.value()),
                after.standardUncertainty(),
                0.01 * 0.05 * after.value(),
                "the uncertainty of the transfer is that of its alternatives, to a part in a hundred");

        Estimate power = spectrum().powers()[0];
        Estimate twice = once.corrected(quiet, flat(0.8)).powers()[0];
        assertEquals(power.value() / (0.64 * 0.64), twice.value(), 1e-12);
        assertEquals(
                Math.hypot(power.standardUncertainty() / (0.64 * 0.64), 0.05 * Math.sqrt(2) * twice.value()),
                twice.standardUncertainty(),
                0.01 * 0.05 * Math.sqrt(2) * twice.value());
    }

    /** Blocks of 8 pixels of 5 µm: frequencies from −4 to 3 per block, apertures from 10 to 20 µm. */
    @Test
    void whatIsBeyondABlockIsRefused() {
        NoiseSpectrum spectrum = spectrum();
        for (int[] beyond : new int[][] {{-5, 0}, {4, 0}, {0, -5}, {0, 4}}) {
            assertThrows(IndexOutOfBoundsException.class, () -> spectrum.power(beyond[0], beyond[1]));
        }
        assertEquals(
                spectrum.power(-3, -3), spectrum.power(3, 3), 1e-12, "the spectrum of a real image is symmetrical");
        assertEquals(4, spectrum.frequencies().length);
        assertThrows(IllegalArgumentException.class, () -> spectrum.deviationThrough(9.9));
        assertThrows(IllegalArgumentException.class, () -> spectrum.deviationThrough(20.1));
        assertTrue(spectrum.deviationThrough(20).value()
                < spectrum.deviationThrough(10.1).value());
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
