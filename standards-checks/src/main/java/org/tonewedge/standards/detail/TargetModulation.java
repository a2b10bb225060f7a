// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.tone.DensityImage;

/**
 * The modulation on film of a periodic target of known frequency, bars or a sine wave: (greatest − least) / (greatest +
 * least) of its fundamental wave, such as 0.62 at 40 cycles per millimetre.
 *
 * <p>A plane wave of the stated frequency is fitted by least squares together with the mean and a plane; its direction
 * and frequency (within {@value #FREQUENCY_SEARCH}) are free. The modulation is its amplitude divided by the mean. The
 * fundamental of bars as dark as they are wide is 4/π times their own modulation; this factor is divided out.
 *
 * <p>The uncertainty comes from the scatter of the wave among up to {@value #BLOCKS} strips across the bars; the square of
 * the noise is subtracted from that of the amplitude.
 *
 * <p>Immutable and thread safe.
 *
 * @source Fourier series of a square wave; modulation as contrast ratio: common practice, no source
 */
public final class TargetModulation {

    /** How far, as a fraction, the frequency found may differ from the stated one. */
    public static final double FREQUENCY_SEARCH = 0.05;

    static final int BLOCKS = 24;
    private static final int FEWEST_BLOCKS = 6;
    private static final int ROUNDS = 7;
    private static final double RESOLVED = 3;

    private final double frequency;
    private final Estimate modulation;

    private TargetModulation(double frequency, Estimate modulation) {
        this.frequency = frequency;
        this.modulation = modulation;
    }

    /**
     * Reads bars in transmittances.
     *
     * @param image the densities of a region filled by bars of one frequency
     * @param frequency their frequency, in cycles (a dark and a light bar) per millimetre
     * @return the modulation
     * @throws IllegalArgumentException if the frequency is not above 0
     * @throws NotDeterminableException if the region is less than three cycles wide or a cycle less than 2.5 pixels
     */
    public static TargetModulation ofBars(DensityImage image, double frequency) {
        return read(image, frequency, density -> Math.pow(10, -density), Math.PI / 4);
    }

    /**
     * Reads bars in exposures, through the curve of the film.
     *
     * @param image the densities of a region filled by bars of one frequency
     * @param frequency their frequency in cycles per millimetre
     * @param curve the characteristic curve of the film
     * @return the modulation
     * @throws IllegalArgumentException if the frequency is not above 0
     * @throws NotDeterminableException as {@link #ofBars(DensityImage, double)} does, and if the curve cannot be turned back
     *     at a density of the region
     */
    public static TargetModulation ofBars(DensityImage image, double frequency, CharacteristicCurve curve) {
        return read(image, frequency, density -> Math.pow(10, curve.logExposure(density)), Math.PI / 4);
    }

    /**
     * Reads a sine wave in transmittances.
     *
     * @param image the densities of a region filled by the wave
     * @param frequency its frequency in cycles per millimetre
     * @return the modulation
     * @throws IllegalArgumentException if the frequency is not above 0
     * @throws NotDeterminableException as {@link #ofBars(DensityImage, double)} does
     */
    public static TargetModulation ofSine(DensityImage image, double frequency) {
        return read(image, frequency, density -> Math.pow(10, -density), 1);
    }

    /**
     * Reads a sine wave in exposures, through the curve of the film.
     *
     * @param image the densities of a region filled by the wave
     * @param frequency its frequency in cycles per millimetre
     * @param curve the characteristic curve of the film
     * @return the modulation
     * @throws IllegalArgumentException if the frequency is not above 0
     * @throws NotDeterminableException as {@link #ofBars(DensityImage, double, CharacteristicCurve)} does
     */
    public static TargetModulation ofSine(DensityImage image, double frequency, CharacteristicCurve curve) {
        return read(image, frequency, density -> Math.pow(10, curve.logExposure(density)), 1);
    }

    private static TargetModulation read(
            DensityImage image, double frequency, DoubleUnaryOperator ofDensity, double ofFundamental) {
        Checks.positive("frequency in cycles per millimetre", frequency);
        double perPixel = frequency * image.pitch() / 1000;
        if (perPixel > 0.4) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "a cycle of " + Figures.plain(frequency) + " per millimetre is " + Figures.plain(1 / perPixel)
                            + " pixels, fewer than 2.5; scan finer");
        }
        double[] values = new double[image.width() * image.height()];
        for (int i = 0; i < values.length; i++) {
            values[i] = ofDensity.applyAsDouble(image.density(i % image.width(), i / image.width()));
        }
        return new Wave(values, image.width(), perPixel).fitted(frequency, ofFundamental);
    }

    /**
     * Returns the stated frequency.
     *
     * @return cycles per millimetre
     */
    public double frequency() {
        return frequency;
    }

    /**
     * Returns the modulation.
     *
     * @return the modulation, 0 or above
     */
    public Estimate modulation() {
        return modulation;
    }

    /**
     * Tells whether the wave stands out of the noise.
     *
     * @return true if the modulation is more than three times its standard uncertainty
     */
    public boolean isResolved() {
        return modulation.value() > RESOLVED * modulation.standardUncertainty();
    }

    /**
     * Returns the modulation in words.
     *
     * @return the modulation and the frequency
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "modulation %s at %.4g cycles per millimetre",
                EstimateFormat.withDefaults().format(modulation),
                frequency);
    }

    /** A region with its plane removed, and the wave in it. */
    private static final class Wave {

        private final double[] values;
        private final int width;
        private final int height;
        private final double perPixel;
        private final double mean;
        /**
         * Weights across the bars, along rows and along columns; they separate the wave from the mean and the plane.
         */
        private final double[] alongRow;

        private final double[] alongColumn;

        Wave(double[] values, int width, double perPixel) {
            this.width = width;
            this.height = values.length / width;
            this.perPixel = perPixel;
            mean = Arrays.stream(values).average().orElseThrow();
            this.values = withoutPlane(values);
            alongRow = hann(width);
            alongColumn = hann(height);
        }

        private static double[] hann(int length) {
            double[] weights = new double[length];
            for (int i = 0; i < length; i++) {
                weights[i] = 1 - Math.cos(2 * Math.PI * (i + 0.5) / length);
            }
            return weights;
        }

        private double[] withoutPlane(double[] all) {
            double alongX = 0;
            double alongY = 0;
            double squaresX = 0;
            double squaresY = 0;
            for (int i = 0; i < all.length; i++) {
                double x = i % width - 0.5 * (width - 1);
                double y = Math.floorDiv(i, width) - 0.5 * (height - 1);
                alongX += all[i] * x;
                alongY += all[i] * y;
                squaresX += x * x;
                squaresY += y * y;
            }
            double[] left = new double[all.length];
            for (int i = 0; i < all.length; i++) {
                double x = i % width - 0.5 * (width - 1);
                double y = Math.floorDiv(i, width) - 0.5 * (height - 1);
                left[i] = all[i]
                        - mean
                        - (squaresX > 0 ? alongX / squaresX * x : 0)
                        - (squaresY > 0 ? alongY / squaresY * y : 0);
            }
            return left;
        }

        TargetModulation fitted(double frequency, double ofFundamental) {
            double[] across = refined(perPixel, 0, true);
            double[] down = refined(0, perPixel, false);
            boolean upright = power(across[0], across[1], true) >= power(down[0], down[1], false);
            double fx = upright ? across[0] : down[0];
            double fy = upright ? across[1] : down[1];
            int span = upright ? width : height;
            int length = upright ? height : width;
            if (span * perPixel < 3) {
                throw new NotDeterminableException(
                        Reason.UNSUITABLE_IMAGE,
                        "the region is " + Figures.plain(span * perPixel)
                                + " cycles of the bars wide, fewer than 3; take a wider one");
            }
            int blocks = Math.min(BLOCKS, length);
            if (blocks < FEWEST_BLOCKS) {
                throw new NotDeterminableException(
                        Reason.UNSUITABLE_IMAGE,
                        "the bars are " + length + " pixels long in the region, fewer than " + FEWEST_BLOCKS
                                + "; take a longer one");
            }
            double[][] of = new double[blocks][];
            double re = 0;
            double im = 0;
            for (int b = 0; b < blocks; b++) {
                int from = b * length / blocks;
                int to = (b + 1) * length / blocks;
                of[b] = upright
                        ? amplitude(fx, fy, true, 0, width, from, to)
                        : amplitude(fx, fy, false, from, to, 0, height);
                re += of[b][0] / blocks;
                im += of[b][1] / blocks;
            }
            double variance = 0;
            double along = 0;
            double size = Math.hypot(re, im);
            for (double[] block : of) {
                variance += Math.pow(block[0] - re, 2) + Math.pow(block[1] - im, 2);
                along += size == 0 ? 0 : Math.pow(((block[0] - re) * re + (block[1] - im) * im) / size, 2);
            }
            variance /= blocks * (blocks - 1.0);
            double uncertainty = Math.sqrt(along / (blocks * (blocks - 1.0)));
            double scale = ofFundamental / Math.abs(weightedMean(upright));
            return new TargetModulation(
                    frequency,
                    Estimate.of(Math.sqrt(Math.max(0, size * size - variance)) * scale, uncertainty * scale));
        }

        /** The mean of the wave's own pixels; the plane, whose mean is 0, keeps the mean of all. */
        private double weightedMean(boolean upright) {
            double sum = 0;
            double weights = 0;
            for (int i = 0; i < values.length; i++) {
                double weight = upright ? alongRow[i % width] : alongColumn[i / width];
                sum += weight * values[i];
                weights += weight;
            }
            return mean + sum / weights;
        }

        /** The frequencies along rows and columns at which the wave is strongest, near those given. */
        private double[] refined(double startX, double startY, boolean upright) {
            double bestX = startX;
            double bestY = startY;
            double best = -1;
            double step = FREQUENCY_SEARCH * perPixel / 2;
            for (int round = 0; round < ROUNDS; round++) {
                double centreX = bestX;
                double centreY = bestY;
                for (int i = -2; i <= 2; i++) {
                    for (int j = -2; j <= 2; j++) {
                        double x = centreX + i * step;
                        double y = centreY + j * step;
                        if (Math.abs(Math.hypot(x, y) / perPixel - 1) > FREQUENCY_SEARCH) {
                            continue;
                        }
                        double power = power(x, y, upright);
                        if (power > best) {
                            best = power;
                            bestX = x;
                            bestY = y;
                        }
                    }
                }
                step /= 2;
            }
            return new double[] {bestX, bestY};
        }

        private double power(double fx, double fy, boolean upright) {
            double[] found = amplitude(fx, fy, upright, 0, width, 0, height);
            return found[0] * found[0] + found[1] * found[1];
        }

        /** The cosine and sine amplitudes of a wave in a part of the region, by weighted least squares. */
        private double[] amplitude(double fx, double fy, boolean upright, int left, int right, int top, int bottom) {
            double cc = 0;
            double ss = 0;
            double cs = 0;
            double vc = 0;
            double vs = 0;
            for (int y = top; y < bottom; y++) {
                double phase = 2 * Math.PI * (fx * left + fy * y);
                double turnCos = Math.cos(2 * Math.PI * fx);
                double turnSin = Math.sin(2 * Math.PI * fx);
                double c = Math.cos(phase);
                double s = Math.sin(phase);
                for (int x = left; x < right; x++) {
                    double value = values[y * width + x];
                    double weight = upright ? alongRow[x] : alongColumn[y];
                    cc += weight * c * c;
                    ss += weight * s * s;
                    cs += weight * c * s;
                    vc += weight * value * c;
                    vs += weight * value * s;
                    double next = c * turnCos - s * turnSin;
                    s = s * turnCos + c * turnSin;
                    c = next;
                }
            }
            double determinant = cc * ss - cs * cs;
            return new double[] {(vc * ss - vs * cs) / determinant, (vs * cc - vc * cs) / determinant};
        }
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof TargetModulation that
                && Double.compare(frequency, that.frequency) == 0
                && Objects.equals(modulation, that.modulation);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(frequency, modulation);
    }
}
