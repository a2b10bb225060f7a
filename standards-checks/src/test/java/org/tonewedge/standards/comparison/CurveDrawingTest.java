// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.ExposureSeries;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/** What the figures of a drawing are worth, against simulated truth. */
class CurveDrawingTest {

    private static final double ERROR = 0.01;
    private static final int STEPS = 21;

    /** A slice of {@link FigureCoverage}; a share of 0.95 of 100 lies within 0.89 and 1 but for one time in a hundred. */
    @Test
    @Tag("slow")
    void intervalsOfFittedCurvesContainTheTruthAsOftenAsTheySay() {
        FigureCoverage coverage =
                FigureCoverage.of(CurveDrawing.fitted(), SimulatedFilm.Shape.FAMILY, 100, STEPS, ERROR, 3);
        for (FilmFigure figure : List.of(
                FilmFigure.SPEED_POINT,
                FilmFigure.STOPS_FROM_REFERENCE,
                FilmFigure.CONTRAST_OVER_130,
                FilmFigure.AVERAGE_GRADIENT,
                FilmFigure.CONTRAST_INDEX)) {
            assertEquals(1, coverage.given(figure), 0.02, figure.id());
            assertEquals(0.95, coverage.coverage(figure), 0.06, figure.id());
        }
        // One in twenty may be named without being there.
        assertTrue(coverage.shouldersInvented() <= 0.10, "invented " + coverage.shouldersInvented());
        assertTrue(coverage.shouldersShown() >= 0.95, "shown " + coverage.shouldersShown());
    }

    /** Slices of {@link FigureCoverage}: films that the family does not describe; 0.95 of 60 is 57 ± 1.7. */
    @ParameterizedTest
    @EnumSource(
            value = SimulatedFilm.Shape.class,
            names = {"TWO_LAYERS", "UPSWEPT"})
    @Tag("slow")
    void otherShapesDoNotMislead(SimulatedFilm.Shape shape) {
        FigureCoverage coverage = FigureCoverage.of(CurveDrawing.fitted(), shape, 60, STEPS, ERROR, 4);
        for (FilmFigure figure :
                List.of(FilmFigure.SPEED_POINT, FilmFigure.STOPS_FROM_REFERENCE, FilmFigure.CONTRAST_OVER_130)) {
            assertEquals(1, coverage.given(figure), 0.02, figure.id());
            assertTrue(coverage.coverage(figure) > 0.85, () -> figure.id() + " " + coverage.coverage(figure));
        }
        boolean straight = shape == SimulatedFilm.Shape.TWO_LAYERS;
        for (FilmFigure figure : List.of(FilmFigure.GAMMA, FilmFigure.TOE_LENGTH)) {
            if (straight) {
                assertTrue(coverage.coverage(figure) > 0.85, () -> figure.id() + " " + coverage.coverage(figure));
            } else {
                assertTrue(coverage.invented(figure) < 0.1, () -> figure.id() + " " + coverage.invented(figure));
            }
        }
        assertEquals(0, coverage.bias(FilmFigure.SPEED_POINT), 0.045);
        assertEquals(0, coverage.bias(FilmFigure.CONTRAST_OVER_130), 0.035);
    }

    /** Steps of 31 readings read twice: nothing that the family says of two layers follows them. */
    @Test
    void theVerdictTellsWhichCurveWasDrawn() {
        Random random = new Random(2);
        StripFigures family = StripFigures.of(SimulatedFilm.withShoulder(random).strip("S", 31, 0.004, random));
        assertTrue(
                family.verdict().startsWith("toe, straight line and shoulder, which follows the readings"),
                family::verdict);
        StripFigures layers =
                StripFigures.of(SimulatedFilm.Shape.TWO_LAYERS.film(random).strip("S", 31, 0.004, random));
        assertEquals("monotone smoothing spline, because no family follows the readings", layers.verdict());
        assertTrue(layers.get(FilmFigure.SPEED_POINT).estimate().isPresent());
    }

    /** The spread of each figure over many strips with other errors is what its uncertainty says (JCGM 101:2008, 7). */
    @Test
    @Tag("slow")
    void uncertaintiesThroughReadingsAreTheSpreadOfRepeatedReadings() {
        CurveDrawing drawing = CurveDrawing.throughReadings(Repeatability.of(ERROR));
        SimulatedFilm film = SimulatedFilm.withShoulder(new Random(5));
        Random random = new Random(6);
        List<StripFigures> strips = new ArrayList<>();
        for (int i = 0; i < 400; i++) {
            strips.add(StripFigures.of(film.strip("S", STEPS, ERROR, random), drawing));
        }
        for (FilmFigure figure : List.of(
                FilmFigure.SPEED_POINT,
                FilmFigure.AVERAGE_GRADIENT,
                FilmFigure.CONTRAST_OVER_130,
                FilmFigure.CONTRAST_INDEX)) {
            List<Estimate> estimates = strips.stream()
                    .map(strip -> strip.get(figure).estimate().orElseThrow())
                    .toList();
            double mean =
                    estimates.stream().mapToDouble(Estimate::value).average().orElseThrow();
            double spread = Math.sqrt(estimates.stream()
                            .mapToDouble(each -> (each.value() - mean) * (each.value() - mean))
                            .sum()
                    / 399);
            double stated = Math.sqrt(estimates.stream()
                    .mapToDouble(each -> each.standardUncertainty() * each.standardUncertainty())
                    .average()
                    .orElseThrow());
            // A standard deviation of 400 values is known to 3.5 %; four times that is 14 %.
            assertEquals(1, stated / spread, 0.14, figure.id());
        }
    }

    @Test
    void aCurveThroughReadingsGivesOnlyWhatTheyResolve() {
        Strip strip = SimulatedFilm.withShoulder(new Random(5)).strip("S", 40, 0.001, new Random(7));
        StripFigures coarse = StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(ERROR)));
        for (FilmFigure figure : List.of(
                FilmFigure.GAMMA,
                FilmFigure.TOE_LENGTH,
                FilmFigure.STRAIGHT_LINE_LENGTH,
                FilmFigure.SHOULDER_START_DENSITY)) {
            assertTrue(
                    coarse.get(figure).reason().contains("does not resolve"),
                    coarse.get(figure).reason());
        }
        assertTrue(coarse.get(FilmFigure.AVERAGE_GRADIENT).estimate().isPresent());
        StripFigures fine = StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(0.0005)));
        assertTrue(fine.get(FilmFigure.GAMMA).estimate().isPresent());
        // Two standard deviations of the gradient over 0.301 log units, 2 √2 s / 0.301, are 2 % of 0.6 at s = 0.00128.
        assertTrue(StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(0.0025)))
                .get(FilmFigure.GAMMA)
                .value()
                .isEmpty());
    }

    /** The difference of two films does not carry the error of the reference, which would not change their order. */
    @Test
    void twoFilmsDifferByTheirOwnUncertainties() {
        Random random = new Random(8);
        List<Strip> strips = List.of(
                SimulatedFilm.withShoulder(random).strip("R", 9, 0.02, random),
                SimulatedFilm.withShoulder(random).strip("A", STEPS, ERROR, random),
                SimulatedFilm.withShoulder(random).strip("B", STEPS, ERROR, random));
        FilmComparison comparison = FilmComparison.of(strips, "R");
        StripComparison a = comparison.rows().get(1);
        StripComparison b = comparison.rows().get(2);
        FilmFigure stops = FilmFigure.STOPS_FROM_REFERENCE;
        Estimate between = comparison.between("A", "B").get(stops).estimate().orElseThrow();
        assertEquals(a.get(stops).value().orElseThrow() - b.get(stops).value().orElseThrow(), between.value(), 1e-9);
        assertEquals(
                Math.hypot(
                        a.ownUncertainty(stops).orElseThrow(),
                        b.ownUncertainty(stops).orElseThrow()),
                between.standardUncertainty(),
                1e-9);
        double reference = comparison.rows().get(0).ownUncertainty(stops).orElseThrow();
        assertEquals(
                Math.hypot(a.ownUncertainty(stops).orElseThrow(), reference),
                a.get(stops).estimate().orElseThrow().standardUncertainty(),
                1e-9);
        assertTrue(between.standardUncertainty()
                < a.get(stops).estimate().orElseThrow().standardUncertainty());
        assertThrows(IllegalArgumentException.class, () -> comparison.between("A", "C"));
    }

    @Test
    void missingRepeatabilityIsTheReason() {
        Strip once = Strip.builder("once")
                .basePlusFog(0.2)
                .readings(ExposureSeries.ofLogLuxSeconds(-3, -2.5, -2, -1.5, -1), 0.21, 0.4, 0.7, 1.0, 1.3)
                .build();
        for (CurveDrawing drawing : List.of(
                CurveDrawing.spline(Repeatability.fromRepeats()),
                CurveDrawing.throughReadings(Repeatability.fromRepeats()))) {
            StripFigures figures = StripFigures.of(once, drawing);
            assertTrue(figures.curve().isEmpty());
            assertTrue(figures.get(FilmFigure.GAMMA).reason().contains("no repeat readings"));
        }
        assertTrue(StripFigures.of(once, CurveDrawing.spline(Repeatability.of(0)))
                .get(FilmFigure.GAMMA)
                .reason()
                .contains("must be a finite number above 0"));
    }
}
