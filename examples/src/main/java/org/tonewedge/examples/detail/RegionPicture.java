// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.tonewedge.core.scan.ScanCorners;
import org.tonewedge.examples.scan.ScanFile;

/** A small picture of a scan with the regions that were read, so that a person sees what was taken. */
final class RegionPicture {

    private static final int LONGEST_SIDE = 1600;
    private static final Color PAPER = new Color(0xFF, 0xFF, 0xFF, 0xD0);
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

    void write(Map<String, ScanCorners> regions, List<ScanCorners> taken, Path file) throws IOException {
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
            graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            graphics.setStroke(new BasicStroke(2));
            regions.forEach((name, region) -> {
                graphics.draw(shape(region));
                label(graphics, name, (int) region.x(0, 0) / step + 4, (int) region.y(0, 0) / step + 14);
            });
            graphics.setStroke(new BasicStroke(1));
            taken.forEach(part -> graphics.draw(shape(part)));
        } finally {
            graphics.dispose();
        }
        ImageIO.write(picture, "png", file.toFile());
    }

    /** A name on a light ground, which reads on film of any density. */
    private static void label(Graphics2D graphics, String name, int x, int y) {
        FontMetrics metrics = graphics.getFontMetrics();
        graphics.setColor(PAPER);
        graphics.fillRect(x - 2, y - metrics.getAscent(), metrics.stringWidth(name) + 4, metrics.getHeight());
        graphics.setColor(INK);
        graphics.drawString(name, x, y);
    }

    private Path2D shape(ScanCorners corners) {
        Path2D shape = new Path2D.Double();
        shape.moveTo(corners.x(0, 0) / step, corners.y(0, 0) / step);
        shape.lineTo(corners.x(1, 0) / step, corners.y(1, 0) / step);
        shape.lineTo(corners.x(1, 1) / step, corners.y(1, 1) / step);
        shape.lineTo(corners.x(0, 1) / step, corners.y(0, 1) / step);
        shape.closePath();
        return shape;
    }
}
