// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.contrast.AverageGradient;

/**
 * The gradients of radiographic films, dD / dlog<sub>10</sub> K. K is the {@linkplain AirKerma air kerma} at the film;
 * like the luminous exposure H of other films, it is the abscissa of the curve. Gradients do not depend on the unit of
 * exposure and are valid on any axis.
 */
public final class RadiographicGradient {

    private RadiographicGradient() {}

    /**
     * Returns the average gradient of medical films: between 0.25 and 2.00 above base plus fog.
     *
     * @return the method
     * @source ISO 9236-1:2004 and ISO 5799:1991, from memory
     */
    public static AverageGradient medical() {
        return AverageGradient.withDefaults()
                .withStart(DensityDifference.of(0.25))
                .withEnd(DensityDifference.of(2.00));
    }

    /**
     * Returns the average gradient of industrial films: between 1.50 and 3.50 above base plus fog.
     *
     * @return the method
     * @source a paper of the Fifth Canadian Conference on Nondestructive Testing (verified), after ISO 7004
     */
    public static AverageGradient industrial() {
        return AverageGradient.withDefaults()
                .withStart(DensityDifference.of(1.50))
                .withEnd(DensityDifference.of(3.50));
    }

    /**
     * Returns the gradient of the curve itself at a density, which the classes of industrial films require at 2.0 and
     * 4.0.
     *
     * @param curve the curve
     * @param aboveBasePlusFog the density above base plus fog
     * @return dD / dlog<sub>10</sub> K there, K the {@linkplain AirKerma air kerma}
     * @throws NotDeterminableException if the curve does not reach the density, or reaches it several times
     */
    public static Gradient at(CharacteristicCurve curve, DensityDifference aboveBasePlusFog) {
        return curve.gradientAt(curve.pointAbove(aboveBasePlusFog).logExposure());
    }
}
