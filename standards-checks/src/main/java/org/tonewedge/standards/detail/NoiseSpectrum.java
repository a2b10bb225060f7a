// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.tone.DensityImage;

/**
 * The noise power of an evenly exposed area as a function of spatial frequency (Wiener spectrum): how much of the grain
 * is coarse and how much is fine.
 *
 * <p>Square blocks that overlap by half are transformed and averaged, after removing the plane of each and applying a
 * Hann window; the power that the plane takes from white noise is given back. {@link #powers()} gives one dimension,
 * averaged over all directions; {@link #power(int, int)} gives two. White noise of standard deviation s at the pitch p has
 * the power s<sup>2</sup> p<sup>2</sup> at every frequency.
 *
 * <p>A scan sees grain through its own blur and adds its own noise. If you have a scan of the bare light at the same
 * setting and the modulation transfer of the scanner, {@link #corrected corrected} removes both; without them film and scanner
 * cannot be separated.
 *
 * <p>Immutable and thread safe.
 *
 * @units square micrometres (density squared times area) for powers, cycles per millimetre for frequencies
 * @source averaged modified periodograms: common practice, no source; granularity from the spectrum: σ<sup>2</sup> = ∫∫ W
 *     |A|<sup>2</sup> du dv, with the transform 2 J<sub>1</sub>(πfd) / (πfd) of a circular aperture, from memory
 */
public final class NoiseSpectrum {

    private static final double LEAST_PASSED = 0.2;

    private final int side;
    private final double pitch;
    /** Power at each frequency of a block, with frequency 0 first, in the order of transforms. */
    private final double[] grid;

    /** What the uncertainty of each power is a part of: the power itself, before noise was subtracted from it. */
    private final double[] spread;

    /** The standard uncertainty of each power that all share: that of the modulation transfer that was divided out. */
    private final double[] shared;

    private final double independentBlocks;

    private NoiseSpectrum(
            int side, double pitch, double[] grid, double[] spread, double[] shared, double independentBlocks) {
        this.side = side;
        this.pitch = pitch;
        this.grid = grid;
        this.spread = spread;
        this.shared = shared;
        this.independentBlocks = independentBlocks;
    }

    /**
     * Measures an image.
     *
     * @param image the densities of an evenly exposed area
     * @param side the pixels along the side of a block, a power of two from 8 to 1024
     * @return the spectrum
     * @throws IllegalArgumentException if the side is not such a power
     * @throws NotDeterminableException if no block fits on the image
     */
    public static NoiseSpectrum of(DensityImage image, int side) {
        Objects.requireNonNull(image, "image");
        if (side < 8 || side > 1024 || Integer.bitCount(side) != 1) {
            throw new IllegalArgumentException(
                    "the side of a block must be a power of two from 8 to 1024, was " + side);
        }
        if (side > Math.min(image.width(), image.height())) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "a block of " + side + " pixels does not fit on an image of " + image.width() + " by "
                            + image.height() + "; take a larger area or a smaller block");
        }
        double[] window = new double[side];
        double squares = 0;
        for (int i = 0; i < side; i++) {
            window[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / side);
            squares += window[i] * window[i];
        }
        double[] grid = new double[side * side];
        int blocks = 0;
        for (int top = 0; top + side <= image.height(); top += side / 2) {
            for (int left = 0; left + side <= image.width(); left += side / 2) {
                addPowers(image, left, top, window, grid);
                blocks++;
            }
        }
        double scale = image.pitch() * image.pitch() / (squares * squares) / blocks;
        double[] kept = kept(window);
        for (int i = 0; i < grid.length; i++) {
            grid[i] *= scale / kept[i];
        }
        double independent = Math.max(1, (double) image.width() / side) * Math.max(1, (double) image.height() / side);
        return new NoiseSpectrum(side, image.pitch(), grid, grid, new double[grid.length], independent);
    }

    /**
     * The part of the power of white noise that is left at each frequency after a plane was taken out of each block: 1 less
     * what the mean and the two slopes, each of unit norm, carry through the window.
     */
    private static double[] kept(double[] window) {
        int side = window.length;
        double middle = 0.5 * (side - 1);
        double[] levelRe = window.clone();
        double[] levelIm = new double[side];
        double[] slopeRe = new double[side];
        double[] slopeIm = new double[side];
        double squares = 0;
        double ofSlope = 0;
        for (int i = 0; i < side; i++) {
            slopeRe[i] = window[i] * (i - middle);
            squares += window[i] * window[i];
            ofSlope += (i - middle) * (i - middle);
        }
        transform(levelRe, levelIm);
        transform(slopeRe, slopeIm);
        double[] level = new double[side];
        double[] slope = new double[side];
        for (int i = 0; i < side; i++) {
            level[i] = (levelRe[i] * levelRe[i] + levelIm[i] * levelIm[i]) / (side * squares);
            slope[i] = (slopeRe[i] * slopeRe[i] + slopeIm[i] * slopeIm[i]) / (ofSlope * squares);
        }
        double[] kept = new double[side * side];
        for (int i = 0; i < kept.length; i++) {
            int u = i % side;
            int v = i / side;
            kept[i] = 1 - level[u] * level[v] - slope[u] * level[v] - level[u] * slope[v];
        }
        return kept;
    }

    private static void addPowers(DensityImage image, int left, int top, double[] window, double[] grid) {
        int side = window.length;
        double[] re = new double[side * side];
        double[] im = new double[side * side];
        double mean = 0;
        double alongX = 0;
        double alongY = 0;
        double squares = 0;
        double middle = 0.5 * (side - 1);
        for (int i = 0; i < re.length; i++) {
            re[i] = image.density(left + i % side, top + i / side);
            mean += re[i] / re.length;
            alongX += re[i] * (i % side - middle);
            alongY += re[i] * (Math.floorDiv(i, side) - middle);
            squares += (i % side - middle) * (i % side - middle);
        }
        for (int i = 0; i < re.length; i++) {
            double plane = mean + (alongX * (i % side - middle) + alongY * (Math.floorDiv(i, side) - middle)) / squares;
            re[i] = (re[i] - plane) * window[i % side] * window[i / side];
        }
        double[] lineRe = new double[side];
        double[] lineIm = new double[side];
        for (int pass = 0; pass < 2; pass++) {
            for (int line = 0; line < side; line++) {
                for (int k = 0; k < side; k++) {
                    int at = pass == 0 ? line * side + k : k * side + line;
                    lineRe[k] = re[at];
                    lineIm[k] = im[at];
                }
                transform(lineRe, lineIm);
                for (int k = 0; k < side; k++) {
                    int at = pass == 0 ? line * side + k : k * side + line;
                    re[at] = lineRe[k];
                    im[at] = lineIm[k];
                }
            }
        }
        for (int i = 0; i < grid.length; i++) {
            grid[i] += re[i] * re[i] + im[i] * im[i];
        }
    }

    /** The Fourier transform in place, by repeated halving; the length is a power of two. */
    private static void transform(double[] re, double[] im) {
        int n = re.length;
        for (int i = 1, j = 0; i < n; i++) {
            int bit = n >> 1;
            for (; (j & bit) != 0; bit >>= 1) {
                j ^= bit;
            }
            j ^= bit;
            if (i < j) {
                double t = re[i];
                re[i] = re[j];
                re[j] = t;
                t = im[i];
                im[i] = im[j];
                im[j] = t;
            }
        }
        for (int size = 2; size <= n; size <<= 1) {
            for (int k = 0; k < size / 2; k++) {
                double c = Math.cos(2 * Math.PI * k / size);
                double s = -Math.sin(2 * Math.PI * k / size);
                for (int at = k; at < n; at += size) {
                    int other = at + size / 2;
                    double r = re[other] * c - im[other] * s;
                    double i = re[other] * s + im[other] * c;
                    re[other] = re[at] - r;
                    im[other] = im[at] - i;
                    re[at] += r;
                    im[at] += i;
                }
            }
        }
    }

    /**
     * Returns the frequencies of {@link #powers()}.
     *
     * @return the frequencies, rising from one cycle per block to half a cycle per pixel, in cycles per millimetre
     */
    public double[] frequencies() {
        double[] found = new double[side / 2];
        for (int k = 0; k < found.length; k++) {
            found[k] = (k + 1) * unit();
        }
        return found;
    }

    /**
     * Returns the power at each of {@link #frequencies()}, averaged over all directions.
     *
     * @return the powers with their standard uncertainties, power / √n for n independent terms, those of a scanner that was
     *     taken out included
     */
    public Estimate[] powers() {
        double[] sums = new double[side / 2];
        double[] spreads = new double[side / 2];
        double[] common = new double[side / 2];
        int[] counts = new int[side / 2];
        for (int i = 0; i < grid.length; i++) {
            int ring = (int) Math.rint(frequencyOf(i));
            if (ring >= 1 && ring <= side / 2) {
                sums[ring - 1] += grid[i];
                spreads[ring - 1] += spread[i];
                common[ring - 1] += shared[i];
                counts[ring - 1]++;
            }
        }
        Estimate[] found = new Estimate[sums.length];
        for (int k = 0; k < sums.length; k++) {
            double power = sums[k] / counts[k];
            // Half of the frequencies mirror the others; the window spreads each over about two neighbours.
            double independent = Math.max(1, independentBlocks * counts[k] / 4.0);
            found[k] = Estimate.of(power, Math.hypot(spreads[k] / Math.sqrt(independent), common[k]) / counts[k]);
        }
        return found;
    }

    /**
     * Returns the power at one frequency in two dimensions.
     *
     * @param across cycles per block along the rows, from −side/2 to side/2 − 1
     * @param down cycles per block along the columns, likewise
     * @return the power
     * @throws IndexOutOfBoundsException if there is no such frequency
     */
    public double power(int across, int down) {
        if (across < -side / 2 || across >= side / 2 || down < -side / 2 || down >= side / 2) {
            throw new IndexOutOfBoundsException("frequencies run from " + -side / 2 + " to " + (side / 2 - 1)
                    + " cycles per block, were " + across + " and " + down);
        }
        return grid[Math.floorMod(down, side) * side + Math.floorMod(across, side)];
    }

    /**
     * Returns the spectrum without the scanner: its own noise is subtracted, and the rest divided by the square of its
     * modulation transfer. Frequencies of which the scanner transmits less than {@value #LEAST_PASSED} keep no power.
     * Uncertainties include those of both spectra and of the modulation transfer, whose error is taken to be common to all
     * frequencies.
     *
     * @param scannerNoise the spectrum of a scan without grain, at the same pitch and side
     * @param scanner the modulation transfer of the scanner
     * @return the corrected spectrum
     * @throws IllegalArgumentException if the two spectra differ in pitch or side
     * @source W<sub>film</sub> = (W<sub>both</sub> − W<sub>scanner</sub>) / M<sup>2</sup>, as powers of independent noises
     *     add and a blur acts on power by the square of its transfer: closed form
     */
    public NoiseSpectrum corrected(NoiseSpectrum scannerNoise, ModulationTransfer scanner) {
        if (scannerNoise.side != side || scannerNoise.pitch != pitch) {
            throw new IllegalArgumentException("the noise of the scanner must be measured at the same pitch and side: "
                    + this + " and " + scannerNoise);
        }
        double[] left = new double[grid.length];
        double[] wide = new double[grid.length];
        double[] common = new double[grid.length];
        double share = independentBlocks / scannerNoise.independentBlocks;
        for (int i = 0; i < grid.length; i++) {
            double frequency = frequencyOf(i) * unit();
            Estimate transfer = frequency <= scanner.lowestFrequency()
                    ? Estimate.of(1, 0)
                    : frequency > scanner.highestFrequency() ? Estimate.of(0, 0) : scanner.at(frequency);
            double passed = transfer.value();
            if (passed >= LEAST_PASSED) {
                double power = passed * passed;
                left[i] = (grid[i] - scannerNoise.grid[i]) / power;
                wide[i] = Math.sqrt(spread[i] * spread[i] + share * Math.pow(scannerNoise.spread[i], 2)) / power;
                common[i] = Math.hypot(shared[i] / power, 2 * left[i] * transfer.standardUncertainty() / passed);
            }
        }
        return new NoiseSpectrum(side, pitch, left, wide, common, independentBlocks);
    }

    /**
     * Returns the granularity to expect through a circular aperture: the square root of the power that it transmits.
     *
     * @param aperture the diameter in micrometres, above twice the pitch
     * @return the standard deviation of density, with the uncertainty of {@link #powers()}
     * @throws IllegalArgumentException if the aperture is not above twice the pitch or wider than half a block
     */
    public Estimate deviationThrough(double aperture) {
        Checks.within(
                "aperture in micrometres", aperture, 2 * pitch, side * pitch / 2, "choose another side of the blocks");
        return deviation(frequency -> airy(Math.PI * frequency * aperture / 1000));
    }

    /** The deviation of density behind a filter: what it passes of a wave, by cycles per millimetre. */
    Estimate deviation(DoubleUnaryOperator filter) {
        double area = Math.pow(1 / (side * pitch), 2);
        double sum = 0;
        double squares = 0;
        double common = 0;
        for (int i = 0; i < grid.length; i++) {
            double passed = filter.applyAsDouble(frequencyOf(i) * unit());
            double weight = passed * passed * area;
            sum += grid[i] * weight;
            squares += Math.pow(spread[i] * weight, 2);
            common += shared[i] * weight;
        }
        double deviation = Math.sqrt(Math.max(0, sum));
        double ofSum = Math.hypot(Math.sqrt(4 * squares / independentBlocks), common);
        return Estimate.of(deviation, deviation == 0 ? Math.sqrt(ofSum) : ofSum / (2 * deviation));
    }

    /** 2 J1(x) / x, by Bessel's integral and the trapezium rule, which converges faster than any power here. */
    private static double airy(double x) {
        if (x < 1e-6) {
            return 1;
        }
        int steps = 24 + (int) (2 * x);
        double sum = 0;
        for (int k = 0; k < steps; k++) {
            double t = Math.PI * (k + 0.5) / steps;
            sum += Math.cos(t - x * Math.sin(t));
        }
        return 2 * sum / steps / x;
    }

    /** Cycles per block at a position in the grid. */
    private double frequencyOf(int i) {
        int u = i % side;
        int v = i / side;
        return Math.hypot(u > side / 2 ? u - side : u, v > side / 2 ? v - side : v);
    }

    /** One cycle per block, in cycles per millimetre. */
    private double unit() {
        return 1000 / (side * pitch);
    }

    /**
     * Returns the spectrum in words.
     *
     * @return its frequencies and mean power
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "noise power of %.3g µm² on the average, from %s to %s cycles per millimetre",
                Arrays.stream(grid).average().orElseThrow(),
                Figures.plain(unit()),
                Figures.plain(unit() * side / 2));
    }
}
