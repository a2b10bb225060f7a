// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.FigureDetermination;

/**
 * The speed point of {@link Iso6} and the contrast from there, which decides whether a speed may be called an ISO
 * speed. The {@link #figure()} is the contrast ΔD.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6Contrast implements FigureDetermination<Iso6Contrast> {

    /** Rounding of sums at the ends of the tolerance, far below what any densitometer resolves. */
    private static final double ROUNDING = 1e-9;

    private final String curveName;
    private final Verdict verdict;
    private final Evidence evidence;

    /** How the contrast compares with the requirement of ISO 6. */
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

    private Iso6Contrast(String curveName, Verdict verdict, Evidence evidence) {
        this.curveName = curveName;
        this.verdict = verdict;
        this.evidence = evidence;
    }

    static Iso6Contrast of(
            CharacteristicCurve curve, CurvePoint speedPoint, Optional<CurvePoint> contrastPoint, double tolerance) {
        String requirement = requirement(tolerance);
        if (contrastPoint.isEmpty()) {
            Condition condition = Condition.notMet(
                    requirement,
                    "not measured; the readings end at " + curve.highestExposure() + ", the point lies at "
                            + speedPoint.logExposure().plus(Iso6.CONTRAST_SPAN),
                    "expose and read steps up to there");
            return new Iso6Contrast(
                    curve.name(),
                    Verdict.NOT_MEASURED,
                    Evidence.of(Iso6.CRITERION, List.of(speedPoint), List.of(condition)));
        }
        double found = contrastPoint.get().density().minus(speedPoint.density()).value();
        Verdict verdict = verdict(found - Iso6.CONTRAST.value(), tolerance);
        String foundText = "found " + Figures.plain(found);
        Condition condition = verdict == Verdict.MET
                ? Condition.met(requirement, foundText)
                : Condition.notMet(
                        requirement,
                        foundText,
                        verdict == Verdict.LOW
                                ? "develop longer, and read the speed there"
                                : "develop less, and read the speed there");
        return new Iso6Contrast(
                curve.name(),
                verdict,
                Evidence.of(Iso6.CRITERION, List.of(speedPoint, contrastPoint.get()), List.of(condition)));
    }

    static String requirement(double tolerance) {
        return "density " + Figures.plain(Iso6.CONTRAST.value()) + " ± " + Figures.plain(tolerance)
                + " above the speed point, 1.30 log units beyond it";
    }

    private static Verdict verdict(double excess, double tolerance) {
        if (Math.abs(excess) <= tolerance + ROUNDING) {
            return Verdict.MET;
        }
        return excess < 0 ? Verdict.LOW : Verdict.HIGH;
    }

    /**
     * Returns the speed point m.
     *
     * @return where the density is 0.10 above base plus fog
     */
    public CurvePoint speedPoint() {
        return points().get(0);
    }

    /**
     * Returns the contrast point n.
     *
     * @return the point 1.30 log units beyond the speed point; empty if it was not measured
     */
    public Optional<CurvePoint> contrastPoint() {
        return points().size() > 1 ? Optional.of(points().get(1)) : Optional.empty();
    }

    /**
     * Returns the contrast ΔD.
     *
     * @return how much denser n is than m; empty if it was not measured
     */
    public Optional<DensityDifference> contrast() {
        return contrastPoint().map(n -> n.density().minus(speedPoint().density()));
    }

    /**
     * Tells how the contrast compares with the requirement of ISO 6.
     *
     * @return the verdict
     */
    public Verdict verdict() {
        return verdict;
    }

    /**
     * Returns the average gradient from the speed point to the contrast point, ΔD / 1.30.
     *
     * @return the gradient, 0.615 for a film developed to the standard; empty if the contrast was not measured
     */
    public Optional<Gradient> averageGradient() {
        return contrast().map(rise -> Gradient.between(rise, Iso6.CONTRAST_SPAN));
    }

    /**
     * Returns the contrast as a number.
     *
     * @return ΔD
     * @throws NotDeterminableException if the contrast was not measured
     */
    @Override
    public double figure() {
        return contrast()
                .orElseThrow(() -> new NotDeterminableException(
                        curveName + ": " + conditions().get(0)))
                .value();
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso6Contrast withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso6Contrast(curveName, verdict, evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
    }

    /**
     * Returns the contrast in words.
     *
     * @return the speed point and the condition
     */
    @Override
    public String toString() {
        return "speed point " + speedPoint() + "; " + conditions().get(0);
    }

    @Override
    public String unit() {
        return "density";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Iso6Contrast that
                && Objects.equals(curveName, that.curveName)
                && Objects.equals(verdict, that.verdict)
                && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(curveName, verdict, evidence);
    }
}
