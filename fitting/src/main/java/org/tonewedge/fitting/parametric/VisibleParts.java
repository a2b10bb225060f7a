// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.internal.ShapeKind;

/**
 * Chooses which part of toe, straight line and shoulder is fitted to a strip that may not show all of it: the whole if
 * both bends are visible, otherwise the best of the parts and the whole by AICc.
 */
final class VisibleParts {

    /** Toe and shoulder count as visible if they move the end of the curve by this many standard deviations. */
    private static final double SEEN = 4;

    /**
     * A part of the family is not an answer if AICc prefers the whole by more than this, although no usable fit of the
     * whole was found: such a part has "essentially no support" (K. P. Burnham and D. R. Anderson, Model Selection and
     * Multimodel Inference, 2nd ed. 2002, section 2.6; from memory).
     */
    private static final double DECISIVE = 10;

    private static final CurveFamily WHOLE = CurveFamily.TOE_SHOULDER;

    private final CurveFit settings;
    private final FitInput input;

    private VisibleParts(CurveFit settings, FitInput input) {
        this.settings = settings;
        this.input = input;
    }

    /** Fits what the readings show. */
    static FittedCurve fit(CurveFit settings, FitInput input) {
        return new VisibleParts(settings, input).fit();
    }

    private FittedCurve fit() {
        ShapeFit whole;
        try {
            whole = settings.search(input, WHOLE);
        } catch (CurveFitException e) {
            if (e.failure() != FitFailure.TOO_FEW_READINGS) {
                throw e;
            }
            return best(List.of(CurveFamily.TOE_STRAIGHT_LINE, CurveFamily.STRAIGHT_LINE_SHOULDER), e);
        }
        boolean usable = isUsable(whole);
        boolean toe = usable && isToeSeen(whole);
        boolean shoulder = usable && isShoulderSeen(whole);
        if (toe && shoulder) {
            return settings.fitted(input, WHOLE, whole);
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
        return best(whole, usable, parts);
    }

    private FittedCurve best(List<CurveFamily> parts, CurveFitException wholeFailed) {
        FittedCurve best = null;
        for (CurveFamily part : parts) {
            try {
                FittedCurve candidate = settings.fitted(input, part, settings.search(input, part));
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

    /** The best of the parts, or the whole if that is better; an unusable whole says why it is unusable. */
    private FittedCurve best(ShapeFit whole, boolean usable, List<CurveFamily> parts) {
        Map<CurveFamily, ShapeFit> candidates = new EnumMap<>(CurveFamily.class);
        candidates.put(WHOLE, whole);
        for (CurveFamily part : parts) {
            ShapeFit candidate = settings.search(input, part);
            if (isUsable(candidate)) {
                candidates.put(part, candidate);
            }
        }
        double variance = candidates.values().stream()
                .mapToDouble(ShapeFit::readingVariance)
                .min()
                .orElseThrow();
        CurveFamily reached = WHOLE;
        double least = Double.POSITIVE_INFINITY;
        for (Map.Entry<CurveFamily, ShapeFit> candidate : candidates.entrySet()) {
            double criterion =
                    Akaike.criterion(input, candidate.getKey(), candidate.getValue(), settings.loss(), variance);
            if (!usable && candidate.getKey() == WHOLE) {
                criterion += DECISIVE;
            }
            if (criterion < least) {
                reached = candidate.getKey();
                least = criterion;
            }
        }
        FittedCurve chosen = settings.fitted(input, reached, candidates.get(reached));
        if (!usable || reached == WHOLE) {
            return chosen;
        }
        try {
            return chosen.asPartOf(settings.fitted(input, WHOLE, whole));
        } catch (CurveFitException e) {
            return chosen; // exact readings leave the bend that they do not show without any place
        }
    }

    /** Whether the search ended inside its range, or where toe and shoulder meet. */
    private static boolean isUsable(ShapeFit fit) {
        int held = fit.search().heldParameter();
        return fit.search().stopReason().isConverged()
                && (held < 0 || (fit.kind().isRun(held) && ShapeKind.isNothing(fit.shape()[held])));
    }

    /** Nearly exact readings show no bend smaller than rounding. */
    private static double variance(ShapeFit fit) {
        return Math.max(fit.readingVariance(), Akaike.LEAST_MEAN_SQUARE);
    }

    private boolean isShoulderSeen(ShapeFit fit) {
        double[] q = fit.shape();
        double beyond = input.highest().value() - q[0] - q[2];
        return reaches(fit.scale(), beyond, q[3], SEEN * Math.sqrt(variance(fit) / lastWeight()));
    }

    private boolean isToeSeen(ShapeFit fit) {
        double[] q = fit.shape();
        double before = q[0] - input.lowest().value();
        return reaches(
                fit.scale(),
                before,
                q[1],
                SEEN * Math.sqrt(variance(fit) / input.readings().weights()[0]));
    }

    private double lastWeight() {
        return input.readings().weights()[input.readings().exposed() - 1];
    }

    /** Whether a soft ramp moves the end of the curve by more than a limit; a sharp one, which moves it less, may tell. */
    private static boolean reaches(double scale, double distance, double logSoftness, double limit) {
        return scale * distance > limit || scale * ramp(distance, Math.exp(logSoftness)) > limit;
    }

    private static double ramp(double distance, double softness) {
        double z = distance / softness;
        return softness * (Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z))));
    }
}
