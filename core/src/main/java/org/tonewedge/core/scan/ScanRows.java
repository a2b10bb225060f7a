// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import java.io.IOException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A scan that hands out the codes of one channel row by row, so that one of any size is read in the memory of a few rows.
 *
 * <p>An image reader implements it; {@link #of ScanRows.of} wraps codes that are already in memory.
 */
public interface ScanRows {

    /** What receives the codes of a row. */
    @FunctionalInterface
    interface Row {

        /**
         * Receives a row.
         *
         * @param y the row on the scan, from 0
         * @param codes the codes of the columns asked for; the array is used again for the next row
         */
        void accept(int y, int[] codes);
    }

    /**
     * Returns the number of columns.
     *
     * @return the width in pixels
     */
    int width();

    /**
     * Returns the number of rows.
     *
     * @return the height in pixels
     */
    int height();

    /**
     * Returns the highest code there can be.
     *
     * @return 255 for 8 bits, 65 535 for 16
     */
    int highestCode();

    /**
     * Hands out a region, its rows from the top.
     *
     * @param region the columns and rows wanted
     * @param row receives each of them
     * @throws IllegalArgumentException if the region reaches beyond the scan
     * @throws IOException if the scan cannot be read
     */
    void read(ScanRegion region, Row row) throws IOException;

    /**
     * Returns codes in memory as a scan.
     *
     * @param codes the codes row by row, unsigned; they are not copied
     * @param width how many there are in a row
     * @param highestCode the highest code there can be, from 1 to 65 535
     * @return the scan
     * @throws IllegalArgumentException if the codes do not fill whole rows or the highest code is out of range
     */
    static ScanRows of(short[] codes, int width, int highestCode) {
        Checks.within("highest code", highestCode, 1, 0xFFFF, "");
        if (width < 1 || codes.length < width || codes.length % width != 0) {
            throw new IllegalArgumentException("a scan needs one whole row or more, had "
                    + Figures.counted(codes.length, "code") + " in rows of " + width);
        }
        return new ArrayRows(codes, width, highestCode);
    }
}
