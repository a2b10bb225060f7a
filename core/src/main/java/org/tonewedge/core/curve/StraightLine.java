// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import org.tonewedge.core.internal.Checks;

/**
 * A straight line in the plane of a {@link CurveForm}, such as the line between toe and shoulder: a point on it and its
 * gradient, as plain numbers.
 *
 * @param logExposure log<sub>10</sub> H of a point on the line
 * @param density the gross density there
 * @param gradient the gradient of the line, not 0
 */
public record StraightLine(double logExposure, double density, double gradient) {

    /**
     * Checks the numbers.
     *
     * @param logExposure log<sub>10</sub> H of a point on the line
     * @param density the gross density there
     * @param gradient the gradient of the line
     * @throws IllegalArgumentException if a number is not finite or the gradient is 0
     */
    public StraightLine {
        Checks.finite("log exposure of a straight line", logExposure);
        Checks.finite("density of a straight line", density);
        Checks.finite("gradient of a straight line", gradient);
        if (gradient == 0) {
            throw new IllegalArgumentException("gradient of a straight line must not be 0");
        }
    }

    /**
     * Returns the log exposure at which the line, continued either way, has a density.
     *
     * @param wanted the gross density
     * @return log<sub>10</sub> H
     */
    public double logExposureAt(double wanted) {
        return logExposure + (wanted - density) / gradient;
    }
}
