package org.tonewedge.standards.detail;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.tone.DensityImage;

/**
 * Patches of a chart, or steps of a tablet, that lie on a scan in rows and columns of equal size. Their densities are
 * read without their rims, dust and scratches.
 *
 * <pre>{@code
 * for (PatchGrid.Area area : PatchGrid.of(1, 21).read(image)) { … }
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

    static final double REJECTED = 4;
    private static final double NORMAL = 1.4826;
    private static final int FEWEST_PIXELS = 16;

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
     * @throws NotDeterminableException if a patch without its rim has fewer than {@value #FEWEST_PIXELS} pixels
     */
    public List<Area> read(DensityImage image) {
        List<Area> areas = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            for (int column = 0; column < columns; column++) {
                areas.add(read(image, row, column));
            }
        }
        return List.copyOf(areas);
    }

    private Area read(DensityImage image, int row, int column) {
        double wide = image.width() / (double) columns;
        double high = image.height() / (double) rows;
        int left = (int) Math.ceil((column + margin) * wide);
        int right = (int) Math.floor((column + 1 - margin) * wide);
        int top = (int) Math.ceil((row + margin) * high);
        int bottom = (int) Math.floor((row + 1 - margin) * high);
        int across = right - left;
        int down = bottom - top;
        if (across < 1 || down < 1 || across * down < FEWEST_PIXELS) {
            throw new NotDeterminableException("the patch in row " + (row + 1) + ", column " + (column + 1)
                    + " has fewer than " + FEWEST_PIXELS + " pixels without its rim; scan finer or check the grid");
        }
        double[] all = new double[across * down];
        for (int i = 0; i < all.length; i++) {
            all[i] = image.density(left + i % across, top + i / across);
        }
        double median = median(all);
        double scale = NORMAL
                * median(Arrays.stream(all).map(d -> Math.abs(d - median)).toArray());
        double limit = REJECTED * scale + 1e-9;
        double sum = 0;
        double alongX = 0;
        double alongY = 0;
        double squaresX = 0;
        double squaresY = 0;
        int kept = 0;
        for (int i = 0; i < all.length; i++) {
            if (Math.abs(all[i] - median) <= limit) {
                double x = i % across - 0.5 * (across - 1);
                double y = Math.floorDiv(i, across) - 0.5 * (down - 1);
                sum += all[i];
                alongX += (all[i] - median) * x;
                alongY += (all[i] - median) * y;
                squaresX += x * x;
                squaresY += y * y;
                kept++;
            }
        }
        double mean = sum / kept;
        double deviations = 0;
        for (double density : all) {
            deviations += Math.abs(density - median) <= limit ? (density - mean) * (density - mean) : 0;
        }
        double scatter = Math.sqrt(deviations / Math.max(1, kept - 1));
        return new Area(
                row + 1,
                column + 1,
                Density.of(mean),
                scatter,
                kept,
                all.length - kept,
                squaresX > 0 ? alongX / squaresX * wide : 0,
                squaresY > 0 ? alongY / squaresY * high : 0);
    }

    private static double median(double[] of) {
        double[] sorted = of.clone();
        Arrays.sort(sorted);
        return 0.5 * (sorted[sorted.length / 2] + sorted[(sorted.length - 1) / 2]);
    }

    /** One patch as it was read. Immutable and thread safe. */
    public static final class Area {

        private final int row;
        private final int column;
        private final Density density;
        private final double scatter;
        private final int kept;
        private final int rejected;
        private final double across;
        private final double down;

        private Area(
                int row,
                int column,
                Density density,
                double scatter,
                int kept,
                int rejected,
                double across,
                double down) {
            this.row = row;
            this.column = column;
            this.density = density;
            this.scatter = scatter;
            this.kept = kept;
            this.rejected = rejected;
            this.across = across;
            this.down = down;
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
            return density;
        }

        /**
         * Returns the density with the standard uncertainty of the mean, computed as if the scatter were independent
         * from pixel to pixel; blur, or grain larger than a pixel, makes the true uncertainty larger.
         *
         * @return the estimate
         */
        public Estimate estimate() {
            return Estimate.of(density.value(), scatter / Math.sqrt(kept));
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
        public double across() {
            return across;
        }

        /**
         * Returns the gradient along the column.
         *
         * @return the change of density over the height of the patch
         */
        public double down() {
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
                    density,
                    rejected,
                    pixels());
        }
    }
}
