// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.internal;

import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveDirection;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;

/**
 * Guards of methods for negatives and papers, whose density rises with exposure. Judged by the ends of the curve, so that
 * noise in a toe does not count.
 */
public final class Rising {

    private Rising() {}

    /**
     * Refuses a curve that falls.
     *
     * @param curve the curve
     * @param figure what is asked of it, such as {@code an ISO speed}
     * @return the curve
     * @throws NotDeterminableException if the curve is less dense at its upper end than at its lower
     */
    public static CharacteristicCurve required(CharacteristicCurve curve, String figure) {
        if (curve.direction() == CurveDirection.FALLING) {
            throw new NotDeterminableException(curve.name() + ": density falls with exposure, from "
                    + curve.densityAt(curve.lowestExposure()) + " to " + curve.densityAt(curve.highestExposure()) + "; "
                    + figure + " needs the rising curve of a negative or a paper: look for reversed readings, or"
                    + " use ISO 2240 for a reversal film");
        }
        return curve;
    }

    /**
     * Returns the point at which a rising curve reaches a density counted from base plus fog. A curve that stays nearer
     * than that to base plus fog, such as noise about it, is refused for not reaching the density.
     *
     * @param curve the curve
     * @param aboveBasePlusFog the density above base plus fog
     * @param figure what is asked of the curve
     * @return the point
     * @throws NotDeterminableException if the curve falls, does not reach the density, or reaches it several times
     */
    public static CurvePoint pointAbove(CharacteristicCurve curve, DensityDifference aboveBasePlusFog, String figure) {
        double distance = aboveBasePlusFog.value();
        boolean level = distance(curve, curve.maximumDensity()) < distance
                && distance(curve, curve.minimumDensity()) < distance;
        return (level ? curve : required(curve, figure)).pointAbove(aboveBasePlusFog);
    }

    private static double distance(CharacteristicCurve curve, Density density) {
        return Math.abs(density.minus(curve.basePlusFog()).value());
    }
}
