// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import java.util.List;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;

/**
 * The speeds of radiographic films: S = K<sub>0</sub> / K<sub>s</sub>, where K<sub>s</sub> is the air kerma at a
 * density.
 */
public enum RadiographicSpeed {
    /**
     * Screen–film systems: K<sub>0</sub> 1000 µGy, density 1.0 above base plus fog; speed 200 needs 5 µGy.
     *
     * @source a radiographer's reference page on film–screen speed (verified, secondary), after ISO 9236-1
     */
    SCREEN_FILM(1e-3, 1.0, "screen–film speed", "ISO 9236-1:2004, through a radiographer's reference page"),

    /**
     * Dental films: K<sub>0</sub> 0.01 Gy, density 1.0 above base plus fog.
     *
     * @source a dental reference page on film speed (verified, secondary), after ISO 3665 and ISO 5799
     */
    DENTAL(1e-2, 1.0, "dental film speed", "ISO 3665:1996 and ISO 5799:1991, through a dental reference page"),

    /**
     * Industrial films: K<sub>0</sub> 1 Gy, density 2.0 above base plus fog.
     *
     * @source the density: a paper of the Fifth Canadian Conference on Nondestructive Testing (verified), after ISO 7004
     *     and ISO 11699-1; the constant from memory
     */
    INDUSTRIAL(1, 2.0, "industrial radiographic film speed", "ISO 7004:2002, density verified, constant from memory");

    private final double constant;
    private final double density;
    private final String title;
    private final String source;

    RadiographicSpeed(double constant, double density, String title, String source) {
        this.constant = constant;
        this.density = density;
        this.title = title;
        this.source = source;
    }

    /**
     * Returns the speed of a curve.
     *
     * @param curve a curve on {@link AirKerma#AXIS}
     * @return the speed with its point
     * @throws IllegalArgumentException if the exposures are not air kerma
     * @throws NotDeterminableException if the curve does not reach the density, or reaches it several times
     */
    public RadiationSpeed determine(CharacteristicCurve curve) {
        CurvePoint point = AirKerma.required(curve).pointAbove(DensityDifference.of(density));
        Criterion criterion = new Criterion(title + ": " + density + " above base plus fog", source);
        return new RadiationSpeed(
                constant / point.logExposure().exposure(), Evidence.of(criterion, List.of(point), List.of()));
    }
}
