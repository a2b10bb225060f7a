// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
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
        // The strip meets the contrast of the standard; its exposures, on which the speed rests, were not measured.
        assertTrue(row.figures().iso6Speed().orElseThrow().conditionsMet());
        assertTrue(measured.rows().get(1).toString().contains("ISO "));
        assertFalse(assumed.toString().contains("ISO "), assumed::toString);
        // The speed is as sure as the stops from the reference: 2 to their power.
        Estimate stops = row.get(STOPS).estimate().orElseThrow();
        Estimate box = row.get(FilmFigure.STOPS_FROM_BOX_SPEED).estimate().orElseThrow();
        assertEquals(stops.standardUncertainty(), box.standardUncertainty(), 1e-4 * box.standardUncertainty());
        StripComparison reference = assumed.rows().get(0);
        assertEquals(speed, reference.get(FilmFigure.EXACT_SPEED).value().orElseThrow(), 1e-4 * speed);
        assertTrue(reference.get(FilmFigure.EXACT_SPEED).estimate().isEmpty());
        assertFalse(reference.get(FilmFigure.AVERAGE_GRADIENT).estimate().isEmpty());
    }

    private static Strip named(String id, String film, Strip strip) {
        Strip.Builder copy = Strip.builder(id).film(film).boxSpeed(100);
        strip.basePlusFogReadings().forEach(density -> copy.basePlusFog(density.value()));
        strip.steps().forEach(step -> step.readings().forEach(density -> copy.reading(step.exposure(), density)));
        return copy.build();
    }

    /** A film of relative exposures stays beside the strip of the reference film that was exposed with it. */
    @Test
    void measuredAndAnchoredStripsCombine() {
        Random random = new Random(4);
        SimulatedFilm film = SimulatedFilm.withShoulder(random);
        Strip reference = named("R", "reference", film.strip("R", 21, 0.01, random));
        Strip other = SimulatedFilm.withShoulder(random).strip("A", 21, 0.01, random);
        Strip again = named("R2", "reference", film.strip("R2", 21, 0.01, random));
        Strip more = SimulatedFilm.withShoulder(random).strip("B", 21, 0.01, random);
        FilmComparison measured = FilmComparison.of(List.of(reference, other), "R");
        FilmComparison elsewhere = FilmComparison.of(List.of(relative(again), relative(more)), "R2");
        assertTrue(assertThrows(IllegalArgumentException.class, () -> measured.combinedWith(elsewhere))
                .getMessage()
                .contains("relative"));
        FilmComparison anchored = elsewhere.withReferenceSpeed(80);
        FilmComparison joined = measured.combinedWith(anchored);

        assertEquals("R", joined.reference().strip().id());
        assertEquals(
                List.of("R", "A", "R2", "B"),
                joined.rows().stream().map(row -> row.figures().strip().id()).toList());
        assertEquals("the reference, reference, is assumed to have a speed of 80", joined.assumption());
        StripComparison beside = joined.rows().get(3);
        assertEquals("R2", beside.reference().strip().id());
        assertEquals(anchored.rows().get(1).get(STOPS), beside.get(STOPS));
        assertTrue(beside.get(STOPS).assumption().isEmpty());
        assertFalse(beside.get(FilmFigure.EXACT_SPEED).assumption().isEmpty());
        assertTrue(joined.rows().get(1).get(FilmFigure.EXACT_SPEED).assumption().isEmpty());
        // Across the two, stops rest on the assumption, and how sure they are is not known.
        Figure across = joined.between("A", "B").get(STOPS);
        assertTrue(across.assumption().contains("speed of 80"), across::toString);
        assertTrue(across.estimate().isEmpty(), across::toString);
        assertTrue(joined.between("B", "R2").get(STOPS).assumption().isEmpty());
        // Strips of one film do not make a mean where one is measured and the other assumed.
        assertEquals(4, joined.films().size());
        assertFalse(
                joined.films().get(3).get(FilmFigure.EXACT_SPEED).assumption().isEmpty());
        assertEquals(beside.get(FilmFigure.EXACT_SPEED), joined.films().get(3).get(FilmFigure.EXACT_SPEED));

        assertThrows(IllegalArgumentException.class, () -> joined.combinedWith(anchored), "a strip twice");
        FilmComparison others = FilmComparison.of(List.of(other), "A");
        assertTrue(assertThrows(IllegalArgumentException.class, () -> measured.combinedWith(others))
                .getMessage()
                .contains("must have one reference film"));
    }

    /** The same speed was assumed of two strips of the reference; each anchors its own session alone. */
    @Test
    void sessionsAnchoredApartMakeNoMean() {
        Random random = new Random(5);
        SimulatedFilm reference = SimulatedFilm.withShoulder(random);
        SimulatedFilm film = SimulatedFilm.withShoulder(random);
        List<FilmComparison> sessions = Stream.of("1", "2")
                .map(session -> FilmComparison.of(
                                List.of(
                                        relative(named("R" + session, "ref", reference.strip("R", 21, 0.01, random))),
                                        relative(named("A" + session, "alder", film.strip("A", 21, 0.01, random)))),
                                "R" + session)
                        .withReferenceSpeed(80))
                .toList();
        List<FilmMean> films = sessions.get(0).combinedWith(sessions.get(1)).films();
        assertEquals(4, films.size());
        for (int i = 0; i < 2; i++) {
            assertEquals(
                    sessions.get(i).rows().get(1).get(FilmFigure.STOPS_FROM_BOX_SPEED),
                    films.get(2 * i + 1).get(FilmFigure.STOPS_FROM_BOX_SPEED));
        }
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
