// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.ClosedFormCurve;

/** The development series of ISO 6, on straight lines whose interpolation is plain arithmetic. */
class Iso6SeriesTest {

    private static final Iso6 ISO_6 = Iso6.withDefaults();

    private static CharacteristicCurve line(String name, double contrast, double speedPoint) {
        double gradient = contrast / 1.30;
        return ClosedFormCurve.line(name, 0.20, gradient, speedPoint - 0.10 / gradient);
    }

    private static DevelopedCurve developed(int minutes, double contrast, double speedPoint) {
        return new DevelopedCurve(Duration.ofMinutes(minutes), line(minutes + " min", contrast, speedPoint));
    }

    @Test
    void speedAndTimeAreInterpolatedToTheContrastOfTheStandard() {
        // ΔD 0.80 lies two fifths of the way from 0.70 to 0.95: log Hm −2.00 − 0.4 · 0.10, time 6 + 0.4 · 5 min.
        Iso6SeriesSpeed speed = ISO_6.determine(List.of(
                developed(11, 0.95, -2.10),
                developed(4, 0.50, -1.85),
                developed(6, 0.70, -2.00),
                developed(16, 1.10, -2.15)));
        assertEquals(0.8 / Math.pow(10, -2.04), speed.exact(), 1e-9);
        assertEquals(Duration.ofMinutes(8), speed.developmentTime());
        assertEquals(IsoSpeed.ofDegrees(20), speed.rounded());
        assertTrue(speed.conditionsMet());
        assertEquals(4, speed.contrasts().size());
        assertEquals(4, speed.points().size());
        assertTrue(
                speed.conditions().get(0).found().contains("6 min at 6.00 min with ΔD 0.70"),
                speed.conditions().toString());
        assertEquals("ISO 80/20° (not stated: illuminant, exposure time, hold, storage)", speed.toString());
    }

    @Test
    void aStripOfExactlyTheContrastIsTaken() {
        Iso6SeriesSpeed speed = ISO_6.determine(List.of(developed(6, 0.80, -2.00), developed(9, 0.90, -2.10)));
        assertEquals(Duration.ofMinutes(6), speed.developmentTime());
        assertEquals(-2.00, Math.log10(0.8 / speed.exact()), 1e-9);
    }

    /** The same wherever the sums are rounded: as the shortest and as the longest of the series. */
    @Test
    void aStripOfExactlyTheContrastIsTakenAtEitherEnd() {
        for (int step = 0; step < 50; step++) {
            double point = -2.5 + 0.01 * step;
            DevelopedCurve exact = developed(6, 0.80, point);
            for (DevelopedCurve other : List.of(developed(9, 0.90, point - 0.1), developed(4, 0.70, point + 0.1))) {
                Iso6SeriesSpeed speed = ISO_6.determine(List.of(exact, other));
                assertEquals(Duration.ofMinutes(6), speed.developmentTime());
                assertEquals(point, Math.log10(0.8 / speed.exact()), 1e-9);
            }
        }
    }

    @Test
    void aSeriesOnOneSideSaysHowToDevelop() {
        NotDeterminableException low = assertThrows(
                NotDeterminableException.class,
                () -> ISO_6.determine(List.of(developed(5, 0.50, -1.9), developed(7, 0.70, -2))));
        assertTrue(
                low.getMessage().contains("the longest, 7 min at 7.00 min with ΔD 0.70, is still below"),
                low.getMessage());
        NotDeterminableException high = assertThrows(
                NotDeterminableException.class,
                () -> ISO_6.determine(List.of(developed(5, 0.90, -1.9), developed(7, 1.00, -2))));
        assertTrue(high.getMessage().contains("the shortest, 5 min at"), high.getMessage());
        assertTrue(high.getMessage().contains("is already above; develop one less"), high.getMessage());
    }

    @Test
    void contrastThatFallsWithTimeIsRefused() {
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> ISO_6.determine(List.of(developed(5, 0.90, -1.9), developed(7, 0.70, -2))));
        assertTrue(e.getMessage().contains("swapped strips"), e.getMessage());
        NotDeterminableException equal = assertThrows(
                NotDeterminableException.class,
                () -> ISO_6.determine(List.of(developed(5, 0.70, -2), developed(7, 0.70, -2))));
        assertTrue(equal.getMessage().contains("does not rise"), equal.getMessage());
    }

    @Test
    void badSeriesAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> ISO_6.determine(List.of(developed(5, 0.90, -1.9))));
        assertThrows(
                IllegalArgumentException.class,
                () -> ISO_6.determine(List.of(developed(5, 0.70, -1.9), developed(5, 0.90, -1.9))));
        CharacteristicCurve relative = line("relative", 0.7, -2)
                .anchored(LogExposure.ofLogLuxSeconds(-2), new LogExposure(0, ExposureAxis.relativeTo("frame 1")));
        assertThrows(
                IllegalArgumentException.class,
                () -> ISO_6.determine(
                        List.of(new DevelopedCurve(Duration.ofMinutes(4), relative), developed(5, 0.90, -1.9))));
        CharacteristicCurve shorter =
                line("short", 0.7, -2).restrictedTo(LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(-1));
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> ISO_6.determine(
                        List.of(new DevelopedCurve(Duration.ofMinutes(4), shorter), developed(5, 0.90, -1.9))));
        assertTrue(e.getMessage().startsWith("short: ") && e.getMessage().contains("not measured"), e.getMessage());
    }

    @Test
    void aStripBringsItsOwnTime() {
        Strip.Builder builder = Strip.builder("S01").basePlusFog(0.2);
        for (int i = 0; i < 6; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.3 * i), Density.of(0.2 * i));
        }
        assertThrows(IllegalArgumentException.class, () -> DevelopedCurve.through(builder.build()));
        Strip strip = builder.processing(Processing.unknown().withMinutes(7.5)).build();
        assertEquals(Duration.ofSeconds(450), DevelopedCurve.through(strip).time());
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> new DevelopedCurve(Duration.ofSeconds(-5), line("S02", 0.8, -2)));
        assertTrue(e.getMessage().contains("in seconds") && e.getMessage().contains("-5"), e.getMessage());
    }
}
