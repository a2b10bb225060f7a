// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6;
import picocli.CommandLine.Option;

/**
 * Which strip stands for a film that has several, for every program: the one named on the command line, or the one developed
 * as near as any to the time that the contrast condition recommends.
 */
public final class StripOptions {

    @Option(
            names = "--strip",
            paramLabel = "FILM=ID",
            description =
                    "the strip to use for a film with several (default: the one whose contrast is nearest 0.80 over 1.30);"
                            + " may be repeated")
    private Map<String, String> named = new LinkedHashMap<>();

    private final List<String> choices = new ArrayList<>();

    /** Leaves the options to the command line. */
    public StripOptions() {}

    /**
     * Refuses names that are not in a table.
     *
     * @param strips the strips of the table
     * @throws IllegalArgumentException if {@code --strip} names a film or a strip of it that is not there
     */
    public void check(List<Strip> strips) {
        named.forEach((film, id) -> {
            List<Strip> own = ofFilm(strips, film);
            if (own.stream().noneMatch(strip -> strip.id().equals(id))) {
                throw new IllegalArgumentException("--strip " + film + "=" + id + ": "
                        + (own.isEmpty()
                                ? "there is no film '" + film + "'; there are " + films(strips)
                                : "film '" + film + "' has no strip '" + id + "'; it has " + ids(own)));
            }
        });
    }

    /**
     * Finds a strip by its identifier, or the one that stands for a film by its label.
     *
     * @param strips the strips
     * @param name the identifier or label
     * @return the strip
     * @throws IllegalArgumentException if neither a strip nor a film is called so
     */
    public Strip find(List<Strip> strips, String name) {
        return named(strips, name)
                .orElseThrow(() -> new IllegalArgumentException("there is no strip or film '" + Checks.shortened(name)
                        + "'; there are strips " + ids(strips) + " of films " + films(strips)));
    }

    /**
     * Finds a strip by its identifier, or the one that stands for a film by its label, if there is one.
     *
     * @param strips the strips
     * @param name the identifier or label
     * @return the strip; nothing if neither a strip nor a film is called so
     */
    public Optional<Strip> named(List<Strip> strips, String name) {
        return strips.stream()
                .filter(strip -> strip.id().equals(name))
                .findFirst()
                .or(() -> of(strips, name));
    }

    /**
     * Returns the strip that stands for a film.
     *
     * @param strips the strips
     * @param film the label of the film
     * @return the strip; nothing if the film has none
     */
    public Optional<Strip> of(List<Strip> strips, String film) {
        List<Strip> own = ofFilm(strips, film);
        if (own.size() < 2) {
            return own.stream().findFirst();
        }
        if (named.containsKey(film)) {
            return own.stream()
                    .filter(strip -> strip.id().equals(named.get(film)))
                    .findFirst();
        }
        Strip nearest = own.stream()
                .min(Comparator.comparingDouble(StripOptions::fromCondition))
                .orElseThrow();
        choices.add(String.format(
                Locale.ROOT,
                "Film '%s' has %d strips; '%s' (%s) is used, because its contrast is nearest the %.2f over 1.30 of ISO 6."
                        + " Choose another with --strip.",
                film,
                own.size(),
                nearest.id(),
                nearest.processing(),
                Iso6.CONTRAST.value()));
        return Optional.of(nearest);
    }

    /** How far a strip's contrast lies from the condition; infinitely far where it has none. */
    private static double fromCondition(Strip strip) {
        return StripFigures.of(strip).get(FilmFigure.CONTRAST_OVER_130).value().stream()
                .map(contrast -> Math.abs(contrast - Iso6.CONTRAST.value()))
                .findFirst()
                .orElse(Double.POSITIVE_INFINITY);
    }

    /**
     * Returns which choices were made that nobody asked for.
     *
     * @return a sentence for each film, to be said on the page
     */
    public List<String> choices() {
        return choices.stream().distinct().toList();
    }

    private static List<Strip> ofFilm(List<Strip> strips, String film) {
        return strips.stream().filter(strip -> strip.film().equals(film)).toList();
    }

    private static String ids(List<Strip> strips) {
        return String.join(
                ", ",
                strips.stream().map(Strip::id).map(Checks::shortened).limit(50).toList());
    }

    private static String films(List<Strip> strips) {
        return String.join(
                ", ",
                strips.stream()
                        .map(Strip::film)
                        .distinct()
                        .map(Checks::shortened)
                        .limit(50)
                        .toList());
    }
}
