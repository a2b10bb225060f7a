// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/** Tables of few cells on curves whose interpolation follows from a formula, worked by hand. */
class CurveTablesTest {

    private static final CurveForm PARABOLA = CurveForm.of(x -> (x + 3) * (x + 3) / 4, x -> (x + 3) / 2);

    private static CharacteristicCurve curve(CurveForm form, double from, double to) {
        return CharacteristicCurve.of(
                "by formula", form, LogExposure.ofLogLuxSeconds(from), LogExposure.ofLogLuxSeconds(to), Density.of(0));
    }

    /** The cubic with the values and slopes of x⁴ at the ends of a cell of width h is x⁴ − (t (1 − t))² h⁴: h⁴/16 off midway. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 16})
    void aTableOfAFourthPowerIsOffByASixteenthOfItsCell(int cells) {
        CurveForm quartic = CurveForm.of(x -> 0.2 + Math.pow(x + 3, 4) / 40, x -> Math.pow(x + 3, 3) / 10);
        CurveTable table = CurveTable.of(curve(quartic, -3, 0), cells);
        double h = 3.0 / cells;
        assertEquals(Math.pow(h, 4) / 16 / 40, table.greatestDifference(), 1e-12);
        double middle = -3 + 0.5 * h;
        assertEquals(quartic.density(middle) - Math.pow(h, 4) / 16 / 40, table.density(middle), 1e-12);
        for (int k = 0; k <= cells; k++) {
            assertEquals(quartic.density(-3 + k * h), table.density(-3 + k * h), 1e-12);
        }
    }

    /** Values up to 1e-9 beyond the ends are taken as rounding, and lie on the curve. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 1024})
    void endsAreTakenWithTheirRounding(int cells) {
        CurveForm cubic = CurveForm.of(x -> 2 + x + 0.1 * x * x * x, x -> 1 + 0.3 * x * x);
        CurveTable table = CurveTable.of(curve(cubic, -1, 1), cells);
        for (double end : new double[] {-1, 1}) {
            double beyond = end * (1 + 9e-10);
            assertEquals(cubic.density(beyond), table.density(beyond), 1e-14);
            double[] many = {0, beyond};
            table.densities(many, many);
            assertArrayEquals(new double[] {cubic.density(0), cubic.density(beyond)}, many, 1e-8);
            assertThrows(OutsideMeasuredRangeException.class, () -> table.density(end * (1 + 2e-9)));
            assertThrows(
                    OutsideMeasuredRangeException.class,
                    () -> table.densities(new double[] {end * (1 + 2e-9)}, new double[1]));
        }
        assertEquals(0, table.greatestDifference(), 1e-14, "the cells are cubics");
    }

    /**
     * D = (x + 3)²/4 from x = −2 to 0: the inverse x + 3 = 2 √D is drawn as lines between D = 0.25, 1.25 and 2.25. Midway
     * in the first cell x + 3 = (1 + √5)/2, where the curve is (√5 − 1)²/16 = 0.0954915 lower than asked for. The bound is the
     * distance of neighbouring densities: 2/2, and 2/4 with four cells.
     */
    @Test
    void anInverseTableIsALineInEachCell() {
        InverseCurveTable table = InverseCurveTable.of(curve(PARABOLA, -2, 0), Gradient.of(0.05), 2);
        double golden = (1 + Math.sqrt(5)) / 2;
        assertEquals(golden - 3, table.logExposure(0.75), 1e-12);
        assertEquals((Math.sqrt(5) + 3) / 2 - 3, table.logExposure(1.75), 1e-12);
        assertEquals(Math.pow(Math.sqrt(5) - 1, 2) / 16, table.greatestError(), 1e-12);
        assertEquals(1, table.errorBound(), 1e-12);
        CurveForm falling = CurveForm.of(x -> (1 - x) * (1 - x) / 4, x -> (x - 1) / 2);
        InverseCurveTable other = InverseCurveTable.of(curve(falling, -2, 0), Gradient.of(0.05), 2);
        assertEquals(1 - golden, other.logExposure(0.75), 1e-12);
        assertEquals(Math.pow(Math.sqrt(5) - 1, 2) / 16, other.greatestError(), 1e-12);
        assertEquals(
                0.5,
                InverseCurveTable.of(curve(PARABOLA, -2, 0), Gradient.of(0.05), 4)
                        .errorBound(),
                1e-12);
    }

    @Test
    void anInverseTableEndsWithItsRounding() {
        InverseCurveTable table = InverseCurveTable.of(curve(PARABOLA, -2, 0), Gradient.of(0.05), 3);
        double[] ends = {0.25, 2.25};
        double[] beyond = {0.25 - 9e-10, 2.25 + 9e-10};
        double[] found = new double[2];
        table.logExposures(beyond, found);
        assertArrayEquals(new double[] {-2, 0}, found, 1e-8);
        table.logExposures(ends, found);
        assertArrayEquals(new double[] {-2, 0}, found, 1e-12);
        for (double bad : new double[] {0.25 - 2e-9, 2.25 + 2e-9, Double.NaN}) {
            assertThrows(OutsideMeasuredRangeException.class, () -> table.logExposure(bad));
            String said = assertThrows(
                            OutsideMeasuredRangeException.class,
                            () -> table.logExposures(new double[] {bad, 1}, new double[2]))
                    .getMessage();
            assertTrue(said.contains("sample 0: density"), said);
            assertEquals(Double.isNaN(bad), said.contains("NaN"), said);
        }
    }

    /** The gradient 5 p (1 − p) of 0.2 + 2 p, p logistic, is 0.5 at p = (1 ± √0.6)/2. */
    @Test
    void aSteepStretchEndsWhereTheGradientDoes() {
        CurveForm logistic = CurveForm.of(x -> 0.2 + 2 / (1 + Math.exp(-2.5 * x)), x -> {
            double p = 1 / (1 + Math.exp(-2.5 * x));
            return 5 * p * (1 - p);
        });
        InverseCurveTable table = InverseCurveTable.of(curve(logistic, -3, 2), Gradient.of(0.5), 64);
        assertEquals(0.2 + 1 - Math.sqrt(0.6), table.lowestDensity().value(), 1e-9);
        assertEquals(0.2 + 1 + Math.sqrt(0.6), table.highestDensity().value(), 1e-9);
        assertEquals(0, table.logExposure(1.2), 1e-4);
        InverseCurveTable narrow = InverseCurveTable.of(curve(logistic, -0.3, 2), Gradient.of(0.5), 64);
        assertEquals(logistic.density(-0.3), narrow.lowestDensity().value(), 1e-12);
    }

    /** D = 2 − (x + 1)²/4 is steepest at x = −3 and has the gradient 0.05 at x = −1.1, D = 1.9975; D 1.75 is at x = −2. */
    @Test
    void theSteepestBranchOfAReversingCurve() {
        CurveForm reversing = CurveForm.of(x -> 2 - (x + 1) * (x + 1) / 4, x -> -(x + 1) / 2);
        InverseCurveTable table = InverseCurveTable.ofSteepestBranch(curve(reversing, -3, 0.2));
        assertEquals(1, table.lowestDensity().value(), 1e-9);
        assertEquals(1.9975, table.highestDensity().value(), 1e-9);
        assertEquals(-2, table.logExposure(1.75), 1e-4);
        assertEquals(-1.1, table.curve().highestExposure().value(), 1e-9);
        CurveForm mirrored = ShiftedForm.mirrored(reversing);
        InverseCurveTable other = InverseCurveTable.ofSteepestBranch(curve(mirrored, -0.2, 3));
        assertEquals(1.9975, other.highestDensity().value(), 1e-9);
        assertEquals(2, other.logExposure(1.75), 1e-4);
    }

    @Test
    void aCurveAsFlatAsTheLeastGradientGivesNoExposures() {
        CurveForm flat = CurveForm.of(x -> 1 + 0.0625 * x, x -> 0.0625);
        assertThrows(
                NotDeterminableException.class, () -> InverseCurveTable.of(curve(flat, -1, 1), Gradient.of(0.0625), 8));
        InverseCurveTable whole = InverseCurveTable.of(curve(flat, -1, 1), Gradient.of(0.0624), 8);
        assertEquals(0.9375, whole.lowestDensity().value(), 1e-12);
        assertEquals(1.0625, whole.highestDensity().value(), 1e-12);
    }

    /** x² from 1 to 2 goes on as 2 x − 1 and 4 x − 4; sin x turns at π/2, between its ends 1 and 2. */
    @Test
    void straightEndsContinueTheTangents() {
        StraightEndsForm square = new StraightEndsForm(CurveForm.of(x -> x * x, x -> 2 * x), 1, 2);
        double[] x = {0, 1, 1.5, 2, 3};
        double[] densities = {-1, 1, 2.25, 4, 8};
        double[] gradients = {2, 2, 3, 4, 4};
        for (int i = 0; i < x.length; i++) {
            assertEquals(densities[i], square.density(x[i]), 1e-14);
            assertEquals(gradients[i], square.gradient(x[i]), 1e-14);
        }
        StraightEndsForm sine = new StraightEndsForm(CurveForm.of(Math::sin, Math::cos), 1, 2);
        assertArrayEquals(new double[] {1, Math.PI / 2, 2}, sine.turningPoints(0, 3), 1e-9);
        assertArrayEquals(new double[] {Math.PI / 2}, sine.turningPoints(1, 2), 1e-9);
    }

    @Test
    void shiftedFormsTurnWhereTheyWereShiftedTo() {
        CurveForm sine = CurveForm.of(Math::sin, Math::cos);
        assertArrayEquals(
                new double[] {-1.5 * Math.PI, -0.5 * Math.PI},
                ShiftedForm.mirrored(sine).turningPoints(-5, -1),
                1e-9);
        assertArrayEquals(
                new double[] {0.5 * Math.PI + 0.25},
                ShiftedForm.moved(sine, 0.25).turningPoints(1, 3),
                1e-9);
        assertEquals(-1, ShiftedForm.mirrored(sine).gradient(0), 1e-15);
        assertEquals(Math.sin(0.75), ShiftedForm.moved(sine, 0.25).density(1), 1e-15);
    }

    /** Of pixels of three channels, samples 1, 4 and 7 are the second; the last is wrong. */
    @Test
    void aWrongSampleOfAChannelIsNamedByItsPlace() {
        SampleConversion conversion = CurveTable.of(curve(PARABOLA, -2, 0), 4).conversion();
        double[] pixels = {99, -2, 99, 99, -1, 99, 99, 5, 99};
        double[] results = new double[9];
        String said = assertThrows(
                        OutsideMeasuredRangeException.class,
                        () -> conversion.convert(pixels, SampleSpan.ofChannel(1, 3, 3), results))
                .getMessage();
        assertTrue(said.contains("sample 7: log exposure 5"), said);
        assertArrayEquals(new double[9], results, 0);
        float[] floats = {99, -2, 99, 99, -1, 99, 99, 5, 99};
        String also = assertThrows(
                        OutsideMeasuredRangeException.class,
                        () -> conversion.convert(floats, SampleSpan.ofChannel(1, 3, 3), new float[9]))
                .getMessage();
        assertTrue(also.contains("sample 7: log exposure 5"), also);
        double[] first = {5, -1};
        String start = assertThrows(OutsideMeasuredRangeException.class, () -> conversion.convert(first, first))
                .getMessage();
        assertTrue(start.contains("sample 0: log exposure 5"), start);
        pixels[7] = 0;
        assertEquals(new SampleCounts(3, 0, 0, 0), conversion.convert(pixels, SampleSpan.ofChannel(1, 3, 3), results));
        assertArrayEquals(new double[] {0, 0.25, 0, 0, 1, 0, 0, 2.25, 0}, results, 1e-12);
    }

    @Test
    void arraysWithoutRoomAreRefused() {
        SampleConversion conversion = CurveTable.of(curve(PARABOLA, -2, 0), 4).conversion();
        SampleSpan channel = SampleSpan.ofChannel(0, 3, 3);
        assertThrows(IllegalArgumentException.class, () -> conversion.convert(new double[2], new double[3]));
        assertThrows(IllegalArgumentException.class, () -> conversion.convert(new float[2], new float[3]));
        assertThrows(IllegalArgumentException.class, () -> conversion.convert(new double[6], channel, new double[9]));
        assertThrows(IllegalArgumentException.class, () -> conversion.convert(new double[9], channel, new double[6]));
        assertThrows(IllegalArgumentException.class, () -> conversion.convert(new float[6], channel, new float[9]));
        assertThrows(IllegalArgumentException.class, () -> conversion.convert(new float[9], channel, new float[6]));
        assertThrows(
                OutsideMeasuredRangeException.class,
                () -> conversion.convert(new double[] {9, 0, 0, 0, 0, 0, 0}, channel, new double[7]));
        assertThrows(IllegalArgumentException.class, () -> SampleSpan.ofChannel(3, 3, 3));
    }

    @Test
    void samplesOfAllPartsAreCounted() {
        double[] samples = new double[140_000];
        Arrays.fill(samples, -1);
        samples[0] = -3;
        samples[139_999] = 1;
        samples[70_000] = Double.NaN;
        SampleConversion conversion =
                CurveTable.of(curve(PARABOLA, -2, 0), 4).conversion().with(OutsideSamples.NEAREST_END);
        ExecutorService pool = Executors.newFixedThreadPool(2);
        try {
            assertEquals(
                    new SampleCounts(140_000, 1, 1, 1),
                    conversion.withExecutor(pool).convert(samples, samples));
        } finally {
            pool.shutdown();
        }
        assertEquals(0.25, samples[0], 1e-8);
        assertEquals(1, samples[1], 1e-12);
        assertEquals(2.25, samples[139_999], 1e-8);
    }
}
