// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import javax.imageio.ImageIO;

/**
 * An invented scan whose sharpness, grain and densities are known: an edge with the modulation transfer exp(−2 (πfs)²), bars
 * behind the same blur, an even area with grain, a chart of patches, and dust. It is drawn by a seeded program, so that what
 * is measured can be compared with what was put in.
 */
public final class DemoScan {

    /** Pixels along the side of the scan. */
    public static final int SIDE = 720;

    /** The resolution of the demo, in pixels per millimetre; a pixel is 5 µm. */
    public static final double PIXELS_PER_MILLIMETRE = 200;

    private static final double TILT = Math.toRadians(5);
    private static final double OPEN_GATE = 65_535;
    private static final double DARK_SIDE = 1.10;
    private static final double LIGHT_SIDE = 0.50;
    private static final double GRAIN_DENSITY = 0.90;

    private final double blur;
    private final double grain;
    private final Random random;
    private final double[] densities = new double[SIDE * SIDE];

    private DemoScan(double blurMicrometres, double grain, long seed) {
        this.blur = blurMicrometres / 1000;
        this.grain = grain;
        random = new Random(seed);
    }

    /**
     * Draws a scan.
     *
     * @param blurMicrometres the standard deviation s of the spread of a line, above 0
     * @param grain the standard deviation of density from pixel to pixel
     * @param seed where the random numbers begin
     * @param file the PNG file to write, 16-bit grey, linear in transmittance
     * @throws IOException if the file cannot be written
     */
    public static void write(double blurMicrometres, double grain, long seed, Path file) throws IOException {
        DemoScan scan = new DemoScan(blurMicrometres, grain, seed);
        scan.draw();
        scan.save(file);
    }

    /**
     * Writes the demo scans of two invented films, and of an edge and an even area without grain for the scanner itself, into
     * a directory, which is made if it does not exist. The films are blurred by 4.0 and 6.5 µm, the scanner among it by 2.0.
     *
     * @param args the directory
     * @throws IOException if a file cannot be written
     */
    public static void main(String[] args) throws IOException {
        Path directory = Files.createDirectories(Path.of(args[0]));
        write(4.0, 0.030, 1, directory.resolve("ostwick-reference-125.png"));
        write(6.5, 0.050, 2, directory.resolve("bellmarsh-400.png"));
        write(2.0, 0.006, 3, directory.resolve("scanner.png"));
    }

    private void draw() {
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                densities[y * SIDE + x] = clean(x, y) + grain * random.nextGaussian();
            }
        }
        for (int speck = 0; speck < 12; speck++) {
            int left = 380 + random.nextInt(300);
            int top = 380 + random.nextInt(300);
            for (int y = 0; y < 4; y++) {
                for (int x = 0; x < 4; x++) {
                    densities[(top + y) * SIDE + left + x] = 1.8;
                }
            }
        }
    }

    /** Upper left the edge, upper right the bars, lower left the grain, lower right the chart. */
    private double clean(int x, int y) {
        if (y < SIDE / 2) {
            return x < SIDE / 2 ? edge(x, y) : bars(x);
        }
        return x < SIDE / 2 ? GRAIN_DENSITY : patch((x - SIDE / 2) / 90, (y - SIDE / 2) / 90);
    }

    private double edge(int x, int y) {
        double millimetres = ((x - 180) * Math.cos(TILT) + (y - 180) * Math.sin(TILT)) / PIXELS_PER_MILLIMETRE;
        double part = cumulative(millimetres / blur);
        double light = Math.pow(10, -DARK_SIDE) + part * (Math.pow(10, -LIGHT_SIDE) - Math.pow(10, -DARK_SIDE));
        return -Math.log10(light);
    }

    /** Bars of 10, 20, 40 and 60 cycles per millimetre, each a block 90 pixels wide. */
    private double bars(int x) {
        double[] frequencies = {10, 20, 40, 60};
        double frequency = frequencies[Math.min(3, (x - SIDE / 2) / 90)];
        double wave = 0;
        for (int k = 1; k < 20; k += 2) {
            double passed = Math.exp(-2 * Math.pow(Math.PI * k * frequency * blur, 2));
            wave += 4 / (Math.PI * k) * passed * Math.sin(2 * Math.PI * k * frequency * x / PIXELS_PER_MILLIMETRE);
        }
        return -Math.log10(0.2 * (1 + 0.6 * wave));
    }

    private static double patch(int column, int row) {
        return 0.20 + 0.10 * (row * 4 + column);
    }

    /** The normal distribution, to 1e-7 (Abramowitz and Stegun 1964, 26.2.17, from memory). */
    private static double cumulative(double z) {
        double t = 1 / (1 + 0.2316419 * Math.abs(z));
        double tail = Math.exp(-z * z / 2)
                / Math.sqrt(2 * Math.PI)
                * t
                * (0.319381530 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
        return z > 0 ? 1 - tail : tail;
    }

    private void save(Path file) throws IOException {
        BufferedImage image = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_USHORT_GRAY);
        int[] codes = new int[SIDE];
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                codes[x] = (int) Math.rint(Math.min(OPEN_GATE, OPEN_GATE * Math.pow(10, -densities[y * SIDE + x])));
            }
            image.getRaster().setSamples(0, y, SIDE, 1, 0, codes);
        }
        ImageIO.write(image, "png", file.toFile());
    }
}
