// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/**
 * The noise power of a film at low spatial frequency, such as 0.18 µm²: the level of its noise power spectrum at
 * frequencies where the grain looks like white noise.
 *
 * <p>A square block of N × N densities at pitch p gives the power p<sup>2</sup> |F(u, v)|<sup>2</sup> / N<sup>2</sup>, with
 * the discrete Fourier transform F of the density less a plane through the whole image. It is averaged over the blocks and
 * over the frequencies above zero up to a limit. White noise of standard deviation s has the power s<sup>2</sup>
 * p<sup>2</sup> at every frequency.
 *
 * <p>Removing the plane also removes some of the noise along the rows and columns, up to 30 % of a term if one block is
 * the whole image. Each term is therefore divided by the fraction of white noise that is left in it.
 *
 * <p>The standard uncertainty of the mean of n terms is power / √n. It comes with n / 2 degrees of freedom, because such a mean
 * is more often too small than too large: the 95 % interval of Student's t then holds the power of white noise in 98.2 % for
 * the fewest terms, 2, in 94.5 to 96.0 % from 4 terms on, by the gamma distribution of such a mean; with the normal distribution
 * it would be 85 % for 4 terms and 90 % for 10.
 *
 * <p>The granularity to expect through a large aperture of area A follows from the power W: σ<sup>2</sup> = W / A.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param power the mean power; n independent terms give it a standard uncertainty of power / √n with n / 2 degrees of freedom
 * @param lowestFrequency the lowest frequency that entered
 * @param highestFrequency the highest frequency that entered
 * @units square micrometres (density squared times area) for the power, cycles per millimetre for frequencies
 * @source definition of the periodogram; common practice, no source
 */
public record NoisePower(Estimate power, double lowestFrequency, double highestFrequency) {
    /**
     * Checks that nothing is missing.
     *
     * @param power the mean power; n independent terms give it a standard uncertainty of power / √n with n / 2 degrees of freedom
     * @param lowestFrequency the lowest frequency that entered
     * @param highestFrequency the highest frequency that entered
     */
    public NoisePower {
        Objects.requireNonNull(power, "power");
    }

    private static final double MICROMETRES_PER_MILLIMETRE = 1000;

    /**
     * Measures an image.
     *
     * @param image the image of an evenly exposed area
     * @param blockMicrometres the side of a block, in micrometres; it sets the lowest frequency, one cycle per block
     * @param limit the highest frequency to include, in cycles per millimetre
     * @return the noise power
     * @throws IllegalArgumentException if the block or the limit is not above 0
     * @throws NotDeterminableException if the block does not fit on the image, or the limit is below one cycle per
     *     block or not below half a cycle per pixel
     */
    public static NoisePower of(DensityImage image, double blockMicrometres, double limit) {
        Checks.positive("limit in cycles per millimetre", limit);
        int side = (int) Math.round(Checks.positive("block in micrometres", blockMicrometres) / image.pitch());
        if (side < 2 || side > Math.min(image.width(), image.height())) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "a block of " + Figures.plain(blockMicrometres) + " µm is " + side
                            + " pixels wide, the image " + image.width() + " by " + image.height()
                            + "; choose a block that fits on the image");
        }
        double unit = MICROMETRES_PER_MILLIMETRE / (side * image.pitch());
        if (limit < unit || limit >= unit * side / 2) {
            throw new NotDeterminableException("the limit of " + Figures.plain(limit)
                    + " cycles per millimetre must be from " + Figures.plain(unit)
                    + ", one cycle per block, to less than "
                    + Figures.plain(unit * side / 2) + ", half a cycle per pixel");
        }
        return new Periodogram(image, side).mean(limit / unit, unit);
    }

    /**
     * Returns the granularity to expect through a large aperture.
     *
     * @param aperture the diameter of a circular aperture in micrometres, above 0
     * @return √(W / A), a standard deviation of density
     * @throws IllegalArgumentException if the diameter is not above 0
     */
    public double deviationThrough(double aperture) {
        double radius = Checks.positive("aperture in micrometres", aperture) / 2;
        return Math.sqrt(power.value() / (Math.PI * radius * radius));
    }

    /** The blocks of an image after removal of its plane, and their Fourier transform at single frequencies. */
    private static final class Periodogram {

        private final Trend.Residuals densities;
        private final int width;
        private final int height;
        private final int side;
        private final double pitch;
        private final double[] cosines;
        private final double[] sines;

        Periodogram(DensityImage image, int side) {
            width = image.width();
            height = image.height();
            this.side = side;
            pitch = image.pitch();
            double[] all = new double[width * height];
            for (int i = 0; i < all.length; i++) {
                all[i] = image.density(i % width, i / width);
            }
            densities = Trend.PLANE.residuals(all, width);
            cosines = new double[side];
            sines = new double[side];
            for (int i = 0; i < side; i++) {
                cosines[i] = Math.cos(2 * Math.PI * i / side);
                sines[i] = Math.sin(2 * Math.PI * i / side);
            }
        }

        /** The mean over the blocks and the half plane of frequencies up to a limit, in cycles per block. */
        NoisePower mean(double limit, double unit) {
            double sum = 0;
            double highest = 0;
            int terms = 0;
            int most = (int) Math.floor(limit);
            for (int u = 0; u <= most; u++) {
                for (int v = u == 0 ? 1 : -most; v <= most; v++) {
                    double frequency = Math.hypot(u, v);
                    if (frequency > limit) {
                        continue;
                    }
                    highest = Math.max(highest, frequency);
                    double left = 1 - takenByPlane(u, v);
                    for (int row = 0; row + side <= height; row += side) {
                        for (int column = 0; column + side <= width; column += side) {
                            sum += squaredAmplitude(column, row, u, Math.floorMod(v, side)) / left;
                            terms++;
                        }
                    }
                }
            }
            double power = pitch * pitch * sum / terms / side / side;
            return new NoisePower(Estimate.of(power, power / Math.sqrt(terms), terms / 2.0), unit, highest * unit);
        }

        /**
         * The fraction of white noise at a frequency that is removed with the plane of the whole image: |F|² / N² of
         * its slopes of unit length, a (i − ī) with a² = 12 / (h w (w² − 1)) along the rows and likewise along the
         * columns.
         */
        private double takenByPlane(int u, int v) {
            if (u != 0 && v != 0) {
                return 0; // a slope has only the frequencies along itself
            }
            double count = v == 0 ? width : height;
            double sine = Math.sin(Math.PI * (u + v) / side);
            return 3.0 * side * side / (width * (double) height * (count * count - 1) * sine * sine);
        }

        private double squaredAmplitude(int column, int row, int u, int v) {
            double real = 0;
            double imaginary = 0;
            for (int j = 0; j < side; j++) {
                for (int i = 0; i < side; i++) {
                    double density = densities.value((row + j) * width + column + i);
                    int phase = (int) (((long) u * i + (long) v * j) % side);
                    real += density * cosines[phase];
                    imaginary -= density * sines[phase];
                }
            }
            return real * real + imaginary * imaginary;
        }
    }
}
