// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.io.Serializable;
import java.util.function.DoubleUnaryOperator;

/**
 * What an error of the parameters of the calibration D<sub>m</sub> = a − b log<sub>10</sub> (10<sup>−D</sup> + l) adds to a
 * corrected density: δD<sub>m</sub> divided by the slope.
 *
 * @param slope b
 * @param leak l, 0 for a line
 * @param ofOffset the error of a
 * @param ofSlope the error of b
 * @param ofLeak the error of l
 */
record ParametricError(double slope, double leak, double ofOffset, double ofSlope, double ofLeak)
        implements DoubleUnaryOperator, Serializable {

    @Override
    public double applyAsDouble(double density) {
        double transmittance = Math.pow(10, -density);
        double seen = transmittance + leak;
        double ofReading = ofOffset - ofSlope * Math.log10(seen) - ofLeak * slope / (Math.log(10) * seen);
        return ofReading * seen / (slope * transmittance);
    }
}
