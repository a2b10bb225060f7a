// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.nio.FloatBuffer;
import java.util.Objects;
import java.util.concurrent.Executor;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Parts;

/**
 * A look-up table applied to the samples of an image, in arrays or buffers, whole or in part, in place if wanted, on the
 * threads of an executor if wanted.
 *
 * <pre>{@code
 * SampleCounts counts = CurveTable.of(curve).conversion().
 *         with(OutsideSamples.MARK_AS_NAN).withExecutor(pool).convert(image, image);
 * }</pre>
 *
 * <p>Defaults: {@link OutsideSamples#REFUSE}, on the thread that calls. A result is the same to the last bit however the
 * work is divided. Samples and results may be the same array; where the two are the same, each result replaces its sample.
 * Results in {@code float} are those in {@code double}, rounded. After a refusal nothing is written.
 *
 * <p>Immutable and thread safe; each {@code with} returns a copy. Null is refused with the name of the parameter.
 */
public final class SampleConversion {

    private final SampleMap map;
    private final OutsideSamples outside;
    private final Executor executor;

    private SampleConversion(SampleMap map, OutsideSamples outside, Executor executor) {
        this.map = map;
        this.outside = outside;
        this.executor = executor;
    }

    static SampleConversion of(SampleMap map) {
        return new SampleConversion(map, OutsideSamples.REFUSE, null);
    }

    /**
     * Returns this conversion with another treatment of samples that have no result.
     *
     * @param other the treatment
     * @return a copy
     */
    public SampleConversion with(OutsideSamples other) {
        return new SampleConversion(map, Objects.requireNonNull(other, "other"), executor);
    }

    /**
     * Returns this conversion on the threads of an executor, which the caller shuts down. The call still returns only when
     * all is done.
     *
     * @param other runs one task for each 65 536 samples
     * @return a copy
     */
    public SampleConversion withExecutor(Executor other) {
        return new SampleConversion(map, outside, Objects.requireNonNull(other, "other"));
    }

    /**
     * Converts an array.
     *
     * @param samples the samples
     * @param results receives one result for each; may be the same array
     * @return how many samples had no result of their own
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a sample has no result; the message
     *     gives its index
     */
    public SampleCounts convert(double[] samples, double[] results) {
        requireEqual(samples.length, results.length);
        return convert(samples, SampleSpan.of(0, samples.length), results);
    }

    /**
     * Converts a part of an array.
     *
     * @param samples the samples
     * @param span which elements are converted
     * @param results receives the results at the same indices; may be the same array; its other elements stay as they are
     * @return how many samples had no result of their own
     * @throws IllegalArgumentException if the span reaches beyond an array
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a sample has no result; the message
     *     gives its index
     */
    public SampleCounts convert(double[] samples, SampleSpan span, double[] results) {
        Objects.requireNonNull(results, "results");
        requireWithin(span, samples.length);
        requireWithin(span, results.length);
        int offset = span.offset();
        int stride = span.stride();
        if (outside == OutsideSamples.REFUSE) {
            int first = Parts.first(span.count(), executor, (from, to) -> {
                Range range = range();
                for (int k = from; k < to; k++) {
                    if (!range.contains(samples[offset + k * stride])) {
                        return k;
                    }
                }
                return -1;
            });
            refuse(first, span, first < 0 ? 0 : samples[offset + first * stride]);
        }
        return SampleCounts.sum(Parts.run(span.count(), executor, (from, to) -> {
            Range range = range();
            for (int k = from; k < to; k++) {
                int i = offset + k * stride;
                results[i] = range.result(samples[i]);
            }
            return range.counts(to - from);
        }));
    }

    /**
     * Converts an array.
     *
     * @param samples the samples
     * @param results receives one result for each; may be the same array
     * @return how many samples had no result of their own
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a sample has no result; the message
     *     gives its index
     */
    public SampleCounts convert(float[] samples, float[] results) {
        requireEqual(samples.length, results.length);
        return convert(samples, SampleSpan.of(0, samples.length), results);
    }

    /**
     * Converts a part of an array.
     *
     * @param samples the samples
     * @param span which elements are converted
     * @param results receives the results at the same indices; may be the same array; its other elements stay as they are
     * @return how many samples had no result of their own
     * @throws IllegalArgumentException if the span reaches beyond an array
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a sample has no result; the message
     *     gives its index
     */
    public SampleCounts convert(float[] samples, SampleSpan span, float[] results) {
        Objects.requireNonNull(results, "results");
        requireWithin(span, samples.length);
        requireWithin(span, results.length);
        int offset = span.offset();
        int stride = span.stride();
        if (outside == OutsideSamples.REFUSE) {
            int first = Parts.first(span.count(), executor, (from, to) -> {
                Range range = floatRange();
                for (int k = from; k < to; k++) {
                    if (!range.contains(samples[offset + k * stride])) {
                        return k;
                    }
                }
                return -1;
            });
            refuse(first, span, first < 0 ? 0 : samples[offset + first * stride]);
        }
        return SampleCounts.sum(Parts.run(span.count(), executor, (from, to) -> {
            Range range = floatRange();
            for (int k = from; k < to; k++) {
                int i = offset + k * stride;
                results[i] = (float) range.result(samples[i]);
            }
            return range.counts(to - from);
        }));
    }

    /**
     * Converts what remains in a buffer, on the heap or outside it. Neither position moves.
     *
     * @param samples the samples, from position to limit
     * @param results receives as many results from its position on; may be the same buffer
     * @return how many samples had no result of their own
     * @throws IllegalArgumentException if the buffers differ in what remains
     * @throws OutsideMeasuredRangeException under {@link OutsideSamples#REFUSE}, if a sample has no result; the message
     *     gives its distance from the position
     */
    public SampleCounts convert(FloatBuffer samples, FloatBuffer results) {
        requireEqual(samples.remaining(), results.remaining());
        int count = samples.remaining();
        int in = samples.position();
        int out = results.position();
        if (outside == OutsideSamples.REFUSE) {
            int first = Parts.first(count, executor, (from, to) -> {
                Range range = floatRange();
                for (int k = from; k < to; k++) {
                    if (!range.contains(samples.get(in + k))) {
                        return k;
                    }
                }
                return -1;
            });
            refuse(first, SampleSpan.of(0, count), first < 0 ? 0 : samples.get(in + first));
        }
        return SampleCounts.sum(Parts.run(count, executor, (from, to) -> {
            Range range = floatRange();
            for (int k = from; k < to; k++) {
                results.put(out + k, (float) range.result(samples.get(in + k)));
            }
            return range.counts(to - from);
        }));
    }

    private void refuse(int number, SampleSpan span, double sample) {
        if (number >= 0) {
            throw map.outside(sample, "sample " + (span.offset() + (long) number * span.stride()) + ": ");
        }
    }

    private static void requireWithin(SampleSpan span, int length) {
        if (!span.fitsInto(length)) {
            throw new IllegalArgumentException(
                    "an array is too short for the span, " + span + ": its length is " + length);
        }
    }

    private static void requireEqual(int samples, int results) {
        if (samples != results) {
            throw new IllegalArgumentException(
                    Figures.counted(samples, "sample") + " but room for " + Figures.counted(results, "result"));
        }
    }

    private Range range() {
        return new Range(map, outside, map.lowest(), map.highest());
    }

    /** The range for samples in float, whose ends are those of the range as float holds them. */
    private Range floatRange() {
        return new Range(map, outside, (float) map.lowest(), (float) map.highest());
    }

    /** The range, with a count of what is outside. One for each task. */
    private static final class Range {
        private final SampleMap map;
        private final boolean nearestEnd;
        private final double lowest;
        private final double highest;
        private long below;
        private long above;
        private long notNumbers;

        Range(SampleMap map, OutsideSamples outside, double lowest, double highest) {
            this.map = map;
            nearestEnd = outside == OutsideSamples.NEAREST_END;
            this.lowest = lowest;
            this.highest = highest;
        }

        boolean contains(double sample) {
            return sample >= lowest && sample <= highest;
        }

        double result(double sample) {
            return contains(sample) ? map.value(sample) : outside(sample);
        }

        private double outside(double sample) {
            if (sample < lowest) {
                below++;
                return nearestEnd ? map.value(map.lowest()) : Double.NaN;
            }
            if (sample > highest) {
                above++;
                return nearestEnd ? map.value(map.highest()) : Double.NaN;
            }
            notNumbers++;
            return Double.NaN;
        }

        SampleCounts counts(int total) {
            return new SampleCounts(total, below, above, notNumbers);
        }
    }

    /**
     * Returns the conversion in words.
     *
     * @return what is converted, and what happens to samples outside
     */
    @Override
    public String toString() {
        return map + ", samples outside: " + outside;
    }
}
