package org.tonewedge.standards.film;

import java.util.List;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Determination;

/**
 * A speed by {@link Iso6}, such as 112 (ISO 125/22°), with its evidence. It is an ISO speed only if
 * {@link #conditionsMet()}.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6Speed implements Determination {

    private final Iso6Contrast contrast;
    private final double exact;
    private final IsoSpeed rounded;

    Iso6Speed(Iso6Contrast contrast, double exact) {
        this.contrast = contrast;
        this.exact = exact;
        this.rounded = IsoSpeed.nearest(exact);
    }

    /**
     * Returns the speed before rounding.
     *
     * @return S = 0.8 / H<sub>m</sub>
     * @units reciprocal lux seconds
     */
    public double exact() {
        return exact;
    }

    /**
     * Returns the logarithmic speed before rounding.
     *
     * @return S° = 1 + 10 log<sub>10</sub> S
     * @units degrees
     */
    public double exactDegrees() {
        return 1 + 10 * Math.log10(exact);
    }

    /**
     * Returns the nominal speed nearest to the exact one.
     *
     * @return the rounded speed, arithmetic and in degrees
     */
    public IsoSpeed rounded() {
        return rounded;
    }

    /**
     * Returns how far the film is from a stated speed, such as that on its box.
     *
     * @param speed the stated arithmetic speed, above 0
     * @return positive if the film is faster than stated, negative if it is slower
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     */
    public ExposureInterval comparedWith(double speed) {
        return ExposureInterval.ofRatio(exact).minus(ExposureInterval.ofRatio(speed));
    }

    /**
     * Returns the speed point and the contrast.
     *
     * @return the evidence for the speed
     */
    public Iso6Contrast contrast() {
        return contrast;
    }

    @Override
    public Criterion criterion() {
        return Iso6.CRITERION;
    }

    @Override
    public List<CurvePoint> points() {
        return contrast.points();
    }

    @Override
    public List<Condition> conditions() {
        return contrast.conditions();
    }

    /**
     * Returns the speed in words.
     *
     * @return the rounded speed, with the condition it misses if it is no ISO speed
     */
    @Override
    public String toString() {
        return conditionsMet()
                ? rounded.toString()
                : "speed " + rounded.toString().substring("ISO ".length()) + ", not an ISO speed ("
                        + contrast.conditions().get(0) + ")";
    }
}
