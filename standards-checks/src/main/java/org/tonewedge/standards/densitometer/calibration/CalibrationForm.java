// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.calibration;

/** Which constants a calibration determines, in the model reading = a − b log<sub>10</sub> (10<sup>−D</sup> + l). */
public enum CalibrationForm {

    /** Only the slope b; the open gate reads 0 and no light leaks. Needs one film step. */
    SLOPE(false, false),

    /** The offset a and the slope b; no light leaks. Needs two points. */
    OFFSET_AND_SLOPE(true, false),

    /** The slope b and the leak l; the open gate reads 0 except for the leak. Needs two film steps. */
    SLOPE_AND_LEAK(false, true),

    /** The offset a, the slope b and the leak l. Needs three points, one of them dense. */
    OFFSET_SLOPE_AND_LEAK(true, true);

    private final boolean offset;
    private final boolean leak;

    CalibrationForm(boolean offset, boolean leak) {
        this.offset = offset;
        this.leak = leak;
    }

    /**
     * Tells whether the offset is determined.
     *
     * @return false if it is 0
     */
    public boolean hasOffset() {
        return offset;
    }

    /**
     * Tells whether the leak is determined.
     *
     * @return false if it is 0
     */
    public boolean hasLeak() {
        return leak;
    }

    /**
     * Returns the number of constants that are determined.
     *
     * @return the number of constants, which is also the least number of points
     */
    public int constants() {
        return 1 + (offset ? 1 : 0) + (leak ? 1 : 0);
    }
}
