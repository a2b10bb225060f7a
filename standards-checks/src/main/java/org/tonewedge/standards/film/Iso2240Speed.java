package org.tonewedge.standards.film;

import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.standards.Evidence;

/**
 * A colour reversal speed by {@link Iso2240}, with its points T and S.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso2240Speed implements IsoFilmSpeed<Iso2240Speed> {

    private final double exact;
    private final Evidence evidence;

    Iso2240Speed(double exact, Evidence evidence) {
        this.exact = exact;
        this.evidence = evidence;
    }

    @Override
    public double exact() {
        return exact;
    }

    /**
     * Returns point T.
     *
     * @return the point 0.20 above the least density
     */
    public CurvePoint toePoint() {
        return points().get(0);
    }

    /**
     * Returns point S.
     *
     * @return the point 2.00 above the least density, or the tangent point below it
     */
    public CurvePoint shoulderPoint() {
        return points().get(1);
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso2240Speed withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso2240Speed(exact, evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
    }

    /**
     * Returns the speed in words.
     *
     * @return the rounded speed, or the exact speed if it is outside the nominal scale
     */
    @Override
    public String toString() {
        return SpeedReading.text(this);
    }
}
