// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.curve.StraightLine;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;

/**
 * The inertia of Hurter and Driffield: the exposure at which the straight line of the curve, continued downwards, meets
 * base plus fog. The plate speeds are a {@link PlateSpeed constant} divided by it.
 *
 * <p>If a model with a straight line was fitted, the line is that of the model: on a fitted equation of 1890 the inertia
 * is that of the equation, and its plate speed has no bias. On any other curve the line is the steepest chord over three
 * tenths of the stretch in which the gradient stays within 1 % of its greatest value. That stretch must be at least a
 * quarter longer than the distance down to base plus fog, over which the line is continued; otherwise the curve shows no
 * straight line, and inertia is refused. A curve that passes has a bias of less than 1 % of the speed against the
 * straight line of toe–shoulder curves and of the equation of 1890 ({@code InertiaBiasTest} tries 146 of them). That
 * equation without its model passes with an opacity of 10<sup>7</sup>, and is refused with 10<sup>6</sup> and less; so is
 * every sigmoid. A curve drawn through readings that scatter by 0.01 is refused too, because the scatter breaks up its
 * gradient: fit the readings instead.
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 *
 * @source inertia as the intercept of the straight line: H. E. Ives, Airplane Photography (1920), and an encyclopedia's
 *     article on film speed citing Allbright, Journal of Photographic Science 39 (1991) 95 (verified)
 */
public final class Inertia {

    /** The fraction of its greatest at which the gradient of a straight line stays. */
    private static final double STRAIGHT = 0.99;

    /** The least length of the straight line of a model, in lengths of its continuation. */
    private static final double LEAST_LENGTH = 1;

    /** The same of a curve that knows no line of its own: the least for which the speeds tried have a bias below 1 %. */
    private static final double LEAST_LENGTH_DRAWN = 1.25;

    private static final AnatomyCriterion MODELS = AnatomyCriterion.withDefaults();

    private static final Inertia DEFAULTS = new Inertia(MODELS.withFractions(STRAIGHT, MODELS.endFraction()));

    private final AnatomyCriterion straightLine;

    private Inertia(AnatomyCriterion straightLine) {
        this.straightLine = straightLine;
    }

    /**
     * Returns the method with the default criterion of the straight line.
     *
     * @return the method
     */
    public static Inertia withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another criterion for the straight line of curves whose model has none.
     *
     * @param criterion the criterion; the bias stated above is that of the default fraction, 0.99
     * @return the copy
     */
    public Inertia with(AnatomyCriterion criterion) {
        return new Inertia(Objects.requireNonNull(criterion, "criterion"));
    }

    /**
     * Returns the inertia of a curve, on an absolute or a relative axis.
     *
     * @param curve the curve of a negative material, which rises
     * @return the exposure at which its straight line meets base plus fog
     * @throws NotDeterminableException if the curve shows no rising straight line, or one too short compared with its
     *     distance from base plus fog
     */
    public LogExposure inertia(CharacteristicCurve curve) {
        return intercept(curve, parts(curve));
    }

    /**
     * Returns the Hurter and Driffield speed of a curve, 34 / i.
     *
     * @param curve a curve on the absolute exposure axis
     * @return the speed; its points are the ends of the straight line
     * @throws IllegalArgumentException if the curve's exposures are relative
     * @throws NotDeterminableException if the curve shows no rising straight line, or one too short compared with its
     *     distance from base plus fog
     */
    public SpeedReading determine(CharacteristicCurve curve) {
        CurveAnatomy parts = parts(Absolute.luxSeconds(curve, "a speed by inertia"));
        CurveRegion line = parts.straightLine();
        Criterion criterion = new Criterion(
                "Hurter and Driffield: 34 / inertia, where the straight line meets base plus fog",
                "Hurter and Driffield 1890, through Martin 1919 and Ives 1920");
        return new SpeedReading(
                PlateSpeed.HURTER_DRIFFIELD.speed(intercept(curve, parts)),
                Evidence.of(criterion, List.of(line.thinEnd(), line.denseEnd()), List.of()));
    }

    private CurveAnatomy parts(CharacteristicCurve curve) {
        Optional<StraightLine> model = curve.form().straightLine();
        CurveAnatomy parts = CurveAnatomy.of(curve, model.isPresent() ? MODELS : straightLine);
        double greatest = parts.greatestGradient().value();
        if (!(greatest > 0)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": inertia needs a straight line that rises, but this one has a gradient of "
                            + Figures.plain(parts.gamma().value()) + "; this is not a negative material");
        }
        if (model.isPresent()
                && greatest < MODELS.straightLineFraction() * model.get().gradient()) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": the curve is nowhere steeper than "
                            + Figures.plain(greatest) + ", far from the "
                            + Figures.plain(model.get().gradient())
                            + " of its model's straight line, so it shows no straight line; read steps beyond both ends, or use"
                            + " another speed");
        }
        return parts;
    }

    private static LogExposure intercept(CharacteristicCurve curve, CurveAnatomy parts) {
        Optional<StraightLine> model = curve.form().straightLine();
        LogExposure inertia = model.map(line ->
                        new LogExposure(line.logExposureAt(curve.basePlusFog().value()), curve.axis()))
                .orElseGet(() -> parts.straightLineAt(curve.basePlusFog()));
        double length = parts.straightLine().length().logUnits();
        double continued =
                parts.straightLine().thinEnd().logExposure().minus(inertia).logUnits();
        double least = model.isPresent() ? LEAST_LENGTH : LEAST_LENGTH_DRAWN;
        if (length < least * continued) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": the curve shows no straight line: the gradient stays at "
                            + Figures.plain(parts.criterion().straightLineFraction()) + " of its greatest over "
                            + Figures.plain(length) + " log units, and the line would have to be continued by "
                            + Figures.plain(continued)
                            + " to base plus fog, for which it must be at least " + Figures.plain(least)
                            + " times as long; fit a model with a straight line, such as toe, straight line and shoulder");
        }
        return inertia;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Inertia that && Objects.equals(straightLine, that.straightLine);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(straightLine);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the criterion of the straight line
     */
    @Override
    public String toString() {
        return "inertia from the straight line: " + straightLine;
    }
}
