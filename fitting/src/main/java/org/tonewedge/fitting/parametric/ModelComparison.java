// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Strip;

/**
 * All families fitted to one strip, ordered by AICc, with a weight for each: how far it can be trusted to describe the
 * next strip of the same kind.
 *
 * <p>All families are compared, with two exceptions. The parts of {@link CurveFamily#TOE_SHOULDER} take its place if
 * the strip shows no more. {@link CurveFamily#FIVE_PARAMETER_LOGISTIC} is left out because it is the same curve as
 * {@link CurveFamily#RICHARDS}. The weight of a family is exp(−Δ/2) divided by the sum over all families, where Δ is
 * its AICc minus the least AICc.
 *
 * <p>Immutable and thread safe.
 *
 * @source weights: K. P. Burnham and D. R. Anderson, Model Selection and Multimodel Inference (2002) (from memory)
 */
public final class ModelComparison implements Recorded {

    private static final List<CurveFamily> COMPARED = List.of(
            CurveFamily.TOE_SHOULDER,
            CurveFamily.LOGISTIC,
            CurveFamily.RICHARDS,
            CurveFamily.GOMPERTZ,
            CurveFamily.CUMULATIVE_NORMAL,
            CurveFamily.HURTER_DRIFFIELD);

    /** Toe, straight line and shoulder, and the families that may take its place. */
    private static final Set<CurveFamily> PARTS = EnumSet.of(
            CurveFamily.TOE_SHOULDER,
            CurveFamily.TOE_STRAIGHT_LINE,
            CurveFamily.STRAIGHT_LINE_SHOULDER,
            CurveFamily.STRAIGHT_LINE);

    /** By AICc; if there are too few readings for AICc, by the number of parameters, then by the residuals. */
    private static final Comparator<Candidate> BEST_FIRST = Comparator.comparing(
                    (Candidate candidate) -> candidate.fit().isEmpty())
            .thenComparingDouble(Candidate::aicc)
            .thenComparingInt(candidate -> candidate.family().parameters().size())
            .thenComparingDouble(candidate ->
                    candidate.fit().map(FittedCurve::residualStandardDeviation).orElse(0.0));

    private final String strip;
    private final List<Candidate> candidates;
    /** The variance of a reading, shared by robust fits that are compared. */
    private final double variance;

    /**
     * One family in a comparison.
     *
     * <p>Immutable and thread safe; equal by value.
     */
    public static final class Candidate {

        private final CurveFamily family;
        private final Optional<FittedCurve> fit;
        private final double aicc;
        private final double weight;
        private final Optional<CurveFitException> failure;

        Candidate(
                CurveFamily family,
                Optional<FittedCurve> fit,
                double aicc,
                double weight,
                Optional<CurveFitException> failure) {
            this.family = family;
            this.fit = fit;
            this.aicc = aicc;
            this.weight = weight;
            this.failure = failure;
        }

        /**
         * Returns the family that was fitted.
         *
         * @return the family
         */
        public CurveFamily family() {
            return family;
        }

        /**
         * Returns the fit, or empty if it failed.
         *
         * @return the fit
         */
        public Optional<FittedCurve> fit() {
            return fit;
        }

        /**
         * Returns AICc.
         *
         * @return AICc; infinite if the fit failed or there are too few readings for the family
         */
        public double aicc() {
            return aicc;
        }

        /**
         * Returns the weight, from 0 to 1.
         *
         * @return the weight; 0 if the fit failed or has no AICc. If no family has an AICc, the readings are too few to
         *     compare families: the first family is then the one with the fewest parameters and, among equals, the smallest
         *     residuals
         */
        public double weight() {
            return weight;
        }

        /**
         * Returns why it failed, or nothing.
         *
         * @return the failure
         */
        public Optional<CurveFitException> failure() {
            return failure;
        }

        /**
         * Compares by value.
         *
         * @param other any object
         * @return true if all parts are equal
         */
        @Override
        public boolean equals(Object other) {
            return other instanceof Candidate that
                    && family.equals(that.family)
                    && fit.equals(that.fit)
                    && Double.compare(aicc, that.aicc) == 0
                    && Double.compare(weight, that.weight) == 0
                    && failure.equals(that.failure);
        }

        /**
         * Returns a hash of the value.
         *
         * @return the hash
         */
        @Override
        public int hashCode() {
            return Objects.hash(family, fit, aicc, weight, failure);
        }

        /**
         * Returns what this is, in words that may change.
         *
         * @return the family and its weight, or that it failed
         */
        @Override
        public String toString() {
            return family + (fit.isPresent() ? String.format(Locale.ROOT, ", weight %.3f", weight) : ", not fitted");
        }
    }

    private ModelComparison(String strip, List<Candidate> candidates, double variance) {
        this.strip = strip;
        this.candidates = candidates;
        this.variance = variance;
    }

    /**
     * Fits and compares the families.
     *
     * @param strip the strip
     * @param options the options of every fit; their family is ignored
     * @return the comparison
     * @throws CurveFitException if no family can be fitted; the failure is that of toe, straight line and shoulder
     */
    public static ModelComparison of(Strip strip, CurveFit options) {
        List<FittedCurve> fits = new ArrayList<>();
        List<Candidate> unweighted = new ArrayList<>();
        for (CurveFamily family : COMPARED) {
            try {
                fits.add(options.with(family).fit(strip));
            } catch (CurveFitException e) {
                unweighted.add(new Candidate(family, Optional.empty(), Double.POSITIVE_INFINITY, 0, Optional.of(e)));
            }
        }
        double variance = fits.stream()
                .mapToDouble(fit -> fit.shapeFit().readingVariance())
                .min()
                .orElse(0);
        for (FittedCurve fit : fits) {
            unweighted.add(new Candidate(fit.family(), Optional.of(fit), fit.aicc(variance), 0, Optional.empty()));
        }
        unweighted.sort(BEST_FIRST);
        Candidate first = unweighted.get(0);
        if (first.fit().isEmpty()) {
            throw first.failure().orElseThrow();
        }
        return new ModelComparison(strip.toString(), weighted(unweighted, first.aicc()), variance);
    }

    private static List<Candidate> weighted(List<Candidate> candidates, double least) {
        double total =
                candidates.stream().mapToDouble(c -> likelihood(c, least)).sum();
        return candidates.stream()
                .map(c -> new Candidate(
                        c.family(), c.fit(), c.aicc(), total == 0 ? 0 : likelihood(c, least) / total, c.failure()))
                .toList();
    }

    private static double likelihood(Candidate candidate, double least) {
        double aicc = candidate.aicc();
        return Double.isInfinite(aicc) ? 0 : Math.exp(-0.5 * (aicc - least));
    }

    /**
     * Returns the curve with the least AICc. The uncertainties of figures read off it include those of the other families and
     * how far their figures lie from it. The correction of AICc for few readings serves the choice: a family of few parameters
     * predicts further readings better. It does not show that the others are wrong. What the readings allow is therefore
     * weighed by AIC without that correction, by the square roots of its weights: the AIC of a strip is itself uncertain by some
     * units, and the weights take it as certain. The page on fit quality tells how often 95 % intervals then contain the truth;
     * with weights by AICc, 82 to 88 % of those of the toe and the shoulder did with 9 steps. The uncertainties of its
     * parameters apply within the family.
     *
     * @return the best curve
     * @source AIC: H. Akaike, IEEE Transactions on Automatic Control 19 (1974), 716–723 (from memory); the square roots and
     *     the two criteria are the project's own
     */
    public FittedCurve best() {
        List<FittedCurve> fits = candidates.stream()
                .flatMap(candidate -> candidate.fit().stream())
                .toList();
        return among(fits.get(0), fits, notes());
    }

    /** A curve whose uncertainties include the families that follow the readings too, as those of {@link #best()} do. */
    FittedCurve amongThoseThatFollow(FittedCurve fitted) {
        List<FittedCurve> fits = candidates.stream()
                .flatMap(candidate -> candidate.fit().stream())
                .filter(fit -> fit == fitted || !fit.lackOfFit().isRejected())
                .toList();
        return among(fitted, fits, List.of());
    }

    private FittedCurve among(FittedCurve chosen, List<FittedCurve> fits, List<String> notes) {
        double least = fits.stream().mapToDouble(fit -> fit.aic(variance)).min().orElseThrow();
        List<Rivals.Rival> others = fits.stream()
                .filter(fit -> fit != chosen)
                .map(rival -> new Rivals.Rival(allowed(rival, least), rival::estimate))
                .toList();
        return chosen.among(new Rivals(allowed(chosen, least), others, notes));
    }

    /** How far the readings allow a curve: the square root of its weight by AIC, not normalised. */
    private double allowed(FittedCurve fit, double least) {
        return Math.exp(-0.25 * (fit.aic(variance) - least));
    }

    /**
     * The candidates that were fitted: toe, straight line and shoulder (or the part of it that the strip shows), then
     * the others by AICc.
     */
    List<Candidate> toeShoulderFirst() {
        List<Candidate> order = new ArrayList<>();
        for (Candidate candidate : candidates) {
            if (candidate.fit().isPresent()) {
                order.add(PARTS.contains(candidate.family()) ? 0 : order.size(), candidate);
            }
        }
        return order;
    }

    /**
     * Returns what you should know before you trust the comparison: each family that could not be fitted, and why.
     *
     * @return sentences; empty if all families were fitted
     */
    public List<String> notes() {
        List<String> notes = new ArrayList<>();
        for (Candidate candidate : candidates) {
            candidate.failure().ifPresent(failure -> {
                notes.add("Not compared: " + candidate.family() + ", which could not be fitted ("
                        + words(failure.failure()) + ")"
                        + (isNumerical(failure.failure())
                                ? "; the search failed, not the family, so the best of the others may"
                                        + " be the wrong one."
                                : "."));
            });
        }
        return List.copyOf(notes);
    }

    private static boolean isNumerical(FitFailure failure) {
        return failure == FitFailure.NOT_CONVERGED || failure == FitFailure.ILL_CONDITIONED;
    }

    private static String words(FitFailure failure) {
        return failure.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /**
     * Returns all families that were tried, best first; those that failed come last.
     *
     * @return the candidates
     */
    public List<Candidate> candidates() {
        return candidates;
    }

    /**
     * Returns the comparison as a table in plain text.
     *
     * @return one line for each family: AICc above the least, weight and residual standard deviation; or why it failed
     */
    @Override
    public String toString() {
        StringBuilder table = new StringBuilder(strip).append('\n');
        for (Candidate candidate : candidates) {
            table.append(String.format(Locale.ROOT, "%-36s", candidate.family()));
            table.append(candidate
                    .fit()
                    .map(fit -> Double.isInfinite(candidate.aicc())
                            ? String.format(
                                    Locale.ROOT,
                                    "too few readings for AICc  residual sd %.4f",
                                    fit.residualStandardDeviation())
                            : String.format(
                                    Locale.ROOT,
                                    "AICc +%.1f  weight %.3f  residual sd %.4f",
                                    Math.max(
                                            0,
                                            candidate.aicc() - candidates.get(0).aicc()),
                                    candidate.weight(),
                                    fit.residualStandardDeviation()))
                    .orElseGet(() -> candidate.failure().orElseThrow().getMessage()));
            table.append('\n');
        }
        return table.toString();
    }

    /**
     * Returns the comparison as named values: {@code best}, and for each family its weight, or why it could not be fitted.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("best", best().family().name()));
        for (Candidate each : candidates()) {
            String name = "weight." + each.family().name().toLowerCase(Locale.ROOT);
            records.add(
                    each.failure().isPresent()
                            ? ResultRecord.ofMissing(
                                    name, "", each.failure().get().getMessage())
                            : ResultRecord.ofNumber(name, each.weight(), ""));
        }
        return List.copyOf(records);
    }
}
