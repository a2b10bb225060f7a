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
    private final double[] values;
    private final int lowest;
    private final int highest;

    private CodeConversion(ScanCodeTable table, OutsideSamples outside, Executor executor) {
        this.table = table;
        this.outside = outside;
        this.executor = executor;
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
        return new CodeConversion(table, OutsideSamples.REFUSE, null);
    }

    /**
     * Returns this conversion with another treatment of codes that have no value.
     *
     * @param other the treatment
     * @return a copy
     */
    public CodeConversion with(OutsideSamples other) {
        return new CodeConversion(table, Objects.requireNonNull(other, "other"), executor);
    }

    /**
     * Returns this conversion on the threads of an executor, which the caller shuts down. The call still returns only when
     * all is done.
     *
     * @param other runs one task for each 65 536 samples
     * @return a copy
     */
    public CodeConversion withExecutor(Executor other) {
        return new CodeConversion(table, outside, Objects.requireNonNull(other, "other"));
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
        refuse(span, k -> codes[offset + k * stride]);
        return SampleCounts.sum(Parts.run(span.count(), executor, (from, to) -> {
            Tally tally = new Tally();
            for (int k = from; k < to; k++) {
                results[k] = (float) value(codes[offset + k * stride] & 0xFFFF, tally);
            }
            return tally.counts(to - from);
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
        refuse(span, k -> codes[offset + k * stride]);
        return SampleCounts.sum(Parts.run(span.count(), executor, (from, to) -> {
            Tally tally = new Tally();
            for (int k = from; k < to; k++) {
                results[k] = value(codes[offset + k * stride] & 0xFFFF, tally);
            }
            return tally.counts(to - from);
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
        refuse(SampleSpan.of(0, count), k -> codes.get(in + k));
        return SampleCounts.sum(Parts.run(count, executor, (from, to) -> {
            Tally tally = new Tally();
            for (int k = from; k < to; k++) {
                results.put(out + k, (float) value(codes.get(in + k) & 0xFFFF, tally));
            }
            return tally.counts(to - from);
        }));
    }

    @FunctionalInterface
    private interface Codes {
        short at(int k);
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

    private double value(int code, Tally tally) {
        if (code < lowest) {
            tally.below++;
        } else if (code > highest) {
            tally.above++;
        } else if (Double.isNaN(values[code])) {
            tally.gaps++;
        }
        return values[code];
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

    private static final class Tally {
        private long below;
        private long above;
        /** Codes without a value between codes that have one. */
        private long gaps;

        SampleCounts counts(int total) {
            return new SampleCounts(total, below, above, gaps);
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
