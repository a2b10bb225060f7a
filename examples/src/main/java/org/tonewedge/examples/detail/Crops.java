// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.tonewedge.core.tone.DensityImage;

/**
 * The middles of one region on several scans, side by side at one magnification and with one rendering: the same length of
 * film fills each picture, and the same difference of density is the same step of grey. Not thread safe.
 */
final class Crops {

    /** The pixels along the side of a picture. */
    static final int SIDE = 300;

    private static final int MOST_STORED = 600;
    private static final int SAMPLES = 3;
    /** How far about its mean an even area is drawn, in density. */
    private static final double EVEN_REACH = 0.3;

    private static final double ENDS = 0.02;

    /** The middle of a region, a square of so many pixels. */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Middle(double[] densities, int side, double pitch) {

        double density(double x, double y) {
            int column = Math.max(0, Math.min(side - 1, (int) x));
            int row = Math.max(0, Math.min(side - 1, (int) y));
            return densities[row * side + column];
        }

        double quantile(double part) {
            double[] sorted = densities.clone();
            Arrays.sort(sorted);
            return sorted[(int) Math.round(part * (sorted.length - 1))];
        }
    }

    /** The pictures of a region: the length of film across each, and their files by scan. */
    record Pictures(String region, boolean even, double millimetres, Map<String, String> files) {}

    private final Map<String, Map<String, Middle>> byRegion = new LinkedHashMap<>();
    private final Map<String, Boolean> evenness = new LinkedHashMap<>();

    /** Adds a region of a scan; an even one is drawn about its own mean. */
    void add(String region, boolean even, String scan, DensityImage image) {
        int side = Math.min(MOST_STORED, Math.min(image.width(), image.height()));
        int left = (image.width() - side) / 2;
        int top = (image.height() - side) / 2;
        double[] densities = new double[side * side];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = image.density(left + i % side, top + i / side);
        }
        evenness.put(region, even);
        byRegion.computeIfAbsent(region, any -> new LinkedHashMap<>())
                .put(scan, new Middle(densities, side, image.pitch()));
    }

    /** Writes a picture of each region on each scan, in the order of the scans. */
    List<Pictures> write(List<String> scans, Path directory) throws IOException {
        List<Pictures> written = new ArrayList<>();
        for (Map.Entry<String, Map<String, Middle>> region : byRegion.entrySet()) {
            Map<String, Middle> middles = region.getValue();
            boolean even = evenness.get(region.getKey());
            double length = middles.values().stream()
                    .mapToDouble(middle -> middle.side * middle.pitch)
                    .min()
                    .orElseThrow();
            double lightest = middles.values().stream()
                    .mapToDouble(m -> m.quantile(ENDS))
                    .min()
                    .orElseThrow();
            double densest = middles.values().stream()
                    .mapToDouble(m -> m.quantile(1 - ENDS))
                    .max()
                    .orElseThrow();
            Map<String, String> files = new LinkedHashMap<>();
            for (String scan : scans) {
                Middle middle = middles.get(scan);
                if (middle != null) {
                    double mean = Arrays.stream(middle.densities).average().orElseThrow();
                    String name = "crop-" + (written.size() + 1) + "-" + scan + ".png";
                    ImageIO.write(
                            even
                                    ? drawn(middle, length, mean - EVEN_REACH, mean + EVEN_REACH)
                                    : drawn(middle, length, lightest, Math.max(densest, lightest + 0.1)),
                            "png",
                            directory.resolve(name).toFile());
                    files.put(scan, name);
                }
            }
            written.add(new Pictures(region.getKey(), even, length / 1000, files));
        }
        return List.copyOf(written);
    }

    private static BufferedImage drawn(Middle middle, double length, double white, double black) {
        BufferedImage picture = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_BYTE_GRAY);
        double scale = length / middle.pitch / SIDE;
        double begin = 0.5 * (middle.side - length / middle.pitch);
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                double sum = 0;
                for (int k = 0; k < SAMPLES * SAMPLES; k++) {
                    double partX = (k % SAMPLES + 0.5) / SAMPLES;
                    double partY = (Math.floorDiv(k, SAMPLES) + 0.5) / SAMPLES;
                    sum += middle.density(begin + (x + partX) * scale, begin + (y + partY) * scale);
                }
                double part = (black - sum / (SAMPLES * SAMPLES)) / (black - white);
                int grey = (int) Math.round(255 * Math.max(0, Math.min(1, part)));
                picture.getRaster().setSample(x, y, 0, grey);
            }
        }
        return picture;
    }
}
