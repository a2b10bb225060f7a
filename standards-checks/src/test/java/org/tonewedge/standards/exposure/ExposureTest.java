package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.LogExposure;

/** What the verification table does not show: refusals, inverses and whole tables. */
class ExposureTest {

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
                camera.atInfinity(4000, 0.004, 8)
                        .minus(camera.closeUp(4000, 0.004, 8, 1))
                        .stops(),
                1e-9);
        FocalPlaneExposure ideal = camera.withTransmittance(1).withVignetting(1).withAngle(0);
        assertEquals(Math.PI / 4, ideal.factor(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> camera.withTransmittance(0));
        assertThrows(IllegalArgumentException.class, () -> camera.withAngle(90));
        assertThrows(IllegalArgumentException.class, () -> camera.atInfinity(4000, 0, 8));
    }

    @Test
    void meterConstantsKeepToTheStandard() {
        ExposureMeter meter = ExposureMeter.withDefaults();
        assertThrows(IllegalArgumentException.class, () -> meter.withReflectedConstant(10));
        assertThrows(IllegalArgumentException.class, () -> meter.withIncidentConstant(600));
        assertEquals(9, meter.withReflectedConstant(14).luminance(8, 1, 100), 0.05);
        assertEquals(192, meter.withIncidentConstant(300).illuminance(8, 1, 100), 1e-9);
    }

    @ParameterizedTest
    @CsvSource({"11, 11.3137", "8, 8", "5.6, 5.6569", "3.5, 3.5636", "13, 12.6992", "1.8, 1.7818"})
    void markedAperturesStandForPowersOfTwo(double marked, double exact) {
        assertEquals(exact, ThirdStops.fNumber(marked), 0.5e-4);
    }

    @ParameterizedTest
    @CsvSource({"60, 64", "125, 128", "250, 256", "15, 16", "50, 50.7968", "40, 40.3175", "1, 1", "13, 12.6992"})
    void markedTimesStandForPowersOfTwo(double marked, double exact) {
        assertEquals(1 / exact, ThirdStops.seconds(1 / marked), 0.5e-4 / exact);
    }

    @Test
    void framesAreAThirdOfAStopApart() {
        List<LogExposure> frames =
                ThirdStops.frames(LogExposure.ofLogLuxSeconds(-3), 4).exposures();
        assertEquals(1, frames.get(3).minus(frames.get(0)).stops(), 1e-9);
        assertEquals(0.1003, frames.get(1).minus(frames.get(0)).logUnits(), 0.5e-4);
    }

    @Test
    void anEffectiveExposureUndoesTheCorrection() {
        LogExposure exposure = LogExposure.ofLogLuxSeconds(-1);
        for (Reciprocity law : List.of(
                Reciprocity.schwarzschild(0.86, 1000),
                Reciprocity.power(0.72538, 1.06559, 80, 1920),
                Reciprocity.additive(0.001766, 80, 1920),
                Reciprocity.tabulated(new double[] {1, 10, 100}, new double[] {1, 15, 300}))) {
            double corrected = law.correctedSeconds(90);
            assertEquals(
                    law.correction(90).logUnits(),
                    exposure.minus(law.effective(exposure, corrected)).logUnits(),
                    1e-9,
                    law.toString());
        }
        // Schwarzschild: E t counts as E t^0.86.
        assertEquals(
                -1 - 0.14 * 2,
                Reciprocity.schwarzschild(0.86, 1000).effective(exposure, 100).value(),
                1e-9);
    }

    @Test
    void aTableIsStraightOnLogarithmicScales() {
        Reciprocity table = Reciprocity.tabulated(new double[] {1, 10, 100}, new double[] {1, 20, 400});
        assertEquals(Math.sqrt(20 * 400), table.correctedSeconds(Math.sqrt(1000)), 1e-9);
        assertEquals(1, table.correction(10).stops(), 1e-9);
    }

    @Test
    void timesOutsideALawAreRefused() {
        Reciprocity table = Reciprocity.tabulated(new double[] {1, 10}, new double[] {1, 20});
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> table.correctedSeconds(11));
        assertTrue(e.getMessage().contains("from 1.00 to 10.00 s, not for 11.0 s"), e.getMessage());
        assertThrows(IllegalArgumentException.class, () -> table.correctedSeconds(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> table.effective(LogExposure.ofLogLuxSeconds(-1), 21));
        assertThrows(
                IllegalArgumentException.class,
                () -> Reciprocity.schwarzschild(0.86, 100).correctedSeconds(0.5));
        assertThrows(
                IllegalArgumentException.class, () -> Reciprocity.tabulated(new double[] {1, 10}, new double[] {2, 2}));
        assertThrows(IllegalArgumentException.class, () -> Reciprocity.tabulated(new double[] {1}, new double[] {1}));
        assertThrows(IllegalArgumentException.class, () -> Reciprocity.schwarzschild(1.1, 100));
        assertThrows(IllegalArgumentException.class, () -> Reciprocity.schwarzschild(0.05, 100));
        IllegalArgumentException shorter = assertThrows(
                IllegalArgumentException.class, () -> Reciprocity.tabulated(new double[] {1, 10}, new double[] {1, 9}));
        assertTrue(
                shorter.getMessage().contains("corrected time 2 must be at least the metered 10.0 s, was 9.0 s"),
                shorter.getMessage());
    }
}
