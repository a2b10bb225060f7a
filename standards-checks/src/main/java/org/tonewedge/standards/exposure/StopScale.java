package org.tonewedge.standards.exposure;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposureSeries;

/**
 * The third-stop sequences of cameras: what the marked f-numbers and times stand for, and series of frames a third of a
 * stop apart.
 *
 * <p>Marked numbers are rounded: f/11 stands for 11.31, 1/60 s for 1/64 s. Whether a given shutter keeps to its marks has
 * to be measured.
 *
 * @source common practice, no source: f-numbers 2<sup>n/6</sup> and times 2<sup>n/3</sup> s
 */
public final class ThirdStops {

    /** A third of a stop. */
    public static final ExposureInterval THIRD = ExposureInterval.ofStops(1.0 / 3);

    private ThirdStops() {}

    /**
     * Returns the f-number a marked one stands for.
     *
     * @param marked the f-number on the ring, such as 11
     * @return the nearest 2<sup>n/6</sup>, such as 11.31
     * @throws IllegalArgumentException if the number is not a finite number above 0
     */
    public static double fNumber(double marked) {
        return nearestPower(6, Checks.positive("f-number", marked));
    }

    /**
     * Returns the time a marked one stands for.
     *
     * @param markedSeconds the time on the dial, such as 1/60
     * @return the nearest 2<sup>n/3</sup> s, such as 1/64
     * @throws IllegalArgumentException if the time is not a finite number above 0
     */
    public static double seconds(double markedSeconds) {
        return nearestPower(3, Checks.positive("exposure time in seconds", markedSeconds));
    }

    /**
     * Returns a series of frames, each a third of a stop more exposed than the one before.
     *
     * @param first the exposure of the first frame
     * @param frames the number of frames, 1 or more
     * @return the series
     * @throws IllegalArgumentException if there is no frame or an exposure leaves the range of {@link LogExposure}
     */
    public static ExposureSeries frames(LogExposure first, int frames) {
        return ExposureSeries.frames(first, THIRD, frames);
    }

    private static double nearestPower(int partsPerDoubling, double value) {
        double parts = Math.rint(partsPerDoubling * Math.log(value) / Math.log(2));
        return Math.pow(2, parts / partsPerDoubling);
    }
}
