// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;

/** Curves read in bulk: tables against the curves they were made from, refusals, and that nothing is allocated. */
class BulkReadingTest {

    private static final double FIRST = -3;
    private static final double LAST = 0.2;

    /** A smooth model: a logistic curve. */
    private static final CurveForm LOGISTIC = CurveForm.of(x -> 0.2 + 2 / (1 + Math.exp(-2.5 * (x + 1.5))), x -> {
        double part = 1 / (1 + Math.exp(-2.5 * (x + 1.5)));
        return 5 * part * (1 - part);
    });

    private static CharacteristicCurve curve(CurveForm form) {
        return CharacteristicCurve.of(
                "strip 'B1'",
                form,
                LogExposure.ofLogLuxSeconds(FIRST),
                LogExposure.ofLogLuxSeconds(LAST),
                Density.of(0.2));
    }

    private static MonotoneCubic cubic(DoubleUnaryOperator density) {
        double[] x = new double[21];
        double[] y = new double[21];
        for (int i = 0; i < x.length; i++) {
            x[i] = FIRST + (LAST - FIRST) * i / 20;
            y[i] = density.applyAsDouble(x[i]);
        }
        x[20] = LAST;
        return MonotoneCubic.through(x, y, MonotoneSlopes.FRITSCH_CARLSON);
    }

    private static double[] random(int count, double from, double to) {
        Random random = new Random(5);
        double[] values = new double[count];
        Arrays.setAll(values, i -> from + (to - from) * random.nextDouble());
        values[0] = from;
        values[1] = to;
        return values;
    }

    private static double greatestDifference(CharacteristicCurve curve, CurveTable table) {
        double[] x = random(200_000, FIRST, LAST);
        double[] fromTable = new double[x.length];
        table.densities(x, fromTable);
        double greatest = 0;
        for (int i = 0; i < x.length; i++) {
            greatest = Math.max(greatest, Math.abs(fromTable[i] - curve.density(x[i])));
            assertEquals(table.density(x[i]), fromTable[i], 0);
        }
        return greatest;
    }

    @Test
    void tableOfASmoothModelIsExactToTenDigits() {
        CharacteristicCurve curve = curve(LOGISTIC);
        CurveTable table = CurveTable.of(curve);
        assertTrue(greatestDifference(curve, table) < 2e-11);
        assertTrue(table.greatestDifference() < 2e-11);
        assertEquals(curve, table.curve());
    }

    @Test
    @Tag("slow")
    void tableOfAMonotoneCubicIsWithinAMillionthAndAHalf() {
        CharacteristicCurve curve = curve(cubic(LOGISTIC::density));
        CurveTable table = CurveTable.of(curve);
        double greatest = greatestDifference(curve, table);
        assertTrue(greatest < 1.5e-6, () -> "was " + greatest);
        assertEquals(greatest, table.greatestDifference(), 0.5 * greatest);
        // Four times the cells: a sixteenth of the difference, since the second derivative jumps at the readings.
        assertTrue(greatestDifference(curve, CurveTable.of(curve, 4096)) < 0.15 * greatest);
    }

    @Test
    @Tag("slow")
    void coarseTablesKeepTheEndsToo() {
        for (int cells : new int[] {1, 2, 3, 5, 8}) {
            CharacteristicCurve straight = curve(cubic(x -> 1 + 0.25 * x));
            assertTrue(greatestDifference(straight, CurveTable.of(straight, cells)) < 1e-14);
            assertEquals(0.25, CurveTable.of(straight, cells).density(FIRST), 1e-14);
            assertEquals(1.05, CurveTable.of(straight, cells).density(LAST + 5e-10), 1e-9);
        }
        assertThrows(IllegalArgumentException.class, () -> CurveTable.of(curve(LOGISTIC), 0));
    }

    @Test
    void bulkFormsGiveTheBitsOfTheSingleOnes() {
        for (CurveForm form : new CurveForm[] {LOGISTIC, cubic(LOGISTIC::density)}) {
            CharacteristicCurve curve = curve(form);
            double[] x = random(10_000, FIRST, LAST);
            double[] densities = new double[x.length];
            double[] gradients = new double[x.length];
            curve.densities(x, densities);
            curve.gradients(x, gradients);
            for (int i = 0; i < x.length; i++) {
                assertEquals(curve.density(x[i]), densities[i], 0);
                assertEquals(curve.gradient(x[i]), gradients[i], 0);
            }
            curve.densities(x, x);
            assertArrayEquals(densities, x, 0);
        }
    }

    @Test
    void cubicFindsItsPieceWhateverTheSpacing() {
        double[] x = {-3, -2.999999, -1, -0.5, -0.499, 0.2};
        double[] y = {0, 0.1, 0.4, 0.5, 0.7, 1};
        MonotoneCubic cubic = MonotoneCubic.through(x, y, MonotoneSlopes.FRITSCH_BUTLAND);
        for (int i = 0; i < x.length; i++) {
            assertEquals(y[i], cubic.density(x[i]), 1e-14);
            double before = Math.nextDown(x[i]);
            assertEquals(y[i], cubic.density(before), 1e-9);
        }
        double last = -1;
        for (double at : Arrays.stream(random(5000, FIRST, LAST)).sorted().toArray()) {
            assertTrue(cubic.density(at) >= last);
            last = cubic.density(at);
        }
    }

    @Test
    @Tag("slow")
    void inverseTableFindsTheExposureOfADensity() {
        for (CurveForm form :
                new CurveForm[] {LOGISTIC, cubic(LOGISTIC::density), cubic(x -> 2.4 - LOGISTIC.density(x))}) {
            CharacteristicCurve curve = curve(form);
            InverseCurveTable table = InverseCurveTable.of(curve);
            double lowest = table.lowestDensity().value();
            double highest = table.highestDensity().value();
            double[] densities = random(100_000, lowest, highest);
            double[] x = new double[densities.length];
            table.logExposures(densities, x);
            double greatest = 0;
            for (int i = 0; i < x.length; i++) {
                assertEquals(table.logExposure(densities[i]), x[i], 0);
                greatest = Math.max(greatest, Math.abs(curve.form().density(x[i]) - densities[i]));
                assertTrue(Math.abs(curve.form().gradient(x[i])) >= 0.049);
            }
            assertTrue(greatest <= table.errorBound());
            assertTrue(greatest < 1.5 * table.greatestError() && greatest < 2e-5, "was " + greatest);
            assertEquals(curve.logExposure(1.2), table.logExposure(1.2), 1e-6);
        }
    }

    @Test
    void inverseTableErrorBoundHoldsOnACurveWithALevelToe() {
        CharacteristicCurve curve = curve(cubic(x -> 0.2 + Math.max(0, x + 2)));
        InverseCurveTable table = InverseCurveTable.of(curve, Gradient.of(1e-6), 512);
        double[] densities = random(
                50_000, table.lowestDensity().value(), table.highestDensity().value());
        for (double density : densities) {
            assertEquals(density, curve.form().density(table.logExposure(density)), table.errorBound());
        }
    }

    @Test
    void inverseTableRefusesFlatPartsAndReversingCurves() {
        InverseCurveTable table = InverseCurveTable.of(curve(LOGISTIC), Gradient.of(0.5), 1000);
        assertTrue(table.lowestDensity().value() > 0.4);
        OutsideMeasuredRangeException e =
                assertThrows(OutsideMeasuredRangeException.class, () -> table.logExposure(0.3));
        assertTrue(e.getMessage().contains("strip 'B1'") && e.getMessage().contains("G 0.50"), e.getMessage());
        assertThrows(
                AmbiguousDensityException.class,
                () -> InverseCurveTable.of(curve(cubic(x -> 2 - (x + 1) * (x + 1) / 4))));
        assertThrows(NotDeterminableException.class, () -> InverseCurveTable.of(curve(cubic(x -> 1 + 0.01 * x))));
        assertThrows(IllegalArgumentException.class, () -> InverseCurveTable.of(curve(LOGISTIC), Gradient.of(0), 1000));
    }

    @Test
    void badSamplesAreRefusedBeforeAnythingIsWritten() {
        CharacteristicCurve curve = curve(LOGISTIC);
        InverseCurveTable inverse = InverseCurveTable.of(curve);
        for (double bad : new double[] {Double.NaN, 9, -9, Double.POSITIVE_INFINITY}) {
            double[] samples = {0, -1, bad};
            double[] results = {7, 7, 7};
            assertRefused("sample 2", () -> CurveTable.of(curve).densities(samples, results));
            assertRefused("sample 2", () -> curve.densities(samples, results));
            assertRefused("sample 2", () -> curve.gradients(samples, results));
            double[] densities = {1, 1.2, bad};
            assertRefused("sample 2", () -> inverse.logExposures(densities, results));
            assertArrayEquals(new double[] {7, 7, 7}, results);
            assertThrows(
                    OutsideMeasuredRangeException.class,
                    () -> CurveTable.of(curve).density(bad));
        }
        double[] two = {0, 0};
        double[] three = {0, 0, 0};
        assertThrows(IllegalArgumentException.class, () -> CurveTable.of(curve).densities(two, three));
        assertThrows(IllegalArgumentException.class, () -> inverse.logExposures(two, three));
    }

    /** A sample at the very end of the range with its allowance for rounding is taken, the next number is not. */
    @Test
    void rangeOfManySamplesEndsWhereThatOfOneDoes() {
        double lowest = -3.0 - 1e-9;
        double highest = 0.1 + 1e-9;
        double[] samples = {-1, lowest, highest, -2};
        assertEquals(-1, SampleRange.firstOutside(samples, lowest, highest));
        for (double bad : new double[] {Math.nextDown(lowest), Math.nextUp(highest), Double.NaN}) {
            samples[3] = bad;
            assertEquals(3, SampleRange.firstOutside(samples, lowest, highest), () -> "sample " + bad);
        }
        double beyond = Math.nextUp(highest);
        samples[0] = beyond;
        assertEquals(0, SampleRange.firstOutside(samples, lowest, highest));
    }

    private static void assertRefused(String part, Runnable reading) {
        OutsideMeasuredRangeException e = assertThrows(OutsideMeasuredRangeException.class, reading::run);
        assertTrue(e.getMessage().contains(part), e.getMessage());
    }

    @Test
    void codesOfDensityStepsBecomeDensitiesAndExposures() {
        ScanEncoding encoding = ScanEncoding.ofDensitySteps(Density.of(0.05), 0.0001, 40_000);
        ScanCodeTable densities = ScanCodeTable.densities(encoding);
        assertEquals(0.05, densities.value(0), 1e-15);
        assertEquals(4.05, densities.value(40_000), 1e-12);
        InverseCurveTable inverse = InverseCurveTable.of(curve(LOGISTIC));
        ScanCodeTable exposures = ScanCodeTable.logExposures(encoding, inverse);
        assertEquals(inverse.logExposure(1.05), exposures.value(10_000), 1e-12);

        double[] results = new double[3];
        densities.convert(new short[] {0, 10_000, (short) 40_000}, results);
        assertArrayEquals(new double[] {0.05, 1.05, 4.05}, results, 1e-12);
        exposures.convert(new char[] {10_000, 12_000, 14_000}, results);
        assertEquals(inverse.logExposure(1.25), results[1], 1e-12);
        exposures.convert(new int[] {10_000, 12_000, 14_000}, results);
        assertEquals(inverse.logExposure(1.45), results[2], 1e-12);

        double[] untouched = {7, 7};
        assertRefused("sample 1: code 40001", () -> densities.convert(new short[] {3, (short) 40_001}, untouched));
        assertRefused("sample 1: code 40001", () -> densities.convert(new char[] {3, 40_001}, untouched));
        assertRefused("sample 1: code -1", () -> densities.convert(new int[] {3, -1}, untouched));
        assertRefused("sample 0: code 0 has no log exposure", () -> exposures.convert(new int[] {0, 1}, untouched));
        assertRefused("code 70000", () -> densities.value(70_000));
        assertArrayEquals(new double[] {7, 7}, untouched);
        assertThrows(IllegalArgumentException.class, () -> densities.convert(new int[] {1}, untouched));
    }

    @Test
    void codesOfTransmittanceStepsBecomeDensities() {
        ScanCodeTable table = ScanCodeTable.densities(ScanEncoding.ofTransmittanceSteps(100, 50_100, 65_535));
        assertEquals(0, table.value(50_100), 1e-15);
        assertEquals(1, table.value(5_100), 1e-14);
        assertEquals(2, table.value(600), 1e-14);
        assertRefused("code 100", () -> table.value(100));
    }

    @Test
    void encodingsRefuseWhatMakesNoSense() {
        assertThrows(IllegalArgumentException.class, () -> ScanEncoding.ofDensitySteps(Density.of(0), 0, 65_535));
        assertThrows(IllegalArgumentException.class, () -> ScanEncoding.ofDensitySteps(Density.of(0), 0.01, 65_535));
        assertThrows(IllegalArgumentException.class, () -> ScanEncoding.ofDensitySteps(Density.of(0), Double.NaN, 255));
        assertThrows(IllegalArgumentException.class, () -> ScanEncoding.ofDensitySteps(Density.of(0), 0.001, 65_536));
        assertThrows(IllegalArgumentException.class, () -> ScanEncoding.ofTransmittanceSteps(100, 100, 65_535));
    }

    @Test
    @Tag("slow")
    void bulkFormsAllocateNothing() {
        CharacteristicCurve curve = curve(cubic(LOGISTIC::density));
        CurveTable table = CurveTable.of(curve);
        InverseCurveTable inverse = InverseCurveTable.of(curve);
        ScanEncoding encoding = ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT);
        ScanCodeTable codes = ScanCodeTable.densities(encoding);
        double[] x = random(10_000, FIRST, LAST);
        double[] d = random(10_000, 0.5, 2);
        double[] results = new double[10_000];
        short[] shorts = new short[10_000];
        char[] chars = new char[10_000];
        int[] ints = new int[10_000];
        assertAllocatesNothing(() -> curve.densities(x, results));
        assertAllocatesNothing(() -> curve.gradients(x, results));
        assertAllocatesNothing(() -> table.densities(x, results));
        assertAllocatesNothing(() -> inverse.logExposures(d, results));
        assertAllocatesNothing(() -> codes.convert(shorts, results));
        assertAllocatesNothing(() -> codes.convert(chars, results));
        assertAllocatesNothing(() -> codes.convert(ints, results));
    }

    /** Toe and shoulder as a difference of soft ramps, whose rounding errors turn the level part back by 1e−16. */
    @Test
    @Tag("slow")
    void roundingInALevelPartIsNoReversal() {
        int turning = 0;
        Random random = new Random(1);
        for (int i = 0; i < 200; i++) {
            double soft = 0.01 + 0.1 * random.nextDouble();
            double toe = -2.5 + random.nextDouble();
            double shoulder = toe + 0.5 + random.nextDouble();
            CharacteristicCurve curve = curve(CurveForm.of(
                    x -> 0.2 + ramp((x - toe) / soft) * soft - ramp((x - shoulder) / soft) * soft,
                    x -> 1 / (1 + Math.exp((toe - x) / soft)) - 1 / (1 + Math.exp((shoulder - x) / soft))));
            turning += curve.greatestReversal() > 0 ? 1 : 0;
            assertTrue(curve.isMonotone());
            InverseCurveTable inverse = InverseCurveTable.of(curve);
            double middle = 0.2 + (shoulder - toe) / 2;
            assertEquals(middle, curve.density(inverse.logExposure(middle)), inverse.errorBound());
        }
        assertTrue(turning > 5, "rounding shows in " + turning);
    }

    private static double ramp(double z) {
        return z > 30 ? z : Math.log1p(Math.exp(z));
    }

    /** The first calls load classes; of many later ones, the least is what a call itself takes. */
    private static void assertAllocatesNothing(Runnable reading) {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long thread = Thread.currentThread().getId();
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 50; i++) {
            long before = threads.getThreadAllocatedBytes(thread);
            reading.run();
            least = Math.min(least, threads.getThreadAllocatedBytes(thread) - before);
        }
        assertEquals(0, least);
    }
}
