// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.paper;

import java.util.List;
import java.util.Objects;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;
import org.tonewedge.standards.internal.Rising;

/**
 * The speed and the range of a black-and-white paper by ISO 6846.
 *
 * <p>Point T lies where the reflection density is 0.04 above base plus fog, point S where it is 0.90 of the greatest
 * density. The range is R = 100 (log<sub>10</sub> H<sub>S</sub> − log<sub>10</sub> H<sub>T</sub>), rounded to the nearest
 * ten. The speed is P = 1000 / H<sub>m</sub>, with H<sub>m</sub> in lux seconds where the density is 0.60 above base plus
 * fog.
 *
 * <pre>{@code
 * Iso6846Range range = Iso6846.withDefaults().range(curve);
 * range.toString(); // ISO R110, grade 2 (medium)
 * }</pre>
 *
 * <p>Interpretation:
 *
 * <ul>
 * <li>Sources differ on whether the 0.90 applies to the greatest density or to its excess over base plus fog. The
 *     default is the excess; {@link #with(ShoulderRule)} selects the other. The two differ by a tenth of base
 *     plus fog, about 0.005.
 * <li>The greatest density is reached when more exposure gives no more density. Readings that end before the curve is
 *     level give too short a range. A {@link Condition} therefore requires a gradient of at most 0.10 (this library's
 *     choice) at the highest exposure or, so that the error of one reading does not decide, on average over the stop
 *     before it.
 * </ul>
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source 0.04 above base plus fog and 0.90 of the greatest density, and points S and T: Focal Encyclopedia of
 * Photography, page 679 (verified, secondary); R as 100 times the range, its rounding, the net reading of 0.90, 0.60
 * and the constant 1000 are from memory. ISO 6846:1992 itself was read only in its introduction.
 */
public final class Iso6846 {

    /** The density of point T above base plus fog. */
    public static final DensityDifference TOE_DENSITY = DensityDifference.of(0.04);

    /** The fraction of the greatest density that sets point S. */
    public static final double SHOULDER_FRACTION = 0.90;

    /** The density of the speed point above base plus fog. */
    public static final DensityDifference SPEED_POINT_DENSITY = DensityDifference.of(0.60);

    /** The constant of the speed, in lux seconds: P = 1000 / H<sub>m</sub>. */
    public static final double SPEED_CONSTANT = 1000;

    private static final ExposureInterval STOP = ExposureInterval.ofStops(1);

    private static final Criterion RANGE = new Criterion(
            "ISO 6846 range: from 0.04 above base plus fog to 0.90 of the greatest density",
            "ISO 6846:1992, through the Focal Encyclopedia of Photography, page 679, and from memory");
    private static final Criterion SPEED =
            new Criterion("ISO 6846 paper speed: 0.60 above base plus fog", "ISO 6846:1992, from memory");
    private static final Iso6846 DEFAULTS = new Iso6846(ShoulderRule.OF_NET_DENSITY, 0.10);

    private final ShoulderRule shoulder;
    private final double greatestEndGradient;

    /** The density to which the fraction 0.90 of point S applies. */
    public enum ShoulderRule {
        /** Of the greatest density above base plus fog (from memory). */
        OF_NET_DENSITY {
            @Override
            Density density(Density basePlusFog, Density greatest) {
                return basePlusFog.plus(DensityDifference.of(
                        SHOULDER_FRACTION * greatest.minus(basePlusFog).value()));
            }
        },
        /** Of the greatest gross density (the Focal Encyclopedia's wording). */
        OF_GROSS_DENSITY {
            @Override
            Density density(Density basePlusFog, Density greatest) {
                return Density.of(SHOULDER_FRACTION * greatest.value());
            }
        };

        abstract Density density(Density basePlusFog, Density greatest);
    }

    private Iso6846(ShoulderRule shoulder, double greatestEndGradient) {
        this.shoulder = shoulder;
        this.greatestEndGradient = greatestEndGradient;
    }

    /**
     * Returns the method with its defaults: the shoulder by net density, an end gradient of at most 0.10.
     *
     * @return the method
     */
    public static Iso6846 withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another rule for point S.
     *
     * @param rule the density to which the fraction applies
     * @return the copy
     */
    public Iso6846 with(ShoulderRule rule) {
        return new Iso6846(Objects.requireNonNull(rule, "rule"), greatestEndGradient);
    }

    /**
     * Returns a copy with another condition at the dense end.
     *
     * @param gradient the greatest gradient at the highest exposure, or over the stop before it, that counts as level, 0
     *     or more
     * @return the copy
     * @throws IllegalArgumentException if the gradient is out of range
     */
    public Iso6846 withGreatestEndGradient(double gradient) {
        return new Iso6846(shoulder, Checks.within("greatest end gradient", gradient, 0, 10, ""));
    }

    /**
     * Returns the range of a paper, on an absolute or a relative axis.
     *
     * @param curve its curve of reflection densities
     * @return the range with points T and S
     * @throws NotDeterminableException if the curve falls, was not measured at a point, or passes it several times
     */
    public Iso6846Range range(CharacteristicCurve curve) {
        CurvePoint toe = Rising.pointAbove(curve, TOE_DENSITY, "an ISO paper range");
        Density shoulderDensity = shoulder.density(curve.basePlusFog(), curve.maximumDensity());
        CurvePoint end = new CurvePoint(curve.logExposureAt(shoulderDensity), shoulderDensity);
        return new Iso6846Range(Evidence.of(RANGE, List.of(toe, end), List.of(levelEnd(curve))));
    }

    private Condition levelEnd(CharacteristicCurve curve) {
        String requirement = "greatest density reached: gradient at most " + Figures.plain(greatestEndGradient)
                + " at the highest exposure, or over the stop before it";
        LogExposure end = curve.highestExposure();
        LogExposure stopBefore = end.minus(STOP);
        LogExposure from = stopBefore.isBelow(curve.lowestExposure()) ? curve.lowestExposure() : stopBefore;
        double atEnd = curve.gradientAt(end).value();
        double average = curve.averageGradient(from, end).value();
        double gradient = Math.abs(average) < Math.abs(atEnd) ? average : atEnd;
        String found = "found " + Figures.plain(gradient) + " at " + end;
        return Math.abs(gradient) <= greatestEndGradient
                ? Condition.met(requirement, found)
                : Condition.notMet(requirement, found, "expose more steps until density no longer rises");
    }

    /**
     * Returns the speed of a paper.
     *
     * @param curve its curve of reflection densities on the absolute exposure axis
     * @return the speed with its point
     * @throws IllegalArgumentException if the exposures are relative
     * @throws NotDeterminableException if the curve falls, was not measured at the point, or passes it several times
     */
    public Iso6846Speed speed(CharacteristicCurve curve) {
        CurvePoint point = Rising.pointAbove(
                Absolute.luxSeconds(curve, "an ISO paper speed"), SPEED_POINT_DENSITY, "an ISO paper speed");
        return new Iso6846Speed(Evidence.of(SPEED, List.of(point), List.of()));
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Iso6846 that
                && Objects.equals(shoulder, that.shoulder)
                && Double.compare(greatestEndGradient, that.greatestEndGradient) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(shoulder, greatestEndGradient);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its options
     */
    @Override
    public String toString() {
        return "ISO 6846, shoulder " + shoulder + ", end gradient at most " + Figures.plain(greatestEndGradient);
    }
}
