// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * How contrast is read off a curve, such as {@link #RISE_OVER_130}. Only contrasts read in the same way can be
 * compared.
 *
 * <p>Immutable and thread safe if its function is.
 */
public final class ContrastMeasure {

    /** The density of the speed point above base plus fog. */
    static final DensityDifference SPEED_POINT = DensityDifference.of(MethodFigures.SPEED_POINT);

    /**
     * The rise of density over 1.30 log units from the speed point, 0.10 above base plus fog: the ΔD of ISO 6:1993
     * (verified in a secondary text).
     */
    public static final ContrastMeasure RISE_OVER_130 =
            riseOver(ExposureInterval.ofLogUnits(MethodFigures.CONTRAST_SPAN));

    /**
     * The average gradient: the slope of the chord over 1.50 log units from the point 0.10 above base plus fog (common
     * practice; a secondary text).
     */
    public static final ContrastMeasure AVERAGE_GRADIENT =
            averageGradientOver(ExposureInterval.ofLogUnits(MethodFigures.AVERAGE_GRADIENT_SPAN));

    private final String label;
    /** Of the figure: density for a rise, nothing for a gradient or a measure of one's own. */
    private final String unit;
    /** What distinguishes measures: kind and exact numbers (the label is rounded), or the function that was given. */
    private final List<Object> identity;

    private final ToDoubleFunction<CharacteristicCurve> figure;

    private ContrastMeasure(
            String label, String unit, List<Object> identity, ToDoubleFunction<CharacteristicCurve> figure) {
        this.label = label;
        this.unit = unit;
        this.identity = identity;
        this.figure = figure;
    }

    /**
     * Returns a measure that you define.
     *
     * @param label the name of the measure, for tables and messages
     * @param figure reads the measure off a curve; greater for more contrast, smooth in the curve, without state
     * @return the measure
     * @throws IllegalArgumentException if the label is blank
     */
    public static ContrastMeasure of(String label, ToDoubleFunction<CharacteristicCurve> figure) {
        Objects.requireNonNull(figure, "figure");
        String named = Checks.notBlank("label of a contrast measure", label);
        return new ContrastMeasure(named, "", List.of(named, figure), figure);
    }

    /**
     * Returns the rise of density over an interval from the speed point, 0.10 above base plus fog.
     *
     * @param interval the interval, above 0
     * @return the measure, in density
     * @throws IllegalArgumentException if the interval is not above 0
     */
    public static ContrastMeasure riseOver(ExposureInterval interval) {
        return riseOver(SPEED_POINT, interval);
    }

    /**
     * Returns the rise of density over an interval that starts at a stated density.
     *
     * @param from the density above base plus fog at which the interval begins
     * @param interval the interval, above 0
     * @return the measure, in density
     * @throws IllegalArgumentException if the interval is not above 0
     */
    public static ContrastMeasure riseOver(DensityDifference from, ExposureInterval interval) {
        Objects.requireNonNull(from, "from");
        Checks.positive("interval of a contrast measure in log units", interval.logUnits());
        return new ContrastMeasure(
                "ΔD over " + Figures.plain(interval.logUnits())
                        + (from.equals(SPEED_POINT) ? "" : " from " + Figures.plain(from.value())),
                "density",
                List.of("rise", from, interval),
                curve -> rise(curve, from, interval));
    }

    /**
     * Returns the slope of the chord over an interval from the speed point, 0.10 above base plus fog.
     *
     * @param interval the interval, above 0
     * @return the measure, a gradient
     * @throws IllegalArgumentException if the interval is not above 0
     */
    public static ContrastMeasure averageGradientOver(ExposureInterval interval) {
        double run = Checks.positive("interval of a contrast measure in log units", interval.logUnits());
        return new ContrastMeasure(
                "average gradient over " + Figures.plain(run),
                "",
                List.of("average gradient", interval),
                curve -> rise(curve, SPEED_POINT, interval) / run);
    }

    private static double rise(CharacteristicCurve curve, DensityDifference from, ExposureInterval interval) {
        CurvePoint start = curve.pointAbove(from);
        return curve.densityAt(start.logExposure().plus(interval))
                .minus(start.density())
                .value();
    }

    /**
     * Reads the contrast of a curve.
     *
     * @param curve the curve
     * @return its contrast
     * @throws org.tonewedge.core.curve.NotDeterminableException if the curve does not give it
     */
    public double contrastOf(CharacteristicCurve curve) {
        return figure.applyAsDouble(curve);
    }

    /**
     * Tells whether another measure reads contrast in the same way.
     *
     * @param other another object
     * @return true for the same figure over the same interval from the same density; a measure that you define equals
     *     only a measure with the same label and function
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ContrastMeasure that && identity.equals(that.identity);
    }

    @Override
    public int hashCode() {
        return identity.hashCode();
    }

    /**
     * Returns the name of the measure.
     *
     * @return for example {@code ΔD over 1.30}
     */
    public String label() {
        return label;
    }

    String unit() {
        return unit;
    }

    /**
     * Returns the name of the measure.
     *
     * @return the label
     */
    @Override
    public String toString() {
        return label;
    }
}
