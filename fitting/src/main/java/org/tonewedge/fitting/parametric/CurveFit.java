package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.internal.ShapeFitter;
import org.tonewedge.fitting.internal.ShapeKind;

/**
 * How a curve is fitted: the family and the options. Fits are weighted nonlinear least squares over all readings, repeats
 * one by one; readings of base plus fog count as readings without exposure.
 *
 * <pre>{@code
 * FittedCurve fit = CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY).fit(strip);
 * CharacteristicCurve curve = fit.curve();
 * Estimate gradient = fit.parameter(CurveParameter.GRADIENT);
 * }</pre>
 *
 * <p>Defaults: {@link RobustLoss#NONE}, {@link Repeatability#fromResiduals()}, {@link IncompleteStrips#REDUCE},
 * {@link SoftnessPrior#WHERE_NEEDED}.
 *
 * <p>Base plus fog is never fitted below 0, or below the lowest reading where that is negative. The distance from toe to
 * shoulder is never less than 0.1 log units.
 *
 * <p>Immutable and thread safe; each {@code with} returns a copy.
 */
public final class CurveFit {

    /** Toe and shoulder count as seen when they move the end of the curve by so many standard deviations. */
    private static final double SEEN = 4;

    /**
     * A part of the family is no answer where AICc prefers the whole by more than this, although no usable fit of the
     * whole was found: such a part has "essentially no support" (K. P. Burnham and D. R. Anderson, Model Selection and
     * Multimodel Inference, 2nd ed. 2002, section 2.6; from memory).
     */
    private static final double DECISIVE = 10;

    /** The greatest {@link org.tonewedge.core.quantity.Density}. */
    private static final double MOST_DENSITY = 10;

    private static final double MOST_INFLATION = 1e14;

    private final CurveFamily family;
    private final RobustLoss loss;
    private final Repeatability repeatability;
    private final IncompleteStrips incompleteStrips;
    private final SoftnessPrior prior;

    private CurveFit(
            CurveFamily family,
            RobustLoss loss,
            Repeatability repeatability,
            IncompleteStrips incompleteStrips,
            SoftnessPrior prior) {
        this.family = Objects.requireNonNull(family, "family");
        this.loss = Objects.requireNonNull(loss, "loss");
        this.repeatability = Objects.requireNonNull(repeatability, "repeatability");
        this.incompleteStrips = Objects.requireNonNull(incompleteStrips, "incompleteStrips");
        this.prior = Objects.requireNonNull(prior, "prior");
    }

    /**
     * Returns the fit of a family with the default options.
     *
     * @param family the family
     * @return the fit
     */
    public static CurveFit of(CurveFamily family) {
        return new CurveFit(
                family,
                RobustLoss.NONE,
                Repeatability.fromResiduals(),
                IncompleteStrips.REDUCE,
                SoftnessPrior.WHERE_NEEDED);
    }

    /**
     * Returns this fit for another family.
     *
     * @param other the family
     * @return a copy
     */
    public CurveFit with(CurveFamily other) {
        return new CurveFit(other, loss, repeatability, incompleteStrips, prior);
    }

    /**
     * Returns this fit with another loss.
     *
     * @param other the loss
     * @return a copy
     */
    public CurveFit with(RobustLoss other) {
        return new CurveFit(family, other, repeatability, incompleteStrips, prior);
    }

    /**
     * Returns this fit with another source of the repeatability.
     *
     * @param other the source
     * @return a copy
     */
    public CurveFit with(Repeatability other) {
        return new CurveFit(family, loss, other, incompleteStrips, prior);
    }

    /**
     * Returns this fit with another treatment of incomplete strips, which matters for {@link CurveFamily#TOE_SHOULDER}.
     *
     * @param other the treatment
     * @return a copy
     */
    public CurveFit with(IncompleteStrips other) {
        return new CurveFit(family, loss, repeatability, other, prior);
    }

    /**
     * Returns this fit with or without the weak prior on softness, which matters for families with a softness.
     *
     * @param other when it is used
     * @return a copy
     */
    public CurveFit with(SoftnessPrior other) {
        return new CurveFit(family, loss, repeatability, incompleteStrips, other);
    }

    /**
     * Returns the family.
     *
     * @return the family
     */
    public CurveFamily family() {
        return family;
    }

    /**
     * Fits a strip.
     *
     * @param strip the strip
     * @return the fitted curve
     * @throws CurveFitException if it cannot be fitted; its {@link CurveFitException#failure()} tells why
     */
    public FittedCurve fit(Strip strip) {
        return fit(FitInput.of(strip, repeatability));
    }

    /**
     * Fits plain readings in any order; equal exposures are repeats.
     *
     * @param name what they are, for messages
     * @param axis the axis of the exposures
     * @param logExposures log<sub>10</sub> H of each reading
     * @param densities the gross density of each
     * @param basePlusFog readings of the unexposed, processed material, if there are any
     * @return the fitted curve
     * @throws IllegalArgumentException if there are not as many densities as exposures, or a number is out of range
     * @throws CurveFitException as {@link #fit(Strip)} does
     */
    public FittedCurve fit(
            String name, ExposureAxis axis, double[] logExposures, double[] densities, double... basePlusFog) {
        return fit(FitInput.of(name, axis, logExposures, densities, basePlusFog, repeatability));
    }

    RobustLoss loss() {
        return loss;
    }

    FittedCurve fit(FitInput input) {
        if (family == CurveFamily.TOE_SHOULDER && incompleteStrips == IncompleteStrips.REDUCE) {
            return fitWhatIsSeen(input);
        }
        return fitted(input, family, search(input, family));
    }

    /**
     * Refits other readings of the same strip from an earlier fit: offset, scale and shape parameters; null if the search
     * did not converge.
     */
    double[] refit(FitInput input, ShapeFit earlier) {
        return ShapeFitter.ofThread().refit(earlier, input.readings(), settings(input));
    }

    ShapeFit search(FitInput input, CurveFamily sought) {
        input.requireFittable(sought);
        return search(input, sought, ShapeFitter.start(sought.kind(), input.readings()));
    }

    ShapeFit search(FitInput input, CurveFamily sought, double[] start) {
        return ShapeFitter.ofThread().fit(sought.kind(), input.readings(), settings(input), start);
    }

    private ShapeFitter.Settings settings(FitInput input) {
        double least = 0;
        for (double density : input.readings().densities()) {
            least = Math.min(least, density);
        }
        return new ShapeFitter.Settings(loss.loss(), input.knownVariance(), prior == SoftnessPrior.WHERE_NEEDED, least);
    }

    private FittedCurve fitWhatIsSeen(FitInput input) {
        ShapeFit whole;
        try {
            whole = search(input, family);
        } catch (CurveFitException e) {
            if (e.failure() != FitFailure.TOO_FEW_READINGS) {
                throw e;
            }
            return best(input, List.of(CurveFamily.TOE_STRAIGHT_LINE, CurveFamily.STRAIGHT_LINE_SHOULDER), e);
        }
        boolean usable = isUsable(whole);
        boolean toe = usable && isToeSeen(input, whole);
        boolean shoulder = usable && isShoulderSeen(input, whole);
        if (toe && shoulder) {
            return fitted(input, family, whole);
        }
        List<CurveFamily> parts = new ArrayList<>();
        if (!shoulder) {
            parts.add(CurveFamily.TOE_STRAIGHT_LINE);
        }
        if (!toe) {
            parts.add(CurveFamily.STRAIGHT_LINE_SHOULDER);
        }
        if (!toe && !shoulder) {
            parts.add(CurveFamily.STRAIGHT_LINE);
        }
        return best(input, whole, usable, parts);
    }

    private FittedCurve best(FitInput input, List<CurveFamily> parts, CurveFitException wholeFailed) {
        FittedCurve best = null;
        for (CurveFamily part : parts) {
            try {
                FittedCurve candidate = fitted(input, part, search(input, part));
                // With as many parameters each, the one nearer the readings also where AICc cannot tell.
                if (best == null || candidate.residualStandardDeviation() < best.residualStandardDeviation()) {
                    best = candidate;
                }
            } catch (CurveFitException e) {
                wholeFailed.addSuppressed(e);
            }
        }
        if (best == null) {
            throw wholeFailed;
        }
        return best;
    }

    /** The best of the parts, or the whole where that is better, usable or not: the latter says why it is not. */
    private FittedCurve best(FitInput input, ShapeFit whole, boolean usable, List<CurveFamily> parts) {
        Map<CurveFamily, ShapeFit> candidates = new EnumMap<>(CurveFamily.class);
        candidates.put(family, whole);
        for (CurveFamily part : parts) {
            ShapeFit candidate = search(input, part);
            if (isUsable(candidate)) {
                candidates.put(part, candidate);
            }
        }
        double variance = candidates.values().stream()
                .mapToDouble(ShapeFit::readingVariance)
                .min()
                .orElseThrow();
        CurveFamily reached = family;
        double least = Double.POSITIVE_INFINITY;
        for (Map.Entry<CurveFamily, ShapeFit> candidate : candidates.entrySet()) {
            double criterion = Akaike.criterion(input, candidate.getKey(), candidate.getValue(), loss, variance);
            if (!usable && candidate.getKey() == family) {
                criterion += DECISIVE;
            }
            if (criterion < least) {
                reached = candidate.getKey();
                least = criterion;
            }
        }
        return fitted(input, reached, candidates.get(reached));
    }

    /** Whether the search ended inside its range, or where toe and shoulder meet. */
    private static boolean isUsable(ShapeFit fit) {
        int held = fit.search().heldParameter();
        return fit.search().stopReason().isConverged()
                && (held < 0 || (fit.kind().isRun(held) && ShapeKind.isNothing(fit.shape()[held])));
    }

    private static boolean isShoulderSeen(FitInput input, ShapeFit fit) {
        double[] q = fit.shape();
        double beyond = input.highest().value() - q[0] - q[2];
        return fit.scale() * ramp(beyond, Math.exp(q[3])) > SEEN * Math.sqrt(fit.readingVariance() / lastWeight(input));
    }

    private static boolean isToeSeen(FitInput input, ShapeFit fit) {
        double[] q = fit.shape();
        double before = q[0] - input.lowest().value();
        return fit.scale() * ramp(before, Math.exp(q[1]))
                > SEEN * Math.sqrt(fit.readingVariance() / input.readings().weights()[0]);
    }

    private static double lastWeight(FitInput input) {
        return input.readings().weights()[input.readings().exposed() - 1];
    }

    private static double ramp(double distance, double softness) {
        double z = distance / softness;
        return softness * (Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z))));
    }

    private FittedCurve fitted(FitInput input, CurveFamily reached, ShapeFit fit) {
        if (!fit.search().stopReason().isConverged()) {
            throw new CurveFitException(
                    FitFailure.NOT_CONVERGED,
                    what(input, reached) + ": no least sum of squares was found in "
                            + fit.search().iterations()
                            + " iterations: look for bad readings, use a robust loss, or fit a family with fewer"
                            + " parameters");
        }
        int held = fit.search().heldParameter();
        if (held >= 0 && !fit.kind().isRun(held)) {
            CurveParameter parameter = reached.parameters().get(held + 2);
            double value = fit.kind().natural(fit.shape())[held];
            throw new CurveFitException(
                    FitFailure.BOUND_HIT,
                    what(input, reached) + ": " + parameter + " ran to the end of its range, " + Figures.plain(value)
                            + ", so the readings do not determine it: " + remedy(parameter));
        }
        double[][] covariance = fit.unscaledCovariance();
        for (int k = 0; k < covariance.length; k++) {
            if (!(covariance[k][k] < MOST_INFLATION)) {
                throw new CurveFitException(
                        FitFailure.ILL_CONDITIONED,
                        what(input, reached)
                                + ": the readings cannot tell the parameters apart: read steps over a longer range, or fit a"
                                + " family with fewer parameters");
            }
        }
        if (reached.kind().shape().reachesBase() && fit.offset() > MOST_DENSITY) {
            throw new CurveFitException(
                    FitFailure.BASE_PLUS_FOG_UNKNOWN,
                    what(input, reached) + ": base plus fog would come out at " + Figures.plain(fit.offset())
                            + ", above all readings, so nothing tells it: read an unexposed, processed part of the film, and"
                            + " look for bad readings");
        }
        if (!reached.kind().shape().reachesBase() && input.basePlusFog(loss).isEmpty()) {
            throw new CurveFitException(
                    FitFailure.BASE_PLUS_FOG_UNKNOWN,
                    what(input, reached)
                            + ": the strip shows no toe and has no base-plus-fog reading, so nothing tells base plus fog: read"
                            + " an unexposed, processed part of the film");
        }
        return new FittedCurve(this, input, reached, fit);
    }

    private static String what(FitInput input, CurveFamily reached) {
        return input.name() + " (" + reached + ")";
    }

    private static String remedy(CurveParameter parameter) {
        return switch (parameter) {
            case TOE_SOFTNESS, SHOULDER_SOFTNESS ->
                "read more steps in the toe and the shoulder, or allow the softness" + " prior";
            case ASYMMETRY -> "fit a family without asymmetry";
            default -> "read steps over a longer range, or fit a family with fewer parameters";
        };
    }

    /**
     * Returns the fit in words.
     *
     * @return the family and the options
     */
    @Override
    public String toString() {
        return family + ", loss " + loss + ", repeatability from " + repeatability + ", incomplete strips "
                + incompleteStrips + ", softness prior " + prior;
    }
}
