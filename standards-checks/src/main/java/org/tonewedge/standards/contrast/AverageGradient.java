package org.tonewedge.standards.contrast;

import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.Criterion;

/**
 * The average gradient Ḡ: the slope of the chord from the point 0.10 above base plus fog to the point 1.50 log units to
 * its right.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source the definition through a discussion of average-gradient methods (verified, secondary). A second source draws
 *     an arc of radius 1.5 instead; this class measures along the exposure axis.
 */
public final class AverageGradient {

    private static final AverageGradient DEFAULTS =
            new AverageGradient(DensityDifference.of(0.10), ExposureInterval.ofLogUnits(1.50));

    private final DensityDifference start;
    private final ExposureInterval span;

    private AverageGradient(DensityDifference start, ExposureInterval span) {
        this.start = start;
        this.span = span;
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
        return new AverageGradient(aboveBasePlusFog, span);
    }

    /**
     * Returns a copy over another span.
     *
     * @param width the distance between the points, above 0
     * @return the copy
     * @throws IllegalArgumentException if the span is not above 0
     */
    public AverageGradient withSpan(ExposureInterval width) {
        if (!(width.logUnits() > 0)) {
            throw new IllegalArgumentException("span of an average gradient must be above 0, was " + width);
        }
        return new AverageGradient(start, width);
    }

    /**
     * Returns the average gradient of a curve.
     *
     * @param curve the curve
     * @return the gradient with its two points
     * @throws NotDeterminableException if the curve does not reach the lower point or was not measured at the upper
     */
    public ContrastDetermination determine(CharacteristicCurve curve) {
        CurvePoint lower = curve.pointAbove(start);
        CurvePoint upper = curve.pointAt(lower.logExposure().plus(span));
        return new ContrastDetermination(
                new Criterion(
                        "average gradient from " + Figures.plain(start.value()) + " above base plus fog over "
                                + Figures.plain(span.logUnits()) + " log units",
                        "a discussion of average-gradient methods, secondary"),
                lower,
                upper);
    }
}
