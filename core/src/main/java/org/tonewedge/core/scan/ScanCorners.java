// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import java.util.Arrays;
import java.util.Locale;
import org.tonewedge.core.internal.Checks;

/**
 * The four corners of a chart that lies rotated, skewed or in perspective on a scan, such as one laid down by hand.
 *
 * <p>A place on the chart is given by the part of the way along its rows and down its columns, each from 0 to 1. The chart is
 * taken to be flat: straight lines on it are straight on the scan.
 *
 * <p>Coordinates are pixels from the top left corner of the scan; the middle of its first pixel is at 0.5, 0.5.
 *
 * <p>Immutable and thread safe.
 *
 * @source the map of a square onto a quadrilateral: P. S. Heckbert, Fundamentals of Texture Mapping and Image Warping,
 *     University of California, Berkeley (1989), from memory
 */
public final class ScanCorners {

    private static final String MILLIMETRES = "mm";
    private static final int NUMBERS = 8;
    private static final int NUMBERS_OF_REGION = 4;
    private static final double MOST = 1_000_000;
    private static final double SHORTEST = 4;

    /** x and y of the first corner, of the one at the end of its row, and of the next two around. */
    private final double[] at;

    /** The projective map: numerators of x and y, then the denominator without its 1. */
    private final double[] map;

    private ScanCorners(double[] at) {
        this.at = at;
        double dx1 = at[2] - at[4];
        double dy1 = at[3] - at[5];
        double dx2 = at[6] - at[4];
        double dy2 = at[7] - at[5];
        double sx = at[0] - at[2] + at[4] - at[6];
        double sy = at[1] - at[3] + at[5] - at[7];
        double det = dx1 * dy2 - dx2 * dy1;
        double g = (sx * dy2 - dx2 * sy) / det;
        double h = (dx1 * sy - sx * dy1) / det;
        map = new double[] {
            at[2] - at[0] + g * at[2],
            at[6] - at[0] + h * at[6],
            at[0],
            at[3] - at[1] + g * at[3],
            at[7] - at[1] + h * at[7],
            at[1],
            g,
            h
        };
    }

    /**
     * Returns corners.
     *
     * @param coordinates x and y of four corners, in pixels: that of the first patch, that at the end of its row, and on
     *     around the chart
     * @return the corners
     * @throws IllegalArgumentException if there are not eight numbers from 0 to a million, a side is shorter than four pixels,
     *     or the corners do not go around a convex figure
     */
    public static ScanCorners of(double... coordinates) {
        if (coordinates.length != NUMBERS) {
            throw new IllegalArgumentException(
                    "four corners are eight numbers, x and y of each, had " + coordinates.length);
        }
        for (double coordinate : coordinates) {
            Checks.within("corner of a chart in pixels", coordinate, 0, MOST, "");
        }
        double[] at = coordinates.clone();
        double turned = 0;
        for (int i = 0; i < NUMBERS; i += 2) {
            int j = (i + 2) % NUMBERS;
            int k = (i + 4) % NUMBERS;
            double cross = (at[j] - at[i]) * (at[k + 1] - at[j + 1]) - (at[j + 1] - at[i + 1]) * (at[k] - at[j]);
            if (!(Math.hypot(at[j] - at[i], at[j + 1] - at[i + 1]) >= SHORTEST) || cross == 0 || cross * turned < 0) {
                throw new IllegalArgumentException("the corners " + words(at)
                        + " do not go around a chart; give that of the first patch, that at the end of its row, then on"
                        + " around, each at least " + (int) SHORTEST + " pixels from the last");
            }
            turned = cross;
        }
        return new ScanCorners(at);
    }

    /**
     * Returns the corners of a region.
     *
     * @param region the region
     * @return its corners, from the top left one
     */
    public static ScanCorners of(ScanRegion region) {
        double left = region.x();
        double top = region.y();
        double right = left + region.width();
        double bottom = top + region.height();
        return new ScanCorners(new double[] {left, top, right, top, right, bottom, left, bottom});
    }

    /**
     * Tells whether a text gives corners and not a region, which has four numbers.
     *
     * @param text the text
     * @return true if it has more than four numbers, so that it is for {@link #parse parse}
     */
    public static boolean isMeantBy(String text) {
        return text.chars().filter(c -> c == ',').count() >= NUMBERS_OF_REGION;
    }

    /**
     * Returns corners from their eight numbers, in pixels or in millimetres on the film.
     *
     * @param text for example {@code 40,30,640,52,620,450,25,430}, or with {@code mm} at the end
     * @param pixelsPerMillimetre the resolution of the scan, for a text in millimetres
     * @return the corners
     * @throws IllegalArgumentException if the text does not give corners
     */
    public static ScanCorners parse(String text, double pixelsPerMillimetre) {
        String numbers = text.strip();
        double unit = 1;
        if (numbers.endsWith(MILLIMETRES)) {
            numbers = numbers.substring(0, numbers.length() - MILLIMETRES.length());
            unit = Checks.positive("pixels per millimetre", pixelsPerMillimetre);
        }
        double scale = unit;
        try {
            return of(Arrays.stream(numbers.split(",", -1))
                    .mapToDouble(number -> Double.parseDouble(number.strip()) * scale)
                    .toArray());
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(
                    "corners are X,Y of each of the four, such as 40,30,640,52,620,450,25,430, was '"
                            + Checks.shortened(text) + "'",
                    e);
        }
    }

    /**
     * Returns where a place of the chart lies.
     *
     * @param along the part of the way along the rows, 0 to 1
     * @param down the part of the way down the columns, 0 to 1
     * @return its x, in pixels
     */
    public double x(double along, double down) {
        return (map[0] * along + map[1] * down + map[2]) / (map[6] * along + map[7] * down + 1);
    }

    /**
     * Returns where a place of the chart lies.
     *
     * @param along the part of the way along the rows, 0 to 1
     * @param down the part of the way down the columns, 0 to 1
     * @return its y, in pixels
     */
    public double y(double along, double down) {
        return (map[3] * along + map[4] * down + map[5]) / (map[6] * along + map[7] * down + 1);
    }

    /**
     * Returns a part of the chart.
     *
     * @param along where it begins along the rows, 0 to 1
     * @param down where it begins down the columns, 0 to 1
     * @param alongEnd where it ends, above {@code along}
     * @param downEnd where it ends, above {@code down}
     * @return its corners
     */
    public ScanCorners part(double along, double down, double alongEnd, double downEnd) {
        return new ScanCorners(new double[] {
            x(along, down),
            y(along, down),
            x(alongEnd, down),
            y(alongEnd, down),
            x(alongEnd, downEnd),
            y(alongEnd, downEnd),
            x(along, downEnd),
            y(along, downEnd)
        });
    }

    /**
     * Returns the smallest region of whole pixels around the corners.
     *
     * @return the region
     */
    public ScanRegion bounds() {
        double left = Math.min(Math.min(at[0], at[2]), Math.min(at[4], at[6]));
        double right = Math.max(Math.max(at[0], at[2]), Math.max(at[4], at[6]));
        double top = Math.min(Math.min(at[1], at[3]), Math.min(at[5], at[7]));
        double bottom = Math.max(Math.max(at[1], at[3]), Math.max(at[5], at[7]));
        int x = (int) Math.floor(left);
        int y = (int) Math.floor(top);
        return new ScanRegion(x, y, Math.max(1, (int) Math.ceil(right) - x), Math.max(1, (int) Math.ceil(bottom) - y));
    }

    /**
     * Tells whether a pixel lies within the corners.
     *
     * @param column its column, from 0
     * @param row its row, from 0
     * @return true if its middle does
     */
    public boolean contains(int column, int row) {
        double x = column + 0.5;
        double y = row + 0.5;
        boolean left = false;
        boolean right = false;
        for (int i = 0; i < NUMBERS; i += 2) {
            int j = (i + 2) % NUMBERS;
            double cross = (at[j] - at[i]) * (y - at[i + 1]) - (at[j + 1] - at[i + 1]) * (x - at[i]);
            left |= cross > 0;
            right |= cross < 0;
        }
        return !(left && right);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the corners are the same
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ScanCorners that && Arrays.equals(at, that.at);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Arrays.hashCode(at);
    }

    /**
     * Returns the corners as {@link #parse parse} reads them.
     *
     * @return the eight numbers with commas between, to a hundredth of a pixel
     */
    @Override
    public String toString() {
        return words(at);
    }

    private static String words(double[] at) {
        StringBuilder words = new StringBuilder();
        for (double number : at) {
            String text = String.format(Locale.ROOT, "%.2f", number).replaceAll("\\.?0+$", "");
            words.append(words.length() == 0 ? "" : ",").append(text);
        }
        return words.toString();
    }
}
