// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Set;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.examples.scan.ScanFile;

/**
 * Reads a scan of an evenly exposed area from a PNG or TIFF file of 16-bit grey values that are proportional to
 * transmittance, full scale being the open gate.
 */
public final class ScanReader {

    private static final int FULL_SCALE = 65_535;

    private ScanReader() {}

    /**
     * Reads a scan.
     *
     * @param file a PNG or TIFF file, 16 bits, one channel, linear
     * @param pitchMicrometres the distance of pixels on the film, above 0
     * @return the densities, −log<sub>10</sub> of value / 65535
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if it is no image, is damaged or has not 16 bits and one channel, or a pixel is black
     */
    public static DensityImage read(Path file, double pitchMicrometres) throws IOException {
        try (ScanFile scan = ScanFile.open(file)) {
            return densities(
                    file,
                    scan.linear(
                            Set.of(1),
                            ScanFile.MOST_PIXELS,
                            "save the scan as 16-bit grey, linear, without a colour profile: eight bits cannot show grain"),
                    pitchMicrometres);
        }
    }

    private static DensityImage densities(Path file, Raster raster, double pitchMicrometres) {
        int width = raster.getWidth();
        double[] densities = new double[width * raster.getHeight()];
        for (int i = 0; i < densities.length; i++) {
            int value = raster.getSample(i % width, i / width, 0);
            if (value == 0) {
                throw new IllegalArgumentException(file + ", row " + i / width + ", column " + i % width
                        + ": the pixel is black, beyond the range of the scanner; scan with more exposure");
            }
            densities[i] = -Math.log10(value / (double) FULL_SCALE);
        }
        return DensityImage.of(densities, width, pitchMicrometres);
    }
}
