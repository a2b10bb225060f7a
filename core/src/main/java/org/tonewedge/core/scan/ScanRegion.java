// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;

/**
 * A rectangle of pixels on a scan, such as 200 by 120 pixels with its top left corner at column 40, row 30.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param x the leftmost column, from 0
 * @param y the topmost row, from 0
 * @param width the columns, 1 or more
 * @param height the rows, 1 or more
 */
public record ScanRegion(int x, int y, int width, int height) {

    private static final int MOST = 1_000_000;
    private static final String MILLIMETRES = "mm";

    /**
     * Checks the parts.
     *
     * @param x the leftmost column
     * @param y the topmost row
     * @param width the columns
     * @param height the rows
     * @throws IllegalArgumentException if a part is out of range
     */
    public ScanRegion {
        Checks.within("left column of a region", x, 0, MOST, "columns count from 0");
        Checks.within("top row of a region", y, 0, MOST, "rows count from 0");
        Checks.within("width of a region in pixels", width, 1, MOST, "");
        Checks.within("height of a region in pixels", height, 1, MOST, "");
    }

    /**
     * Returns a region from its four numbers in pixels.
     *
     * @param text for example {@code 40,30,200,120}: left column, top row, width, height
     * @return the region
     * @throws IllegalArgumentException if the text is not four whole numbers in range
     */
    public static ScanRegion parse(String text) {
        String[] parts = text.strip().split("\\s*,\\s*", -1);
        try {
            if (parts.length == 4) {
                return new ScanRegion(
                        Integer.parseInt(parts[0]),
                        Integer.parseInt(parts[1]),
                        Integer.parseInt(parts[2]),
                        Integer.parseInt(parts[3]));
            }
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(refused(text), e);
        }
        throw new IllegalArgumentException(refused(text));
    }

    /**
     * Returns a region from its four numbers, in pixels or in millimetres on the film.
     *
     * @param text for example {@code 40,30,200,120}, or {@code 2,1.5,10,6mm}: left, top, width, height
     * @param pixelsPerMillimetre the resolution of the scan, for a text in millimetres
     * @return the region
     * @throws IllegalArgumentException if the text is not a region
     */
    public static ScanRegion parse(String text, double pixelsPerMillimetre) {
        String stripped = text.strip();
        if (!stripped.endsWith(MILLIMETRES)) {
            return parse(text);
        }
        String[] parts = stripped.substring(0, stripped.length() - MILLIMETRES.length())
                .strip()
                .split("\\s*,\\s*", -1);
        try {
            if (parts.length == 4) {
                return ofMillimetres(
                        Double.parseDouble(parts[0]),
                        Double.parseDouble(parts[1]),
                        Double.parseDouble(parts[2]),
                        Double.parseDouble(parts[3]),
                        pixelsPerMillimetre);
            }
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(refused(text), e);
        }
        throw new IllegalArgumentException(refused(text));
    }

    private static String refused(String text) {
        return "a region is X,Y,WIDTH,HEIGHT in whole pixels, such as 40,30,200,120, or in millimetres, such as"
                + " 2,1.5,10,6mm, was '"
                + (text.length() > 80 ? text.substring(0, 80) + "…" : text) + "'";
    }

    /**
     * Returns a region from lengths on the film.
     *
     * @param x the distance from the left edge of the scan, in millimetres
     * @param y the distance from its top edge, in millimetres
     * @param width in millimetres
     * @param height in millimetres
     * @param pixelsPerMillimetre the resolution of the scan, above 0
     * @return the region, its edges rounded to whole pixels
     * @throws IllegalArgumentException if a length is negative, the region is less than a pixel, or the resolution is not
     *     above 0
     */
    public static ScanRegion ofMillimetres(
            double x, double y, double width, double height, double pixelsPerMillimetre) {
        Checks.positive("pixels per millimetre", pixelsPerMillimetre);
        int left = pixels("left edge", x, pixelsPerMillimetre);
        int top = pixels("top edge", y, pixelsPerMillimetre);
        return new ScanRegion(
                left,
                top,
                pixels("right edge", x + width, pixelsPerMillimetre) - left,
                pixels("bottom edge", y + height, pixelsPerMillimetre) - top);
    }

    private static int pixels(String edge, double millimetres, double perMillimetre) {
        return (int) Math.round(
                Checks.within(edge + " in millimetres", millimetres, 0, MOST / perMillimetre, "") * perMillimetre);
    }

    /**
     * Returns the smallest region that includes some others.
     *
     * @param regions one or more regions
     * @return the region around them
     * @throws IllegalArgumentException if there is none
     */
    public static ScanRegion around(List<ScanRegion> regions) {
        if (regions.isEmpty()) {
            throw new IllegalArgumentException("there is no region to go around; give at least one");
        }
        int left = MOST;
        int top = MOST;
        int right = 0;
        int bottom = 0;
        for (ScanRegion region : regions) {
            left = Math.min(left, region.x);
            top = Math.min(top, region.y);
            right = Math.max(right, region.x + region.width);
            bottom = Math.max(bottom, region.y + region.height);
        }
        return new ScanRegion(left, top, right - left, bottom - top);
    }

    /**
     * Returns the number of pixels.
     *
     * @return width times height
     */
    public long pixels() {
        return (long) width * height;
    }

    /**
     * Refuses a region that reaches beyond a scan.
     *
     * @param scan what the message calls the scan
     * @param scanWidth its columns
     * @param scanHeight its rows
     * @throws IllegalArgumentException if a column or row of the region lies outside
     */
    public void requireWithin(String scan, int scanWidth, int scanHeight) {
        Objects.requireNonNull(scan, "scan");
        if ((long) x + width > scanWidth || (long) y + height > scanHeight) {
            throw new IllegalArgumentException("region " + this + " reaches beyond " + scan + ", which is " + scanWidth
                    + " by " + scanHeight + " pixels; regions are X,Y,WIDTH,HEIGHT from the top left corner");
        }
    }

    /**
     * Returns the region as {@link #parse parse} reads it.
     *
     * @return the four numbers with commas between
     */
    @Override
    public String toString() {
        return x + "," + y + "," + width + "," + height;
    }
}
