// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.contrast;

import java.util.Objects;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.internal.Crossings;
import org.tonewedge.standards.internal.Rising;

/**
 * The average gradient Ḡ: the slope of the chord from the point 0.10 above base plus fog to the point 1.50 log units to
 * its right.
 *
 * <p>The upper point can also be set by {@linkplain #withEnd(DensityDifference) a density}, as in radiography, or by
 * {@linkplain #withArc(double) an arc} about the lower point, with equal units on both axes.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source the span of 1.50 and the arc of radius 1.5: common practice, no source; of the two, the span is the default. The
 *     chord between two densities: a handbook of industrial radiography, page 186 (verified).
 */
public final class AverageGradient {

    private static final AverageGradient DEFAULTS = new AverageGradient(
            DensityDifference.of(MethodFigures.SPEED_POINT), End.SPAN, MethodFigures.AVERAGE_GRADIENT_SPAN);

    private final DensityDifference start;
    private final End end;
    private final double amount;

    /** The rule for the upper point. */
    private enum End {
        SPAN(" over % log units", "common practice, no source"),
        ARC(" to an arc of radius % about it", "common practice, no source"),
        DENSITY(" to % above base plus fog", "chord between two densities: a handbook of industrial radiography");

        private final String words;
        private final String source;

        End(String words, String source) {
            this.words = words;
            this.source = source;
        }
    }

    private AverageGradient(DensityDifference start, End end, double amount) {
        this.start = start;
        this.end = end;
        this.amount = amount;
    }

    /**
     * Returns the method with its defaults: from 0.10 above base plus fog, over 1.50 log units.
     *
     * @return the method
     */
    public static AverageGradient withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy that begins at another density.
     *
     * @param aboveBasePlusFog the density of the lower point above base plus fog
     * @return the copy
     */
    public AverageGradient withStart(DensityDifference aboveBasePlusFog) {
        Objects.requireNonNull(aboveBasePlusFog, "aboveBasePlusFog");
        return new AverageGradient(aboveBasePlusFog, end, amount);
    }

    /**
     * Returns a copy over another span.
     *
     * @param width the distance between the points, above 0
     * @return the copy
     * @throws IllegalArgumentException if the span is not above 0
     */
    public AverageGradient withSpan(ExposureInterval width) {
        return new AverageGradient(
                start, End.SPAN, Checks.positive("span of an average gradient in log units", width.logUnits()));
    }

    /**
     * Returns a copy whose upper point lies where an arc about the lower point intersects the curve.
     *
     * @param radius the radius, in log units and densities alike, above 0
     * @return the copy
     * @throws IllegalArgumentException if the radius is not a finite number above 0
     */
    public AverageGradient withArc(double radius) {
        return new AverageGradient(start, End.ARC, Checks.positive("radius of the arc", radius));
    }

    /**
     * Returns a copy whose upper point is set by its density.
     *
     * @param aboveBasePlusFog the density of the upper point above base plus fog
     * @return the copy; {@link #determine(CharacteristicCurve)} refuses it if this is the density of the lower point
     */
    public AverageGradient withEnd(DensityDifference aboveBasePlusFog) {
        return new AverageGradient(start, End.DENSITY, aboveBasePlusFog.value());
    }

    /**
     * Returns the average gradient of a curve.
     *
     * @param curve the curve; between two densities it may fall
     * @return the gradient with its two points, in order of exposure; negative for a falling curve
     * @throws NotDeterminableException if the curve falls and no second density is set, does not reach the lower point,
     *     or was not measured at the upper point
     * @throws IllegalArgumentException if both points are the same
     */
    public ContrastDetermination determine(CharacteristicCurve curve) {
        CurvePoint lower =
                end == End.DENSITY ? curve.pointAbove(start) : Rising.pointAbove(curve, start, "an average gradient");
        CurvePoint upper = upper(curve, lower);
        if (lower.logExposure().equals(upper.logExposure())) {
            throw new IllegalArgumentException("an average gradient needs two points, both were " + lower);
        }
        return new ContrastDetermination(new Criterion(toString(), end.source), lower, upper);
    }

    private CurvePoint upper(CharacteristicCurve curve, CurvePoint lower) {
        return switch (end) {
            case SPAN -> curve.pointAt(lower.logExposure().plus(ExposureInterval.ofLogUnits(amount)));
            case DENSITY -> curve.pointAbove(DensityDifference.of(amount));
            case ARC -> onArc(curve, lower);
        };
    }

    private CurvePoint onArc(CharacteristicCurve curve, CurvePoint lower) {
        double from = lower.logExposure().value();
        double to = Math.min(from + amount, curve.highestExposure().value());
        return Crossings.falling(
                        x -> amount
                                - Math.hypot(
                                        x - from,
                                        curve.density(x) - lower.density().value()),
                        from,
                        to)
                .stream()
                .findFirst()
                .map(x -> curve.pointAt(new LogExposure(x, curve.axis())))
                .orElseThrow(() -> new OutsideMeasuredRangeException(curve.name() + ": an arc of radius "
                        + Figures.plain(amount) + " about " + lower + " does not meet the curve, which ends at "
                        + curve.highestExposure() + ": read more steps"));
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof AverageGradient that
                && Objects.equals(start, that.start)
                && Objects.equals(end, that.end)
                && Double.compare(amount, that.amount) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(start, end, amount);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return for example {@code average gradient from 0.10 above base plus fog over 1.50 log units}
     */
    @Override
    public String toString() {
        return "average gradient from " + Figures.plain(start.value()) + " above base plus fog"
                + end.words.replace("%", Figures.plain(amount));
    }
}
