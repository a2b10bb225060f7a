// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripFinding;

/** Strips made from a straight line, whose figures are algebra. */
class FilmComparisonTest {

    private static final double GRADIENT = 0.62;
    private static final CurveDrawing EXACT = CurveDrawing.throughReadings(Repeatability.of(0));

    /** A straight line of a gradient from base plus fog at a log exposure, read every 0.1 log units. */
    private static Strip.Builder line(String id, double base, double start) {
        return sampled(id, base, x -> base + GRADIENT * Math.max(0, x - start));
    }

    private static Strip.Builder sampled(String id, double base, DoubleUnaryOperator density) {
        Strip.Builder strip = Strip.builder(id).boxSpeed(100).basePlusFog(base);
        for (int i = 0; i <= 40; i++) {
            double x = -3.5 + 0.1 * i;
            strip.reading(LogExposure.ofLogLuxSeconds(x), Density.of(density.applyAsDouble(x)));
        }
        return strip;
    }

    @Test
    void figuresOfAStraightLine() {
        StripFigures figures = StripFigures.of(line("A", 0.2, -2.5).build(), EXACT);
        double speedPoint = -2.5 + 0.10 / GRADIENT;
        assertEquals(speedPoint, figures.get(FilmFigure.SPEED_POINT).value().orElseThrow(), 1e-9);
        assertEquals(
                0.8 / Math.pow(10, speedPoint),
                figures.get(FilmFigure.EXACT_SPEED).value().orElseThrow(),
                1e-6);
        assertEquals(
                GRADIENT * 1.30,
                figures.get(FilmFigure.CONTRAST_OVER_130).value().orElseThrow(),
                1e-9);
        assertEquals(GRADIENT, figures.get(FilmFigure.AVERAGE_GRADIENT).value().orElseThrow(), 1e-9);
        assertEquals(GRADIENT, figures.get(FilmFigure.CONTRAST_INDEX).value().orElseThrow(), 1e-9);
        assertEquals(GRADIENT, figures.get(FilmFigure.GAMMA).value().orElseThrow(), 1e-2);
        assertTrue(figures.get(FilmFigure.SHOULDER_START_DENSITY).reason().contains("no shoulder"));
        assertTrue(figures.get(FilmFigure.STRAIGHT_LINE_LENGTH).reason().contains("at least"));
        assertEquals(
                0.2 + GRADIENT * 3.0,
                figures.get(FilmFigure.MAXIMUM_DENSITY).value().orElseThrow(),
                1e-9);
    }

    @Test
    void oneStopFasterAndDenserBase() {
        FilmComparison comparison = FilmComparison.of(
                List.of(
                        line("R", 0.20, -2.5).build(),
                        line("F", 0.50, -2.5 - Math.log10(2)).build()),
                "R",
                EXACT);
        StripComparison faster = comparison.rows().get(1);
        // The kink of the line falls between readings, where the cubic rounds it.
        assertEquals(1, faster.get(FilmFigure.STOPS_FROM_REFERENCE).value().orElseThrow(), 0.02);
        // A density of 0.30 is one stop of printing exposure: 0.30 / log10 2 = 0.9966.
        assertEquals(
                0.30 / Math.log10(2),
                faster.get(FilmFigure.PRINT_STOPS_FROM_REFERENCE).value().orElseThrow(),
                1e-9);
        StripComparison itself = comparison.rows().get(0);
        assertEquals(0, itself.get(FilmFigure.STOPS_FROM_REFERENCE).value().orElseThrow());
        assertEquals(
                0, itself.get(FilmFigure.PRINT_STOPS_FROM_REFERENCE).value().orElseThrow());
    }

    @Test
    @Tag("slow")
    void threadsChangeNeitherOrderNorFigures() {
        List<Strip> strips = IntStream.range(0, 12)
                .mapToObj(i -> line("S" + i, 0.2 + 0.01 * i, -2.5 + 0.02 * i).build())
                .toList();
        ExecutorService workers = Executors.newFixedThreadPool(3);
        try {
            FilmComparison together =
                    FilmComparison.of(strips, "S3", CurveDrawing.throughReadings(Repeatability.of(0.001)), workers);
            assertEquals(
                    FilmComparison.of(strips, "S3", CurveDrawing.throughReadings(Repeatability.of(0.001)))
                            .records(),
                    together.records());
            CurveDrawing broken = CurveDrawing.of(strip -> {
                throw new IllegalStateException("no curve of " + strip.id());
            });
            assertEquals(
                    "no curve of S0",
                    assertThrows(IllegalStateException.class, () -> FilmComparison.of(strips, "S3", broken, workers))
                            .getMessage());
        } finally {
            workers.shutdownNow();
        }
    }

    @Test
    void oneBadStripDoesNotStopTheOthers() {
        Strip dusty = sampled("D", 0.2, x -> x == -3.5 + 0.1 * 20 ? 1.9 : 0.2 + GRADIENT * Math.max(0, x + 2.5))
                .build();
        FilmComparison comparison =
                FilmComparison.of(List.of(line("R", 0.2, -2.5).build(), dusty), "R", EXACT);
        StripFigures figures = comparison.rows().get(1).figures();
        assertTrue(
                figures.get(FilmFigure.EXACT_SPEED).reason().contains("dust"),
                figures.get(FilmFigure.EXACT_SPEED).reason());
        assertTrue(figures.curve().isEmpty());
        assertTrue(figures.get(FilmFigure.BASE_PLUS_FOG).value().isPresent());
        assertTrue(comparison
                .rows()
                .get(1)
                .get(FilmFigure.STOPS_FROM_REFERENCE)
                .value()
                .isEmpty());
        assertTrue(comparison
                .rows()
                .get(0)
                .get(FilmFigure.STOPS_FROM_REFERENCE)
                .value()
                .isPresent());
    }

    @Test
    void aReferenceWithoutASpeedPointIsToldInEveryRow() {
        Strip thin = sampled("R", 0.2, x -> 0.2 + 0.05 * Math.max(0, x + 1)).build();
        FilmComparison comparison =
                FilmComparison.of(List.of(thin, line("A", 0.2, -2.5).build()), "R", EXACT);
        assertTrue(comparison
                .rows()
                .get(1)
                .get(FilmFigure.STOPS_FROM_REFERENCE)
                .reason()
                .contains("the reference lacks it"));
        assertTrue(comparison
                .rows()
                .get(1)
                .figures()
                .get(FilmFigure.EXACT_SPEED)
                .value()
                .isPresent());
    }

    @Test
    void aDrawingThatFailsGivesItsReason() {
        StripFigures figures = StripFigures.of(line("A", 0.2, -2.5).build(), CurveDrawing.of(strip -> {
            throw new NotDeterminableException("no fit for " + strip.id());
        }));
        assertEquals("no fit for A", figures.get(FilmFigure.GAMMA).reason());
    }

    @Test
    void missingBoxSpeedIsAReason() {
        Strip.Builder strip = Strip.builder("A").basePlusFog(0.2);
        for (int i = 0; i < 20; i++) {
            strip.reading(LogExposure.ofLogLuxSeconds(-3 + 0.2 * i), Density.of(0.2 + 0.1 * i));
        }
        assertTrue(StripFigures.of(strip.build(), EXACT)
                .get(FilmFigure.STOPS_FROM_BOX_SPEED)
                .reason()
                .contains("box_speed"));
    }

    @Test
    void unknownReferenceAndMixedAxesAreRefused() {
        List<Strip> strips = List.of(line("A", 0.2, -2.5).build());
        assertTrue(assertThrows(IllegalArgumentException.class, () -> FilmComparison.of(strips, "Z"))
                .getMessage()
                .contains("'Z'"));
        Strip relative = Strip.builder("B")
                .reading(new LogExposure(0, ExposureAxis.relativeTo("frame 1")), Density.of(1))
                .build();
        assertThrows(IllegalArgumentException.class, () -> FilmComparison.of(List.of(strips.get(0), relative), "A"));
    }

    @Test
    void figuresNeedTheirOwnIdentifiers() {
        List<Strip> twice =
                List.of(line("A", 0.2, -2.5).build(), line("A", 0.2, -2.4).build());
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> FilmComparison.of(twice, "A", EXACT));
        assertTrue(e.getMessage().contains("two strips are called 'A'"), e.getMessage());
    }

    /** Readings in the wrong order are not read as a film of falling density. */
    @Test
    void reversedDensitiesGiveNoFigures() {
        Strip reversed =
                sampled("A", 0.2, x -> 0.2 + GRADIENT * Math.max(0, 0.5 - x)).build();
        StripFigures figures = StripFigures.of(reversed, EXACT);
        for (FilmFigure figure : List.of(FilmFigure.SPEED_POINT, FilmFigure.CONTRAST_OVER_130)) {
            assertTrue(figures.get(figure).value().isEmpty(), figure.toString());
            assertEquals(
                    figures.findings().get(0).message(), figures.get(figure).reason());
        }
    }

    /** Exposures entered as if they were logarithms are not read as a film. */
    @Test
    void luxSecondsGiveNoFigures() {
        Strip.Builder strip = Strip.builder("A").basePlusFog(0.2);
        for (int i = 0; i <= 20; i++) {
            strip.reading(LogExposure.ofLogLuxSeconds(Math.pow(10, -2.5 + 0.15 * i)), Density.of(0.2 + 0.08 * i));
        }
        StripFigures figures = StripFigures.of(strip.build(), EXACT);
        assertEquals(
                StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS,
                figures.findings().get(0).kind());
        assertEquals(
                figures.findings().get(0).message(),
                figures.get(FilmFigure.SPEED_POINT).reason());
    }

    @Test
    void basePlusFogThatWasNotReadIsNoted() {
        Strip read = SimulatedFilm.withShoulder(new Random(5)).strip("A", 21, 0.01, new Random(5));
        Strip.Builder unread = Strip.builder("A");
        read.steps().forEach(step -> unread.reading(step.exposure(), step.density()));
        StripFigures figures = StripFigures.of(unread.build());
        assertTrue(figures.get(FilmFigure.SPEED_POINT).value().isPresent());
        assertTrue(
                figures.notes().stream().anyMatch(note -> note.startsWith("base plus fog was not read")),
                figures.notes()::toString);
        assertTrue(StripFigures.of(read).notes().stream()
                .noneMatch(note -> note.startsWith("base plus fog was not read")));
    }

    /** A speed point is a density above base plus fog of the same kind; a difference of densities of two kinds is none. */
    @Test
    void densitiesOfTwoKindsAreNotSetBesideEachOther() {
        Strip reference = line("R", 0.20, -2.5)
                .densityResponse(SpectralResponse.VISUAL)
                .densityGeometry(TransmissionGeometry.DIFFUSE)
                .build();
        Strip blue = line("B", 0.50, -2.5)
                .densityResponse(SpectralResponse.STATUS_M_BLUE)
                .build();
        Strip beam = line("C", 0.50, -2.5)
                .densityGeometry(TransmissionGeometry.SPECULAR)
                .build();
        Strip unstated = line("U", 0.50, -2.5).build();
        FilmComparison comparison = FilmComparison.of(List.of(reference, blue, beam, unstated), "R", EXACT);
        for (StripComparison row : comparison.rows().subList(1, 3)) {
            assertEquals(0, row.get(FilmFigure.STOPS_FROM_REFERENCE).value().orElseThrow(), 1e-9);
            assertTrue(
                    row.get(FilmFigure.PRINT_STOPS_FROM_REFERENCE).reason().contains("of the reference"),
                    row.toString());
            assertTrue(
                    row.differences().stream()
                            .allMatch(difference -> difference.figure() == FilmFigure.STOPS_FROM_REFERENCE),
                    row.differences().toString());
        }
        assertEquals(
                "its densities are status M blue, those of the reference visual",
                comparison.rows().get(1).unlikeDensities().orElseThrow());
        assertTrue(comparison.rows().get(3).unlikeDensities().isEmpty());
        assertTrue(comparison
                .rows()
                .get(3)
                .get(FilmFigure.PRINT_STOPS_FROM_REFERENCE)
                .value()
                .isPresent());
        assertTrue(comparison.films().stream()
                .filter(film -> film.film().equals("B"))
                .allMatch(film ->
                        film.get(FilmFigure.PRINT_STOPS_FROM_REFERENCE).value().isEmpty()));
        assertTrue(comparison.rows().get(1).records().toString().contains("density_response"));
    }
}
