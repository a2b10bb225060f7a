// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentException;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.parametric.CurveFitException;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;

/** How a film is to be developed next time, as far as its strips tell. Not thread safe. */
final class DevelopmentAdvice {

    private final List<Strip> all;
    private final StripFigures reference;
    /** The series of strips that belong together, each made once. */
    private final Map<List<Strip>, DevelopmentSeries> series = new HashMap<>();

    DevelopmentAdvice(FilmComparison comparison) {
        all = comparison.rows().stream().map(row -> row.figures().strip()).toList();
        reference = comparison.reference();
    }

    /** Sentences on the development of a strip; none where it has no contrast. */
    List<String> of(StripComparison row) {
        Optional<Iso6Contrast> contrast = row.figures().iso6Contrast();
        if (contrast.isEmpty() || contrast.get().contrast().isEmpty()) {
            return List.of();
        }
        List<String> advice = new ArrayList<>();
        advice.add(condition(contrast.get()));
        Strip strip = row.figures().strip();
        List<Strip> times = developedForOtherTimes(strip);
        if (times.size() < 2) {
            if (contrast.get().verdict() != Iso6Contrast.Verdict.MET) {
                advice.add(
                        "The strips do not show how much: develop another one for one and a half times as long, or two thirds as"
                                + " long, and add it to the table.");
            }
            return advice;
        }
        try {
            DevelopmentSeries ofFilm = series.computeIfAbsent(times, DevelopmentSeries::of);
            advice.add("For the contrast condition, " + ofFilm.changeFor(strip, ContrastTarget.isoContrastCondition())
                    + ".");
            reference.get(FilmFigure.CONTRAST_OVER_130).value().ifPresent(wanted -> {
                if (row.figures() != reference) {
                    ContrastTarget target =
                            ContrastTarget.of("the reference's contrast", ContrastMeasure.RISE_OVER_130, wanted);
                    advice.add("For the contrast of the reference, " + ofFilm.changeFor(strip, target) + ".");
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
    private List<Strip> developedForOtherTimes(Strip strip) {
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
