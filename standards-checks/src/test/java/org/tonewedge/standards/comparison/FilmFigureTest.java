// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.DoubleSupplier;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.Iso6;

/** Each figure of the list is what its method gives when it is called by name. */
class FilmFigureTest {

    private static final Strip REFERENCE = strip("R", 0.21, -2.0, 0.9);
    private static final Strip STRIP = strip("S", 0.33, -2.4, 0.7);

    /** A curve with toe, straight line and shoulder, no two of whose figures are alike. */
    private static Strip strip(String id, double base, double toe, double steepness) {
        Strip.Builder strip = Strip.builder(id).boxSpeed(160).basePlusFog(base);
        for (int i = 0; i <= 50; i++) {
            double x = -4 + 0.1 * i;
            double density = base
                    + steepness * (Math.log1p(Math.exp(6 * (x - toe))) - Math.log1p(Math.exp(6 * (x - toe - 2.4)))) / 6;
            strip.reading(LogExposure.ofLogLuxSeconds(x), Density.of(density));
        }
        return strip.build();
    }

    private static double speedPoint(Strip strip) {
        return Iso6.withDefaults()
                .contrast(CharacteristicCurve.through(strip))
                .speedPoint()
                .logExposure()
                .value();
    }

    @Test
    void everyFigureIsWhatItsMethodGives() {
        CharacteristicCurve curve = CharacteristicCurve.through(STRIP);
        CurveAnatomy anatomy = CurveAnatomy.of(curve);
        double speed = 0.8 / Math.pow(10, speedPoint(STRIP));
        Map<String, DoubleSupplier> direct = Map.ofEntries(
                Map.entry("base_plus_fog", () -> 0.33),
                Map.entry("d_max", () -> STRIP.steps().get(50).density().value()),
                Map.entry("log_h_m", () -> speedPoint(STRIP)),
                Map.entry("speed_exact", () -> speed),
                Map.entry("stops_vs_box", () -> Math.log(speed / 160) / Math.log(2)),
                Map.entry("stops_vs_reference", () -> (speedPoint(REFERENCE) - speedPoint(STRIP)) / Math.log10(2)),
                Map.entry(
                        "delta_d_1_30",
                        () -> curve.density(speedPoint(STRIP) + 1.30) - curve.density(speedPoint(STRIP))),
                Map.entry(
                        "average_gradient",
                        () -> AverageGradient.withDefaults()
                                .determine(curve)
                                .gradient()
                                .value()),
                Map.entry(
                        "contrast_index",
                        () -> ContrastIndex.withDefaults()
                                .determine(curve)
                                .gradient()
                                .value()),
                Map.entry("gamma", () -> anatomy.gamma().value()),
                Map.entry(
                        "toe_length", () -> anatomy.toe().orElseThrow().length().logUnits()),
                Map.entry(
                        "straight_line_length",
                        () -> anatomy.straightLine().length().logUnits()),
                Map.entry(
                        "shoulder_start_density",
                        () -> anatomy.shoulder()
                                .orElseThrow()
                                .thinEnd()
                                .density()
                                .value()),
                Map.entry("print_stops_vs_reference", () -> (0.33 - 0.21) / Math.log10(2)));
        assertEquals(
                new TreeSet<>(direct.keySet()),
                Arrays.stream(FilmFigure.values()).map(FilmFigure::id).collect(Collectors.toCollection(TreeSet::new)));
        StripComparison row = StripComparison.of(
                StripFigures.of(STRIP, CurveDrawing.throughReadings(Repeatability.of(0))),
                StripFigures.of(REFERENCE, CurveDrawing.throughReadings(Repeatability.of(0))));
        direct.forEach((id, expected) -> {
            FilmFigure figure = FilmFigure.of(id);
            double value = row.get(figure).value().orElseThrow(() -> new AssertionError(id + row.get(figure)));
            assertEquals(expected.getAsDouble(), value, 1e-9 * Math.max(1, Math.abs(value)), id);
            if (!figure.isBesideReference()) {
                assertEquals(row.get(figure).value(), row.figures().get(figure).value(), id);
            }
        });
        // A figure that took another's place would go unseen only if the two were alike.
        List<Double> sorted = direct.values().stream()
                .map(DoubleSupplier::getAsDouble)
                .sorted()
                .toList();
        for (int i = 1; i < sorted.size(); i++) {
            assertTrue(sorted.get(i) - sorted.get(i - 1) > 0.002, sorted.toString());
        }
    }

    @Test
    void identifiersAndHeadingsAreUniqueAndNothingIsLeftUnsaid() {
        assertEquals(
                FilmFigure.values().length,
                Arrays.stream(FilmFigure.values())
                        .map(FilmFigure::heading)
                        .distinct()
                        .count());
        for (FilmFigure figure : FilmFigure.values()) {
            assertTrue(figure.id().matches("[a-z0-9_]+"), figure.id());
            assertEquals(figure, FilmFigure.of(figure.id()));
            assertTrue(figure.definition().endsWith("."), figure.id());
            assertFalse(figure.source().isBlank(), figure.id());
        }
        assertTrue(assertThrows(IllegalArgumentException.class, () -> FilmFigure.of("gama"))
                .getMessage()
                .contains("'gama'"));
    }

    @Test
    void aFigureBesideTheReferenceNeedsOne() {
        StripFigures alone = StripFigures.of(STRIP, CurveDrawing.throughReadings(Repeatability.of(0)));
        assertTrue(assertThrows(IllegalArgumentException.class, () -> alone.get(FilmFigure.STOPS_FROM_REFERENCE))
                .getMessage()
                .contains("StripComparison"));
    }

    /** JCGM 100:2008, 7.2.6: at most two significant digits of the uncertainty, and the figure rounded alike. */
    @Test
    void decimalsFollowTheUncertainty() {
        assertEquals("0.62 ± 0.03", FilmFigure.GAMMA.inWords(Estimate.of(0.6189, 0.031)));
        assertEquals("0.619 ± 0.012", FilmFigure.GAMMA.inWords(Estimate.of(0.6189, 0.0123)));
        assertEquals("+0.3 ± 0.4", FilmFigure.STOPS_FROM_BOX_SPEED.inWords(Estimate.of(0.31, 0.42)));
        assertEquals("\u22120.31 ± 0.05", FilmFigure.STOPS_FROM_REFERENCE.inWords(Estimate.of(-0.31, 0.05)));
        assertEquals("127 ± 5", FilmFigure.EXACT_SPEED.inWords(Estimate.of(127.3, 5.1)));
        assertEquals("0.61890 ± 0.00005", FilmFigure.GAMMA.inWords(Estimate.of(0.6189, 0.00005)));
        assertEquals("130 ± 40", FilmFigure.EXACT_SPEED.inWords(Estimate.of(127.3, 38)));
        assertEquals("0.62", FilmFigure.GAMMA.inWords(Estimate.of(0.6189, 0)));
        assertEquals("0.00", FilmFigure.STOPS_FROM_BOX_SPEED.inWords(-0.001));
        assertEquals("12.5", FilmFigure.EXACT_SPEED.inWords(12.46));
    }

    @Test
    void aSpeedHasThreeDigitsAndStopsHaveASign() {
        assertEquals("127", FilmFigure.EXACT_SPEED.inWords(Estimate.of(127.3, 0)));
        assertEquals("100", FilmFigure.EXACT_SPEED.inWords(100));
        assertEquals("10.0", FilmFigure.EXACT_SPEED.inWords(10));
        assertEquals("6.25", FilmFigure.EXACT_SPEED.inWords(6.25));
        assertEquals("+0.31", FilmFigure.STOPS_FROM_BOX_SPEED.inWords(Estimate.of(0.31, 0)));
        assertEquals("0.00", FilmFigure.STOPS_FROM_BOX_SPEED.inWords(0.001));
        assertEquals("0.31", FilmFigure.GAMMA.inWords(0.31));
    }

    /** Another curve through the same readings changes the speed, and neither base plus fog nor the densest reading. */
    @Test
    void aFigureTellsWhatItIsReadFrom() {
        assertTrue(FilmFigure.EXACT_SPEED.isReadOffCurve());
        assertTrue(FilmFigure.GAMMA.isReadOffCurve());
        assertFalse(FilmFigure.BASE_PLUS_FOG.isReadOffCurve());
        assertFalse(FilmFigure.MAXIMUM_DENSITY.isReadOffCurve());
        assertEquals("stops", FilmFigure.PRINT_STOPS_FROM_REFERENCE.unit());
        assertEquals("log units", FilmFigure.TOE_LENGTH.unit());
        assertEquals(FilmFigure.GAMMA.heading(), FilmFigure.GAMMA.toString());
    }

    @Test
    void theFiguresOfAStripComeWithWhatTheyWereReadFrom() {
        StripFigures figures = StripFigures.of(STRIP, CurveDrawing.throughReadings(Repeatability.of(0)));
        CharacteristicCurve curve = CharacteristicCurve.through(STRIP);
        assertEquals(curve.density(-1.23), figures.curve().orElseThrow().density(-1.23));
        assertEquals(
                figures.get(FilmFigure.EXACT_SPEED).value().orElseThrow(),
                figures.iso6Speed().orElseThrow().exact(),
                1e-9);
        assertEquals(
                figures.get(FilmFigure.GAMMA).value().orElseThrow(),
                figures.anatomy().orElseThrow().gamma().value(),
                1e-9);
        assertEquals(List.of(), figures.notes());
        assertEquals("monotone cubic through the readings", figures.verdict());
        assertTrue(figures.toString().startsWith("S "), figures.toString());
        assertTrue(figures.toString().contains("; average gradient "), figures.toString());
    }

    /** The mean of n readings of standard deviation s has s / √n (JCGM 100:2008, 4.2.3); 0.301 of density is a stop. */
    @Test
    void baseAndGreatestDensityAreAsUncertainAsTheirReadings() {
        Repeatability known = Repeatability.of(0.01);
        StripFigures thin = StripFigures.of(rising("thin", 0.20, 1), CurveDrawing.spline(known));
        StripFigures dense = StripFigures.of(rising("dense", 0.32, 4), CurveDrawing.spline(known));

        assertEquals(0.01, uncertainty(thin, FilmFigure.BASE_PLUS_FOG), 1e-12);
        assertEquals(0.005, uncertainty(dense, FilmFigure.BASE_PLUS_FOG), 1e-12);
        assertEquals(0.01, uncertainty(dense, FilmFigure.MAXIMUM_DENSITY), 1e-12);
        Estimate stops = StripComparison.of(dense, thin)
                .get(FilmFigure.PRINT_STOPS_FROM_REFERENCE)
                .estimate()
                .orElseThrow();
        assertEquals(0.12 / Math.log10(2), stops.value(), 1e-9);
        assertEquals(Math.hypot(0.01, 0.005) / Math.log10(2), stops.standardUncertainty(), 1e-9);
    }

    private static double uncertainty(StripFigures strip, FilmFigure figure) {
        return strip.get(figure).estimate().orElseThrow().standardUncertainty();
    }

    private static Strip rising(String id, double base, int baseReadings) {
        Strip.Builder strip = Strip.builder(id);
        for (int i = 0; i < baseReadings; i++) {
            strip.basePlusFog(base);
        }
        for (int i = 0; i <= 20; i++) {
            double x = 0.15 * i - 3;
            strip.reading(LogExposure.ofLogLuxSeconds(x), Density.of(base + 0.6 * Math.max(0, x + 2)));
        }
        return strip.build();
    }
}
