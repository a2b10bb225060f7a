// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanCorners;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.tone.DensityImage;

/**
 * Patches of a chart, or steps of a tablet, that lie on a scan in rows and columns of equal size. Their densities are
 * read without their rims, dust and scratches.
 *
 * <pre>{@code
 * for (PatchGrid.Area area : PatchGrid.of(1, 21).read(image)) {
 *     System.out.println(area);
 * }
 * }</pre>
 *
 * <p>The rim of each patch, {@value #USUAL_MARGIN} of its side unless you state another, is left out. Pixels farther
 * than {@value #REJECTED} robust standard deviations (1.4826 times the median distance) from the median are rejected
 * and counted. The mean of the remaining pixels is the density; the gradient is that of a plane through them, per side
 * of the patch.
 *
 * <p>Immutable and thread safe.
 *
 * @source factor of the median distance for normal scatter: common practice, no source
 */
public final class PatchGrid {

    /** The usual fraction of the side of a patch that is left out along each edge. */
    public static final double USUAL_MARGIN = 0.2;

    /** The most pixels read of a patch on a scan. */
    public static final int MOST_PIXELS = 250_000;

    static final double REJECTED = 4;

    private final int rows;
    private final int columns;
    private final double margin;

    private PatchGrid(int rows, int columns, double margin) {
        this.rows = rows;
        this.columns = columns;
        this.margin = margin;
    }

    /**
     * Returns a grid.
     *
     * @param rows the rows of patches, from 1 to 1000
     * @param columns the patches in a row, from 1 to 1000
     * @return the grid
     * @throws IllegalArgumentException if a number is out of range
     */
    public static PatchGrid of(int rows, int columns) {
        Checks.within("rows of patches", rows, 1, 1000, "");
        Checks.within("columns of patches", columns, 1, 1000, "");
        return new PatchGrid(rows, columns, USUAL_MARGIN);
    }

    /**
     * Returns a copy that leaves out another margin of each patch.
     *
     * @param part the margin as a fraction of the side, along each edge, from 0 to 0.45
     * @return the copy
     * @throws IllegalArgumentException if the part is out of range
     */
    public PatchGrid withMargin(double part) {
        return new PatchGrid(rows, columns, Checks.within("margin of a patch", part, 0, 0.45, ""));
    }

    /**
     * Reads the patches of an image that the grid fills from edge to edge.
     *
     * @param image the densities
     * @return the patches, row by row
     * @throws NotDeterminableException if a patch without its rim has fewer than 16 pixels
     */
    public List<Area> read(DensityImage image) {
        List<Area> areas = new ArrayList<>();
        List<ScanRegion> interiors = interiors(new ScanRegion(0, 0, image.width(), image.height()));
        for (int i = 0; i < interiors.size(); i++) {
            PatchPixels pixels = new PatchPixels(interiors.get(i), 1);
            ScanRegion region = pixels.region();
            for (int line = 0; line < region.height(); line++) {
                for (int k = 0; k < region.width(); k++) {
                    pixels.set(line, k, image.density(region.x() + k, region.y() + line));
                }
            }
            areas.add(pixels.area(
                    i / columns + 1,
                    i % columns + 1,
                    image.width() / (double) columns,
                    image.height() / (double) rows));
        }
        return List.copyOf(areas);
    }

    /**
     * Reads the patches of a region of a scan that the grid fills from edge to edge, in one pass. Of a patch with more than
     * {@value #MOST_PIXELS} pixels, every second or n-th of every second or n-th row is taken, so that memory stays small.
     *
     * @param scan the scan
     * @param region the region that the patches fill
     * @param densities the density of each code; pixels whose code has none count as rejected
     * @return the patches, row by row
     * @throws NotDeterminableException if a patch without its rim has fewer than 16 pixels, or half of them have no density
     * @throws IOException if the scan cannot be read
     */
    public List<Area> read(ScanRows scan, ScanRegion region, ScanCodeTable densities) throws IOException {
        Objects.requireNonNull(scan, "scan");
        Objects.requireNonNull(densities, "densities");
        return read(
                scan,
                interiors(region).stream().map(ScanCorners::of).toList(),
                densities,
                columns,
                region.width() / (double) columns,
                region.height() / (double) rows);
    }

    /**
     * Reads the patches of a chart that lies rotated, skewed or in perspective on a scan, in one pass. Each patch is read
     * within the corners of {@link #interiors(ScanCorners)}; {@link Area#region()} is the region around them, and gradients run
     * along the rows and columns of the scan, over that region.
     *
     * @param scan the scan
     * @param corners the corners of the chart, from that of the first patch along its row
     * @param densities the density of each code; pixels whose code has none count as rejected
     * @return the patches, row by row
     * @throws NotDeterminableException if a patch without its rim has fewer than 16 pixels, or half of them have no density
     * @throws IOException if the scan cannot be read
     */
    public List<Area> read(ScanRows scan, ScanCorners corners, ScanCodeTable densities) throws IOException {
        Objects.requireNonNull(scan, "scan");
        Objects.requireNonNull(densities, "densities");
        return read(scan, interiors(corners), densities, columns, 0, 0);
    }

    /**
     * Returns where the patches of a chart lie, without their rims.
     *
     * @param corners the corners of the chart, from that of the first patch along its row
     * @return the corners of each patch, row by row
     */
    public List<ScanCorners> interiors(ScanCorners corners) {
        List<ScanCorners> found = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            for (int column = 0; column < columns; column++) {
                found.add(corners.part(
                        (column + margin) / columns,
                        (row + margin) / rows,
                        (column + 1 - margin) / columns,
                        (row + 1 - margin) / rows));
            }
        }
        return found;
    }

    /**
     * Reads regions of even density, such as those that {@link StepFinder} found, in one pass and without taking off rims.
     *
     * @param scan the scan
     * @param regions the regions
     * @param densities the density of each code; pixels whose code has none count as rejected
     * @return the patches as one row, in the order of the regions
     * @throws NotDeterminableException if half of the pixels of a patch have no density
     * @throws IOException if the scan cannot be read
     */
    public static List<Area> readEach(ScanRows scan, List<ScanRegion> regions, ScanCodeTable densities)
            throws IOException {
        return read(scan, regions.stream().map(ScanCorners::of).toList(), densities, regions.size(), 0, 0);
    }

    /** A side of 0 stands for that of the region. */
    private static List<Area> read(
            ScanRows scan, List<ScanCorners> interiors, ScanCodeTable densities, int columns, double wide, double high)
            throws IOException {
        List<PatchPixels> patches = interiors.stream()
                .map(interior -> new PatchPixels(interior, Math.max(1, (int)
                        Math.ceil(Math.sqrt(interior.bounds().pixels() / (double) MOST_PIXELS)))))
                .toList();
        ScanRegion all =
                ScanRegion.around(patches.stream().map(PatchPixels::region).toList());
        scan.read(all, (y, codes) -> {
            for (PatchPixels patch : patches) {
                int line = patch.lineOf(y);
                for (int i = 0; line >= 0 && i < patch.across(); i++) {
                    int code = codes[patch.columnOf(i) - all.x()];
                    patch.set(line, i, densities.covers(code) ? densities.value(code) : Double.NaN);
                }
            }
        });
        List<Area> areas = new ArrayList<>();
        for (int i = 0; i < patches.size(); i++) {
            ScanRegion of = patches.get(i).region();
            areas.add(patches.get(i)
                    .area(
                            i / columns + 1,
                            i % columns + 1,
                            wide == 0 ? of.width() : wide,
                            high == 0 ? of.height() : high));
        }
        return List.copyOf(areas);
    }

    /** The patches of an upright chart without their rims, in whole pixels, row by row. */
    private List<ScanRegion> interiors(ScanRegion region) {
        double wide = region.width() / (double) columns;
        double high = region.height() / (double) rows;
        List<ScanRegion> interiors = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            for (int column = 0; column < columns; column++) {
                int left = (int) Math.ceil((column + margin) * wide);
                int top = (int) Math.ceil((row + margin) * high);
                int across = (int) Math.floor((column + 1 - margin) * wide) - left;
                int down = (int) Math.floor((row + 1 - margin) * high) - top;
                if (across < 1 || down < 1 || (long) across * down < PatchPixels.FEWEST_PIXELS) {
                    throw new NotDeterminableException(
                            Reason.UNSUITABLE_IMAGE,
                            "the patch in row " + (row + 1) + ", column " + (column + 1)
                                    + " has fewer than " + PatchPixels.FEWEST_PIXELS
                                    + " pixels without its rim; scan finer or check the grid");
                }
                interiors.add(new ScanRegion(region.x() + left, region.y() + top, across, down));
            }
        }
        return interiors;
    }

    /** One patch as it was read. Immutable and thread safe. */
    public static final class Area {

        private final int row;
        private final int column;
        private final ScanRegion region;
        private final Estimate estimate;
        private final double scatter;
        private final int kept;
        private final int rejected;
        private final double across;
        private final double down;
        private final double[] blocks;

        Area(
                int row,
                int column,
                ScanRegion region,
                double mean,
                double scatter,
                int kept,
                int rejected,
                double across,
                double down,
                double[] blocks) {
            this(
                    row,
                    column,
                    region,
                    Estimate.of(mean, scatter / Math.sqrt(kept), Math.max(1, kept - 1)),
                    scatter,
                    kept,
                    rejected,
                    across,
                    down,
                    blocks);
        }

        private Area(
                int row,
                int column,
                ScanRegion region,
                Estimate estimate,
                double scatter,
                int kept,
                int rejected,
                double across,
                double down,
                double[] blocks) {
            this.row = row;
            this.column = column;
            this.region = region;
            this.estimate = estimate;
            this.scatter = scatter;
            this.kept = kept;
            this.rejected = rejected;
            this.across = across;
            this.down = down;
            this.blocks = blocks;
        }

        Area withUncertainty(double standardUncertainty, double degrees) {
            return with(Estimate.of(estimate.value(), standardUncertainty, degrees), 1);
        }

        /** This patch with another density; scatter and gradients change by a factor. */
        Area with(Estimate density, double factor) {
            return new Area(
                    row,
                    column,
                    region,
                    density,
                    scatter * factor,
                    kept,
                    rejected,
                    across * factor,
                    down * factor,
                    Arrays.stream(blocks)
                            .map(mean -> density.value() + factor * (mean - estimate.value()))
                            .toArray());
        }

        /** The means of parts of the patch, their common gradient taken out. */
        double[] blocks() {
            return blocks.clone();
        }

        /**
         * Returns where the patch was read.
         *
         * @return its pixels on the scan, or on the image, without its rim
         */
        public ScanRegion region() {
            return region;
        }

        /**
         * Returns the row.
         *
         * @return from 1
         */
        public int row() {
            return row;
        }

        /**
         * Returns the column.
         *
         * @return from 1
         */
        public int column() {
            return column;
        }

        /**
         * Returns the density.
         *
         * @return the mean of the pixels that were kept
         */
        public Density density() {
            return Density.of(estimate.value());
        }

        /**
         * Returns the density with the standard uncertainty of the mean. It comes from the scatter of the means of 4 by 4
         * parts of the patch about a plane, so that neither blur nor grain larger than a pixel makes it too small; for patches too
         * small for that, from the scatter of single pixels.
         *
         * @return the estimate
         */
        public Estimate estimate() {
            return estimate;
        }

        /**
         * Returns the scatter.
         *
         * @return the standard deviation of the pixels that were kept
         */
        public double scatter() {
            return scatter;
        }

        /**
         * Returns the number of pixels rejected as dust or scratches.
         *
         * @return the number
         */
        public int rejected() {
            return rejected;
        }

        /**
         * Returns the number of pixels read.
         *
         * @return the number, rejected ones included
         */
        public int pixels() {
            return kept + rejected;
        }

        /**
         * Returns the gradient along the row.
         *
         * @return the change of density over the width of the patch
         */
        public double gradientAcross() {
            return across;
        }

        /**
         * Returns the gradient along the column.
         *
         * @return the change of density over the height of the patch
         */
        public double gradientDown() {
            return down;
        }

        /**
         * Returns the patch in words.
         *
         * @return its position, its density and the number of pixels rejected
         */
        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "row %d, column %d: %s, %d of %d pixels rejected",
                    row,
                    column,
                    density(),
                    rejected,
                    pixels());
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
        return other instanceof PatchGrid that
                && rows == that.rows
                && columns == that.columns
                && Double.compare(margin, that.margin) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(rows, columns, margin);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its rows, columns and margin
     */
    @Override
    public String toString() {
        return rows + " by " + columns + " patches, margin " + Figures.plain(margin);
    }
}
