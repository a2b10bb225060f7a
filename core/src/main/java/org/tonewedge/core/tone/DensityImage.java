// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Arrays;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;

/**
 * Densities of a small, evenly exposed area of film on a square grid, such as a scan of 1 mm² at 4 µm.
 *
 * <p>For granularity, scan more finely than the aperture: at a pitch of a tenth of the aperture or less, with an
 * instrument whose own blur and noise are small beside the grain.
 *
 * <p>Immutable and thread safe.
 */
public final class DensityImage {

    private final double[] densities;
    private final int width;
    private final double pitch;

    private DensityImage(double[] densities, int width, double pitch) {
        this.densities = densities;
        this.width = width;
        this.pitch = pitch;
    }

    /**
     * Returns an image.
     *
     * @param densities the densities row by row
     * @param width the number of densities in a row
     * @param pitchMicrometres the distance between neighbours, above 0
     * @return the image
     * @throws IllegalArgumentException if the pitch is not above 0, the densities do not fill whole rows, or one is not a
     *     {@linkplain Density density}; the message gives its row and column, counted from 0
     * @units micrometres
     */
    public static DensityImage of(double[] densities, int width, double pitchMicrometres) {
        Checks.positive("pitch in micrometres", pitchMicrometres);
        if (width < 1 || densities.length < width || densities.length % width != 0) {
            throw new IllegalArgumentException(
                    "an image needs complete rows, had " + densities.length + " densities in rows of " + width);
        }
        for (int i = 0; i < densities.length; i++) {
            try {
                Density.of(densities[i]);
            } catch (IllegalArgumentException e) {
                throw new IllegalArgumentException(
                        "row " + i / width + ", column " + i % width + ": " + e.getMessage(), e);
            }
        }
        return new DensityImage(densities.clone(), width, pitchMicrometres);
    }

    /**
     * Returns the number of columns.
     *
     * @return the densities in a row
     */
    public int width() {
        return width;
    }

    /**
     * Returns the number of rows.
     *
     * @return the rows
     */
    public int height() {
        return densities.length / width;
    }

    /**
     * Returns the pitch.
     *
     * @return the distance between neighbours
     * @units micrometres
     */
    public double pitch() {
        return pitch;
    }

    /**
     * Returns all densities.
     *
     * @return a copy, row by row
     */
    public double[] densities() {
        return densities.clone();
    }

    /**
     * Returns the density of one pixel.
     *
     * @param column the column, from 0
     * @param row the row, from 0
     * @return the density there
     * @throws IndexOutOfBoundsException if there is no such column or row
     */
    public double density(int column, int row) {
        Objects.checkIndex(column, width);
        Objects.checkIndex(row, densities.length / width);
        return densities[row * width + column];
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof DensityImage that
                && Arrays.equals(densities, that.densities)
                && width == that.width
                && Double.compare(pitch, that.pitch) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(Arrays.hashCode(densities), width, pitch);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its size and pitch
     */
    @Override
    public String toString() {
        return width + " by " + height() + " densities, pitch " + Figures.plain(pitch) + " micrometres";
    }
}
