// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.FloatBuffer;
import java.nio.ShortBuffer;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.curve.OutsideSamples;
import org.tonewedge.core.curve.SampleCounts;
import org.tonewedge.core.curve.SampleSpan;
import org.tonewedge.core.quantity.Density;

/** Codes 2, 3 and 5 of 0 to 7 mean a tenth of themselves; the others mean nothing. */
class ScanCodesTest {

    private static final ScanEncoding GAPPED = ScanEncoding.measured(
            "by hand",
            7,
            code -> code == 2 || code == 3 || code == 5 ? OptionalDouble.of(code / 10.0) : OptionalDouble.empty());

    private final CodeConversion refusing = ScanCodeTable.densities(GAPPED).conversion();
    private final CodeConversion marking = refusing.with(OutsideSamples.MARK_AS_NAN);
    private final CodeConversion nearest = refusing.with(OutsideSamples.NEAREST_END);

    private static final short[] ALL = {0, 1, 2, 3, 4, 5, 6, 7};
    private static final float[] MARKED = {Float.NaN, Float.NaN, 0.2f, 0.3f, Float.NaN, 0.5f, Float.NaN, Float.NaN};
    private static final float[] NEAR = {0.2f, 0.2f, 0.2f, 0.3f, Float.NaN, 0.5f, 0.5f, 0.5f};
    private static final SampleCounts COUNTED = new SampleCounts(8, 2, 2, 1);

    @Test
    void codesWithoutDensityAreMarkedOrTakeTheNearestAndAreCounted() {
        float[] results = new float[8];
        assertEquals(COUNTED, marking.convert(ALL, results));
        assertArrayEquals(MARKED, results);
        assertEquals(COUNTED, nearest.convert(ALL, results));
        assertArrayEquals(NEAR, results);
    }

    /** Nothing is nearest to a code where none has a density; where one has, it is nearest to all. */
    @Test
    void tablesMayHaveNoValueOrOne() {
        short[] codes = {0, 4, 7};
        float[] results = new float[3];
        ScanEncoding none = ScanEncoding.measured("nothing", 7, code -> OptionalDouble.empty());
        CodeConversion empty = ScanCodeTable.densities(none).conversion().with(OutsideSamples.NEAREST_END);
        assertEquals(3, empty.convert(codes, results).outside());
        assertArrayEquals(new float[] {Float.NaN, Float.NaN, Float.NaN}, results);

        ScanEncoding one =
                ScanEncoding.measured("one", 7, code -> code == 4 ? OptionalDouble.of(0.4) : OptionalDouble.empty());
        CodeConversion single = ScanCodeTable.densities(one).conversion().with(OutsideSamples.NEAREST_END);
        assertEquals(new SampleCounts(3, 1, 1, 0), single.convert(codes, results));
        assertArrayEquals(new float[] {0.4f, 0.4f, 0.4f}, results);
    }

    /** The second of two channels: the first is never looked at. */
    @Test
    void aChannelIsConvertedAlone() {
        short[] pixels = new short[16];
        for (int i = 0; i < 8; i++) {
            pixels[2 * i + 1] = ALL[i];
            pixels[2 * i] = 5;
        }
        SampleSpan second = SampleSpan.ofChannel(1, 2, 8);
        float[] floats = new float[8];
        double[] doubles = new double[8];

        assertEquals(COUNTED, nearest.convert(pixels, second, floats));
        assertArrayEquals(NEAR, floats);
        assertEquals(COUNTED, nearest.convert(pixels, second, doubles));
        assertArrayEquals(new double[] {0.2, 0.2, 0.2, 0.3, Double.NaN, 0.5, 0.5, 0.5}, doubles);
        assertEquals(
                new SampleCounts(8, 0, 0, 0), refusing.convert(pixels, SampleSpan.ofChannel(0, 2, 8), new float[8]));
    }

    @Test
    void buffersAreConvertedFromTheirPositions() {
        ShortBuffer codes = ShortBuffer.wrap(new short[] {3, 3, 0, 5, 7}).position(2);
        FloatBuffer results = FloatBuffer.allocate(4).position(1);

        assertEquals(new SampleCounts(3, 1, 1, 0), nearest.convert(codes, results));
        assertArrayEquals(new float[] {0, 0.2f, 0.5f, 0.5f}, results.array());
    }

    /** Code 4 is third of the channel, at 1 + 2 · 2; in the buffer it comes after one with a density. */
    @Test
    void aRefusalNamesSampleAndCodeAndWritesNothing() {
        short[] pixels = {9, 2, 9, 3, 9, 4};
        SampleSpan second = SampleSpan.ofChannel(1, 2, 3);
        double[] doubles = {1, 1, 1};
        float[] floats = {1, 1, 1};

        assertRefused("sample 5: code 4 ", () -> refusing.convert(pixels, second, doubles));
        assertRefused("sample 5: code 4 ", () -> refusing.convert(pixels, second, floats));
        assertRefused("sample 2: code 4 ", () -> refusing.convert(new short[] {2, 3, 4}, floats));
        assertRefused(
                "sample 1: code 4 ",
                () -> refusing.convert(ShortBuffer.wrap(new short[] {2, 4}), FloatBuffer.wrap(floats, 0, 2)));
        assertArrayEquals(new double[] {1, 1, 1}, doubles);
        assertArrayEquals(new float[] {1, 1, 1}, floats);
        assertRefused(
                "sample 1: code 4 ", () -> ScanCodeTable.densities(GAPPED).convert(new int[] {2, 4}, new double[2]));
    }

    private static void assertRefused(String words, Executable conversion) {
        String message =
                assertThrows(OutsideMeasuredRangeException.class, conversion).getMessage();
        assertTrue(message.startsWith(words), message);
    }

    @Test
    void tooFewCodesAndTooLittleRoomAreRefused() {
        SampleSpan three = SampleSpan.of(0, 3);
        ScanCodeTable table = ScanCodeTable.densities(GAPPED);
        short[] two = {2, 3};
        short[] codes = {2, 3, 5};
        Executable[] faulty = {
            () -> nearest.convert(codes, new float[4]),
            () -> nearest.convert(two, three, new float[3]),
            () -> nearest.convert(codes, three, new float[4]),
            () -> nearest.convert(two, three, new double[3]),
            () -> nearest.convert(codes, three, new double[4]),
            () -> nearest.convert(ShortBuffer.wrap(codes), FloatBuffer.allocate(4)),
            () -> table.convert(codes, new double[4]),
            () -> table.convert(new char[] {2, 3}, new double[3]),
            () -> table.convert(new int[] {2, 3}, new double[3])
        };
        for (Executable conversion : faulty) {
            assertThrows(IllegalArgumentException.class, conversion);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 65_536})
    void codesHaveSixteenBits(int highest) {
        assertThrows(
                IllegalArgumentException.class, () -> ScanEncoding.ofDensitySteps(Density.of(0), 0.00001, highest));
        assertThrows(IllegalArgumentException.class, () -> ScanEncoding.ofTransmittanceSteps(0, 100, highest));
        assertThrows(
                IllegalArgumentException.class,
                () -> ScanEncoding.measured("by hand", highest, code -> OptionalDouble.of(1)));
    }

    @Test
    void aTableCoversTheCodesThatHaveAValue() {
        ScanCodeTable whole = ScanCodeTable.densities(
                ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT));
        assertTrue(whole.covers(0) && whole.covers(65_535));
        assertFalse(whole.covers(-1) || whole.covers(65_536));
        assertTrue(whole.toString().contains("0.10 for 1000 codes, codes up to 65535"), whole.toString());
        assertFalse(ScanCodeTable.densities(GAPPED).covers(4));
    }
}
