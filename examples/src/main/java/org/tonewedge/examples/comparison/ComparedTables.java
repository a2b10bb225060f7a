// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.command.StripOptions;
import org.tonewedge.standards.comparison.CurveDrawing;
import org.tonewedge.standards.comparison.FilmComparison;

/**
 * Compares the strips of one table or several. Where exposures are relative, each table has a zero of its own; a strip of
 * the reference film in it, whose speed is assumed, combines it with the others.
 */
final class ComparedTables {

    private final StripOptions choice;
    private final String reference;
    private final CurveDrawing drawing;

    /** A comparison with the strip or film of this name. */
    ComparedTables(StripOptions choice, String reference, CurveDrawing drawing) {
        this.choice = choice;
        this.reference = reference;
        this.drawing = drawing;
    }

    /** Compares the strips; the assumed speed of the reference film may be null. */
    FilmComparison compare(List<Strip> strips, Double speed) {
        choice.check(strips);
        Map<ExposureAxis, List<Strip>> byAxis = new LinkedHashMap<>();
        strips.forEach(strip ->
                byAxis.computeIfAbsent(strip.axis(), axis -> new ArrayList<>()).add(strip));
        List<Strip> measured = byAxis.getOrDefault(ExposureAxis.LUX_SECONDS, List.of());
        Strip ofReference = choice.named(measured, reference).orElseGet(() -> choice.find(strips, reference));
        FilmComparison first = compared(byAxis.get(ofReference.axis()), ofReference);
        if (byAxis.size() == 1) {
            return speed == null ? first : first.withReferenceSpeed(speed);
        }
        requireCombinable(ofReference, measured, speed, byAxis);
        FilmComparison all = ofReference.axis().isAbsolute() ? first : first.withReferenceSpeed(speed);
        for (Map.Entry<ExposureAxis, List<Strip>> other : byAxis.entrySet()) {
            if (!other.getKey().equals(ofReference.axis())) {
                Strip own = choice.of(other.getValue(), ofReference.film())
                        .orElseThrow(() -> noReference(other.getKey(), ofReference.film()));
                all = all.combinedWith(
                        FilmComparison.of(other.getValue(), own.id(), drawing).withReferenceSpeed(speed));
            }
        }
        return all;
    }

    /** The comparison of strips on one axis, by all cores. */
    private FilmComparison compared(List<Strip> strips, Strip ofReference) {
        ExecutorService workers =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try {
            return FilmComparison.of(strips, ofReference.id(), drawing, workers);
        } finally {
            workers.shutdownNow();
        }
    }

    private void requireCombinable(
            Strip ofReference, List<Strip> measured, Double speed, Map<ExposureAxis, List<Strip>> byAxis) {
        if (!measured.isEmpty() && !ofReference.axis().isAbsolute()) {
            throw new IllegalArgumentException("the reference, " + ofReference
                    + ", has relative exposures, but other strips have exposures in lux seconds, such as "
                    + measured.get(0) + "; name a strip or film among those as --reference");
        }
        if (speed == null) {
            ExposureAxis relative = byAxis.keySet().stream()
                    .filter(axis -> !axis.isAbsolute())
                    .findFirst()
                    .orElseThrow();
            throw new IllegalArgumentException("exposures of several kinds: those " + relative
                    + " cannot be set beside others; state --reference-speed, the speed that the reference film is assumed"
                    + " to have, or compare each table by itself");
        }
    }

    private static IllegalArgumentException noReference(ExposureAxis axis, String film) {
        return new IllegalArgumentException("no strip of the reference film '" + Checks.shortened(film)
                + "' has exposures " + axis
                + ", so its strips cannot be compared with it; expose a strip of the reference"
                + " film in each session, or leave the table out");
    }
}
