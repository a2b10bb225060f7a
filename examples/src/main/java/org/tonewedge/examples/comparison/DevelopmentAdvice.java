package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentException;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.parametric.CurveFitException;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;

/** How a film is to be developed next time, as far as its strips tell. */
final class DevelopmentAdvice {

    private DevelopmentAdvice() {}

    /** Sentences on the development of a strip; none where it has no contrast. */
    static List<String> of(StripComparison row, StripFigures reference, List<Strip> all) {
        Optional<Iso6Contrast> contrast = row.figures().iso6Contrast();
        if (contrast.isEmpty() || contrast.get().contrast().isEmpty()) {
            return List.of();
        }
        List<String> advice = new ArrayList<>();
        advice.add(condition(contrast.get()));
        Strip strip = row.figures().strip();
        List<Strip> times = developedForOtherTimes(strip, all);
        if (times.size() < 2) {
            if (contrast.get().verdict() != Iso6Contrast.Verdict.MET) {
                advice.add(
                        "The strips do not show how much: develop another one for one and a half times as long, or two thirds as"
                                + " long, and add it to the table.");
            }
            return advice;
        }
        try {
            DevelopmentSeries series = DevelopmentSeries.of(times);
            advice.add("For the contrast condition, " + series.changeFor(strip, ContrastTarget.isoContrastCondition())
                    + ".");
            reference.get(FilmFigure.CONTRAST_OVER_130).value().ifPresent(wanted -> {
                if (row.figures() != reference) {
                    ContrastTarget target =
                            ContrastTarget.of("the reference's contrast", ContrastMeasure.RISE_OVER_130, wanted);
                    advice.add("For the contrast of the reference, " + series.changeFor(strip, target) + ".");
                }
            });
        } catch (DevelopmentException | CurveFitException e) {
            advice.add("No time can be given: " + e.getMessage() + ".");
        }
        return advice;
    }

    private static String condition(Iso6Contrast contrast) {
        double rise = contrast.contrast().orElseThrow().value();
        String state = String.format(
                Locale.ROOT, "ΔD over 1.30 is %.2f; an ISO speed requires %.2f ± 0.05", rise, Iso6.CONTRAST.value());
        return switch (contrast.verdict()) {
            case LOW -> state + ": develop longer.";
            case HIGH -> state + ": develop for less time.";
            default -> state + ", which this development gives.";
        };
    }

    /** The strips of the film in the same developer, if their times differ. */
    private static List<Strip> developedForOtherTimes(Strip strip, List<Strip> all) {
        List<Strip> alike = all.stream()
                .filter(other -> other.film().equals(strip.film()))
                .filter(other -> other.processing().time().isPresent())
                .filter(other ->
                        other.processing().developer().equals(strip.processing().developer()))
                .toList();
        long times = alike.stream()
                .map(other -> other.processing().time())
                .distinct()
                .count();
        return times < 2 || !alike.contains(strip) ? List.of() : alike;
    }
}
