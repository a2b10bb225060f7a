package org.tonewedge.standards.contrast;

import java.util.Objects;
import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.standards.Criterion;

/**
 * Gamma: the slope of the straight line of a curve, γ = ΔD / Δlog<sub>10</sub> H between its two ends.
 *
 * <p>What is straight is a matter of the {@link AnatomyCriterion}, which can be changed. On a curve that is straight
 * throughout, gamma, average gradient, contrast index and ISO 6 contrast over 1.30 are one number; on others no
 * published relation between them was found, and none is offered.
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 *
 * @source US Navy NAVEDTRA 14208, Photography (Advanced), chapter 2 (verified); the criterion of straightness is common
 *     practice, no source
 */
public final class Gamma {

    private static final Gamma DEFAULTS = new Gamma(AnatomyCriterion.withDefaults());
    private static final Criterion CRITERION = new Criterion(
            "gamma: slope of the straight line", "US Navy NAVEDTRA 14208, Photography (Advanced), chapter 2");

    private final AnatomyCriterion straightLine;

    private Gamma(AnatomyCriterion straightLine) {
        this.straightLine = straightLine;
    }

    /**
     * Returns the method with the default criterion of the straight line.
     *
     * @return the method
     */
    public static Gamma withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another criterion of the straight line.
     *
     * @param criterion the criterion
     * @return the copy
     */
    public Gamma withStraightLine(AnatomyCriterion criterion) {
        return new Gamma(Objects.requireNonNull(criterion, "criterion"));
    }

    /**
     * Returns the gamma of a curve.
     *
     * @param curve the curve
     * @return gamma with the two ends of the straight line, in order of exposure; negative for a falling curve
     * @throws NotDeterminableException as {@link CurveAnatomy#of(CharacteristicCurve, AnatomyCriterion)} does
     */
    public ContrastDetermination determine(CharacteristicCurve curve) {
        CurveRegion line = CurveAnatomy.of(curve, straightLine).straightLine();
        return new ContrastDetermination(CRITERION, line.thinEnd(), line.denseEnd());
    }
}
