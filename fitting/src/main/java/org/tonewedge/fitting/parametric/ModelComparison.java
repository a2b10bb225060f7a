package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.strip.Strip;

/**
 * All families fitted to one strip, ordered by AICc: how much each can be trusted to describe the next strip like it.
 *
 * <p>Compared are all families but the parts of {@link CurveFamily#TOE_SHOULDER}, which take its place where the strip
 * shows no more, and {@link CurveFamily#FIVE_PARAMETER_LOGISTIC}, which is the same curve as {@link CurveFamily#RICHARDS}.
 * The weight of a family is exp(−Δ/2) over the sum of all, Δ being its AICc less the least.
 *
 * <p>Immutable and thread safe.
 *
 * @source weights: K. P. Burnham and D. R. Anderson, Model Selection and Multimodel Inference (2002) (from memory)
 */
public final class ModelComparison {

    private static final List<CurveFamily> COMPARED = List.of(
            CurveFamily.TOE_SHOULDER,
            CurveFamily.LOGISTIC,
            CurveFamily.RICHARDS,
            CurveFamily.GOMPERTZ,
            CurveFamily.CUMULATIVE_NORMAL,
            CurveFamily.HURTER_DRIFFIELD);

    /** By AICc; where there are too few readings for it, by the number of parameters, then by the residuals. */
    private static final Comparator<Candidate> BEST_FIRST = Comparator.comparing(
                    (Candidate candidate) -> candidate.fit().isEmpty())
            .thenComparingDouble(Candidate::criterion)
            .thenComparingInt(candidate -> candidate.family().parameters().size())
            .thenComparingDouble(candidate ->
                    candidate.fit().map(FittedCurve::residualStandardDeviation).orElse(0.0));

    private final String strip;
    private final List<Candidate> candidates;

    /**
     * One family in a comparison.
     *
     * @param family the family that was fitted
     * @param fit the fit, or nothing if it failed
     * @param criterion AICc; infinite if the fit failed or there are too few readings for the family
     * @param weight the weight, from 0 to 1; 0 if the fit failed or has no AICc. Where none has, the readings are too few
     *     to compare families, and the first is that with the fewest parameters, then with the smallest residuals
     * @param failure why it failed, or nothing
     */
    public record Candidate(
            CurveFamily family,
            Optional<FittedCurve> fit,
            double criterion,
            double weight,
            Optional<CurveFitException> failure) {}

    private ModelComparison(String strip, List<Candidate> candidates) {
        this.strip = strip;
        this.candidates = candidates;
    }

    /**
     * Fits and compares the families.
     *
     * @param strip the strip
     * @param options the options of every fit; its family does not matter
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
            unweighted.add(
                    new Candidate(fit.family(), Optional.of(fit), fit.akaikeCriterion(variance), 0, Optional.empty()));
        }
        unweighted.sort(BEST_FIRST);
        Candidate first = unweighted.get(0);
        if (first.fit().isEmpty()) {
            throw first.failure().orElseThrow();
        }
        return new ModelComparison(strip.toString(), weighted(unweighted, first.criterion()));
    }

    private static List<Candidate> weighted(List<Candidate> candidates, double least) {
        double total =
                candidates.stream().mapToDouble(c -> likelihood(c, least)).sum();
        return candidates.stream()
                .map(c -> new Candidate(
                        c.family(), c.fit(), c.criterion(), total == 0 ? 0 : likelihood(c, least) / total, c.failure()))
                .toList();
    }

    private static double likelihood(Candidate candidate, double least) {
        return Double.isInfinite(candidate.criterion()) ? 0 : Math.exp(-0.5 * (candidate.criterion() - least));
    }

    /**
     * Returns the curve with the least AICc.
     *
     * @return the best curve
     */
    public FittedCurve best() {
        return candidates.get(0).fit().orElseThrow();
    }

    /**
     * Returns all families that were tried, the best first, those that failed last.
     *
     * @return the candidates
     */
    public List<Candidate> candidates() {
        return candidates;
    }

    /**
     * Returns the comparison as a table in plain text.
     *
     * @return one line for each family: AICc above the least, weight, residual standard deviation; or why it failed
     */
    @Override
    public String toString() {
        StringBuilder table = new StringBuilder(strip).append('\n');
        for (Candidate candidate : candidates) {
            table.append(String.format(Locale.ROOT, "%-36s", candidate.family()));
            table.append(candidate
                    .fit()
                    .map(fit -> Double.isInfinite(candidate.criterion())
                            ? String.format(
                                    Locale.ROOT,
                                    "too few readings for AICc  residual sd %.4f",
                                    fit.residualStandardDeviation())
                            : String.format(
                                    Locale.ROOT,
                                    "AICc +%.1f  weight %.3f  residual sd %.4f",
                                    Math.max(
                                            0,
                                            candidate.criterion()
                                                    - candidates.get(0).criterion()),
                                    candidate.weight(),
                                    fit.residualStandardDeviation()))
                    .orElseGet(() -> candidate.failure().orElseThrow().getMessage()));
            table.append('\n');
        }
        return table.toString();
    }
}
