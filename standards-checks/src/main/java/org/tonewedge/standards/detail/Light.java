// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;

/**
 * How the quantity in which an edge is read relates to the transmittance of the film, which is what a scanner blurs. Both
 * functions answer for any value: beyond a curve they answer for its end.
 *
 * @param toTransmittance the transmittance at a value of the quantity
 * @param fromTransmittance the value of the quantity at a transmittance
 */
record Light(DoubleUnaryOperator toTransmittance, DoubleUnaryOperator fromTransmittance) {

    private static final double LEAST = 1e-9;

    /** For edges read in transmittance. */
    static final Light ITSELF = new Light(DoubleUnaryOperator.identity(), DoubleUnaryOperator.identity());

    /** For edges read in density. */
    static final Light OF_DENSITY = new Light(Light::transmittance, Light::density);

    /** For edges read in exposure, through a curve that has one exposure for each density between those of the edge. */
    static Light through(CharacteristicCurve curve) {
        double low = curve.lowestExposure().value();
        double high = curve.highestExposure().value();
        double first = curve.density(low);
        double last = curve.density(high);
        return new Light(
                exposure -> transmittance(curve.density(Math.max(
                        low, Math.min(high, Math.log10(Math.max(Double.MIN_NORMAL, exposure)))))),
                transmittance -> {
                    double density = density(transmittance);
                    boolean below = last > first ? density <= first : density >= first;
                    boolean above = last > first ? density >= last : density <= last;
                    return Math.pow(10, below ? low : above ? high : curve.logExposure(density));
                });
    }

    static double transmittance(double density) {
        return Math.pow(10, -density);
    }

    private static double density(double transmittance) {
        return -Math.log10(Math.max(LEAST, transmittance));
    }
}
