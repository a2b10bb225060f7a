// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.scan.ScanCorners;
import org.tonewedge.core.scan.ScanRegion;

/** The pixels of one patch on their way to a density: NaN where a pixel has none. */
final class PatchPixels {

    static final int FEWEST_PIXELS = 16;

    private static final double NORMAL = 1.4826;
    /** Blocks along each side, whose means show how far neighbouring pixels vary together. */
    private static final int BLOCKS = 4;

    private static final int FEWEST_IN_BLOCK = 4;
    private static final int PLANE_TERMS = 3;
    private static final int FEWEST_BLOCKS = 8;

    private final ScanRegion region;
    private final int thinning;
    private final int across;
    private final int down;
    /** Infinite outside the patch, NaN where the code has no density. */
    private final double[] values;

    /** Every n-th pixel of every n-th row of a region. */
    PatchPixels(ScanRegion region, int thinning) {
        this(region, ScanCorners.of(region), thinning);
    }

    /** Every n-th pixel of every n-th row within corners. */
    PatchPixels(ScanCorners corners, int thinning) {
        this(corners.bounds(), corners, thinning);
    }

    private PatchPixels(ScanRegion region, ScanCorners outline, int thinning) {
        this.region = region;
        this.thinning = thinning;
        across = (region.width() + thinning - 1) / thinning;
        down = (region.height() + thinning - 1) / thinning;
        values = new double[across * down];
        for (int i = 0; i < values.length; i++) {
            boolean within = outline.contains(columnOf(i % across), region.y() + i / across * thinning);
            values[i] = within ? Double.NaN : Double.POSITIVE_INFINITY;
        }
    }

    ScanRegion region() {
        return region;
    }

    int across() {
        return across;
    }

    /** The line of pixels that a row of the scan fills; negative if none. */
    int lineOf(int y) {
        int line = y - region.y();
        return line >= 0 && line < region.height() && line % thinning == 0 ? line / thinning : -1;
    }

    int columnOf(int i) {
        return region.x() + i * thinning;
    }

    void set(int line, int i, double value) {
        int k = line * across + i;
        values[k] = Double.isInfinite(values[k]) ? values[k] : value;
    }

    /** The patch, at a place in a grid, with the sides over which its gradients are stated, in pixels. */
    PatchGrid.Area area(int row, int column, double wide, double high) {
        double[] known = Arrays.stream(values).filter(Double::isFinite).toArray();
        int within =
                (int) Arrays.stream(values).filter(d -> !Double.isInfinite(d)).count();
        if (within < FEWEST_PIXELS) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the patch in row " + row + ", column " + column + " has fewer than " + FEWEST_PIXELS
                            + " pixels without its rim; scan finer or check the grid");
        }
        if (2 * known.length <= within) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the patch in row " + row + ", column " + column + " (" + region
                            + ") is beyond the range of the scanner: " + (within - known.length) + " of " + within
                            + " pixels have no density");
        }
        double median = median(known);
        double scale = NORMAL
                * median(Arrays.stream(known).map(d -> Math.abs(d - median)).toArray());
        double limit = PatchGrid.REJECTED * scale + 1e-9;
        double sum = 0;
        double alongX = 0;
        double alongY = 0;
        double squaresX = 0;
        double squaresY = 0;
        double products = 0;
        int kept = 0;
        double middleX = middle(this::x, median, limit);
        double middleY = middle(this::y, median, limit);
        for (int i = 0; i < values.length; i++) {
            if (Math.abs(values[i] - median) <= limit) {
                double x = x(i) - middleX;
                double y = y(i) - middleY;
                sum += values[i];
                alongX += values[i] * x;
                alongY += values[i] * y;
                squaresX += x * x;
                squaresY += y * y;
                products += x * y;
                kept++;
            }
        }
        double mean = sum / kept;
        double determinant = squaresX * squaresY - products * products;
        boolean flat = determinant > 1e-9 * squaresX * squaresY;
        double slopeX =
                flat ? (alongX * squaresY - alongY * products) / determinant : squaresX > 0 ? alongX / squaresX : 0;
        double slopeY = flat
                ? (alongY * squaresX - alongX * products) / determinant
                : squaresX > 0 || squaresY == 0 ? 0 : alongY / squaresY;
        double deviations = 0;
        double[] blockSums = new double[BLOCKS * BLOCKS];
        int[] blockCounts = new int[BLOCKS * BLOCKS];
        for (int i = 0; i < values.length; i++) {
            if (Math.abs(values[i] - median) <= limit) {
                deviations += (values[i] - mean) * (values[i] - mean);
                int block = i / across * BLOCKS / down * BLOCKS + i % across * BLOCKS / across;
                blockSums[block] += values[i] - slopeX * (x(i) - middleX) - slopeY * (y(i) - middleY);
                blockCounts[block]++;
            }
        }
        double[] blocks = new double[blockSums.length];
        int full = 0;
        for (int b = 0; b < blocks.length; b++) {
            if (blockCounts[b] >= FEWEST_IN_BLOCK) {
                blocks[full++] = blockSums[b] / blockCounts[b];
            }
        }
        double scatter = Math.sqrt(deviations / Math.max(1, kept - 1));
        PatchGrid.Area area = new PatchGrid.Area(
                row,
                column,
                region,
                mean,
                scatter,
                kept,
                within - kept,
                slopeX / thinning * wide,
                slopeY / thinning * high,
                Arrays.copyOf(blocks, full));
        return full >= FEWEST_BLOCKS ? area.withUncertainty(ofBlocks(blocks, full), full - PLANE_TERMS) : area;
    }

    /** The standard uncertainty of the mean of blocks about a plane. */
    private static double ofBlocks(double[] blocks, int full) {
        double mean = Arrays.stream(blocks, 0, full).sum() / full;
        double squares =
                Arrays.stream(blocks, 0, full).map(b -> (b - mean) * (b - mean)).sum();
        return Math.sqrt(squares / (full - PLANE_TERMS) / full);
    }

    /** The mean place of the pixels that are kept. */
    private double middle(IntToDoubleFunction place, double median, double limit) {
        return IntStream.range(0, values.length)
                .filter(i -> Math.abs(values[i] - median) <= limit)
                .mapToDouble(place)
                .average()
                .orElse(0);
    }

    private double x(int i) {
        return i % across;
    }

    private double y(int i) {
        return Math.floorDiv(i, across);
    }

    static double median(double[] of) {
        double[] sorted = of.clone();
        Arrays.sort(sorted);
        return 0.5 * (sorted[sorted.length / 2] + sorted[(sorted.length - 1) / 2]);
    }
}
