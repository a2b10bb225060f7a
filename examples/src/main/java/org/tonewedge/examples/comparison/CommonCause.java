// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;

/**
 * What the strips of a table have in common that a reader should look at: why none has a result, or what is hard to
 * believe of all. Usually it is one slip in making the table.
 */
final class CommonCause {

    /** Less base plus fog than this was not read off film: no film base is so thin. */
    private static final double THINNEST_BASE = 0.02;

    /** Densities that differ by less show no exposure. */
    private static final double FLAT = 0.05;

    private static final int FEWEST_FILMS = 3;
    private static final double MOST_STOPS = 2;
    private static final double MOST_MINUTES = 120;

    private CommonCause() {}

    /** The cause in words; nothing if a strip has a result. */
    static Optional<String> of(List<StripComparison> rows) {
        if (rows.stream().anyMatch(ComparisonTable::hasResult)) {
            return Optional.empty();
        }
        String every = rows.size() == 1 ? "the only strip" : "each of the " + rows.size() + " strips";
        if (all(rows, strip -> strip.strip().basePlusFog().isEmpty())) {
            return Optional.of("No results: " + every + " lacks a base-plus-fog reading. Read an unexposed, processed"
                    + " part of each and enter it with an empty exposure.");
        }
        if (all(rows, strip -> has(strip, StripFinding.Kind.DENSITIES_REVERSED) && looksTransmitted(strip.strip()))) {
            return Optional.of(
                    "No results: in " + every + " density falls with exposure, no reading is above 1, and base"
                            + " plus fog is the greatest, as transmittances are. Enter densities: D = −log10 of the transmittance.");
        }
        if (all(rows, strip -> isFlat(strip.strip()))) {
            return Optional.of(
                    "No results: density hardly changes with exposure in " + every + ". Check that the strips"
                            + " were exposed and developed, that film lay in the densitometer's gate, and that readings of different"
                            + " steps were entered.");
        }
        if (all(rows, strip -> has(strip, StripFinding.Kind.DENSITIES_REVERSED))) {
            return Optional.of("No results: density falls with exposure in " + every + ". The exposures probably have"
                    + " the wrong sign, or the tablet was read from the other end: log H is greatest where the film is"
                    + " densest, and under a tablet it is log H without the tablet minus the density of the step."
                    + " Reversal material has no speed by this method.");
        }
        if (all(rows, strip -> has(strip, StripFinding.Kind.BELOW_BASE_PLUS_FOG))) {
            return Optional.of("No results: " + every
                    + " has steps below its base plus fog. Look for net densities, for a step whose"
                    + " exposure was left empty, which makes it a base-plus-fog reading, and for swapped columns.");
        }
        return Optional.of("No results: none of the strips has a speed point. The notes of each strip say why.");
    }

    /** What is hard to believe of many strips together, or concerns them all; to be said once on the page. */
    static List<String> cautions(List<StripComparison> rows) {
        List<String> cautions = new ArrayList<>();
        long without = count(rows, strip -> strip.basePlusFog().isEmpty());
        if (without > 0 && rows.stream().anyMatch(ComparisonTable::hasResult)) {
            cautions.add(without + " of " + rows.size()
                    + (without == 1 ? " strips lacks" : " strips lack")
                    + " a base-plus-fog reading: the fit estimates it from the"
                    + " toe, and speeds are less sure. Read an unexposed, processed part of each.");
        }
        long zero = count(
                rows,
                strip -> strip.basePlusFog().isPresent()
                        && Math.abs(strip.basePlusFog().get().value()) < THINNEST_BASE);
        if (zero > 0 && zero + without == rows.size()) {
            cautions.add("Base plus fog reads about 0.00 on every strip, as if it had been subtracted already, or the"
                    + " densitometer had been zeroed on film. Speeds and contrasts are the same then, but base plus fog,"
                    + " greatest density and print exposure cannot be compared. Enter gross densities, zeroed on the open"
                    + " gate.");
        }
        long stated = count(rows, strip -> strip.densityResponse().isPresent());
        if (stated > 0 && stated < rows.size()) {
            cautions.add(
                    stated + " of " + rows.size()
                            + (stated == 1 ? " strips states" : " strips state")
                            + " by which response densities were read; one that does not is compared as if read like the reference.");
        }
        if (rows.size() > 1
                && count(
                                rows,
                                strip -> strip.densityResponse()
                                        .filter(SpectralResponse.VISUAL::equals)
                                        .isPresent())
                        > 0) {
            cautions.add(
                    "Print exposures come from visual densities. Paper sees a tinted base, or the stain of a developer,"
                            + " denser than the eye does: for such films compare base plus fog read in blue.");
        }
        double[] stops = rows.stream()
                .map(row -> row.get(FilmFigure.STOPS_FROM_BOX_SPEED).value())
                .filter(OptionalDouble::isPresent)
                .mapToDouble(OptionalDouble::getAsDouble)
                .sorted()
                .toArray();
        boolean slower = stops.length >= FEWEST_FILMS && stops[stops.length - 1] < -MOST_STOPS;
        boolean faster = stops.length >= FEWEST_FILMS && stops[0] > MOST_STOPS;
        if (slower || faster) {
            cautions.add(String.format(
                    Locale.ROOT,
                    "All %d strips with a box speed come out more than 2 stops %s than the box, %.1f in the middle: the"
                            + " exposure at the film is probably wrong, by a factor of about %.2g. It is log10 of lux"
                            + " seconds, without the tablet. Stops from the reference do not depend on it.",
                    stops.length,
                    slower ? "slower" : "faster",
                    stops[stops.length / 2],
                    Math.pow(2, Math.abs(stops[stops.length / 2]))));
        }
        List<String> overlong = rows.stream()
                .map(row -> row.figures().strip())
                .filter(strip ->
                        strip.processing().time().stream().anyMatch(time -> time.toMillis() > MOST_MINUTES * 60_000))
                .map(strip -> Checks.shortened(strip.id()))
                .toList();
        if (!overlong.isEmpty()) {
            cautions.add("More than 2 hours of development are stated for "
                    + String.join(", ", overlong.subList(0, Math.min(10, overlong.size())))
                    + (overlong.size() > 10 ? ", …" : "") + ": were these seconds? The column is minutes.");
        }
        return cautions;
    }

    private static long count(List<StripComparison> rows, Predicate<Strip> what) {
        return rows.stream().map(row -> row.figures().strip()).filter(what).count();
    }

    /** Whether readings look like transmittances: at most 1, and greatest where there was no exposure. */
    private static boolean looksTransmitted(Strip strip) {
        double greatest = strip.steps().stream()
                .mapToDouble(step -> step.density().value())
                .max()
                .orElseThrow();
        return greatest <= 1
                && strip.basePlusFog().isPresent()
                && strip.basePlusFog().get().value() <= 1
                && strip.basePlusFog().get().value() > greatest - FLAT;
    }

    private static boolean isFlat(Strip strip) {
        var densities = strip.steps().stream()
                .mapToDouble(step -> step.density().value())
                .summaryStatistics();
        return densities.getMax() - densities.getMin() < FLAT;
    }

    private static boolean all(List<StripComparison> rows, Predicate<StripFigures> cause) {
        return rows.stream().map(StripComparison::figures).allMatch(cause);
    }

    private static boolean has(StripFigures strip, StripFinding.Kind kind) {
        return strip.findings().stream().anyMatch(finding -> finding.kind() == kind);
    }
}
