// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.PrintExposure;

/**
 * Base plus fog, or any tone of a negative, as printing paper sees it: of the responses that a densitometer offers, the one
 * closest to the paper's.
 *
 * <pre>{@code
 * PrintingChannel film = PrintingChannel.closest(Map.of(VISUAL, Density.of(0.28), STATUS_M_BLUE, Density.of(0.44)));
 * film.finding(); // the base is tinted or stained …
 * film.printExposure(reference);
 * }</pre>
 *
 * <p>Paper answers to blue and, with a safelight, to nothing beyond green. A tinted base or the stain of a developer looks
 * denser to it than to the eye, so that a print exposure from visual densities falls short. Closeness is the overlap of the
 * spectral products, each of unit area, with that of {@link SpectralResponse#TYPE_2 printing density type 2}, which is meant
 * for photographic paper.
 *
 * <p>Immutable and thread safe.
 *
 * @source type 2 as the response of silver halide paper: from memory; overlap as the measure of closeness: the project's own
 */
public final class PrintingChannel {

    /** A difference between two responses above this is a tint or a stain. */
    public static final double TINT_LIMIT = 0.03;

    private static final SpectralResponse PAPER = SpectralResponse.TYPE_2;
    private static final int FROM = 340;
    private static final int TO = 780;

    private final SpectralResponse response;
    private final Density density;
    private final Optional<String> finding;

    private PrintingChannel(SpectralResponse response, Density density, Optional<String> finding) {
        this.response = response;
        this.density = density;
        this.finding = finding;
    }

    /**
     * Returns the channel closest to the response of paper.
     *
     * @param readings one density of one place for each response at hand
     * @return the channel
     * @throws IllegalArgumentException if there is no reading
     */
    public static PrintingChannel closest(Map<SpectralResponse, Density> readings) {
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("no density was given; read the place with one response at least");
        }
        Map<SpectralResponse, Density> ordered = new EnumMap<>(readings);
        SpectralResponse best = ordered.keySet().stream()
                .max(Comparator.comparingDouble(PrintingChannel::closeness))
                .orElseThrow();
        return new PrintingChannel(best, ordered.get(best), finding(best, ordered));
    }

    /**
     * Returns the channel by which the base plus fog of two films can be compared for printing: of the responses by which
     * both were read, the one closest to that of paper.
     *
     * @param negative the film to print
     * @param reference the film whose printing exposure is known
     * @return the channel of the film to print; empty if they have no stated response in common
     */
    public static Optional<PrintingChannel> commonTo(Bracket negative, Bracket reference) {
        Map<SpectralResponse, Density> readings = new TreeMap<>(negative.basePlusFogByResponse());
        readings.keySet().retainAll(reference.basePlusFogByResponse().keySet());
        return readings.isEmpty() ? Optional.empty() : Optional.of(closest(readings));
    }

    /**
     * Returns the change of printing exposure for a difference in base plus fog, by the response closest to that of paper
     * by which both films were read; without a stated response, by the densities as they are.
     *
     * @param negative the film to print
     * @param reference the film whose printing exposure is known
     * @return the change: positive for more exposure
     * @throws NotDeterminableException if the frames of the two were read by different responses or geometries
     */
    public static ExposureInterval forBasePlusFog(Bracket negative, Bracket reference) {
        if (isUnlike(negative.densityResponse(), reference.densityResponse())
                || isUnlike(negative.densityGeometry(), reference.densityGeometry())) {
            throw new NotDeterminableException(
                    Reason.METHOD_NOT_APPLICABLE,
                    "its frames were read by " + kind(negative) + ", those of the reference by " + kind(reference)
                            + "; read both alike");
        }
        Optional<PrintingChannel> channel = commonTo(negative, reference);
        return PrintExposure.forBasePlusFog(
                channel.map(PrintingChannel::density).orElseGet(negative::basePlusFog),
                channel.map(common -> reference.basePlusFogByResponse().get(common.response))
                        .orElseGet(reference::basePlusFog));
    }

    private static boolean isUnlike(Optional<?> one, Optional<?> other) {
        return one.isPresent() && other.isPresent() && !one.equals(other);
    }

    private static String kind(Bracket bracket) {
        List<String> parts = new ArrayList<>();
        bracket.densityResponse().ifPresent(response -> parts.add(response.description()));
        bracket.densityGeometry().ifPresent(geometry -> parts.add(geometry.description()));
        return String.join(", ", parts);
    }

    private static Optional<String> finding(SpectralResponse best, Map<SpectralResponse, Density> readings) {
        if (best == SpectralResponse.VISUAL) {
            return Optional.of(
                    "The density is visual. If the base is tinted or the developer stains, paper sees it denser:"
                            + " read it in blue too before printing by it.");
        }
        Density visual = readings.get(SpectralResponse.VISUAL);
        if (visual == null) {
            return Optional.empty();
        }
        double more = readings.get(best).minus(visual).value();
        if (Math.abs(more) <= TINT_LIMIT) {
            return Optional.empty();
        }
        double stops = Math.abs(ExposureInterval.ofLogUnits(more).stops());
        return Optional.of(String.format(
                Locale.ROOT,
                "The base is tinted or stained: it is %.2f %s in %s than to the eye, so that a print exposure from visual"
                        + " densities is %.1f %s %s.",
                Math.abs(more),
                more > 0 ? "denser" : "lighter",
                best.description(),
                stops,
                stops < 1.05 ? "stop" : "stops",
                more > 0 ? "short" : "long"));
    }

    /** The overlap with the response of paper, from 0 to 1. */
    static double closeness(SpectralResponse response) {
        double shared = 0;
        for (int wavelength = FROM; wavelength <= TO; wavelength += SpectralResponse.WAVELENGTH_STEP) {
            shared += Math.min(
                    response.weight(wavelength) / response.sumOfWeights(),
                    PAPER.weight(wavelength) / PAPER.sumOfWeights());
        }
        return shared;
    }

    /**
     * Returns the response.
     *
     * @return the one closest to paper
     */
    public SpectralResponse response() {
        return response;
    }

    /**
     * Returns the density by that response.
     *
     * @return the density
     */
    public Density density() {
        return density;
    }

    /**
     * Returns what to mind before printing by it.
     *
     * @return a sentence, or nothing
     */
    public Optional<String> finding() {
        return finding;
    }

    /**
     * Returns the change of printing exposure against another negative read in the same way.
     *
     * @param reference the same place of the negative whose exposure is known
     * @return the change: positive for more exposure
     * @throws IllegalArgumentException if the two were read by different responses
     */
    public ExposureInterval printExposure(PrintingChannel reference) {
        if (reference.response != response) {
            throw new IllegalArgumentException("the negative was read in " + response.description()
                    + ", the reference in " + reference.response.description() + "; read both by one response");
        }
        return ExposureInterval.ofLogUnits(density.minus(reference.density).value());
    }

    /**
     * Returns the channel in words.
     *
     * @return the density and the response
     */
    @Override
    public String toString() {
        return density + " " + response.description();
    }
}
