// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;

class StripTest {

    private static LogExposure at(double logExposure) {
        return LogExposure.ofLogLuxSeconds(logExposure);
    }

    private static String refused(org.junit.jupiter.api.function.Executable bad) {
        return assertThrows(IllegalArgumentException.class, bad).getMessage();
    }

    @Test
    void stepsAreSortedAndRepeatsKeptTogether() {
        Strip strip = Strip.builder("S1")
                .reading(at(-1), Density.of(0.9))
                .reading(at(-2), Density.of(0.3))
                .reading(at(-1), Density.of(1.0))
                .build();
        assertEquals(2, strip.steps().size());
        assertEquals(at(-2), strip.steps().get(0).exposure());
        assertEquals(
                List.of(Density.of(0.9), Density.of(1.0)), strip.steps().get(1).readings());
        assertEquals(0.95, strip.steps().get(1).density().value(), 1e-15);
        // Standard deviation of 0.9 and 1.0 with n − 1: 0.1 / √2.
        assertEquals(0.1 / Math.sqrt(2), strip.steps().get(1).repeatability().orElseThrow(), 1e-15);
        assertTrue(strip.steps().get(0).repeatability().isEmpty());
    }

    /** Computed exposures of one step differ in their last digits, as sums and products do. */
    @Test
    void exposuresThatDifferInTheirLastDigitsAreOneStep() {
        Strip.Builder builder = Strip.builder("S1");
        double sum = -3;
        for (int i = 0; i < 21; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.15 * i), Density.of(0.2 + 0.05 * i));
            builder.reading(LogExposure.ofLogLuxSeconds(sum), Density.of(0.21 + 0.05 * i));
            sum += 0.15;
        }
        Strip strip = builder.build();
        assertEquals(21, strip.steps().size());
        assertEquals(2, strip.steps().get(20).readings().size());
    }

    @Test
    void theStripIsNamedByItsIdentifierUntilAFilmIsGiven() {
        assertEquals(
                "S1", Strip.builder("S1").reading(at(-1), Density.of(1)).build().film());
        assertTrue(refused(() -> Strip.builder("  ")).contains("identifier"));
    }

    @Test
    void axesDoNotMixInOneStrip() {
        LogExposure relative = new LogExposure(0, ExposureAxis.relativeTo("frame 1"));
        assertTrue(
                refused(() -> Strip.builder("S1").reading(at(-1), Density.of(1)).reading(relative, Density.of(1)))
                        .contains("'S1'"));
    }

    @Test
    void aStripWithoutExposedReadingsIsRefused() {
        assertTrue(refused(() -> Strip.builder("S1").basePlusFog(0.2).build()).contains("no exposed reading"));
    }

    @Test
    void aTabletIsReadFromEitherEnd() {
        StepTablet tablet = StepTablet.calibrated("T1", 0.05, 0.20, 0.35);
        ExposureSeries fromClear = tablet.exposedAt(at(0), ReadingOrder.FROM_CLEAR_END);
        ExposureSeries fromDense = tablet.exposedAt(at(0), ReadingOrder.FROM_DENSE_END);
        assertEquals(List.of(at(-0.05), at(-0.20), at(-0.35)), fromClear.exposures());
        assertEquals(List.of(at(-0.35), at(-0.20), at(-0.05)), fromDense.exposures());
        Strip one = Strip.builder("S").readings(fromClear, 1.0, 0.8, 0.6).build();
        Strip other = Strip.builder("S").readings(fromDense, 0.6, 0.8, 1.0).build();
        assertEquals(one.steps(), other.steps());
    }

    @Test
    void nominalTabletsHaveEqualIncrements() {
        // 21 steps of 0.15 run over 1024 : 1, 3.010 in log (US Army lesson SS0514); nominally 3.00.
        StepTablet tablet = StepTablet.nominal(21, Density.of(0.05), 0.15);
        ExposureSeries series = tablet.exposedAt(at(0), ReadingOrder.FROM_CLEAR_END);
        assertEquals(
                3.0, series.exposures().get(0).minus(series.exposures().get(20)).logUnits(), 1e-12);
        assertEquals(false, tablet.isCalibrated());
        assertEquals(0.05 + 20 * 0.15, tablet.steps().get(20).density().value(), 1e-12);
    }

    @Test
    void swappedTabletStepsAreNamed() {
        String message = refused(() -> StepTablet.calibrated("T1", 0.05, 0.35, 0.20));
        assertTrue(message.contains("T1") && message.contains("step 3") && message.contains("swapped"), message);
        assertTrue(refused(() -> StepTablet.calibrated("T1", 0.05)).contains("at least 2"));
        assertTrue(refused(() -> StepTablet.calibrated("T1", new double[] {0.1, 0.2}, new double[] {0.003}))
                .contains("1 uncertainties"));
        assertTrue(refused(() -> StepTablet.nominal(1, Density.of(0), 0.15)).contains("2 steps"));
        assertTrue(refused(() -> StepTablet.nominal(11, Density.of(0), -0.3)).contains("increment"));
        assertEquals(
                "density of step 11 of a step tablet must be from 0.05 to 10, was 10.05: are the steps in stops? A stop"
                        + " is a density of 0.301",
                refused(() -> StepTablet.nominal(11, Density.of(0.05), 1)));
    }

    @Test
    void certificatesCarryUncertainty() {
        StepTablet tablet = StepTablet.calibrated("T1", 0.003, new double[] {0.05, 0.20});
        assertEquals(0.003, tablet.steps().get(1).standardUncertainty());
        assertEquals(2, tablet.steps().get(1).number());
    }

    @Test
    void framesAreEquallySpaced() {
        ExposureSeries frames = ExposureSeries.frames(at(-3), ExposureInterval.ofStops(1.0 / 3), 13);
        assertEquals(13, frames.size());
        assertEquals(
                4, frames.exposures().get(12).minus(frames.exposures().get(0)).stops(), 1e-12);
        assertTrue(refused(() -> ExposureSeries.frames(at(-3), ExposureInterval.ZERO, 2))
                .contains("spacing"));
        assertTrue(refused(() -> ExposureSeries.frames(at(-3), ExposureInterval.ofStops(1), 0))
                .contains("1 or more"));
        assertTrue(refused(() -> ExposureSeries.of(List.of())).contains("at least one"));
        LogExposure relative = new LogExposure(-2, ExposureAxis.relativeTo("frame 1"));
        assertTrue(refused(() -> ExposureSeries.of(List.of(at(-3), relative))).contains("in one series"));
        assertEquals(
                List.of(at(-3)),
                ExposureSeries.frames(at(-3), ExposureInterval.ZERO, 1).exposures());
    }

    @Test
    void aMissedStepIsNoticed() {
        ExposureSeries series = ExposureSeries.frames(at(-3), ExposureInterval.ofStops(1), 3);
        String message = refused(() -> Strip.builder("S7").readings(series, 0.2, 0.3));
        assertTrue(message.contains("S7") && message.contains("3 exposures but 2 densities"), message);
    }

    @Test
    void processingKeepsWhatIsKnown() {
        Processing how = Processing.unknown()
                .withDeveloper("demo bath")
                .withMinutes(9.25)
                .withTemperature(Temperature.ofCelsius(20))
                .withAgitation("10 s a minute");
        assertEquals(Duration.ofSeconds(555), how.time().orElseThrow());
        assertEquals("9.25 min at 20.00 °C in demo bath, 10 s a minute", how.toString());
        assertEquals("processing not stated", Processing.unknown().toString());
        assertTrue(refused(() -> Processing.unknown().withMinutes(-8)).contains("-8"));
        assertTrue(refused(() -> Processing.unknown().withMinutes(Double.NaN)).contains("NaN"));
        assertTrue(refused(() -> Processing.unknown().withMinutes(2000)).contains("1440"));
        assertTrue(refused(() -> Processing.unknown().withTime(Duration.ofMinutes(-1)))
                .contains("above 0"));
    }

    @Test
    void boxSpeedIsChecked() {
        assertTrue(refused(() -> Strip.builder("S1").boxSpeed(-100)).contains("-100"));
        assertTrue(refused(() -> Strip.builder("S1").boxSpeed(0)).contains("S1"));
    }
}
