// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;

class DensitometerCalibrationTest {

    private static List<CalibrationPoint> points(double offset, double slope, double leak, double... densities) {
        return DoubleStream.of(densities)
                .mapToObj(density -> new CalibrationPoint(
                        Estimate.of(density, density == 0 ? 0 : 0.005),
                        Estimate.of(CalibrationSimulation.read(density, offset, slope, leak), 0.001)))
                .toList();
    }

    @ParameterizedTest
    @EnumSource(CalibrationForm.class)
    void findsTheConstantsOfAnInstrumentWithoutNoise(CalibrationForm form) {
        double offset = form.hasOffset() ? -0.013 : 0;
        double leak = form.hasLeak() ? 3e-4 : 0;
        List<CalibrationPoint> points = points(offset, 1.03, leak, 0, 0.9, 2.0, 3.1);

        DensitometerCalibration found = DensitometerCalibration.of(form, points);

        assertEquals(offset, found.offset().value(), 1e-9);
        assertEquals(1.03, found.slope().value(), 1e-9);
        assertEquals(leak, found.leak().value(), 1e-11);
        for (double density : new double[] {0.1, 1.4, 2.9}) {
            double read = CalibrationSimulation.read(density, offset, 1.03, leak);
            assertEquals(density, found.correct(Density.of(read), 0).value(), 1e-8);
        }
        assertTrue(found.misfitProbability().orElse(1) > 0.999);
    }

    /** Two points by hand: b = 2.95/3.02, u_b/b = √(u_r² + b² u_D²)/2.95, and u(1.5) is that share of 1.5. */
    @Test
    void twoPointsGiveTheUncertaintyOfARatio() {
        DensitometerCalibration found = DensitometerCalibration.of(
                CalibrationForm.SLOPE,
                List.of(
                        CalibrationPoint.openGate(Estimate.of(0, 0.001)),
                        new CalibrationPoint(Estimate.of(3.02, 0.01), Estimate.of(2.95, 0.002))));
        double slope = 2.95 / 3.02;
        double share = Math.hypot(0.002, slope * 0.01) / 2.95;

        assertEquals(slope, found.slope().value(), 1e-9);
        assertEquals(slope * share, found.slope().standardUncertainty(), 1e-9);
        assertEquals(1.5 * share, found.uncertaintyAt(1.5, 0), 1e-9);
        assertEquals(Math.hypot(1.5 * share, 0.004 / slope), found.uncertaintyAt(1.5, 0.004), 1e-9);
    }

    @Test
    void saysWhenTheFormDoesNotFit() {
        List<CalibrationPoint> leaking = points(0, 1, 5e-4, 0, 0.6, 1.2, 1.8, 2.4, 3.0);

        assertTrue(DensitometerCalibration.of(CalibrationForm.OFFSET_AND_SLOPE, leaking)
                        .misfitProbability()
                        .orElseThrow()
                < 0.001);
        assertTrue(DensitometerCalibration.of(CalibrationForm.SLOPE, points(0, 1, 0, 1.5))
                .misfitProbability()
                .isEmpty());
    }

    /** The plan before reading promises what the readings then give. */
    @Test
    void aPlanTellsTheUncertaintyBeforehand() {
        List<CalibrationPoint> planned = DoubleStream.of(0, 1.5, 3)
                .mapToObj(density -> CalibrationPoint.planned(
                        Estimate.of(density, density == 0 ? 0 : CalibrationSimulation.CERTIFICATE),
                        CalibrationSimulation.NOISE,
                        CalibrationSimulation.READINGS))
                .toList();
        DensitometerCalibration plan = DensitometerCalibration.of(CalibrationForm.SLOPE_AND_LEAK, planned);
        double[] simulated = CalibrationSimulation.coverages(
                CalibrationForm.SLOPE_AND_LEAK, new double[] {0, 1.5, 3}, 0, 300, new Random(6));

        for (int i = 0; i < 3; i++) {
            double promised = plan.uncertaintyAt(CalibrationSimulation.DENSITIES[i], CalibrationSimulation.NOISE);
            assertEquals(promised, simulated[2 * i], 0.03 * promised);
        }
    }

    @Test
    void intervalsContainTheTruthAsDocumented() {
        double[] three = CalibrationSimulation.coverages(
                CalibrationForm.OFFSET_SLOPE_AND_LEAK, new double[] {0, 1.5, 3}, 2e-4, 1500, new Random(8));
        double[] two =
                CalibrationSimulation.coverages(CalibrationForm.SLOPE, new double[] {0, 3}, 2e-4, 500, new Random(9));

        for (int i = 0; i < 3; i++) {
            assertEquals(0.95, three[2 * i + 1], 0.023, Arrays.toString(three));
        }
        assertTrue(two[3] < 0.02, "two points do not show a leak: " + Arrays.toString(two));
    }

    @Test
    void refusesWhatPointsCannotTell() {
        IllegalArgumentException few = assertThrows(
                IllegalArgumentException.class,
                () -> DensitometerCalibration.of(CalibrationForm.OFFSET_SLOPE_AND_LEAK, points(0, 1, 0, 0, 3)));
        assertTrue(few.getMessage().contains("needs 3 points"), few.getMessage());
        assertThrows(
                NotDeterminableException.class,
                () -> DensitometerCalibration.of(CalibrationForm.OFFSET_AND_SLOPE, points(0, 1, 0, 1.5, 1.5)));
        assertThrows(
                NotDeterminableException.class,
                () -> DensitometerCalibration.of(CalibrationForm.SLOPE, points(0, 1, 0, 0)));
        assertThrows(IllegalArgumentException.class, () -> new CalibrationPoint(Estimate.of(1, 0), Estimate.of(1, 0)));
        DensitometerCalibration found = DensitometerCalibration.of(CalibrationForm.SLOPE, points(0, 1, 0, 0, 3));
        assertThrows(OutsideMeasuredRangeException.class, () -> found.correct(Density.of(3.1), 0));
        assertThrows(IllegalArgumentException.class, () -> found.uncertaintyAt(1, -1));
    }

    private static DensitometerCalibration slopeAndLeak(double clear, double dense) {
        return DensitometerCalibration.of(
                CalibrationForm.SLOPE_AND_LEAK,
                List.of(
                        new CalibrationPoint(Estimate.of(1, 0), Estimate.of(clear, 0.001)),
                        new CalibrationPoint(Estimate.of(3, 0), Estimate.of(dense, 0.002))));
    }

    /** JCGM 100:2008, 5.1.3, note 2: two points give both constants exactly, so that moved readings give their derivatives. */
    @Test
    void constantsHaveTheUncertaintyOfTheReadings() {
        double clear = CalibrationSimulation.read(1, 0, 1.03, 3e-4);
        double dense = CalibrationSimulation.read(3, 0, 1.03, 3e-4);
        double move = 1e-5;
        DensitometerCalibration found = slopeAndLeak(clear, dense);
        DensitometerCalibration[] moved = {
            slopeAndLeak(clear + move, dense),
            slopeAndLeak(clear - move, dense),
            slopeAndLeak(clear, dense + move),
            slopeAndLeak(clear, dense - move)
        };
        double[] leaks =
                Stream.of(moved).mapToDouble(each -> each.leak().value()).toArray();
        double[] slopes =
                Stream.of(moved).mapToDouble(each -> each.slope().value()).toArray();
        double ofLeak = Math.hypot(0.001 * (leaks[0] - leaks[1]), 0.002 * (leaks[2] - leaks[3])) / (2 * move);
        double ofSlope = Math.hypot(0.001 * (slopes[0] - slopes[1]), 0.002 * (slopes[2] - slopes[3])) / (2 * move);

        assertEquals(ofLeak, found.leak().standardUncertainty(), 1e-4 * ofLeak);
        assertEquals(ofSlope, found.slope().standardUncertainty(), 1e-4 * ofSlope);
    }

    @Test
    void correctsAHundredthOrTwoBeyondItsReadings() {
        DensitometerCalibration found = DensitometerCalibration.of(CalibrationForm.SLOPE, points(0, 1, 0, 0.5, 3));
        assertEquals(0.48, found.lowestReading(), 1e-12);
        assertEquals(3.02, found.highestReading(), 1e-12);
        assertEquals(0.485, found.correct(Density.of(0.485), 0).value(), 1e-9);
        assertThrows(OutsideMeasuredRangeException.class, () -> found.correct(Density.of(0.475), 0));
        assertThrows(OutsideMeasuredRangeException.class, () -> found.correct(Density.of(3.025), 0));
    }

    /** T = 10^−D is 1, 0.0316 and 0.001 at D 0, 1.5 and 3. */
    @Test
    void refusesReadingsOfTransmittance() {
        List<CalibrationPoint> light = DoubleStream.of(0, 1.5, 3)
                .mapToObj(density ->
                        new CalibrationPoint(Estimate.of(density, 0), Estimate.of(Math.pow(10, -density), 0.0001)))
                .toList();

        IllegalArgumentException refused = assertThrows(
                IllegalArgumentException.class,
                () -> DensitometerCalibration.of(CalibrationForm.SLOPE_AND_LEAK, light));
        assertEquals(
                "the point at D 3.00 reads 0.001: the printed numbers are those of a firmware in which the transmittance is"
                        + " printed for the density (TRANSMITTANCE); print -log10 of it",
                refused.getMessage());
        IllegalArgumentException percent = assertThrows(
                IllegalArgumentException.class,
                () -> new CalibrationPoint(Estimate.of(1.5, 0.01), Estimate.of(31.6, 0.1)));
        assertEquals(
                "mean reading must be from -0.2 to 6, was 31.6: a percentage, counts or a missing decimal point?",
                percent.getMessage());
    }
}
