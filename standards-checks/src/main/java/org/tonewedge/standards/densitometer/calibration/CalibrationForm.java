package org.tonewedge.standards.densitometer.calibration;

/** Which constants a calibration determines: reading = a − b log<sub>10</sub> (10<sup>−D</sup> + l). */
public enum CalibrationForm {

    /** The slope b alone; the open gate reads 0 and no light leaks. Needs one film step. */
    SLOPE(false, false),

    /** The offset a and the slope b; no light leaks. Needs two points. */
    OFFSET_AND_SLOPE(true, false),

    /** The slope b and the leak l; the open gate reads 0 but for the leak. Needs two film steps. */
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
     * Returns how many constants are determined.
     *
     * @return the number of constants, which is the least number of points
     */
    public int constants() {
        return 1 + (offset ? 1 : 0) + (leak ? 1 : 0);
    }
}
