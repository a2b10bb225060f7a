package org.tonewedge.standards.contrast;

import java.util.List;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Determination;

/**
 * A contrast as the slope between two points of a curve, with those points.
 *
 * <p>Immutable and thread safe.
 */
public final class ContrastDetermination implements Determination {

    private final Criterion criterion;
    private final CurvePoint lower;
    private final CurvePoint upper;

    ContrastDetermination(Criterion criterion, CurvePoint lower, CurvePoint upper) {
        this.criterion = criterion;
        this.lower = lower;
        this.upper = upper;
    }

    /**
     * Returns the contrast.
     *
     * @return the slope of the line through the two points
     */
    public Gradient gradient() {
        return Gradient.between(
                upper.density().minus(lower.density()), upper.logExposure().minus(lower.logExposure()));
    }

    /**
     * Returns the lower point.
     *
     * @return the point of less exposure
     */
    public CurvePoint lower() {
        return lower;
    }

    /**
     * Returns the upper point.
     *
     * @return the point of more exposure
     */
    public CurvePoint upper() {
        return upper;
    }

    @Override
    public Criterion criterion() {
        return criterion;
    }

    @Override
    public List<CurvePoint> points() {
        return List.of(lower, upper);
    }

    /**
     * Returns no condition: these measures hold for any curve they can be read from.
     *
     * @return an empty list
     */
    @Override
    public List<Condition> conditions() {
        return List.of();
    }

    /**
     * Returns the contrast in words.
     *
     * @return the gradient and the two points
     */
    @Override
    public String toString() {
        return gradient() + " between " + lower + " and " + upper;
    }
}
