package org.tonewedge.standards.film;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Determination;

/**
 * The speed point of {@link Iso6} and the contrast from there, which decides whether a speed may be called ISO speed.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6Contrast implements Determination {

    /** Half a thousandth of rounding at the ends of the tolerance, far below what any densitometer tells apart. */
    private static final double ROUNDING = 1e-9;

    private final CurvePoint speedPoint;
    private final CurvePoint contrastPoint;
    private final Verdict verdict;
    private final Condition condition;

    /** How the contrast compares with what ISO 6 asks for. */
    public enum Verdict {
        /** Within the tolerance of 0.80. */
        MET,
        /** Too little contrast. */
        LOW,
        /** Too much contrast. */
        HIGH,
        /** The curve was not measured 1.30 log units beyond the speed point. */
        NOT_MEASURED
    }

    Iso6Contrast(
            CharacteristicCurve curve, CurvePoint speedPoint, Optional<CurvePoint> contrastPoint, double tolerance) {
        this.speedPoint = speedPoint;
        this.contrastPoint = contrastPoint.orElse(null);
        String requirement = "density " + Figures.plain(Iso6.CONTRAST.value()) + " ± " + Figures.plain(tolerance)
                + " above the speed point, 1.30 log units beyond it";
        if (contrastPoint.isEmpty()) {
            verdict = Verdict.NOT_MEASURED;
            condition = Condition.notMet(
                    requirement,
                    "not measured; the readings end at " + curve.highestExposure() + ", the point lies at "
                            + speedPoint.logExposure().plus(Iso6.CONTRAST_SPAN),
                    "expose and read steps up to there");
            return;
        }
        double found = contrast().orElseThrow().value();
        double excess = found - Iso6.CONTRAST.value();
        String foundText = "found " + Figures.plain(found);
        if (Math.abs(excess) <= tolerance + ROUNDING) {
            verdict = Verdict.MET;
            condition = Condition.met(requirement, foundText);
        } else if (excess < 0) {
            verdict = Verdict.LOW;
            condition = Condition.notMet(requirement, foundText, "develop longer, and read the speed there");
        } else {
            verdict = Verdict.HIGH;
            condition = Condition.notMet(requirement, foundText, "develop less, and read the speed there");
        }
    }

    /**
     * Returns the speed point m.
     *
     * @return where the density is 0.10 above base plus fog
     */
    public CurvePoint speedPoint() {
        return speedPoint;
    }

    /**
     * Returns the contrast point n.
     *
     * @return the point 1.30 log units beyond the speed point; nothing if it was not measured
     */
    public Optional<CurvePoint> contrastPoint() {
        return Optional.ofNullable(contrastPoint);
    }

    /**
     * Returns the contrast ΔD.
     *
     * @return how much denser n is than m; nothing if it was not measured
     */
    public Optional<DensityDifference> contrast() {
        return contrastPoint().map(n -> n.density().minus(speedPoint.density()));
    }

    /**
     * Tells how the contrast compares with what ISO 6 asks for.
     *
     * @return the verdict
     */
    public Verdict verdict() {
        return verdict;
    }

    @Override
    public Criterion criterion() {
        return Iso6.CRITERION;
    }

    @Override
    public List<CurvePoint> points() {
        List<CurvePoint> points = new ArrayList<>(List.of(speedPoint));
        contrastPoint().ifPresent(points::add);
        return List.copyOf(points);
    }

    @Override
    public List<Condition> conditions() {
        return List.of(condition);
    }

    /**
     * Returns the contrast in words.
     *
     * @return the speed point and the condition
     */
    @Override
    public String toString() {
        return "speed point " + speedPoint + "; " + condition;
    }
}
