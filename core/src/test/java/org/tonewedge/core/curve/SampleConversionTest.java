// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.FloatBuffer;
import java.nio.ShortBuffer;
import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.scan.CodeConversion;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;

/** Conversions of images: the same results however the samples lie and the work is divided. */
class SampleConversionTest {

    private static final CharacteristicCurve CURVE = CharacteristicCurve.of(
            "a logistic curve",
            CurveForm.of(x -> 0.1 + 2 / (1 + Math.exp(-3 * x)), x -> {
                double e = Math.exp(-3 * x);
                return 6 * e / ((1 + e) * (1 + e));
            }),
            LogExposure.ofLogLuxSeconds(-2),
            LogExposure.ofLogLuxSeconds(2),
            Density.of(0.1));
    private static final CurveTable TABLE = CurveTable.of(CURVE);
    private static final InverseCurveTable INVERSE = InverseCurveTable.of(CURVE);

    /** Three parts and a remainder. */
    private static final int MANY = 3 * (1 << 16) + 17;

    private static ExecutorService pool;

    @BeforeAll
    static void open() {
        pool = Executors.newFixedThreadPool(2);
    }

    @AfterAll
    static void close() throws InterruptedException {
        pool.shutdown();
        assertTrue(pool.awaitTermination(10, TimeUnit.SECONDS));
    }

    private static double[] samples() {
        Random random = new Random(1);
        double[] samples = new double[MANY];
        Arrays.setAll(samples, i -> -2 + 4 * random.nextDouble());
        return samples;
    }

    @Test
    @Tag("slow")
    void allWaysGiveTheSameBits() {
        double[] samples = samples();
        double[] expected = new double[MANY];
        TABLE.densities(samples, expected);
        double[] inPlace = samples.clone();
        assertEquals(
                new SampleCounts(MANY, 0, 0, 0),
                TABLE.conversion().withExecutor(pool).convert(inPlace, inPlace));
        assertArrayEquals(expected, inPlace, 0);

        float[] floats = new float[MANY];
        float[] rounded = new float[MANY];
        for (int i = 0; i < MANY; i++) {
            floats[i] = (float) samples[i];
            rounded[i] = (float) TABLE.density(floats[i]);
        }
        FloatBuffer direct = ByteBuffer.allocateDirect(4 * MANY).asFloatBuffer();
        direct.put(floats).flip();
        TABLE.conversion().withExecutor(pool).convert(direct, direct);
        float[] read = new float[MANY];
        direct.get(read);
        assertArrayEquals(rounded, read, 0);
        TABLE.conversion().convert(floats, floats);
        assertArrayEquals(rounded, floats, 0);
    }

    @Test
    void oneChannelLeavesTheOthers() {
        float[] pixels = {9, 0, 9, 9, 0.5f, 9, 9, 1, 9};
        TABLE.conversion().convert(pixels, SampleSpan.ofChannel(1, 3, 3), pixels);
        assertArrayEquals(
                new float[] {
                    9, (float) TABLE.density(0), 9, 9, (float) TABLE.density(0.5), 9, 9, (float) TABLE.density(1), 9
                },
                pixels,
                0);
        double[] run = {7, 0, 0.5, 7};
        TABLE.conversion().convert(run, SampleSpan.of(1, 2), run);
        assertArrayEquals(new double[] {7, TABLE.density(0), TABLE.density(0.5), 7}, run, 0);
        assertThrows(
                IllegalArgumentException.class,
                () -> TABLE.conversion().convert(run, SampleSpan.of(1, Integer.MAX_VALUE), run));
        assertThrows(
                IllegalArgumentException.class,
                () -> TABLE.conversion().convert(pixels, new SampleSpan(8, 2, 1), pixels));
    }

    @Test
    void samplesOutsideAreWhatTheCallerChooses() {
        double[] samples = {-3, 0, Double.NaN, 2.5, 2.6};
        double[] results = new double[5];
        SampleCounts counts =
                TABLE.conversion().with(OutsideSamples.MARK_AS_NAN).convert(samples, results);
        assertEquals(new SampleCounts(5, 1, 2, 1), counts);
        assertEquals(4, counts.outside());
        assertArrayEquals(new double[] {Double.NaN, TABLE.density(0), Double.NaN, Double.NaN, Double.NaN}, results, 0);
        TABLE.conversion().with(OutsideSamples.NEAREST_END).convert(samples, results);
        assertArrayEquals(
                new double[] {CURVE.density(-2), TABLE.density(0), Double.NaN, CURVE.density(2), CURVE.density(2)},
                results,
                1e-8);
    }

    @Test
    void refusalNamesTheFirstSampleAndWritesNothing() {
        float[] samples = new float[MANY];
        samples[MANY - 1] = 5;
        samples[70_000] = Float.NaN;
        float[] results = new float[MANY];
        for (SampleConversion conversion :
                new SampleConversion[] {TABLE.conversion(), TABLE.conversion().withExecutor(pool)}) {
            OutsideMeasuredRangeException e =
                    assertThrows(OutsideMeasuredRangeException.class, () -> conversion.convert(samples, results));
            assertTrue(e.getMessage().contains("sample 70000: log exposure NaN"), e::getMessage);
            assertArrayEquals(new float[MANY], results, 0);
        }
    }

    /** 0.7 as float is 0.699999988: the end of a range must not refuse its own value for that. */
    @Test
    void endsOfTheRangeAreInItAsFloats() {
        CharacteristicCurve part =
                CURVE.restrictedTo(LogExposure.ofLogLuxSeconds(-0.7), LogExposure.ofLogLuxSeconds(0.7));
        float[] ends = {-0.7f, 0.7f};
        CurveTable.of(part).conversion().convert(ends, ends);
        assertArrayEquals(new float[] {(float) CURVE.density(-0.7), (float) CURVE.density(0.7)}, ends, 1e-6f);
    }

    @Test
    void codesAreUnsignedAndCounted() {
        ScanEncoding encoding = ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT);
        CodeConversion conversion =
                ScanCodeTable.logExposures(encoding, INVERSE).conversion();
        short[] codes = {0, 10_000, (short) 40_000, 11_000};
        float[] results = new float[4];
        assertEquals(
                "sample 0: code 0 has no",
                assertThrows(OutsideMeasuredRangeException.class, () -> conversion.convert(codes, results))
                        .getMessage()
                        .substring(0, 23));
        assertEquals(
                new SampleCounts(4, 1, 1, 0),
                conversion.with(OutsideSamples.MARK_AS_NAN).convert(codes, results));
        assertArrayEquals(
                new float[] {Float.NaN, (float) INVERSE.logExposure(1), Float.NaN, (float) INVERSE.logExposure(1.1)},
                results,
                0);
        FloatBuffer ends = FloatBuffer.allocate(4);
        conversion.with(OutsideSamples.NEAREST_END).withExecutor(pool).convert(ShortBuffer.wrap(codes), ends);
        // The next code is at most 0.0001 away, where the gradient is 0.05.
        assertEquals(INVERSE.logExposure(INVERSE.lowestDensity().value()), ends.get(0), 0.0001 / 0.05);
        assertEquals(INVERSE.logExposure(INVERSE.highestDensity().value()), ends.get(2), 0.0001 / 0.05);
        double[] channel = new double[2];
        conversion.with(OutsideSamples.MARK_AS_NAN).convert(codes, SampleSpan.ofChannel(1, 2, 2), channel);
        assertArrayEquals(new double[] {INVERSE.logExposure(1), INVERSE.logExposure(1.1)}, channel, 0);
        float[] floats = new float[2];
        conversion.with(OutsideSamples.MARK_AS_NAN).convert(codes, SampleSpan.ofChannel(1, 2, 2), floats);
        assertArrayEquals(new float[] {(float) INVERSE.logExposure(1), (float) INVERSE.logExposure(1.1)}, floats, 0);
        float[] last = new float[1];
        conversion.convert(codes, new SampleSpan(3, 1, 1), last);
        assertEquals((float) INVERSE.logExposure(1.1), last[0]);
    }

    /** A measured encoding may leave out codes between others; they are refused or counted like any without a value. */
    @Test
    void codesBetweenOthersMayHaveNoValue() {
        ScanEncoding gapped = ScanEncoding.measured(
                "by hand",
                ScanEncoding.HIGHEST_16_BIT,
                code -> code == 7 ? OptionalDouble.empty() : OptionalDouble.of(code / 10_000.0));
        CodeConversion conversion = ScanCodeTable.densities(gapped).conversion();
        short[] codes = {5, 7, 9};
        float[] results = {1, 1, 1};
        assertThrows(OutsideMeasuredRangeException.class, () -> conversion.convert(codes, results));
        assertArrayEquals(new float[] {1, 1, 1}, results, 0, "nothing is written after a refusal");
        for (OutsideSamples treatment : new OutsideSamples[] {OutsideSamples.MARK_AS_NAN, OutsideSamples.NEAREST_END}) {
            assertEquals(
                    new SampleCounts(3, 0, 0, 1), conversion.with(treatment).convert(codes, results));
            assertArrayEquals(new float[] {0.0005f, Float.NaN, 0.0009f}, results, 0);
        }
    }

    @Test
    void encodingsAreEqualIfEachCodeMeansTheSame() {
        ScanEncoding one = ScanEncoding.measured("by hand", 9, code -> OptionalDouble.of(code / 10.0));
        ScanEncoding same = ScanEncoding.measured("by hand", 9, code -> OptionalDouble.of(code / 10.0));
        ScanEncoding other = ScanEncoding.measured("by hand", 9, code -> OptionalDouble.of(code / 11.0));
        assertEquals(one, same);
        assertEquals(one.hashCode(), same.hashCode());
        assertNotEquals(one, other);
    }
}
