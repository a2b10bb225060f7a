// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Temperature;

/**
 * Fits contrast against time, and against temperature if strips were developed at several.
 *
 * <pre>{@code
 * ContrastFit fit = ContrastFitting.withDefaults().choose(contrasts).best();
 * PredictedTime time = fit.timeFor(ContrastTarget.isoContrastCondition());
 * }</pre>
 *
 * <p>Two strips determine the plain exponential approach exactly; more strips are fitted by least squares, weighted by
 * their stated uncertainties.
 *
 * <p>Default: {@link TemperatureRule#ARRHENIUS}, fitted too if strips were developed at several temperatures.
 *
 * <p>Immutable and thread safe; each {@code with} returns a copy.
 */
final class ContrastFitting {

    /** A time that differs from the median by this factor was given in another unit; common practice, no source. */
    private static final double MIXED_UNITS = 20;

    /** Criteria closer than this are equal except for rounding. */
    private static final double EQUAL_CRITERIA = 1e-6;

    private static final double COVERAGE_FACTOR = 2;

    private static final ContrastFitting DEFAULTS = new ContrastFitting(TemperatureRule.ARRHENIUS, null);

    private final TemperatureRule rule;
    private final TemperatureLaw law;

    private ContrastFitting(TemperatureRule rule, TemperatureLaw law) {
        this.rule = rule;
        this.law = law;
    }

    /**
     * Returns the fitting with its defaults.
     *
     * @return the fitting
     */
    static ContrastFitting withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns this fitting with another rule for temperature, whose parameter is fitted.
     *
     * @param fitted the rule
     * @return a copy
     */
    ContrastFitting with(TemperatureRule fitted) {
        return new ContrastFitting(Objects.requireNonNull(fitted, "fitted"), null);
    }

    /**
     * Returns this fitting with a stated temperature law, taken as exact.
     *
     * @param stated the law
     * @return a copy
     */
    ContrastFitting with(TemperatureLaw stated) {
        return new ContrastFitting(rule, Objects.requireNonNull(stated, "stated"));
    }

    /** The law, if it was stated. */
    Optional<TemperatureLaw> statedLaw() {
        return Optional.ofNullable(law);
    }

    /**
     * Fits one model.
     *
     * @param model the model
     * @param contrasts the contrast of each strip, above 0; with a standard uncertainty for all of them or for none
     * @return the fit
     * @throws DevelopmentException if the strips do not determine it; its {@link DevelopmentException#failure()} says
     *     why
     */
    ContrastFit fit(ContrastModel model, List<DevelopedFigure> contrasts) {
        List<DevelopedFigure> checked = ResponseFit.checked(contrasts);
        requireUsable(checked);
        return fitChecked(model, null, checked);
    }

    /**
     * Fits all models and chooses by Akaike's criterion: χ² + 2 p with stated uncertainties, AICc without. Models with
     * equal criteria, or with too few strips for one, come in the order of {@link ContrastModel}.
     *
     * @param contrasts as in {@link #fit}
     * @return the models with their evidence, best first
     * @throws DevelopmentException if the strips cannot be used, or no model can be fitted
     * @source H. Akaike, IEEE Transactions on Automatic Control 19 (1974), 716–723; C. M. Hurvich and C.-L. Tsai,
     *     Biometrika 76 (1989), 297–307 (both from memory)
     */
    ContrastChoice choose(List<DevelopedFigure> contrasts) {
        return choose(null, contrasts);
    }

    /** The same for contrasts that were all read by one measure; null if none is known. */
    ContrastChoice choose(ContrastMeasure measure, List<DevelopedFigure> contrasts) {
        List<DevelopedFigure> checked = ResponseFit.checked(contrasts);
        requireUsable(checked);
        List<ContrastFit> fits = new ArrayList<>();
        List<String> refusals = new ArrayList<>();
        DevelopmentException first = null;
        for (ContrastModel model : ContrastModel.values()) {
            try {
                fits.add(fitChecked(model, measure, checked));
            } catch (DevelopmentException e) {
                first = first == null ? e : first;
                refusals.add(model + ": " + e.getMessage());
            }
        }
        if (fits.isEmpty()) {
            throw Objects.requireNonNull(first);
        }
        // The sort is stable, so equals keep the order of the models.
        fits.sort(Comparator.comparingDouble(fit -> Double.isInfinite(fit.informationCriterion())
                ? Double.POSITIVE_INFINITY
                : Math.rint(fit.informationCriterion() / EQUAL_CRITERIA)));
        return ContrastChoice.of(fits, refusals);
    }

    private ContrastFit fitChecked(ContrastModel model, ContrastMeasure measure, List<DevelopedFigure> contrasts) {
        if (model == ContrastModel.MONOTONE_INTERPOLATION) {
            requireInterpolable(contrasts);
        }
        if (model == ContrastModel.EXPONENTIAL && contrasts.size() == 2) {
            requireCeiling(contrasts);
        }
        ResponseFit fit = ResponseFit.of(contrasts, model::response, warp(contrasts), model.toString());
        requireInside(model, fit);
        return new ContrastFit(model, measure, fit, BeyondTested.REFUSE);
    }

    private RateWarp warp(List<DevelopedFigure> contrasts) {
        Temperature reference = ResponseFit.reference(contrasts);
        if (law != null && reference != null) {
            return RateWarp.stated(reference, law);
        }
        return ResponseFit.temperatures(contrasts).size() > 1
                ? RateWarp.fitted(reference, rule)
                : RateWarp.none(reference);
    }

    private static void requireUsable(List<DevelopedFigure> contrasts) {
        for (DevelopedFigure contrast : contrasts) {
            if (!(contrast.value() > 0)) {
                throw new DevelopmentException(
                        DevelopmentFailure.UNUSABLE_STRIPS,
                        contrast + ": contrast must be above 0; look for swapped steps or a reversing material");
            }
        }
        requireTimes(contrasts);
        requireOneUnit(contrasts);
        requireGrowth(contrasts);
    }

    private static void requireTimes(List<DevelopedFigure> contrasts) {
        if (contrasts.size() == 1) {
            throw new DevelopmentException(
                    DevelopmentFailure.ONE_TIME,
                    contrasts.get(0)
                            + " is the only strip, and one time says nothing about another: develop at least one"
                            + " strip for a time about twice as long or half as long");
        }
        boolean two = contrasts.stream()
                .anyMatch(a -> contrasts.stream()
                        .anyMatch(b -> a.temperature().equals(b.temperature())
                                && !a.time().equals(b.time())));
        if (!two) {
            throw new DevelopmentException(
                    DevelopmentFailure.EQUAL_TIMES,
                    "no two strips were developed for different times at one temperature: "
                            + ResponseFit.names(contrasts)
                            + "; develop one for a time about twice as long or half as long");
        }
    }

    private static void requireOneUnit(List<DevelopedFigure> contrasts) {
        double[] sorted = contrasts.stream()
                .mapToDouble(DevelopedFigure::minutes)
                .sorted()
                .toArray();
        // Of two times the longer counts as the doubtful one, since seconds taken for minutes are the usual slip.
        double median = sorted[(sorted.length - 1) / 2];
        for (DevelopedFigure contrast : contrasts) {
            double ratio = contrast.minutes() / median;
            if (ratio >= MIXED_UNITS || ratio <= 1 / MIXED_UNITS) {
                throw new DevelopmentException(
                        DevelopmentFailure.MIXED_UNITS,
                        contrast + ", while the other strips had about "
                                + DevelopmentTimes.inWords(DevelopmentTimes.ofMinutes(median))
                                + ": were seconds given as minutes, or minutes as seconds? Taken as the other unit it"
                                + " would be "
                                + DevelopmentTimes.inWords(DevelopmentTimes.ofMinutes(
                                        ratio > 1 ? contrast.minutes() / 60 : contrast.minutes() * 60)));
            }
        }
    }

    private static void requireGrowth(List<DevelopedFigure> contrasts) {
        for (DevelopedFigure shorter : contrasts) {
            for (DevelopedFigure longer : contrasts) {
                double u = Math.hypot(
                        shorter.standardUncertainty().orElse(0),
                        longer.standardUncertainty().orElse(0));
                if (shorter.temperature().equals(longer.temperature())
                        && shorter.time().compareTo(longer.time()) < 0
                        && longer.value() < shorter.value() - COVERAGE_FACTOR * u) {
                    throw falls(shorter, longer);
                }
            }
        }
    }

    private static DevelopmentException falls(DevelopedFigure shorter, DevelopedFigure longer) {
        return new DevelopmentException(
                DevelopmentFailure.CONTRAST_FALLS,
                "contrast falls with time, by " + Figures.plain(shorter.value() - longer.value()) + ", from " + shorter
                        + " to " + longer
                        + ": look for swapped strips, a wrong time or temperature, or exhausted developer");
    }

    private static void requireInterpolable(List<DevelopedFigure> contrasts) {
        List<Temperature> temperatures = ResponseFit.temperatures(contrasts);
        if (temperatures.size() > 1) {
            throw new DevelopmentException(
                    DevelopmentFailure.NOT_DETERMINED,
                    "interpolation needs strips at one temperature, they were developed at " + temperatures.size()
                            + " temperatures");
        }
        DevelopedFigure before = null;
        double meanBefore = 0;
        for (DevelopedFigure contrast : contrasts.stream()
                .sorted(Comparator.comparing(DevelopedFigure::time))
                .toList()) {
            double mean = contrasts.stream()
                    .filter(other -> other.time().equals(contrast.time()))
                    .mapToDouble(DevelopedFigure::value)
                    .average()
                    .orElseThrow();
            if (before != null && !before.time().equals(contrast.time()) && !(mean > meanBefore)) {
                throw falls(before, contrast);
            }
            before = contrast;
            meanBefore = mean;
        }
    }

    private static void requireCeiling(List<DevelopedFigure> contrasts) {
        List<DevelopedFigure> sorted = contrasts.stream()
                .sorted(Comparator.comparing(DevelopedFigure::time))
                .toList();
        DevelopedFigure shorter = sorted.get(0);
        DevelopedFigure longer = sorted.get(1);
        String found = "contrast is " + Figures.plain(shorter.value()) + " after "
                + DevelopmentTimes.inWords(shorter.time()) + " and " + Figures.plain(longer.value()) + " after "
                + DevelopmentTimes.inWords(longer.time());
        if (!(longer.value() > shorter.value())) {
            throw new DevelopmentException(
                    DevelopmentFailure.CONTRAST_FALLS,
                    found + ": it must grow with time; look for swapped strips, exhausted developer or a wrong time");
        }
        if (!(longer.value() < shorter.value() * longer.minutes() / shorter.minutes())) {
            throw new DevelopmentException(
                    DevelopmentFailure.NO_CEILING,
                    found + ": it grows as fast as time or faster, so no ceiling is seen; develop a strip still longer,"
                            + " and with three strips fit an induction time");
        }
    }

    private static void requireInside(ContrastModel model, ResponseFit fit) {
        if (model == ContrastModel.LOGARITHMIC && !(fit.parameter(1) > 0)) {
            throw new DevelopmentException(
                    DevelopmentFailure.CONTRAST_FALLS,
                    "contrast does not grow with time: " + ResponseFit.names(fit.figures()));
        }
        boolean exponential = model == ContrastModel.EXPONENTIAL || model == ContrastModel.EXPONENTIAL_WITH_INDUCTION;
        if (exponential && fit.isHeld(1)) {
            boolean slow = fit.parameter(1) * fit.longest() < 1;
            throw new DevelopmentException(
                    slow ? DevelopmentFailure.NO_CEILING : DevelopmentFailure.NOT_DETERMINED,
                    (slow
                                    ? "contrast grows as fast as time or faster, so no ceiling is seen: "
                                    : "contrast no longer grows over the tested times: ")
                            + ResponseFit.names(fit.figures())
                            + (slow ? "; develop a strip still longer" : "; develop a strip for less time"));
        }
    }

    /**
     * Returns the fitting in words.
     *
     * @return how temperature is treated
     */
    @Override
    public String toString() {
        return "temperature by "
                + Optional.ofNullable(law).map(TemperatureLaw::toString).orElse(rule.toString());
    }
}
