// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/** What a stated repeatability does to figures of straight lines that are read on steps, by hand. */
class ReadingErrorsTest {

    private static final double DEVIATION = 0.001;

    private static Strip strip(int bases, int readings, int last, DoubleUnaryOperator density) {
        Strip.Builder strip = Strip.builder("A").boxSpeed(100);
        for (int i = 0; i < bases; i++) {
            strip.basePlusFog(0.2);
        }
        for (int i = 0; i <= last; i++) {
            double x = -3.5 + 0.05 * i;
            for (int j = 0; j < readings; j++) {
                strip.reading(LogExposure.ofLogLuxSeconds(x), Density.of(density.applyAsDouble(x)));
            }
        }
        return strip.build();
    }

    private static Estimate estimate(Strip strip, FilmFigure figure, double repeatability) {
        return StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(repeatability)))
                .get(figure)
                .estimate()
                .orElseThrow();
    }

    /**
     * A line of gradient 0.4 from base plus fog at −3 has its speed point on the step at −2.75, and 1.30 farther on another step. An
     * error of either density is 1/0.4 of it in the exposure of the speed point. In the contrast over 1.30 that of base plus fog
     * cancels, and those of the two steps remain. A mean of n readings has 1/√n of the deviation.
     */
    @ParameterizedTest
    @CsvSource({"1, 1", "4, 1", "1, 4", "9, 4"})
    void errorsOfReadingsReachTheFiguresOfALine(int bases, int readings) {
        Strip strip = strip(bases, readings, 60, x -> 0.2 + 0.4 * Math.max(0, x + 3));
        double ofBase = DEVIATION / Math.sqrt(bases);
        double ofStep = DEVIATION / Math.sqrt(readings);
        Estimate speedPoint = estimate(strip, FilmFigure.SPEED_POINT, DEVIATION);
        assertEquals(-2.75, speedPoint.value(), 1e-9);
        double expected = Math.hypot(ofBase, ofStep) / 0.4;
        assertEquals(expected, speedPoint.standardUncertainty(), 0.01 * expected);
        Estimate contrast = estimate(strip, FilmFigure.CONTRAST_OVER_130, DEVIATION);
        assertEquals(0.4 * 1.30, contrast.value(), 1e-9);
        assertEquals(Math.sqrt(2) * ofStep, contrast.standardUncertainty(), 0.02 * ofStep);
        assertEquals(Double.POSITIVE_INFINITY, contrast.degreesOfFreedom());
    }

    @Test
    void readingsWithoutErrorsGiveNone() {
        Strip strip = strip(1, 1, 60, x -> 0.2 + 0.4 * Math.max(0, x + 3));
        Figure exact = StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(0)))
                .get(FilmFigure.SPEED_POINT);
        assertTrue(exact.estimate().isEmpty());
    }

    /** Gradients of 0.6 times the shares at the ends, 0.6 between −3 and −1.5. */
    private static Strip bent(double thin, double dense) {
        return strip(1, 1, 60, x -> 0.7 + 0.6 * (x < -3 ? thin * (x + 3) : x < -1.5 ? x + 3 : 1.5 + dense * (x + 1.5)));
    }

    /**
     * The mean gradient over the last stop, 0.30103, has the uncertainty 0.0012 √2 / 0.30103 = 0.0056, 0.0094 of the greatest, 0.6. A
     * share of 0.79 may then be 0.79 + 1.645 · 0.0094 = 0.805 and is no proof of a bend below 0.8; one of 0.6 is.
     */
    @ParameterizedTest
    @CsvSource({
        "0.79, 0.6, STRAIGHT_LINE_LENGTH, a toe, thin, less",
        "0.6, 0.79, STRAIGHT_LINE_LENGTH, a shoulder, dense, more",
        "0.6, 0.79, SHOULDER_START_DENSITY, a shoulder, dense, more"
    })
    void anEndIsNamedWhereTheReadingsShowIt(
            double thin, double dense, FilmFigure figure, String part, String where, String remedy) {
        String reason = figures(bent(thin, dense)).get(figure).reason();
        assertTrue(reason.contains("the readings do not show " + part + " at 95 %"), reason);
        Matcher share = Pattern.compile("at the " + where + " end is ([0-9.]+) ± ([0-9.]+) .*of the greatest")
                .matcher(reason);
        assertTrue(share.find(), reason);
        // Beside the bends the curve is a little steeper than the lines.
        assertEquals(0.79, Double.parseDouble(share.group(1)), 0.005);
        assertEquals(0.0094, Double.parseDouble(share.group(2)), 0.001);
        assertTrue(reason.contains("must be below 0.80: read steps of " + remedy + " exposure"), reason);
    }

    @Test
    void endsThatTheReadingsShowAreNamed() {
        StripFigures figures = figures(bent(0.6, 0.6));
        for (FilmFigure figure : List.of(FilmFigure.STRAIGHT_LINE_LENGTH, FilmFigure.SHOULDER_START_DENSITY)) {
            assertTrue(
                    figures.get(figure).estimate().isPresent(),
                    figures.get(figure).reason());
        }
        assertEquals(1.5, figures.get(FilmFigure.STRAIGHT_LINE_LENGTH).value().orElseThrow(), 0.3);
    }

    private static StripFigures figures(Strip strip) {
        return StripFigures.of(strip, CurveDrawing.throughReadings(Repeatability.of(0.0012)));
    }

    /** Speed is said once, by its stops; where the readings end is not said at all. */
    @Test
    void differencesAreSaidOnce() {
        StripComparison row = StripComparison.of(
                StripFigures.of(
                        strip(4, 4, 60, x -> 0.2 + 0.5 * Math.max(0, x + 3)),
                        CurveDrawing.throughReadings(Repeatability.of(DEVIATION))),
                StripFigures.of(
                        strip(4, 4, 56, x -> 0.2 + 0.4 * Math.max(0, x + 2.8)),
                        CurveDrawing.throughReadings(Repeatability.of(DEVIATION))));
        List<FilmFigure> said =
                row.differences().stream().map(FigureDifference::figure).toList();
        assertTrue(
                said.containsAll(List.of(
                        FilmFigure.STOPS_FROM_REFERENCE, FilmFigure.CONTRAST_OVER_130, FilmFigure.AVERAGE_GRADIENT)),
                said.toString());
        for (FilmFigure once : List.of(
                FilmFigure.SPEED_POINT,
                FilmFigure.EXACT_SPEED,
                FilmFigure.STOPS_FROM_BOX_SPEED,
                FilmFigure.MAXIMUM_DENSITY)) {
            assertTrue(!said.contains(once), said.toString());
        }
    }
}
