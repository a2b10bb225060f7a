// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;
import org.tonewedge.standards.internal.Rising;

/**
 * The speed of a black-and-white negative film by ISO 6.
 *
 * <p>The speed point m lies where the density is 0.10 above base plus fog. A second point n lies 1.30 log units to the
 * right of it. The strip is developed so that n is 0.80 denser than m, to within 0.05. Then, with H<sub>m</sub> in lux
 * seconds,
 *
 * <p>S = 0.8 / H<sub>m</sub>, &nbsp; S° = 1 + 10 log<sub>10</sub>(0.8 / H<sub>m</sub>).
 *
 * <p>A speed read from a strip of another contrast is not an ISO speed; {@link Iso6Speed} says so, and says what to
 * change. {@linkplain #determine(List) From strips with several development times} the speed at the contrast of the
 * standard is interpolated. {@link SpeedMean} takes the mean over samples.
 *
 * <pre>{@code
 * Iso6Speed speed = Iso6.withDefaults().determine(curve);
 * speed.rounded();       // 125/22°
 * speed.conditionsMet(); // true
 * speed.toString();      // ISO 125/22° (not stated: illuminant, exposure time, hold, storage)
 * }</pre>
 *
 * <p>Interpretation:
 *
 * <ul>
 * <li>The standard rounds by a table of H<sub>m</sub> that was not read. Here the logarithmic speed is rounded to the
 *     nearest degree (half a degree to the slower speed), and its nominal arithmetic speed is looked up; see
 *     {@link IsoSpeed}.
 * <li>Development corrects a contrast that differs from 0.80. The sources read leave open how to interpolate; here it
 *     is linear in ΔD between the two nearest times. A strip within the tolerance gives an ISO speed by itself.
 * <li>The tolerance is compared with 10<sup>−9</sup> allowed for rounding, so that 0.85 itself is within it.
 * <li>A curve does not show the illuminant, exposure time, hold (the time from exposure to development) and storage.
 *     They are recorded as {@link TestConditions}, or listed in the result as not stated.
 * </ul>
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 *
 * @source ISO 6:1993 as summarised in an encyclopedia's article on film speed (speed point, contrast condition, lux
 * seconds; verified); the constant 0.8, the tolerance of 0.05 and the logarithmic form from memory. The clauses themselves
 * were not read.
 */
public final class Iso6 {

    /** The density of the speed point above base plus fog. */
    public static final DensityDifference SPEED_POINT_DENSITY = DensityDifference.of(MethodFigures.SPEED_POINT);

    /** The distance from the speed point to the contrast point. */
    public static final ExposureInterval CONTRAST_SPAN = ExposureInterval.ofLogUnits(MethodFigures.CONTRAST_SPAN);

    /** The density difference that the contrast condition requires. */
    public static final DensityDifference CONTRAST = DensityDifference.of(MethodFigures.CONTRAST);

    /** The constant of the speed, in lux seconds: S = 0.8 / H<sub>m</sub>. */
    public static final double SPEED_CONSTANT = MethodFigures.SPEED_CONSTANT;

    /** The rule with its source. */
    static final Criterion CRITERION = new Criterion(
            "ISO 6 black-and-white negative speed: 0.10 above base plus fog, 0.80 more density 1.30 log units on",
            "ISO 6:1993, through secondary sources");

    private static final Iso6 DEFAULTS = new Iso6(MethodFigures.CONTRAST_TOLERANCE, TestConditions.notStated());

    private final double contrastTolerance;
    private final TestConditions conditions;

    private Iso6(double contrastTolerance, TestConditions conditions) {
        this.contrastTolerance = contrastTolerance;
        this.conditions = conditions;
    }

    /**
     * Returns the method with its defaults: a contrast tolerance of 0.05.
     *
     * @return the method
     */
    public static Iso6 withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with a narrower tolerance for the contrast condition. A tolerance wider than that of the standard
     * is refused, because it would call a speed an ISO speed that is not one.
     *
     * @param tolerance how far ΔD may lie from 0.80, from 0 to 0.05
     * @return the copy
     * @throws IllegalArgumentException if the tolerance is out of range
     */
    public Iso6 withContrastTolerance(double tolerance) {
        return new Iso6(
                Checks.within(
                        "contrast tolerance",
                        tolerance,
                        0,
                        MethodFigures.CONTRAST_TOLERANCE,
                        "beyond the tolerance of the standard a speed is not an ISO speed; read its contrast instead"),
                conditions);
    }

    /**
     * Returns a copy that records the test conditions that a curve cannot show; by default none is stated.
     *
     * @param ofTest illuminant, exposure time, hold and storage, as far as they are known
     * @return the copy
     */
    public Iso6 with(TestConditions ofTest) {
        return new Iso6(contrastTolerance, Objects.requireNonNull(ofTest, "ofTest"));
    }

    /**
     * Returns the speed of a curve.
     *
     * @param curve a curve on the absolute exposure axis
     * @return the speed with its evidence
     * @throws IllegalArgumentException if the curve's exposures are relative
     * @throws NotDeterminableException if the curve falls, does not reach the speed point, or reaches it several times
     */
    public Iso6Speed determine(CharacteristicCurve curve) {
        Iso6Contrast contrast = contrast(Absolute.luxSeconds(curve, "an ISO speed"));
        return new Iso6Speed(
                contrast,
                SPEED_CONSTANT / contrast.speedPoint().logExposure().exposure(),
                contrast.evidence(),
                conditions);
    }

    /**
     * Returns the speed of a development series at the contrast of the standard. The strips are alike except for their
     * time of development. The log exposure of the speed point, and the time, are interpolated linearly against ΔD
     * between the two neighbouring times on either side of 0.80.
     *
     * @param series two or more curves on the absolute exposure axis, in any order
     * @return the speed with its time of development; its condition is always met
     * @throws IllegalArgumentException if there are fewer than two curves, two have the same time or a curve's exposures
     *     are relative
     * @throws NotDeterminableException if a curve falls, a contrast was not measured, contrast does not rise with time,
     *     or no two neighbouring times lie on either side of 0.80; the message says how to develop
     * @source interpolation between developments on either side: ISO 6:1993, informative annex, from memory; linear in
     *     ΔD is this library's choice
     */
    public Iso6SeriesSpeed determine(List<DevelopedCurve> series) {
        if (series.size() < 2) {
            throw new IllegalArgumentException("a development series needs at least 2 strips, had " + series.size()
                    + ": develop another for a longer or shorter time");
        }
        List<DevelopedCurve> strips = series.stream()
                .sorted(Comparator.comparing(DevelopedCurve::time))
                .toList();
        List<Iso6Contrast> contrasts = strips.stream()
                .map(strip -> contrast(Absolute.luxSeconds(strip.curve(), "an ISO speed")))
                .toList();
        requireRisingContrast(strips, contrasts);
        int upper = 1;
        while (upper < strips.size() - 1 && contrasts.get(upper).figure() < CONTRAST.value()) {
            upper++;
        }
        Iso6Contrast less = contrasts.get(upper - 1);
        Iso6Contrast more = contrasts.get(upper);
        double share = (CONTRAST.value() - less.figure()) / (more.figure() - less.figure());
        if (share < 0 || share > 1) {
            throw notBracketed(strips, contrasts);
        }
        LogExposure speedPoint = less.speedPoint()
                .logExposure()
                .plus(more.speedPoint()
                        .logExposure()
                        .minus(less.speedPoint().logExposure())
                        .times(share));
        DevelopedCurve shorter = strips.get(upper - 1);
        DevelopedCurve longer = strips.get(upper);
        Duration time = shorter.time()
                .plusMillis(
                        Math.round(share * longer.time().minus(shorter.time()).toMillis()));
        Condition condition = Condition.met(
                Iso6Contrast.requirement(contrastTolerance),
                "interpolated between " + described(shorter, less) + " and " + described(longer, more));
        List<CurvePoint> points = new ArrayList<>(less.points());
        points.addAll(more.points());
        return new Iso6SeriesSpeed(
                SPEED_CONSTANT / speedPoint.exposure(),
                time,
                contrasts,
                Evidence.of(CRITERION, points, List.of(condition)),
                conditions);
    }

    private static void requireRisingContrast(List<DevelopedCurve> strips, List<Iso6Contrast> contrasts) {
        for (int i = 1; i < strips.size(); i++) {
            if (strips.get(i).time().equals(strips.get(i - 1).time())) {
                throw new IllegalArgumentException(strips.get(i - 1).curve().name() + " and "
                        + strips.get(i).curve().name() + " were both developed for "
                        + Figures.plain(strips.get(i).minutes())
                        + " min; give one curve for each time, drawn through the readings of both");
            }
            if (!(contrasts.get(i).figure() > contrasts.get(i - 1).figure())) {
                throw new NotDeterminableException(
                        Reason.CONTRADICTORY_READINGS,
                        "contrast does not rise with development: "
                                + described(strips.get(i - 1), contrasts.get(i - 1)) + ", "
                                + described(strips.get(i), contrasts.get(i))
                                + "; look for swapped strips or exhausted developer");
            }
        }
    }

    private static NotDeterminableException notBracketed(List<DevelopedCurve> strips, List<Iso6Contrast> contrasts) {
        int last = strips.size() - 1;
        boolean low = contrasts.get(last).figure() < CONTRAST.value();
        int nearest = low ? last : 0;
        return new OutsideMeasuredRangeException("no two times of the series lie on either side of ΔD "
                + Figures.plain(CONTRAST.value()) + ": "
                + (low ? "the longest, " : "the shortest, ") + described(strips.get(nearest), contrasts.get(nearest))
                + (low ? ", is still below; develop one longer" : ", is already above; develop one less"));
    }

    private static String described(DevelopedCurve strip, Iso6Contrast contrast) {
        return strip.curve().name() + " at " + Figures.plain(strip.minutes()) + " min with ΔD "
                + Figures.plain(contrast.figure());
    }

    /**
     * Returns the speed point of a curve and its contrast from there, on an absolute or a relative axis.
     *
     * @param curve the curve
     * @return the points with the contrast condition
     * @throws NotDeterminableException if the curve falls, does not reach the speed point, or reaches it several times
     */
    public Iso6Contrast contrast(CharacteristicCurve curve) {
        CurvePoint speedPoint = Rising.pointAbove(curve, SPEED_POINT_DENSITY, "an ISO 6 speed point");
        Optional<CurvePoint> contrastPoint;
        try {
            contrastPoint = Optional.of(curve.pointAt(speedPoint.logExposure().plus(CONTRAST_SPAN)));
        } catch (NotDeterminableException e) {
            contrastPoint = Optional.empty();
        }
        return Iso6Contrast.of(curve, speedPoint, contrastPoint, contrastTolerance);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Iso6 that
                && Double.compare(contrastTolerance, that.contrastTolerance) == 0
                && Objects.equals(conditions, that.conditions);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(contrastTolerance, conditions);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name and the stated conditions
     */
    @Override
    public String toString() {
        return "ISO 6, contrast within " + Figures.plain(contrastTolerance) + ", " + conditions;
    }
}
