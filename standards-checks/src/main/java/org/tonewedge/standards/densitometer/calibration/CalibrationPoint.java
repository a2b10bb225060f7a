// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.calibration;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Estimate;

/**
 * One point of a calibration: a known density and the densitometer's reading of it, such as D 3.02 read as 2.95.
 *
 * @param certified the density with the standard uncertainty of its certificate
 * @param reading the mean reading with the standard uncertainty of that mean
 * @units density
 */
public record CalibrationPoint(Estimate certified, Estimate reading) {

    private static final double LOWEST = -0.2;
    private static final double HIGHEST = 6;
    private static final String REMEDY = "a percentage, counts or a missing decimal point?";

    /**
     * Checks the point.
     *
     * @param certified the density with the standard uncertainty of its certificate, from −0.2 to 6
     * @param reading the mean reading with the standard uncertainty of that mean, likewise; one of the two uncertainties must
     *     be above 0
     * @throws IllegalArgumentException if a density is out of range or both uncertainties are 0
     */
    public CalibrationPoint {
        Checks.within("certified density", certified.value(), LOWEST, HIGHEST, REMEDY);
        Checks.within("mean reading", reading.value(), LOWEST, HIGHEST, REMEDY);
        if (!(certified.standardUncertainty() > 0 || reading.standardUncertainty() > 0)) {
            throw new IllegalArgumentException("the point at D " + certified.value()
                    + " must have an uncertainty, of its certificate or of its readings; state the repeatability");
        }
    }

    /**
     * Returns the point of the open gate, whose density is 0 by definition.
     *
     * @param reading the mean reading with the standard uncertainty of that mean, which must be above 0
     * @return the point
     * @throws IllegalArgumentException as the constructor does
     */
    public static CalibrationPoint openGate(Estimate reading) {
        return new CalibrationPoint(Estimate.of(0, 0), reading);
    }

    /**
     * Returns a point that a perfect densitometer would read, to plan a calibration.
     *
     * @param certified the density with the standard uncertainty of its certificate
     * @param repeatability the standard deviation of one reading, above 0
     * @param readings how many readings will be averaged, 1 or more
     * @return the point
     * @throws IllegalArgumentException as the constructor does, or if a number is out of range
     */
    public static CalibrationPoint planned(Estimate certified, double repeatability, int readings) {
        double mean = Checks.positive("repeatability", repeatability)
                / Math.sqrt(Checks.within("readings of a point", readings, 1, Integer.MAX_VALUE, ""));
        return new CalibrationPoint(certified, Estimate.of(certified.value(), mean));
    }
}
