// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/**
 * How a monotone cubic chooses its slopes at the readings. Both rules keep the curve monotone where the readings are;
 * they differ in how sharply the curve turns.
 *
 * <p>S<sub>i</sub> is the secant slope from reading i to the next, h<sub>i</sub> its width.
 */
public enum MonotoneSlopes {

    /**
     * The mean of the two neighbouring secants, S<sub>1</sub> and S<sub>n−1</sub> at the ends, 0 where they differ in
     * sign. Then, on each interval where α = m<sub>i</sub>/S<sub>i</sub> and β = m<sub>i+1</sub>/S<sub>i</sub> lie
     * outside the circle α² + β² = 9, both are scaled by 3/√(α² + β²). It keeps the gradient of toes and shoulders
     * closest to that of the readings.
     *
     * <p>Source: F. N. Fritsch and R. E. Carlson, Monotone piecewise cubic interpolation, SIAM Journal on Numerical
     * Analysis 17 (1980) 238–246.
     */
    FRITSCH_CARLSON,

    /**
     * The harmonic mean of the neighbouring secants, weighted by (2h<sub>i</sub> + h<sub>i−1</sub>) and (h<sub>i</sub> +
     * 2h<sub>i−1</sub>), 0 where they differ in sign; a three-point formula at the ends, limited to keep the shape. It
     * stays flatter where the readings turn.
     *
     * <p>Source: F. N. Fritsch and J. Butland, A method for constructing local monotone piecewise cubic interpolants,
     * SIAM Journal on Scientific and Statistical Computing 5 (1984) 300–304 (citation from memory).
     */
    FRITSCH_BUTLAND
}
