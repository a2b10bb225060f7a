// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.tone.SchwarzschildExponent;

/** What the verification table does not show: refusals, inverses and whole tables. */
class ExposureTest {

    private static final CameraSetting SETTING = CameraSetting.of(8, Duration.ofMillis(4));

    @ParameterizedTest
    @CsvFileSource(resources = "iso7589.csv", numLinesToSkip = 3)
    void sensitometricIlluminantsAreSourceTimesLens(
            int nanometres,
            double daylight,
            double sensitometricDaylight,
            double tungsten,
            double sensitometricTungsten,
            double photoflood,
            double sensitometricPhotoflood,
            Double printer) {
        assertEquals(daylight, SensitometricIlluminant.DAYLIGHT.source(nanometres));
        assertEquals(tungsten, SensitometricIlluminant.STUDIO_TUNGSTEN.source(nanometres));
        assertEquals(photoflood, SensitometricIlluminant.PHOTOFLOOD.source(nanometres));
        assertEquals(sensitometricDaylight, SensitometricIlluminant.DAYLIGHT.throughLens(nanometres), 0.005001);
        assertEquals(sensitometricTungsten, SensitometricIlluminant.STUDIO_TUNGSTEN.throughLens(nanometres), 0.005001);
        assertEquals(sensitometricPhotoflood, SensitometricIlluminant.PHOTOFLOOD.throughLens(nanometres), 0.005001);
        if (printer == null) {
            assertThrows(IllegalArgumentException.class, () -> SensitometricIlluminant.printer(nanometres));
        } else {
            assertEquals(printer, SensitometricIlluminant.printer(nanometres), 0.005001);
        }
    }

    @Test
    void wavelengthsBetweenTheTableAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> SensitometricIlluminant.DAYLIGHT.source(555));
        assertThrows(IllegalArgumentException.class, () -> SensitometricIlluminant.DAYLIGHT.source(700));
    }

    @Test
    void closeUpsCostLight() {
        FocalPlaneExposure camera = FocalPlaneExposure.withDefaults();
        // At life size the film is twice as far from the lens: two stops.
        assertEquals(
                2,
                camera.exposure(SETTING, 4000)
                        .minus(camera.withMagnification(1).exposure(SETTING, 4000))
                        .stops(),
                1e-9);
        FocalPlaneExposure ideal = camera.withTransmittance(1).withVignetting(1).withAngle(0);
        assertEquals(Math.PI / 4, ideal.factor(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> camera.withTransmittance(0));
        assertThrows(IllegalArgumentException.class, () -> camera.withAngle(90));
        assertThrows(IllegalArgumentException.class, () -> camera.exposure(SETTING, 0));
        assertThrows(IllegalArgumentException.class, () -> camera.withMagnification(-1));
        assertThrows(IllegalArgumentException.class, () -> CameraSetting.of(8, Duration.ZERO));
        assertThrows(IllegalArgumentException.class, () -> CameraSetting.of(0, Duration.ofSeconds(1)));
        assertEquals("f/8.00, 1/250 s", SETTING.toString());
        assertEquals(
                "f/8.00, 0.40 s", CameraSetting.of(8, Duration.ofMillis(400)).toString());
        assertEquals(
                "f/8.00, 0.70 s", CameraSetting.of(8, Duration.ofMillis(700)).toString());
        assertEquals("f/8.00, 2 s", CameraSetting.of(8, Duration.ofSeconds(2)).toString());
    }

    @Test
    void meterConstantsKeepToTheStandard() {
        ExposureMeter meter = ExposureMeter.withDefaults();
        assertThrows(IllegalArgumentException.class, () -> meter.withReflectedConstant(10));
        assertThrows(IllegalArgumentException.class, () -> meter.withIncidentConstant(600));
        assertEquals(
                9, meter.withReflectedConstant(14).luminance(CameraSetting.of(8, Duration.ofSeconds(1)), 100), 0.05);
        assertEquals(
                192,
                meter.withIncidentConstant(300).illuminance(CameraSetting.of(8, Duration.ofSeconds(1)), 100),
                1e-9);
    }

    @ParameterizedTest
    @CsvSource({"11, 11.3137", "8, 8", "5.6, 5.6569", "3.5, 3.5636", "13, 12.6992", "1.8, 1.7818"})
    void markedAperturesStandForPowersOfTwo(double marked, double exact) {
        assertEquals(exact, StopScale.THIRDS.fNumber(marked), 0.5e-4);
    }

    @ParameterizedTest
    @CsvSource({"60, 64", "125, 128", "250, 256", "15, 16", "50, 50.7968", "40, 40.3175", "1, 1", "13, 12.6992"})
    void markedTimesStandForPowersOfTwo(double marked, double exact) {
        Duration time = StopScale.THIRDS.time(Duration.ofNanos(Math.round(1e9 / marked)));
        assertEquals(1 / exact, time.toNanos() / 1e9, 0.5e-4 / exact);
    }

    /** 2^(n/4) for f-numbers and 2^(n/2) s for times (arithmetic); the marks are common practice, no source. */
    @ParameterizedTest
    @CsvSource({"6.7, 6.7272", "9.5, 9.5137", "4.8, 4.7568", "8, 8", "1.2, 1.1892"})
    void halfStopsHaveAScaleOfTheirOwn(double marked, double exact) {
        assertEquals(exact, StopScale.HALVES.fNumber(marked), 0.5e-4);
        if (exact != 8) {
            IllegalArgumentException e =
                    assertThrows(IllegalArgumentException.class, () -> StopScale.THIRDS.fNumber(marked));
            assertTrue(e.getMessage().contains("scale of half stops"), e.getMessage());
        }
    }

    @ParameterizedTest
    @CsvSource({"90, 90.5097", "45, 45.2548", "180, 181.0193", "350, 362.0387"})
    void halfStopTimesAreNotMovedToAThird(double marked, double exact) {
        Duration dial = Duration.ofNanos(Math.round(1e9 / marked));
        assertEquals(1 / exact, StopScale.HALVES.time(dial).toNanos() / 1e9, 1e-6 / exact);
        assertThrows(IllegalArgumentException.class, () -> StopScale.THIRDS.time(dial));
    }

    @Test
    void framesAreAThirdOfAStopApart() {
        assertEquals(0.5, StopScale.HALVES.step().stops(), 1e-12);
        List<LogExposure> frames =
                StopScale.THIRDS.frames(LogExposure.ofLogLuxSeconds(-3), 4).exposures();
        assertEquals(1, frames.get(3).minus(frames.get(0)).stops(), 1e-9);
        assertEquals(0.1003, frames.get(1).minus(frames.get(0)).logUnits(), 0.5e-4);
    }

    @Test
    void anEffectiveExposureUndoesTheCorrection() {
        LogExposure exposure = LogExposure.ofLogLuxSeconds(-1);
        for (Reciprocity law : List.of(
                Reciprocity.schwarzschild(SchwarzschildExponent.of(0.86), Duration.ofSeconds(1000)),
                Reciprocity.power(0.72538, 1.06559, Duration.ofSeconds(80), Duration.ofSeconds(1920)),
                Reciprocity.additive(0.001766, Duration.ofSeconds(80), Duration.ofSeconds(1920)),
                Reciprocity.tabulated(seconds(1, 10, 100), seconds(1, 15, 300)))) {
            Duration metered = Duration.ofSeconds(90);
            Duration corrected = law.correctedTime(metered);
            assertEquals(
                    law.correction(metered).logUnits(),
                    exposure.minus(law.effective(exposure, corrected)).logUnits(),
                    1e-9,
                    law.toString());
        }
        // Schwarzschild: E t counts as E t^0.86.
        assertEquals(
                -1 - 0.14 * 2,
                Reciprocity.schwarzschild(SchwarzschildExponent.of(0.86), Duration.ofSeconds(1000))
                        .effective(exposure, Duration.ofSeconds(100))
                        .value(),
                1e-9);
    }

    @Test
    void aTableIsStraightOnLogarithmicScales() {
        Reciprocity table = Reciprocity.tabulated(seconds(1, 10, 100), seconds(1, 20, 400));
        assertEquals(Math.sqrt(20 * 400), correctedSeconds(table, Math.sqrt(1000)), 1e-8);
        assertEquals(1, table.correction(Duration.ofSeconds(10)).stops(), 1e-9);
    }

    @Test
    void timesOutsideALawAreRefused() {
        Reciprocity table = Reciprocity.tabulated(seconds(1, 10), seconds(1, 20));
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> table.correctedTime(Duration.ofSeconds(11)));
        assertTrue(e.getMessage().contains("from 1.00 to 10.00 s, not for 11.0 s"), e.getMessage());
        assertThrows(
                IllegalArgumentException.class,
                () -> table.effective(LogExposure.ofLogLuxSeconds(-1), Duration.ofSeconds(21)));
        assertThrows(
                IllegalArgumentException.class,
                () -> Reciprocity.schwarzschild(SchwarzschildExponent.of(0.86), Duration.ofSeconds(100))
                        .correctedTime(Duration.ofMillis(500)));
        assertThrows(IllegalArgumentException.class, () -> Reciprocity.tabulated(seconds(1, 10), seconds(2, 2)));
        assertThrows(IllegalArgumentException.class, () -> Reciprocity.tabulated(seconds(1), seconds(1)));
        assertThrows(
                IllegalArgumentException.class,
                () -> Reciprocity.schwarzschild(SchwarzschildExponent.of(1.1), Duration.ofSeconds(100)));
        assertThrows(
                IllegalArgumentException.class,
                () -> Reciprocity.schwarzschild(SchwarzschildExponent.of(0.05), Duration.ofSeconds(100)));
        IllegalArgumentException shorter = assertThrows(
                IllegalArgumentException.class, () -> Reciprocity.tabulated(seconds(1, 10), seconds(1, 9)));
        assertTrue(
                shorter.getMessage().contains("corrected time 2 must be at least the metered 10.0 s, was 9.0 s"),
                shorter.getMessage());
    }

    /** Beyond what a duration counts. */
    @Test
    void correctedTimesOfMoreThanTenToTheEighteenSecondsAreRefused() {
        SchwarzschildExponent strong = SchwarzschildExponent.of(0.1);
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> Reciprocity.schwarzschild(strong, Duration.ofSeconds(100)));
        assertTrue(e.getMessage().contains("longest corrected time in seconds"), e.getMessage());
        // 50 s to the power 10.
        assertEquals(
                97_656_250_000_000_000.0,
                correctedSeconds(Reciprocity.schwarzschild(strong, Duration.ofSeconds(50)), 50),
                1e4);
    }

    /** Corrected times are rounded to a nanosecond, which must not take them out of the law. */
    @Test
    void theLongestCorrectedTimeIsWithinTheLaw() {
        for (int i = 1; i <= 50; i++) {
            Duration longest = Duration.ofNanos(1_000_000 + 7L * i);
            Reciprocity law = Reciprocity.power(1.1, 0.987, Duration.ofNanos(100_000), longest);
            LogExposure exposure = LogExposure.ofLogLuxSeconds(-1);
            assertEquals(
                    law.correction(longest).logUnits(),
                    exposure.minus(law.effective(exposure, law.correctedTime(longest)))
                            .logUnits(),
                    1e-6);
        }
    }

    private static List<Duration> seconds(double... times) {
        return Arrays.stream(times).mapToObj(ExposureTest::duration).toList();
    }

    private static Duration duration(double seconds) {
        return Duration.ofNanos(Math.round(1e9 * seconds));
    }

    private static double correctedSeconds(Reciprocity law, double metered) {
        Duration time = law.correctedTime(duration(metered));
        return time.getSeconds() + time.getNano() / 1e9;
    }

    /** The segments have different slopes; halfway in the logarithms: √(1 · 20) = 4.472 and √(20 · 600) = 109.545. */
    @Test
    void aTableIsInterpolatedOnItsOwnSegment() {
        Reciprocity table = Reciprocity.tabulated(seconds(1, 10, 100), seconds(1, 20, 600));
        assertEquals(Math.sqrt(20), correctedSeconds(table, Math.sqrt(10)), 1e-8);
        assertEquals(20, correctedSeconds(table, 10), 1e-9);
        assertEquals(Math.sqrt(20 * 600), correctedSeconds(table, Math.sqrt(1000)), 1e-8);
        assertEquals(600, correctedSeconds(table, 100), 1e-9);
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> Reciprocity.tabulated(seconds(1, 10, 10), seconds(1, 20, 600)));
        assertTrue(e.getMessage().contains("time 3 must be above the one before it"), e.getMessage());
        assertThrows(IllegalArgumentException.class, () -> Reciprocity.tabulated(seconds(-1, 10), seconds(1, 20)));
    }

    /** ISO 2720: L = K N²/(t S), E = C N²/(t S). By hand: 16²/(0.01 · 100) = 256; 4096 · 100/12.5 = 2¹⁵. */
    @Test
    void metersAgreeWithTheirDefinition() {
        ExposureMeter meter =
                ExposureMeter.withDefaults().withReflectedConstant(12.5).withIncidentConstant(250);
        CameraSetting sunny = CameraSetting.of(16, Duration.ofMillis(10));
        assertEquals(12.5 * 256, meter.luminance(sunny, 100), 1e-9);
        assertEquals(250 * 256, meter.illuminance(sunny, 100), 1e-9);
        assertEquals(15, meter.exposureValueOfLuminance(4096, 100), 1e-12);
        assertEquals(15, meter.exposureValueOfIlluminance(81_920, 100), 1e-12);
    }

    /**
     * H = q L t / N², q = (π/4) T v cos⁴ θ (the formula of the class). By hand, cos⁴ 60° = 1/16: q = (π/4) 0.5 · 0.8 / 16, and at f/4 and
     * 1/2 s before 400 cd/m² H = 400 · 0.5 / 16 q = 12.5 q, to which flare adds.
     */
    @Test
    void theExposureOfTheFilmByHand() {
        FocalPlaneExposure camera = FocalPlaneExposure.withDefaults()
                .withTransmittance(0.5)
                .withVignetting(0.8)
                .withAngle(60);
        double q = Math.PI / 4 * 0.025;
        assertEquals(q, camera.factor(), 1e-12);
        CameraSetting setting = CameraSetting.of(4, Duration.ofMillis(500));
        assertEquals(Math.log10(12.5 * q), camera.exposure(setting, 400).value(), 1e-12);
        assertEquals(
                Math.log10(12.5 * q + 0.1),
                camera.withFlare(0.1).exposure(setting, 400).value(),
                1e-12);
        assertEquals(
                Math.log10(12.5 * q / 9),
                camera.withMagnification(2).exposure(setting, 400).value(),
                1e-12);
    }

    /** By hand: 100^1.62 = 10^3.24 = 1737.80; 100 + 0.002 · 1737.80 = 103.4756. */
    @Test
    void theAdditiveLawByHand() {
        Reciprocity law = Reciprocity.additive(0.002, Duration.ofSeconds(80), Duration.ofSeconds(1920));
        assertEquals(103.4756, correctedSeconds(law, 100), 1e-4);
        assertEquals("additive law for metered times from 80.00 to 1920.00 s", law.toString());
    }

    @Test
    void aTimeThatIsNoneIsToldByItsPlace() {
        IllegalArgumentException none = assertThrows(
                IllegalArgumentException.class,
                () -> Reciprocity.tabulated(List.of(Duration.ofSeconds(1), Duration.ofSeconds(-10)), seconds(1, 20)));
        assertTrue(none.getMessage().contains("metered time 2 in seconds"), none.getMessage());
    }

    /** The half stops beside f/6.3, a mark of third stops, are 4√2 · 2^(1/4) = 6.727 and 5.657; of thirds beside 6.7, 6.350. */
    @Test
    void aMarkOfTheOtherScaleIsToldWithItsNearest() {
        String half = assertThrows(IllegalArgumentException.class, () -> StopScale.THIRDS.fNumber(6.7))
                .getMessage();
        assertTrue(half.contains("scale of third stops, whose nearest is f/6.3"), half);
        assertTrue(half.contains("read it on the scale of half stops"), half);
        String third = assertThrows(IllegalArgumentException.class, () -> StopScale.HALVES.fNumber(6.3))
                .getMessage();
        assertTrue(third.contains("scale of half stops, whose nearest is f/6.7"), third);
        assertTrue(third.contains("read it on the scale of third stops"), third);
    }
}
