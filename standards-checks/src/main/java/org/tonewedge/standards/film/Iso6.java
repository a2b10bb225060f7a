package org.tonewedge.standards.film;

import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.Criterion;

/**
 * The speed of a black-and-white negative film by ISO 6.
 *
 * <p>The speed point m lies where the density is 0.10 above base plus fog. A second point n lies 1.30 log units to the
 * right of it; the strip is developed so that n is 0.80 denser than m, within 0.05. Then, with H<sub>m</sub> in lux
 * seconds,
 *
 * <p>S = 0.8 / H<sub>m</sub>, &nbsp; S° = 1 + 10 log<sub>10</sub>(0.8 / H<sub>m</sub>).
 *
 * <p>A speed read from a strip of other contrast is no ISO speed; {@link Iso6Speed} says so, and says what to change.
 *
 * <pre>{@code
 * Iso6Speed speed = Iso6.withDefaults().determine(curve);
 * speed.rounded();       // ISO 125/22°
 * speed.conditionsMet(); // true
 * }</pre>
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 *
 * @source ISO 6:1993 as summarised in an encyclopedia's article on film speed (speed point, contrast condition, lux
 *     seconds; verified); the constant 0.8 through a practitioner's derivation (verified, secondary); the tolerance of
 *     0.05 and the logarithmic form from memory. The clauses themselves were not read.
 */
public final class Iso6 {

    /** The density of the speed point above base plus fog. */
    public static final DensityDifference SPEED_POINT_DENSITY = DensityDifference.of(0.10);

    /** The distance from the speed point to the contrast point. */
    public static final ExposureInterval CONTRAST_SPAN = ExposureInterval.ofLogUnits(1.30);

    /** The density difference that the contrast condition asks for. */
    public static final DensityDifference CONTRAST = DensityDifference.of(0.80);

    static final Criterion CRITERION = new Criterion(
            "ISO 6 black-and-white negative speed: 0.10 above base plus fog, 0.80 more density 1.30 log units on",
            "ISO 6:1993, through secondary sources");

    private static final Iso6 DEFAULTS = new Iso6(0.05);
    private static final double SPEED_CONSTANT = 0.8;

    private final double contrastTolerance;

    private Iso6(double contrastTolerance) {
        this.contrastTolerance = contrastTolerance;
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
     * Returns a copy with another tolerance of the contrast condition.
     *
     * @param tolerance how far ΔD may lie from 0.80, from 0 to 0.80
     * @return the copy
     * @throws IllegalArgumentException if the tolerance is out of range
     */
    public Iso6 withContrastTolerance(double tolerance) {
        return new Iso6(Checks.within("contrast tolerance", tolerance, 0, CONTRAST.value(), ""));
    }

    /**
     * Returns the speed of a curve.
     *
     * @param curve a curve on the absolute exposure axis
     * @return the speed with its evidence
     * @throws IllegalArgumentException if the curve's exposures are relative, or the speed is outside the nominal scale
     * @throws NotDeterminableException if the curve does not reach the speed point, or reaches it several times
     */
    public Iso6Speed determine(CharacteristicCurve curve) {
        if (!curve.axis().isAbsolute()) {
            throw new IllegalArgumentException(
                    curve.name() + ": an ISO speed needs exposures in lux seconds, these are " + curve.axis()
                            + "; anchor the curve to a known exposure, or compare speed points in stops");
        }
        Iso6Contrast contrast = contrast(curve);
        return new Iso6Speed(
                contrast, SPEED_CONSTANT / contrast.speedPoint().logExposure().exposure());
    }

    /**
     * Returns the speed point of a curve and its contrast from there, on an absolute or a relative axis.
     *
     * @param curve the curve
     * @return the points with the contrast condition
     * @throws NotDeterminableException if the curve does not reach the speed point, or reaches it several times
     */
    public Iso6Contrast contrast(CharacteristicCurve curve) {
        CurvePoint speedPoint = curve.pointAbove(SPEED_POINT_DENSITY);
        Optional<CurvePoint> contrastPoint;
        try {
            contrastPoint = Optional.of(curve.pointAt(speedPoint.logExposure().plus(CONTRAST_SPAN)));
        } catch (NotDeterminableException e) {
            contrastPoint = Optional.empty();
        }
        return new Iso6Contrast(curve, speedPoint, contrastPoint, contrastTolerance);
    }
}
