// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.time.Duration;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposureSeries;

/**
 * The scales of f-numbers and times on cameras: the exact value of a marked number, and series of frames one step
 * apart.
 *
 * <p>Marked numbers are rounded: f/11 means 11.31, 1/60 s means 1/64 s. A mark that lies far from the scale, such as
 * the half stop f/6.7 on a scale of thirds, is refused, not moved. Only a measurement shows whether a given shutter
 * keeps to its marks.
 *
 * @source common practice, no source: f-numbers 2<sup>n/6</sup> and times 2<sup>n/3</sup> s, 2<sup>n/4</sup> and
 *     2<sup>n/2</sup> s for half stops
 */
public enum StopScale {
    /** Steps of a third of a stop: f/5.6, 6.3, 7.1, 8; 1/60, 1/80, 1/100, 1/125 s. */
    THIRDS(3),
    /** Steps of half a stop: f/5.6, 6.7, 8; 1/60, 1/90, 1/125 s. */
    HALVES(2);

    /** How far marks are rounded, as a fraction of the number; f/13.5, half a stop up from f/11, is the least exact. */
    private static final double ROUNDING_OF_APERTURES = 0.04;

    /** 1/60 for 1/64 and 15 for 16 are rounded by 6.7 %. */
    private static final double ROUNDING_OF_TIMES = 0.07;

    private static final double NANOS_PER_SECOND = 1e9;

    private final int stepsPerStop;

    StopScale(int stepsPerStop) {
        this.stepsPerStop = stepsPerStop;
    }

    /**
     * Returns the step of the scale.
     *
     * @return a third or half of a stop
     */
    public ExposureInterval step() {
        return ExposureInterval.ofStops(1.0 / stepsPerStop);
    }

    /**
     * Returns the exact f-number for a marked one.
     *
     * @param marked the f-number on the ring, such as 11
     * @return the nearest f-number of the scale, such as 11.31
     * @throws IllegalArgumentException if the number is not a finite number above 0, or is not a mark of this scale
     */
    public double fNumber(double marked) {
        return nearest("f/", Checks.positive("f-number", marked), 2 * stepsPerStop, ROUNDING_OF_APERTURES, "");
    }

    /**
     * Returns the exact time for a marked one.
     *
     * @param marked the time on the dial, such as 1/60 s
     * @return the nearest time of the scale, such as 1/64 s, to a nanosecond
     * @throws IllegalArgumentException if the time is not above 0, or is not a mark of this scale
     */
    public Duration time(Duration marked) {
        double seconds = Checks.positive(
                "exposure time in seconds", marked.toSeconds() + marked.toNanosPart() / NANOS_PER_SECOND);
        return Duration.ofNanos(
                Math.round(NANOS_PER_SECOND * nearest("", seconds, stepsPerStop, ROUNDING_OF_TIMES, " s")));
    }

    /**
     * Returns a series of frames, each with one step more exposure than the one before.
     *
     * @param first the exposure of the first frame
     * @param frames the number of frames, 1 or more
     * @return the series
     * @throws IllegalArgumentException if there is no frame or an exposure leaves the range of {@link LogExposure}
     */
    public ExposureSeries frames(LogExposure first, int frames) {
        return ExposureSeries.frames(first, step(), frames);
    }

    private double nearest(String prefix, double marked, int partsPerDoubling, double rounding, String unit) {
        double parts = Math.rint(partsPerDoubling * Math.log(marked) / Math.log(2));
        double exact = Math.pow(2, parts / partsPerDoubling);
        if (Math.abs(marked / exact - 1) > rounding) {
            throw new IllegalArgumentException(prefix + Figures.plain(marked) + unit + " is not a mark of the scale of "
                    + (this == THIRDS ? "third" : "half") + " stops, whose nearest is " + prefix + Figures.plain(exact)
                    + unit + ": read it on the scale of " + (this == THIRDS ? "half" : "third")
                    + " stops, or give the exact number");
        }
        return exact;
    }
}
