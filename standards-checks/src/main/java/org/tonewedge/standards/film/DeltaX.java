// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.List;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;

/**
 * The ΔX relation of Nelson and Simonds. It approximates the fractional-gradient speed from the point 0.10 above base
 * plus fog and the contrast ΔD over the next 1.30 log units:
 *
 * <p>ΔX = 0.83 − 0.86 ΔD + 0.24 ΔD², &nbsp; log H(0.3 Ḡ) = log H(0.10) − ΔX, &nbsp; S = 1 / H.
 *
 * <p>The relation was fitted to real films; on a curve of another shape its result may differ by 0.2 log units from the
 * true {@link FractionalGradient} point. It requires no particular contrast.
 *
 * @source the density at 20 times the exposure (1.30 log units) as its argument: Nelson and Simonds, Journal of the
 *     Optical Society of America 46 (1956) 324 (abstract; verified); the coefficients from memory
 */
public final class DeltaX {

    /** Beyond the lowest point of the parabola the relation would turn back. */
    private static final double GREATEST_CONTRAST = 0.86 / (2 * 0.24);

    private static final Criterion CRITERION = new Criterion(
            "ΔX relation: approximate fractional-gradient speed from the contrast over 1.30 log units",
            "Nelson and Simonds, Journal of the Optical Society of America 46 (1956) 324, coefficients from memory");

    private static final DeltaX DEFAULTS = new DeltaX();

    private DeltaX() {}

    /**
     * Returns the method; it has no options.
     *
     * @return the method
     */
    public static DeltaX withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns how far the fractional-gradient point lies below the point 0.10 above base plus fog.
     *
     * @param contrast ΔD over 1.30 log units, from 0 to 1.79, where the relation turns back
     * @return ΔX, for example 0.2956 at ΔD 0.80
     * @throws IllegalArgumentException if the contrast is out of range
     */
    public static ExposureInterval at(DensityDifference contrast) {
        double rise = Checks.within("contrast of the ΔX relation", contrast.value(), 0, GREATEST_CONTRAST, "");
        return ExposureInterval.ofLogUnits(0.83 - 0.86 * rise + 0.24 * rise * rise);
    }

    /**
     * Returns the approximate fractional-gradient speed of a curve.
     *
     * @param curve a curve on the absolute exposure axis
     * @return the speed; its points are those of ISO 6
     * @throws IllegalArgumentException if the curve's exposures are relative or its contrast is out of range
     * @throws NotDeterminableException if the curve falls or was not measured at a point of ISO 6
     */
    public SpeedReading determine(CharacteristicCurve curve) {
        Iso6Contrast contrast = Iso6.withDefaults().contrast(Absolute.luxSeconds(curve, "a fractional-gradient speed"));
        ExposureInterval shift = at(DensityDifference.of(contrast.figure()));
        double exposure = contrast.speedPoint().logExposure().minus(shift).exposure();
        return new SpeedReading(1 / exposure, Evidence.of(CRITERION, contrast.points(), List.of()));
    }

    /**
     * Returns the method in words.
     *
     * @return its name
     */
    @Override
    public String toString() {
        return "delta X relation";
    }
}
