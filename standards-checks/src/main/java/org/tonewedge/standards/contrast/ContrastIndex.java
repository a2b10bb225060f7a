// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.contrast;

import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.internal.Crossings;
import org.tonewedge.standards.internal.Rising;

/**
 * The contrast index: the slope of a line that starts on the base-plus-fog line and intersects the curve at two points,
 * 0.2 and 2.2 from its start and so 2.0 apart.
 *
 * <p>With the centre at (c, base plus fog) and the line at an angle θ, the points are A = c + 0.2 (cos θ, sin θ) and B
 * = c + 2.2 (cos θ, sin θ), both on the curve; the index is tan θ. Lengths are taken with equal units on both axes. The
 * angle comes from solving the equations, not from a search.
 *
 * <p>Immutable and thread safe.
 *
 * @source two points on a gauge that is laid on the base-plus-fog line: US Navy NAVEDTRA 14208 (verified); arcs 2.0 apart
 *     from one centre, with radii of 0.2 and 2.2: Niederpruem, Nelson and Yule, Photographic Science and Engineering 10 (1966) 35 (from memory)
 */
public final class ContrastIndex {

    private static final double SMALL_RADIUS = 0.2;
    private static final double DISTANCE = 2.0;
    private static final double LARGE_RADIUS = SMALL_RADIUS + DISTANCE;
    private static final ContrastIndex DEFAULTS = new ContrastIndex();
    private static final Criterion CRITERION = new Criterion(
            "contrast index: two points 2.0 apart on a line from base plus fog, small radius 0.2",
            "Niederpruem, Nelson and Yule, Photographic Science and Engineering 10 (1966) 35, radii from memory");

    private ContrastIndex() {}

    /**
     * Returns the method: radii 0.2 and 2.2.
     *
     * @return the method
     */
    public static ContrastIndex withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns the contrast index of a curve.
     *
     * @param curve the curve of a negative material, which rises
     * @return the index with its two points
     * @throws NotDeterminableException if the curve falls, or no such line intersects the measured curve at both points
     */
    public ContrastDetermination determine(CharacteristicCurve curve) {
        Rising.required(curve, "a contrast index");
        double base = curve.basePlusFog().value();
        double from = curve.lowestExposure().value();
        double to = curve.highestExposure().value();
        // The search may look past the dense end; what it finds must lie within what was measured.
        CurveForm form = curve.extrapolatedStraight(ExposureInterval.ZERO, ExposureInterval.ofLogUnits(DISTANCE))
                .form();
        DoubleUnaryOperator excess = lower -> {
            double sine = sine(form.density(lower) - base);
            return form.density(upper(lower, sine)) - base - LARGE_RADIUS * sine;
        };
        for (double lower : Crossings.falling(excess, from, to)) {
            double upper = upper(lower, sine(form.density(lower) - base));
            if (upper <= to) {
                return new ContrastDetermination(CRITERION, point(curve, lower), point(curve, upper));
            }
        }
        throw new OutsideMeasuredRangeException(curve.name()
                + ": no line from base plus fog meets the measured curve at two points 2.0 apart; the curve runs from "
                + curve.lowestExposure() + " to " + curve.highestExposure() + " and up to " + curve.maximumDensity()
                + ": read more steps at both ends");
    }

    /** The sine of the angle of the line whose lower point lies a given rise above base plus fog. */
    private static double sine(double rise) {
        return Math.max(0, Math.min(1, rise / SMALL_RADIUS));
    }

    private static double upper(double lower, double sine) {
        return lower + DISTANCE * Math.sqrt(1 - sine * sine);
    }

    private static CurvePoint point(CharacteristicCurve curve, double logExposure) {
        return curve.pointAt(new LogExposure(logExposure, curve.axis()));
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name
     */
    @Override
    public String toString() {
        return "contrast index";
    }
}
