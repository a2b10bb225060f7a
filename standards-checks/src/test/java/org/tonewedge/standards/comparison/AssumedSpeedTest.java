// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/** Relative exposures anchored by an assumed speed of the reference give what absolute ones would, marked as assumed. */
class AssumedSpeedTest {

    private static final FilmFigure STOPS = FilmFigure.STOPS_FROM_REFERENCE;

    private static Strip relative(Strip strip) {
        ExposureAxis axis = ExposureAxis.relativeTo("step 1");
        Strip.Builder copy = Strip.builder(strip.id()).film(strip.film()).boxSpeed(100);
        strip.basePlusFogReadings().forEach(density -> copy.basePlusFog(density.value()));
        strip.steps()
                .forEach(step -> step.readings()
                        .forEach(density ->
                                copy.reading(new LogExposure(step.exposure().value() + 5, axis), density)));
        return copy.build();
    }

    @Test
    void speedsFollowFromTheReference() {
        Random random = new Random(4);
        List<Strip> absolute = List.of(
                SimulatedFilm.withShoulder(random).strip("R", 21, 0.01, random),
                SimulatedFilm.withShoulder(random).strip("A", 21, 0.01, random));
        FilmComparison measured = FilmComparison.of(absolute, "R");
        FilmComparison unanchored = FilmComparison.of(
                absolute.stream().map(AssumedSpeedTest::relative).toList(), "R");
        StripComparison before = unanchored.rows().get(1);
        assertTrue(before.get(FilmFigure.EXACT_SPEED).value().isEmpty());
        double speed = measured.reference().get(FilmFigure.EXACT_SPEED).value().orElseThrow();
        FilmComparison assumed = unanchored.withReferenceSpeed(speed);
        StripComparison row = assumed.rows().get(1);
        for (FilmFigure figure : FilmFigure.values()) {
            Figure found = row.get(figure);
            Figure truth = measured.rows().get(1).get(figure);
            assertEquals(truth.value().isPresent(), found.value().isPresent(), figure.id());
            truth.value()
                    .ifPresent(value -> assertEquals(
                            value, found.value().orElseThrow(), 1e-5 * Math.max(1, Math.abs(value)), figure.id()));
            boolean absoluteOnly = List.of(
                            FilmFigure.SPEED_POINT, FilmFigure.EXACT_SPEED, FilmFigure.STOPS_FROM_BOX_SPEED)
                    .contains(figure);
            assertEquals(absoluteOnly, !found.assumption().isEmpty(), figure.id());
        }
        assertTrue(row.get(FilmFigure.EXACT_SPEED).toString().contains("assumed"));
        assertTrue(assumed.assumption().contains("assumed to have a speed of"));
        // The speed is as sure as the stops from the reference: 2 to their power.
        Estimate stops = row.get(STOPS).estimate().orElseThrow();
        Estimate box = row.get(FilmFigure.STOPS_FROM_BOX_SPEED).estimate().orElseThrow();
        assertEquals(stops.standardUncertainty(), box.standardUncertainty(), 1e-4 * box.standardUncertainty());
        StripComparison reference = assumed.rows().get(0);
        assertEquals(speed, reference.get(FilmFigure.EXACT_SPEED).value().orElseThrow(), 1e-4 * speed);
        assertTrue(reference.get(FilmFigure.EXACT_SPEED).estimate().isEmpty());
        assertFalse(reference.get(FilmFigure.AVERAGE_GRADIENT).estimate().isEmpty());
    }

    @Test
    void whatIsMeasuredIsNotAssumed() {
        Random random = new Random(4);
        Strip strip = SimulatedFilm.withShoulder(random).strip("R", 21, 0.01, random);
        FilmComparison measured = FilmComparison.of(List.of(strip), "R");
        assertTrue(assertThrows(IllegalArgumentException.class, () -> measured.withReferenceSpeed(100))
                .getMessage()
                .contains("is measured"));
        FilmComparison relative = FilmComparison.of(List.of(relative(strip)), "R");
        assertThrows(IllegalArgumentException.class, () -> relative.withReferenceSpeed(0));
    }
}
