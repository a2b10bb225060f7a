// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import java.nio.FloatBuffer;
import java.nio.ShortBuffer;
import java.util.Objects;
import java.util.concurrent.Executor;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.curve.OutsideSamples;
import org.tonewedge.core.curve.SampleCounts;
import org.tonewedge.core.curve.SampleSpan;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Parts;

/**
 * A table of codes applied to a 16-bit scan, in arrays or buffers, whole or in part, on the threads of an executor if
 * wanted.
 *
 * <pre>{@code
 * CodeConversion conversion = ScanCodeTable.logExposures(encoding, inverse).conversion().withExecutor(pool);
 * SampleCounts counts = conversion.with(OutsideSamples.MARK_AS_NAN).convert(codes, logExposures);
 * }</pre>
 *
 * <p>Defaults: {@link OutsideSamples#REFUSE}, on the thread that calls. Codes are unsigned. A result is the same however
 * the work is divided; in {@code float} it is that in {@code double}, rounded. After a refusal nothing is written. A code
 * without a value between codes that have one gives NaN, unless it is refused, and counts as not a number.
 *
 * <p>Immutable and thread safe; each {@code with} returns a copy. Null is refused with the name of the parameter.
 */
public final class CodeConversion {

    private final ScanCodeTable table;
    private final OutsideSamples outside;
    private final Executor executor;
    private final int lowest;
    private final int highest;
    /** The result of each 16-bit code. */
    private final double[] values;
    /** The same as {@code float}: half as large, so that more of it stays in a cache. */
    private final float[] floats;

    private CodeConversion(ScanCodeTable table, OutsideSamples outside) {
        this.table = table;
        this.outside = outside;
        executor = null;
        double[] of = table.values();
        int low = 0;
        while (low < of.length && Double.isNaN(of[low])) {
            low++;
        }
        int high = of.length - 1;
        while (high >= 0 && Double.isNaN(of[high])) {
            high--;
        }
        lowest = low;
        highest = high;
        values = outside == OutsideSamples.NEAREST_END && low <= high ? withEnds(of, low, high) : of;
        floats = new float[values.length];
        for (int code = 0; code < values.length; code++) {
            floats[code] = (float) values[code];
        }
    }

    private CodeConversion(CodeConversion other, Executor executor) {
        table = other.table;
        outside = other.outside;
        this.executor = executor;
        lowest = other.lowest;
        highest = other.highest;
        values = other.values;
        floats = other.floats;
    }

    private static double[] withEnds(double[] of, int low, int high) {
        double[] whole = of.clone();
        for (int code = 0; code < low; code++) {
            whole[code] = of[low];
        }
        for (int code = high + 1; code < whole.length; code++) {
            whole[code] = of[high];
        }
        return whole;
    }

    static CodeConversion of(ScanCodeTable table) {
        return new CodeConversion(table, OutsideSamples.REFUSE);
    }

    /**
     * Returns this conversion with another treatment of codes that have no value.
     *
     * @param other the treatment
     * @return a copy
     */
    public CodeConversion with(OutsideSamples other) {
        return new CodeConversion(new CodeConversion(table, Objects.requireNonNull(other, "other")), executor);
    }

    /**
     * Returns this conversion on the threads of an executor, which the caller shuts down. The call still returns only when
     * all is done.
     *
     * @param other runs one task for each 65 536 samples
     * @return a copy
     */
    public CodeConversion withExecutor(Executor other) {
        return new CodeConversion(this, Objects.requireNonNull(other, "other"));
    }

    /**
     * Converts an array.
     *
     * @param codes the codes, unsigned
     * @param results receives one value for each
     * @return how many codes had no value of their own
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a code has no value; the message gives
     *     the index of the sample
     */
    public SampleCounts convert(short[] codes, float[] results) {
        requireEqual(codes.length, results.length);
        return convert(codes, SampleSpan.of(0, codes.length), results);
    }

    /**
     * Converts a part of an array, such as one channel of interleaved pixels, into an array of its own.
     *
     * @param codes the codes, unsigned
     * @param span which elements are converted
     * @param results receives the values one after the other, from index 0 on
     * @return how many codes had no value of their own
     * @throws IllegalArgumentException if the span reaches beyond the codes, or there is not room for exactly its samples
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a code has no value; the message gives
     *     the index of the sample
     */
    public SampleCounts convert(short[] codes, SampleSpan span, float[] results) {
        Objects.requireNonNull(results, "results");
        requireWithin(span, codes.length);
        requireEqual(span.count(), results.length);
        int offset = span.offset();
        int stride = span.stride();
        Codes source = elements(codes, span);
        refuse(span, source);
        return SampleCounts.sum(Parts.run(span.count(), executor, (from, to) -> {
            float[] each = floats;
            if (stride == 1) { // a loop of its own, from which the compiler takes the range checks
                for (int k = from; k < to; k++) {
                    results[k] = each[codes[offset + k] & 0xFFFF];
                }
            } else {
                for (int k = from; k < to; k++) {
                    results[k] = each[codes[offset + k * stride] & 0xFFFF];
                }
            }
            return counts(source, from, to);
        }));
    }

    /**
     * Converts a part of an array into an array of its own.
     *
     * @param codes the codes, unsigned
     * @param span which elements are converted
     * @param results receives the values one after the other, from index 0 on
     * @return how many codes had no value of their own
     * @throws IllegalArgumentException if the span reaches beyond the codes, or there is not room for exactly its samples
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a code has no value; the message gives
     *     the index of the sample
     */
    public SampleCounts convert(short[] codes, SampleSpan span, double[] results) {
        Objects.requireNonNull(results, "results");
        requireWithin(span, codes.length);
        requireEqual(span.count(), results.length);
        int offset = span.offset();
        int stride = span.stride();
        Codes source = elements(codes, span);
        refuse(span, source);
        return SampleCounts.sum(Parts.run(span.count(), executor, (from, to) -> {
            double[] each = values;
            for (int k = from; k < to; k++) {
                results[k] = each[codes[offset + k * stride] & 0xFFFF];
            }
            return counts(source, from, to);
        }));
    }

    /**
     * Converts what remains in a buffer, such as a mapped file. Neither position moves.
     *
     * @param codes the codes, unsigned, from position to limit
     * @param results receives as many values from its position on
     * @return how many codes had no value of their own
     * @throws IllegalArgumentException if the buffers differ in what remains
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a code has no value; the message gives
     *     the distance of the sample from the position
     */
    public SampleCounts convert(ShortBuffer codes, FloatBuffer results) {
        int count = codes.remaining();
        requireEqual(count, results.remaining());
        int in = codes.position();
        int out = results.position();
        Codes source = k -> codes.get(in + k);
        refuse(SampleSpan.of(0, count), source);
        return SampleCounts.sum(Parts.run(count, executor, (from, to) -> {
            float[] each = floats;
            for (int k = from; k < to; k++) {
                results.put(out + k, each[codes.get(in + k) & 0xFFFF]);
            }
            return counts(source, from, to);
        }));
    }

    @FunctionalInterface
    private interface Codes {
        short at(int k);
    }

    private static Codes elements(short[] codes, SampleSpan span) {
        int offset = span.offset();
        int stride = span.stride();
        return k -> codes[offset + k * stride];
    }

    private void refuse(SampleSpan span, Codes codes) {
        if (outside != OutsideSamples.REFUSE || table.isComplete()) {
            return;
        }
        int first = Parts.first(span.count(), executor, (from, to) -> {
            for (int k = from; k < to; k++) {
                if (Double.isNaN(values[codes.at(k) & 0xFFFF])) {
                    return k;
                }
            }
            return -1;
        });
        if (first >= 0) {
            throw table.refused(
                    "sample " + (span.offset() + (long) first * span.stride()) + ": ", codes.at(first) & 0xFFFF);
        }
    }

    /** Counts the codes of a part that had no value, where there can be any. */
    private SampleCounts counts(Codes codes, int from, int to) {
        long below = 0;
        long above = 0;
        long gaps = 0;
        if (outside != OutsideSamples.REFUSE && !table.isComplete()) {
            for (int k = from; k < to; k++) {
                int code = codes.at(k) & 0xFFFF;
                if (code < lowest) {
                    below++;
                } else if (code > highest) {
                    above++;
                } else if (Double.isNaN(values[code])) {
                    gaps++;
                }
            }
        }
        return new SampleCounts(to - from, below, above, gaps);
    }

    private static void requireWithin(SampleSpan span, int length) {
        if (!span.fitsInto(length)) {
            throw new IllegalArgumentException("the codes are too few for the span, " + span + ": there are " + length);
        }
    }

    private static void requireEqual(int codes, int results) {
        if (codes != results) {
            throw new IllegalArgumentException(
                    Figures.counted(codes, "code") + " but room for " + Figures.counted(results, "result"));
        }
    }

    /**
     * Returns the conversion in words.
     *
     * @return what is converted, and what happens to codes without a value
     */
    @Override
    public String toString() {
        return table + ", codes outside: " + outside;
    }
}
