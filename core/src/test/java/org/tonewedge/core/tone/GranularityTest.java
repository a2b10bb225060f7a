// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleSupplier;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;

class GranularityTest {

    private static Granularity grain(double aperture, double density, double deviation) {
        return new Granularity(aperture, Density.of(density), Estimate.of(deviation, deviation / 20));
    }

    private static DensityImage image(int width, int height, double pitch, DoubleSupplier density) {
        double[] densities = new double[width * height];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = density.getAsDouble();
        }
        return DensityImage.of(densities, width, pitch);
    }

    private static DensityImage whiteNoise(int side, double pitch, double deviation, long seed) {
        Random random = new Random(seed);
        return image(side, side, pitch, () -> 1 + deviation * random.nextGaussian());
    }

    /**
     * A deterministic field of the linear congruential generator x → 1103515245 x + 12345 mod 2³¹, with a slope: density 1
     * + 0.06 (x/2³¹ − 0.5) + 0.0004 column − 0.0002 row, 60 by 60.
     */
    private static DensityImage congruentialField() {
        double[] densities = new double[3600];
        long x = 12345;
        for (int i = 0; i < densities.length; i++) {
            x = (x * 1103515245L + 12345L) % (1L << 31);
            densities[i] =
                    1 + 0.06 * ((double) x / (1L << 31) - 0.5) + 0.0004 * (i % 60) - 0.0002 * Math.floorDiv(i, 60);
        }
        return DensityImage.of(densities, 60, 8);
    }

    /** Selwyn's law for 48 µm and σ 0.010: arithmetic on the formulas. σ√A constant was read in an encyclopedia article. */
    @Test
    void followsSelwynsLaw() {
        Granularity grain = grain(48, 1.0, 0.010);

        assertEquals(0.601591, grain.selwyn().value(), 5e-7);
        assertEquals(0.425389, grain.selwynByArea().value(), 5e-7);
        assertEquals(
                0.48 * 0.010, grain.throughAperture(100).standardDeviation().value(), 1e-15);
        assertEquals(10, grain.timesThousand().value(), 1e-12);
        assertEquals(
                grain.selwynByArea().value(),
                grain.throughAperture(17).selwynByArea().value(),
                1e-12);
        assertEquals("granularity 10.00 ± 0.50 (× 1000, 48 µm, D 1.00)", grain.toString());
    }

    /**
     * The same field by {@code granularity.py} (NumPy 2.4.6): blocks of 6 × 6 pixels weighted by a disc of 16 × 16 samples per
     * pixel, transmittances averaged, {@code numpy.linalg.lstsq}; then times 1 / √(Σ w² · π · 3²) with the weights w of that
     * disc, 1.0461778278998388.
     */
    @ParameterizedTest
    @CsvSource({"LEVEL, 0.008476715277403436", "PLANE, 0.0031979614425934584", "QUADRATIC, 0.0032431161584311565"})
    void agreesWithLeastSquaresElsewhere(Trend trend, double deviation) {
        Granularity grain = GranularityMethod.withDefaults().withTrend(trend).determine(congruentialField());

        assertEquals(deviation, grain.standardDeviation().value(), 1e-12);
        assertEquals(1.0057743482396164, grain.meanDensity().value(), 1e-12);
    }

    /** White noise: σ through an aperture of the area of n pixels is s / √n, n = π (48/p)² / 4, however coarse the scan. */
    @ParameterizedTest
    @ValueSource(doubles = {4, 10.6, 21.2, 42.3, 46, 48})
    @Tag("slow")
    void averagesWhiteNoiseInTheAperture(double pitch) {
        double deviation = 0.05;
        int side = (int) Math.ceil(48 / pitch) * 80;
        Granularity grain = GranularityMethod.withDefaults().determine(whiteNoise(side, pitch, deviation, 7));
        double expected = deviation / Math.sqrt(Math.PI * 48 * 48 / (4 * pitch * pitch));

        Estimate found = grain.standardDeviation();
        assertEquals(6400 - 3, 1 / (2 * Math.pow(found.standardUncertainty() / found.value(), 2)), 1e-6);
        assertEquals(expected, found.value(), 3 * found.standardUncertainty());
    }

    @Test
    @Tag("slow")
    void scalesWhiteNoiseWithTheInverseOfTheDiameter() {
        DensityImage image = whiteNoise(1500, 3, 0.08, 11);
        Granularity small = GranularityMethod.withDefaults().withAperture(48).determine(image);
        Granularity large = GranularityMethod.withDefaults().withAperture(96).determine(image);

        Estimate predicted = small.throughAperture(96).standardDeviation();
        assertEquals(
                predicted.value(),
                large.standardDeviation().value(),
                3
                        * Math.hypot(
                                predicted.standardUncertainty(),
                                large.standardDeviation().standardUncertainty()));
    }

    /** Twelve apertures of white noise, read at each twelfth of an aperture: twelve readings are independent, not 144. */
    @ParameterizedTest
    @EnumSource(Trend.class)
    @Tag("slow")
    void isRightOnAverageWhereReadingsOverlap(Trend trend) {
        Random random = new Random(5);
        int rows = 4000;
        double squares = 0;
        for (int i = 0; i < rows; i++) {
            double[] grain = random.doubles(156, -1, 1).toArray();
            double[] row = new double[144];
            for (int k = 0; k < row.length; k++) {
                row[k] = 1 + 0.01 * Arrays.stream(grain, k, k + 12).sum();
            }
            double found = GranularityMethod.withDefaults()
                    .withTrend(trend)
                    .determineRow(row, 4)
                    .standardDeviation()
                    .value();
            squares += found * found / rows;
        }
        // The variance of a number from −1 to 1 is 1/3. A deviation scatters by 0.16, the mean of 4000 by 0.3 %.
        assertEquals(0.01 * Math.sqrt(12 / 3.0), Math.sqrt(squares), 0.04 * 0.02);
    }

    @Test
    void statesAnUncertaintyThatHolds() {
        int tries = 400;
        int held = 0;
        for (int i = 0; i < tries; i++) {
            Random random = new Random(100 + i);
            double[] row = DoubleStream.generate(() -> 1 + 0.01 * random.nextGaussian())
                    .limit(400)
                    .toArray();
            Estimate found =
                    GranularityMethod.withDefaults().determineRow(row, 48).standardDeviation();
            held += Math.abs(found.value() - 0.01) <= 1.96 * found.standardUncertainty() ? 1 : 0;
        }
        // 95 % ± 3 standard deviations of a binomial of 400 tries, 3.3 %.
        assertEquals(0.95, held / (double) tries, 0.033);
    }

    /**
     * χ² of 9 degrees: the interval σ̂ (1 ± 2.658/√18), of Student's t with 4.5 degrees, holds σ in 94.6 % (SciPy 1.17.1,
     * {@code chi2.cdf(9/(1-x)**2, 9) - chi2.cdf(9/(1+x)**2, 9)} with {@code x = t.ppf(0.975, 4.5)/18**0.5}).
     */
    @Test
    void statesAnIntervalThatHoldsForTheFewestReadings() {
        Random random = new Random(5);
        GranularityMethod method = GranularityMethod.withDefaults().withTrendOfDegree(0);
        int tries = 20_000;
        int held = 0;
        for (int i = 0; i < tries; i++) {
            double[] row = DoubleStream.generate(() -> 1 + 0.01 * random.nextGaussian())
                    .limit(10)
                    .toArray();
            held += method.determineRow(row, 48)
                            .standardDeviation()
                            .interval(0.95)
                            .contains(0.01)
                    ? 1
                    : 0;
        }
        // ± 3 standard deviations of a binomial of 20,000 tries, 0.5 %.
        assertEquals(0.946, held / (double) tries, 0.005);
    }

    @Test
    void takesOutATrend() {
        double[] row = new double[60];
        double[] tilted = new double[60];
        Random random = new Random(5);
        for (int i = 0; i < row.length; i++) {
            row[i] = 1 + 0.01 * random.nextGaussian();
            tilted[i] = row[i] + 0.004 * i - 0.00003 * i * i;
        }
        GranularityMethod method = GranularityMethod.withDefaults().withTrend(Trend.QUADRATIC);

        assertEquals(
                method.determineRow(row, 60).standardDeviation().value(),
                method.determineRow(tilted, 60).standardDeviation().value(),
                1e-12);
    }

    @Test
    void countsOverlappingReadingsOnlyAsOftenAsTheApertureFits() {
        double[] row = new Random(6).doubles(400).map(d -> 1 + 0.02 * d).toArray();

        Granularity close = GranularityMethod.withDefaults().determineRow(row, 12);

        double degrees = 1
                / (2
                        * Math.pow(
                                close.standardDeviation().standardUncertainty()
                                        / close.standardDeviation().value(),
                                2));
        assertEquals(100 - 2, degrees, 1e-6);
    }

    @Test
    void interpolatesToTheDensityStated() {
        List<Granularity> areas = List.of(grain(48, 1.3, 0.013), grain(48, 0.8, 0.008), grain(48, 1.0, 0.0104));

        Granularity stated = Granularity.at(Density.of(1.15), areas);

        assertEquals((0.0104 + 0.013) / 2, stated.standardDeviation().value(), 1e-12);
        assertEquals(
                0.0104,
                Granularity.at(Density.of(1.0), areas).standardDeviation().value(),
                0);
        // A tenth of the way from 0.8 to 1.0: (0.9 a + 0.1 b), the uncertainties likewise as independent (JCGM 100,
        // 5.1.2).
        Granularity near = Granularity.at(Density.of(0.82), areas);
        assertEquals(0.9 * 0.008 + 0.1 * 0.0104, near.standardDeviation().value(), 1e-12);
        assertEquals(
                Math.hypot(0.9 * 0.0004, 0.1 * 0.00052),
                near.standardDeviation().standardUncertainty(),
                1e-12);
        String message = assertThrows(OutsideMeasuredRangeException.class, () -> Granularity.at(Density.of(1.4), areas))
                .getMessage();
        assertTrue(message.contains("from D 0.80 to D 1.30"), message);
        assertThrows(
                IllegalArgumentException.class,
                () -> Granularity.at(Density.of(1), List.of(grain(48, 0.9, 0.01), grain(24, 1.1, 0.01))));
        assertThrows(IllegalArgumentException.class, () -> Granularity.at(Density.of(1), List.of()));
    }

    @Test
    void refusesImagesThatCannotTell() {
        GranularityMethod method = GranularityMethod.withDefaults();
        assertThrows(NotDeterminableException.class, () -> method.determine(whiteNoise(20, 50, 0.01, 1)));
        assertThrows(NotDeterminableException.class, () -> method.determine(whiteNoise(20, 8, 0.01, 1)));
        assertThrows(NotDeterminableException.class, () -> method.determine(whiteNoise(4, 8, 0.01, 1)));
        assertThrows(NotDeterminableException.class, () -> method.determineRow(new double[] {1, 1.1, 0.9}, 48));
        GranularityMethod wide = method.withAperture(1e9);
        assertThrows(NotDeterminableException.class, () -> wide.determine(whiteNoise(20, 8, 0.01, 1)));
        assertThrows(IllegalArgumentException.class, () -> method.withAperture(0));
    }

    @Test
    void refusesWhatIsNoImageOfDensities() {
        assertThrows(IllegalArgumentException.class, () -> DensityImage.of(new double[6], 4, 1));
        assertThrows(IllegalArgumentException.class, () -> DensityImage.of(new double[0], 1, 1));
        assertThrows(IllegalArgumentException.class, () -> DensityImage.of(new double[4], 2, 0));
        String message = assertThrows(
                        IllegalArgumentException.class,
                        () -> DensityImage.of(new double[] {0, 0, 0, Double.NaN, 0, 0}, 3, 1))
                .getMessage();
        assertTrue(message.startsWith("row 1, column 0: density"), message);
    }

    /**
     * {@code numpy.fft.fft2} on the same field less its plane, by {@code granularity.py} (NumPy 2.4.6): blocks of 20 pixels, up
     * to 3 cycles per block, 126 terms, each divided by 1 less the sum of |F|² / 400 of the three columns of numpy.linalg.qr of (1, column, row) in its block.
     * Undivided it is 0.019337538219972424.
     */
    @Test
    void agreesWithAFourierTransformElsewhere() {
        NoisePower noise = NoisePower.of(congruentialField(), 160, 3 / 0.160);

        assertEquals(0.019353042780176008, noise.power().value(), 1e-12);
        assertEquals(noise.power().value() / Math.sqrt(126), noise.power().standardUncertainty(), 1e-12);
        assertEquals(126 / 2.0, noise.power().degreesOfFreedom(), 1e-12);
        assertEquals(1 / 0.160, noise.lowestFrequency(), 1e-9);
        assertEquals(3 / 0.160, noise.highestFrequency(), 1e-9);
    }

    /** White noise of standard deviation s at pitch p has the power s² p² at every frequency. */
    @Test
    @Tag("slow")
    void findsThePowerOfWhiteNoise() {
        NoisePower noise = NoisePower.of(whiteNoise(512, 5, 0.05, 3), 320, 10);

        assertEquals(0.05 * 0.05 * 25, noise.power().value(), 3 * noise.power().standardUncertainty());
        assertEquals(
                0.05 / Math.sqrt(Math.PI * 48 * 48 / 4 / 25),
                noise.deviationThrough(48),
                0.05 * noise.deviationThrough(48));
    }

    /**
     * The plane is taken out of the grain too, which is much of the little a single block tells of low frequencies. Intervals
     * of 14 terms should hold the power in 94.5 % by the gamma distribution (SciPy 1.17.1: {@code gamma.cdf}), in 91.6 % if the
     * uncertainty counted as exactly known; the limit is 94.5 % less three standard deviations of 3000 images.
     */
    @Test
    @Tag("slow")
    void isRightOnAverageWhereOneBlockIsTheWholeImage() {
        int images = 3000;
        double sum = 0;
        double sumOfSquares = 0;
        int held = 0;
        for (int i = 0; i < images; i++) {
            Estimate found = NoisePower.of(whiteNoise(16, 5, 0.05, 100 + i), 80, 3 / 0.080)
                    .power();
            held += found.interval(0.95).contains(0.05 * 0.05 * 25) ? 1 : 0;
            double power = found.value();
            sum += power;
            sumOfSquares += power * power;
        }
        double mean = sum / images;
        double uncertainty = Math.sqrt((sumOfSquares / images - mean * mean) / images);
        assertEquals(0.05 * 0.05 * 25, mean, 3 * uncertainty);
        assertTrue(uncertainty < 0.01 * mean, "enough images to see 7 %");
        assertTrue(held > 0.9325 * images, "held " + held);
    }

    /**
     * A slanted wave of amplitude a, whole in the block: |F|² = (a N² / 2)² at its frequency, nothing at the others, and
     * nothing in the slopes of the plane.
     */
    @Test
    void findsThePowerOfASingleWave() {
        int side = 40;
        double[] densities = new double[side * side];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = 1 + 0.1 * Math.cos(2 * Math.PI * (i % side + i / side) / side);
        }
        NoisePower noise = NoisePower.of(DensityImage.of(densities, side, 10), 400, 2.0 / 0.4);

        // Up to 2 cycles per block there are (0,1), (0,2), (1,−1), (1,0), (1,1), (2,0): six terms, the wave in one.
        double power = 100 * Math.pow(0.1 * side * side / 2, 2) / (side * side) / 6;
        assertEquals(power, noise.power().value(), 1e-9 * power);
    }

    @Test
    void refusesBlocksAndLimitsThatDoNotFit() {
        DensityImage image = whiteNoise(40, 10, 0.01, 1);
        assertThrows(NotDeterminableException.class, () -> NoisePower.of(image, 500, 5));
        assertThrows(NotDeterminableException.class, () -> NoisePower.of(image, 200, 4));
        assertThrows(NotDeterminableException.class, () -> NoisePower.of(image, 200, 50));
        assertThrows(IllegalArgumentException.class, () -> NoisePower.of(image, 0, 5));
    }

    @Test
    void placesBesideTheImageAreRefused() {
        DensityImage image = DensityImage.of(new double[] {1, 2, 3, 4, 5, 6}, 2, 4);
        assertEquals(4, image.density(1, 1));
        assertThrows(IndexOutOfBoundsException.class, () -> image.density(2, 0));
        assertThrows(IndexOutOfBoundsException.class, () -> image.density(0, 3));
        assertThrows(IndexOutOfBoundsException.class, () -> image.density(-1, 1));
    }

    @Test
    void theRecordsCarryTheUncertaintyWithItsDegreesOfFreedom() {
        Granularity grain = new Granularity(48, Density.of(1.02), Estimate.of(0.0102, 0.0003, 12));

        assertTrue(grain.records()
                .contains(ResultRecord.ofEstimate("granularity", Estimate.of(0.0102, 0.0003, 12), "density")));
        assertTrue(grain.records().contains(ResultRecord.ofEstimate("times_thousand", grain.timesThousand(), "")));
        assertEquals(12, grain.timesThousand().degreesOfFreedom());
        assertEquals(12, grain.selwyn().degreesOfFreedom());
    }
}
