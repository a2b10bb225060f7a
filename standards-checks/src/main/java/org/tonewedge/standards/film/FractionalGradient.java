// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.List;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;
import org.tonewedge.standards.internal.Crossings;
import org.tonewedge.standards.internal.Rising;

/**
 * The fractional-gradient speed. The speed point is the least exposure at which the gradient of the curve is 0.3 of the
 * average gradient over the 1.50 log units to its right:
 *
 * <p>D′(x) = 0.3 [D(x + 1.50) − D(x)] / 1.50, &nbsp; S = 1 / H.
 *
 * <p>Its readings must be better than for a density: a curve drawn through readings that scatter by 0.003 rises and
 * falls in its toe and is often refused. Fit a curve first.
 *
 * <p>It judges a film by how well it separates the darkest tones that still print well, not by a density. The American
 * exposure index of the time was a quarter of this speed (from memory).
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source 0.3 of the average gradient, as in the American and British standards of the time: C. Tuttle, Journal of the
 * Optical Society of America 29 (1939) 267, and Nelson and Simonds, ibid. 46 (1956) 324 (abstracts; verified). The span
 * of 1.50 to the right and S = 1 / H (ASA Z38.2.1-1943) from memory.
 */
public final class FractionalGradient {

    private static final FractionalGradient DEFAULTS = new FractionalGradient(0.3, ExposureInterval.ofLogUnits(1.50));

    private final double fraction;
    private final ExposureInterval span;

    private FractionalGradient(double fraction, ExposureInterval span) {
        this.fraction = fraction;
        this.span = span;
    }

    /**
     * Returns the method with its defaults: 0.3 of the average gradient over 1.50 log units.
     *
     * @return the method
     */
    public static FractionalGradient withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another fraction.
     *
     * @param ofAverageGradient the fraction, above 0 and below 1
     * @return the copy
     * @throws IllegalArgumentException if the fraction is out of range
     */
    public FractionalGradient withFraction(double ofAverageGradient) {
        return new FractionalGradient(
                Checks.within(
                        "fraction of the average gradient",
                        ofAverageGradient,
                        Double.MIN_VALUE,
                        Math.nextDown(1.0),
                        ""),
                span);
    }

    /**
     * Returns a copy with another span.
     *
     * @param width the interval of exposure over which the gradient is averaged, above 0
     * @return the copy
     * @throws IllegalArgumentException if the span is not above 0
     */
    public FractionalGradient withSpan(ExposureInterval width) {
        Checks.positive("span of the average gradient in log units", width.logUnits());
        return new FractionalGradient(fraction, width);
    }

    /**
     * Returns the speed of a curve.
     *
     * @param curve a curve on the absolute exposure axis
     * @return the speed; its points are the speed point and the end of the span
     * @throws IllegalArgumentException if the curve's exposures are relative
     * @throws NotDeterminableException as {@link #speedPoint(CharacteristicCurve)} does
     */
    public SpeedReading determine(CharacteristicCurve curve) {
        CurvePoint point = speedPoint(Absolute.luxSeconds(curve, "a fractional-gradient speed"));
        Criterion criterion = new Criterion(
                "fractional gradient: " + Figures.plain(fraction) + " of the average gradient over "
                        + Figures.plain(span.logUnits()) + " log units",
                "Tuttle 1939, Nelson and Simonds 1956 (abstracts); S = 1/H after ASA Z38.2.1-1943, from memory");
        return new SpeedReading(
                1 / point.logExposure().exposure(),
                Evidence.of(
                        criterion,
                        List.of(point, curve.pointAt(point.logExposure().plus(span))),
                        List.of()));
    }

    /**
     * Returns the speed point of a curve, on an absolute or a relative axis.
     *
     * @param curve the curve of a negative material, which rises
     * @return the point of least exposure at which the gradient reaches the fraction
     * @throws NotDeterminableException if the curve falls, is shorter than the span, does not begin in its toe, or
     *     reaches the fraction less than the span before its end; also if it reaches the fraction several times, as a
     *     curve through scattered readings does
     */
    public CurvePoint speedPoint(CharacteristicCurve curve) {
        Rising.required(curve, "a fractional-gradient speed");
        double from = curve.lowestExposure().value();
        double last = curve.highestExposure().value() - span.logUnits();
        CurveForm form = curve.form();
        DoubleUnaryOperator lacking = x ->
                fraction * (form.density(x + span.logUnits()) - form.density(x)) / span.logUnits() - form.gradient(x);
        if (!(last > from) || lacking.applyAsDouble(from) < 0) {
            throw missing(curve, "the curve must begin in its toe and continue for that span");
        }
        List<Double> found = Crossings.falling(lacking, from, last);
        if (found.isEmpty()) {
            throw missing(curve, "the gradient never rises to it");
        }
        if (found.size() > 1) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": the gradient rises " + found.size() + " times to "
                            + Figures.plain(fraction) + " of the average, first at "
                            + new LogExposure(found.get(0), curve.axis()) + ", last at "
                            + new LogExposure(found.get(found.size() - 1), curve.axis())
                            + "; the readings scatter more than the toe rises: fit a curve to them");
        }
        return curve.pointAt(new LogExposure(found.get(0), curve.axis()));
    }

    private NotDeterminableException missing(CharacteristicCurve curve, String reason) {
        return new OutsideMeasuredRangeException(curve.name() + ": no gradient of " + Figures.plain(fraction)
                + " of the average over the next " + Figures.plain(span.logUnits()) + " log units; " + reason
                + "; it runs from " + curve.lowestExposure() + " to " + curve.highestExposure()
                + ": read more steps at both ends");
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof FractionalGradient that
                && Double.compare(fraction, that.fraction) == 0
                && Objects.equals(span, that.span);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(fraction, span);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the fraction and the span
     */
    @Override
    public String toString() {
        return "fractional gradient " + Figures.plain(fraction) + " of the average over " + span;
    }
}
