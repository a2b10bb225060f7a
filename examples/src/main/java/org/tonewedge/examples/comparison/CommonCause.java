// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.examples.command.StripDoubts;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;

/**
 * What the strips of a table have in common that a reader should look at: why none has a result, or what is hard to
 * believe of all. Usually it is one slip in making the table. A fault of single strips is named as common if more than
 * half of the strips have it, and at least three.
 */
final class CommonCause {

    /** Less base plus fog than this was not read off film: no film base is so thin. */
    private static final double THINNEST_BASE = 0.02;

    /** Densities that differ by less show no exposure. */
    private static final double FLAT = 0.05;

    /** No curve has fewer than four steps besides base plus fog. */
    private static final int TOO_FEW_STEPS = 3;

    private static final int FEWEST_FILMS = 3;
    private static final int FEWEST_STRIPS = 3;

    /** So many readings are evenly spaced by no chance. */
    private static final int FEWEST_EVEN = 6;

    private static final double MOST_STOPS = 2;

    /** The scale of nominal speeds begins at 0.8; nobody sells slower film for a camera. */
    private static final double SLOWEST = 0.5;

    private static final double MILLI = 1000;
    /** No film is developed or stored so that it has a thousandth of its box speed, within a factor of this many stops. */
    private static final double OTHER_UNIT_STOPS = 3;

    private CommonCause() {}

    /** A slip that shows in a strip, and what to say of the strips in which it does. */
    private record Cause(Predicate<StripFigures> shows, String words) {}

    private static final Cause NO_BASE = new Cause(
            strip -> strip.strip().basePlusFog().isEmpty(),
            "%s lacks a base-plus-fog reading. Read an unexposed, processed part of each and enter it with an"
                    + " empty exposure.");

    private static final List<Cause> CAUSES = List.of(
            new Cause(
                    strip -> strip.strip().steps().size() <= TOO_FEW_STEPS
                            && strip.get(FilmFigure.EXACT_SPEED).value().isEmpty(),
                    "three exposed steps or fewer were read in %s, which are too few for a curve. Read all steps, from"
                            + " the toe to the densest."),
            new Cause(
                    strip -> has(strip, StripFinding.Kind.DENSITIES_REVERSED) && looksTransmitted(strip.strip()),
                    "in %s density falls with exposure, no reading is above 1, and base plus fog is the greatest, as"
                            + " transmittances are. Enter densities: D = −log10 of the transmittance."),
            new Cause(
                    strip -> isFlat(strip.strip()),
                    "density hardly changes with exposure in %s. Check that the strips were exposed and developed, that"
                            + " film lay in the densitometer's gate, and that readings of different steps were entered."),
            new Cause(
                    strip -> has(strip, StripFinding.Kind.DENSITIES_REVERSED),
                    "density falls with exposure in %s. The exposures probably have the wrong sign, or the tablet was"
                            + " read from the other end: log H is greatest where the film is densest, and under a tablet"
                            + " it is log H without the tablet minus the density of the step. Reversal material has no"
                            + " speed by this method."),
            new Cause(
                    strip -> looksSwapped(strip.strip()),
                    "densities are evenly spaced and exposures are not, in %s. The columns of exposure and density are"
                            + " probably swapped."),
            new Cause(
                    strip -> has(strip, StripFinding.Kind.BELOW_BASE_PLUS_FOG),
                    "there are steps below base plus fog in %s. Look for net densities, for a step whose exposure was"
                            + " left empty, which makes it a base-plus-fog reading, and for swapped columns."));

    /** The cause in words; nothing if a strip has a result. */
    static Optional<String> of(List<StripComparison> rows) {
        if (rows.stream().anyMatch(ComparisonTable::hasResult)) {
            return Optional.empty();
        }
        return Optional.of("No results: "
                + told(NO_BASE, rows, rows.size())
                        .or(() -> shared(rows, rows.size()))
                        .or(() -> shared(rows, most(rows)))
                        .orElse("none of the strips has a speed point. The notes of each strip say why."));
    }

    /** More than half of the strips, and at least three. */
    private static int most(List<StripComparison> rows) {
        return Math.max(FEWEST_STRIPS, rows.size() / 2 + 1);
    }

    /** The first cause that shows in as many strips. */
    private static Optional<String> shared(List<StripComparison> rows, int fewest) {
        return CAUSES.stream()
                .flatMap(cause -> told(cause, rows, fewest).stream())
                .findFirst();
    }

    private static Optional<String> told(Cause cause, List<StripComparison> rows, int fewest) {
        long count = rows.stream()
                .map(StripComparison::figures)
                .filter(cause.shows())
                .count();
        if (count < fewest) {
            return Optional.empty();
        }
        return Optional.of(String.format(Locale.ROOT, cause.words(), which(rows, count)));
    }

    /** What is hard to believe of many strips together, or concerns them all; to be said once on the page. */
    static List<String> cautions(List<StripComparison> rows) {
        List<String> cautions = new ArrayList<>();
        unit(rows, strip -> has(strip, StripFinding.Kind.EXPOSURES_IN_STOPS))
                .map(which ->
                        "The exposures of " + which + " look like stops, not like logarithms: they lie in whole, half"
                                + " or third units, and contrasts come out very low. A stop is 0.301 log units: multiply by 0.301,"
                                + " or enter them in the column stops. If they are right, the film is very soft.")
                .ifPresent(cautions::add);
        unit(rows, CommonCause::looksMilliluxSeconds)
                .map(which -> "The exposures of " + which + " look like logarithms of millilux seconds: speeds come"
                        + " out about a thousand times too slow for the box or for a camera. If so, subtract 3 from each"
                        + " log exposure.")
                .ifPresent(cautions::add);
        boolean otherUnit = !cautions.isEmpty();
        if (rows.stream().anyMatch(ComparisonTable::hasResult)) {
            shared(rows, most(rows))
                    .ifPresent(cause -> cautions.add(Character.toUpperCase(cause.charAt(0)) + cause.substring(1)));
        }
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
        if (!otherUnit && (slower || faster)) {
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
        StripDoubts.overlong(rows.stream().map(row -> row.figures().strip()).toList())
                .ifPresent(cautions::add);
        return cautions;
    }

    /** The strips whose exposures seem to have another unit, in words; nothing if there are none. */
    private static Optional<String> unit(List<StripComparison> rows, Predicate<StripFigures> shows) {
        List<String> ids = rows.stream()
                .map(StripComparison::figures)
                .filter(shows)
                .map(figures -> figures.strip().id())
                .toList();
        if (ids.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                ids.size() == rows.size()
                        ? which(rows, ids.size())
                        : which(rows, ids.size()) + " (" + StripDoubts.named(ids) + ")");
    }

    private static String which(List<StripComparison> rows, long count) {
        return rows.size() == 1
                ? "the only strip"
                : count == rows.size() ? "each of the " + count + " strips" : count + " of " + rows.size() + " strips";
    }

    /**
     * Whether the exposures seem to be logarithms of millilux seconds: the speed is about a thousandth of that on the box
     * or, without one, less than any film for a camera has, and a thousand times as fast it would be ordinary.
     *
     * <p>Without a box speed, right exposures are suspected of every film slower than 0.5. Of 76 strips of the demo films,
     * moved to one speed, 37 are suspected at 0.50, none at 0.55, 0.60, 0.80 and above; exposures in millilux seconds are
     * found in all of them from 0.55 to 400. The command is in {@code MilliluxSimulation} of the tests. Without a box
     * speed nothing is found if the film is faster than 500.
     */
    static boolean looksMilliluxSeconds(StripFigures strip) {
        OptionalDouble speed = strip.get(FilmFigure.EXACT_SPEED).value();
        OptionalDouble fromBox = strip.get(FilmFigure.STOPS_FROM_BOX_SPEED).value();
        if (speed.isEmpty() || has(strip, StripFinding.Kind.EXPOSURES_IN_STOPS)) {
            return false;
        }
        return fromBox.isPresent()
                ? Math.abs(fromBox.getAsDouble() + Math.log(MILLI) / Math.log(2)) < OTHER_UNIT_STOPS
                : speed.getAsDouble() < SLOWEST && MILLI * speed.getAsDouble() >= SLOWEST;
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

    /** Whether densities rise by equal amounts, as the steps of a tablet do, and exposures by unequal ones. */
    private static boolean looksSwapped(Strip strip) {
        double[] densities = strip.steps().stream()
                .flatMap(step -> step.readings().stream())
                .mapToDouble(Density::value)
                .sorted()
                .distinct()
                .toArray();
        double[] exposures = strip.steps().stream()
                .mapToDouble(step -> step.exposure().value())
                .sorted()
                .toArray();
        if (densities.length < FEWEST_EVEN || exposures.length < 2) {
            return false;
        }
        DoubleSummaryStatistics density = gaps(densities);
        DoubleSummaryStatistics exposure = gaps(exposures);
        return density.getMin() > 0.75 * density.getAverage()
                && density.getMax() < 1.25 * density.getAverage()
                && exposure.getMin() < 0.25 * exposure.getAverage();
    }

    private static DoubleSummaryStatistics gaps(double... sorted) {
        return IntStream.range(1, sorted.length)
                .mapToDouble(i -> sorted[i] - sorted[i - 1])
                .summaryStatistics();
    }

    private static boolean has(StripFigures strip, StripFinding.Kind kind) {
        return strip.findings().stream().anyMatch(finding -> finding.kind() == kind);
    }
}
