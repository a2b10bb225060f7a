// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.examples.scan.ScanFile;

/**
 * A subject as luminances, and as colours where it has any.
 *
 * <p>Immutable and thread safe.
 */
final class Scene {

    private static final int FULL_SCALE = 65_535;
    private static final int MOST_PIXELS = 4_000_000;
    private static final int CHANNELS = 3;

    /** Shares of red, green and blue in luminance (ITU-R BT.709, which IEC 61966-2-1 takes over). */
    private static final double[] LUMINANCE = {0.2126, 0.7152, 0.0722};

    private final String name;
    private final int width;
    private final int height;
    private final float[] logLuminances;
    /** Hue from 0 to 6 by the corners red, yellow, green, cyan, blue, magenta; empty for a grey scene. */
    private final float[] hues;

    private final float[] saturations;
    private final int black;

    private Scene(String name, int width, int height, float[] logLuminances, float[] hues, float[] sats, int black) {
        this.name = name;
        this.width = width;
        this.height = height;
        this.logLuminances = logLuminances;
        this.hues = hues;
        this.saturations = sats;
        this.black = black;
    }

    /** The invented still life. */
    static Scene invented() {
        float[] luminances = new float[SyntheticScene.WIDTH * SyntheticScene.HEIGHT];
        for (int i = 0; i < luminances.length; i++) {
            luminances[i] = (float) SyntheticScene.logLuminance(i % SyntheticScene.WIDTH, i / SyntheticScene.WIDTH);
        }
        return new Scene("", SyntheticScene.WIDTH, SyntheticScene.HEIGHT, luminances, new float[0], new float[0], 0);
    }

    /**
     * Reads a picture whose values are in proportion to luminance.
     *
     * @param file PNG or TIFF, 16 bits, grey or red, green and blue
     * @param grey the part of full scale that stands for the metered grey
     * @throws IOException if it cannot be read
     * @throws IllegalArgumentException if it is no image or is damaged, or has other channels or bits, or is too large
     */
    static Scene read(Path file, double grey) throws IOException {
        try (ScanFile picture = ScanFile.open(file)) {
            Raster raster = picture.linear(
                    Set.of(1, CHANNELS),
                    MOST_PIXELS,
                    "save the scene as grey or RGB of 16 bits, linear, without transparency");
            return of(Checks.shortened(file.getFileName().toString()), raster, grey);
        }
    }

    private static Scene of(String name, Raster raster, double grey) {
        int width = raster.getWidth();
        int count = width * raster.getHeight();
        boolean colour = raster.getNumBands() == CHANNELS;
        float[] luminances = new float[count];
        float[] hues = new float[colour ? count : 0];
        float[] saturations = new float[hues.length];
        int black = 0;
        int[] pixel = new int[CHANNELS];
        for (int i = 0; i < count; i++) {
            raster.getPixel(i % width, i / width, pixel);
            double luminance = pixel[0];
            if (colour) {
                luminance = LUMINANCE[0] * pixel[0] + LUMINANCE[1] * pixel[1] + LUMINANCE[2] * pixel[2];
                hues[i] = (float) hue(pixel);
                saturations[i] = (float) saturation(pixel);
            }
            black += luminance == 0 ? 1 : 0;
            // A black pixel is darker than any that the file can show.
            luminances[i] = (float) Math.log10(Math.max(luminance, 0.5) / FULL_SCALE / grey);
        }
        return new Scene(name, width, raster.getHeight(), luminances, hues, saturations, black);
    }

    private static double hue(int[] rgb) {
        int most = Math.max(rgb[0], Math.max(rgb[1], rgb[2]));
        double range = most - Math.min(rgb[0], Math.min(rgb[1], rgb[2]));
        if (range == 0) {
            return 0;
        }
        double hue = most == rgb[0]
                ? (rgb[1] - rgb[2]) / range
                : most == rgb[1] ? 2 + (rgb[2] - rgb[0]) / range : 4 + (rgb[0] - rgb[1]) / range;
        return hue < 0 ? hue + 6 : hue;
    }

    private static double saturation(int[] rgb) {
        int most = Math.max(rgb[0], Math.max(rgb[1], rgb[2]));
        return most == 0 ? 0 : (double) (most - Math.min(rgb[0], Math.min(rgb[1], rgb[2]))) / most;
    }

    /** The name of its file; empty for the invented scene. */
    String name() {
        return name;
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    boolean isColoured() {
        return hues.length > 0;
    }

    /** How many pixels are black, darker than the file can tell. */
    int black() {
        return black;
    }

    /** log10 of the luminance of a pixel from that of the metered grey. */
    double logLuminance(int column, int row) {
        return logLuminances[row * width + column];
    }

    /** log10 of the exposure of a pixel from that of the metered grey, on a film that sees colours in its own way. */
    double logExposure(int column, int row, ColourResponse response) {
        int i = row * width + column;
        return isColoured() ? logLuminances[i] + response.at(hues[i], saturations[i]) : logLuminances[i];
    }
}
