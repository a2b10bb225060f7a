// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.examples.scan.ScanFile;

/** A small picture of a scan with the regions that were read, so that a person sees what was taken. */
final class RegionPicture {

    private static final int LONGEST_SIDE = 1600;
    private static final Color INK = new Color(0xB0, 0x30, 0x60);

    private final ScanFile scan;
    private final int step;

    RegionPicture(ScanFile scan) {
        this.scan = scan;
        step = Math.max(1, (Math.max(scan.width(), scan.height()) + LONGEST_SIDE - 1) / LONGEST_SIDE);
    }

    /** The name of the file for a scan. */
    static String nameOf(String scan) {
        return scan + "-regions.png";
    }

    void write(Map<String, ScanRegion> regions, List<ScanRegion> taken, Path file) throws IOException {
        Raster small = scan.everyNth(step);
        int width = small.getWidth();
        BufferedImage picture = new BufferedImage(width, small.getHeight(), BufferedImage.TYPE_INT_RGB);
        int band = Math.min(1, small.getNumBands() - 1);
        double highest = (1 << small.getSampleModel().getSampleSize(band)) - 1;
        int[] line = new int[width];
        for (int y = 0; y < small.getHeight(); y++) {
            small.getSamples(0, y, width, 1, band, line);
            for (int x = 0; x < width; x++) {
                int grey = (int) Math.round(255 * Math.pow(line[x] / highest, 1 / 2.2));
                line[x] = grey << 16 | grey << 8 | grey;
            }
            picture.setRGB(0, y, width, 1, line, 0, width);
        }
        Graphics2D graphics = picture.createGraphics();
        try {
            graphics.setColor(INK);
            graphics.setStroke(new BasicStroke(2));
            regions.forEach((name, region) -> {
                int x = region.x() / step;
                int y = region.y() / step;
                graphics.drawRect(x, y, region.width() / step, region.height() / step);
                graphics.drawString(name, x + 4, y + 14);
            });
            graphics.setStroke(new BasicStroke(1));
            taken.forEach(part ->
                    graphics.drawRect(part.x() / step, part.y() / step, part.width() / step, part.height() / step));
        } finally {
            graphics.dispose();
        }
        ImageIO.write(picture, "png", file.toFile());
    }
}
