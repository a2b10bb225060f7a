// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveDirection;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;
import org.tonewedge.standards.internal.Crossings;

/**
 * The speed of a colour reversal film by ISO 2240, from its visual density, which falls with exposure.
 *
 * <pre>{@code
 * Strip slide = Strip.builder("slide").
 *         basePlusFog(3.20). // the unexposed, processed film: here the densest part
 *         readings(ExposureSeries.of(ExposureAxis.LUX_SECONDS, logExposures), densities).
 *         build();
 * Iso2240Speed speed = Iso2240.withDefaults().determine(CharacteristicCurve.through(slide));
 * }</pre>
 *
 * <p>Point T lies where the density is 0.20 above the least density. Point S lies where it is 2.00 above it, unless a
 * straight line from T touches the shoulder at a lower density; S is then the point where it touches. With the
 * exposures in lux seconds,
 *
 * <p>H<sub>m</sub> = √(H<sub>S</sub> H<sub>T</sub>), &nbsp; S = 10 / H<sub>m</sub>.
 *
 * <p>Interpretation: the line touches where the chord from T is steepest. On a curve whose chord is still getting
 * steeper at 2.00, no line touches below it, and the point at 2.00 is taken. The least density is the least of the
 * measured curve.
 *
 * @source ISO 2240:2003. That the speed is taken from the middle of the curve is verified in a secondary source. The
 * densities 0.20 and 2.00, the tangent rule and the constant are from memory. The clauses themselves were not read.
 */
public final class Iso2240 {

    /** The density of point T above the least density. */
    public static final DensityDifference TOE_DENSITY = DensityDifference.of(0.20);

    /** The density of point S above the least density, unless a tangent from T touches below it. */
    public static final DensityDifference SHOULDER_DENSITY = DensityDifference.of(2.00);

    /** The constant of the speed, in lux seconds: S = 10 / H<sub>m</sub>. */
    public static final double SPEED_CONSTANT = 10;

    /** A difference of gradients that is only rounding: a curve that differs less from its chord is straight. */
    private static final double STRAIGHT = 1e-9;

    private static final Criterion CRITERION = new Criterion(
            "ISO 2240 colour reversal speed: 0.20 and 2.00 (or the tangent point) above minimum averaged",
            "ISO 2240:2003, from memory");

    private static final Iso2240 DEFAULTS = new Iso2240();

    private Iso2240() {}

    /**
     * Returns the method; it has no options.
     *
     * @return the method
     */
    public static Iso2240 withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns the speed of a film.
     *
     * @param curve its visual curve on the absolute exposure axis
     * @return the speed; its points are T and S
     * @throws IllegalArgumentException if the exposures are relative
     * @throws NotDeterminableException if the curve rises, or was not measured at a point
     */
    public Iso2240Speed determine(CharacteristicCurve curve) {
        Absolute.luxSeconds(curve, "an ISO speed");
        if (curve.direction() != CurveDirection.FALLING) {
            throw new NotDeterminableException(curve.name()
                    + ": density rises with exposure; ISO 2240 is for reversal film, use ISO 6 or ISO 5800 for a"
                    + " negative");
        }
        Density least = curve.minimumDensity();
        CurvePoint toe = point(curve, TOE_DENSITY.above(least));
        CurvePoint shoulder = shoulder(curve, toe, SHOULDER_DENSITY.above(least));
        double logExposure =
                0.5 * (toe.logExposure().value() + shoulder.logExposure().value());
        return new Iso2240Speed(
                SPEED_CONSTANT / Math.pow(10, logExposure), Evidence.of(CRITERION, List.of(toe, shoulder), List.of()));
    }

    private static CurvePoint point(CharacteristicCurve curve, Density density) {
        return new CurvePoint(curve.logExposureAt(density), density);
    }

    private static CurvePoint shoulder(CharacteristicCurve curve, CurvePoint toe, Density limit) {
        double toeExposure = toe.logExposure().value();
        boolean reached = curve.maximumDensity().compareTo(limit) >= 0;
        double from = reached
                ? curve.logExposure(limit.value())
                : curve.lowestExposure().value();
        double to = toeExposure - (toeExposure - from) / 1000; // the chord needs some length
        DoubleUnaryOperator chord = x -> (curve.density(x) - toe.density().value()) / (toeExposure - x);
        // As long as the chord grows no flatter with its length, the shoulder lies farther on.
        DoubleUnaryOperator flattening = x -> chord.applyAsDouble(x) + curve.gradient(x) - STRAIGHT;
        double touching = from;
        for (double x : Crossings.falling(flattening, from, to)) {
            if (chord.applyAsDouble(x) > chord.applyAsDouble(touching)) {
                touching = x;
            }
        }
        if (touching == from && !reached) {
            throw new OutsideMeasuredRangeException(curve.name() + ": neither density " + limit
                    + ", 2.00 above the least, nor a shoulder below it was measured; the curve runs from "
                    + curve.minimumDensity() + " to " + curve.maximumDensity() + ": read steps with less exposure");
        }
        return curve.pointAt(new LogExposure(touching, curve.axis()));
    }

    /**
     * Returns the method in words.
     *
     * @return its name
     */
    @Override
    public String toString() {
        return "ISO 2240 colour reversal speed";
    }
}
