// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

/** Codes in memory as a scan. */
final class ArrayRows implements ScanRows {

    private final short[] codes;
    private final int width;
    private final int highestCode;

    ArrayRows(short[] codes, int width, int highestCode) {
        this.codes = codes;
        this.width = width;
        this.highestCode = highestCode;
    }

    @Override
    public int width() {
        return width;
    }

    @Override
    public int height() {
        return codes.length / width;
    }

    @Override
    public int highestCode() {
        return highestCode;
    }

    @Override
    public void read(ScanRegion region, Row row) {
        region.requireWithin("the scan", width, height());
        int[] line = new int[region.width()];
        for (int y = region.y(); y < region.y() + region.height(); y++) {
            for (int i = 0; i < line.length; i++) {
                line[i] = codes[y * width + region.x() + i] & 0xFFFF;
            }
            row.accept(y, line);
        }
    }
}
