// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * Which elements of an array are samples: a run, or every n-th one, such as one channel of interleaved pixels.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param offset the index of the first sample, 0 or more
 * @param count how many samples there are, 0 or more
 * @param stride the distance from one to the next, 1 or more
 */
public record SampleSpan(int offset, int count, int stride) {

    /**
     * Checks the numbers.
     *
     * @param offset the index of the first sample
     * @param count how many samples there are
     * @param stride the distance from one to the next
     * @throws IllegalArgumentException if a number is out of range
     */
    public SampleSpan {
        Checks.within("offset of samples", offset, 0, Integer.MAX_VALUE, "");
        Checks.within("number of samples", count, 0, Integer.MAX_VALUE, "");
        Checks.within("stride of samples", stride, 1, Integer.MAX_VALUE, "");
    }

    /**
     * Returns a run of neighbours.
     *
     * @param offset the index of the first sample, 0 or more
     * @param count how many there are, 0 or more
     * @return the span
     * @throws IllegalArgumentException if a number is out of range
     */
    public static SampleSpan of(int offset, int count) {
        return new SampleSpan(offset, count, 1);
    }

    /**
     * Returns one channel of interleaved pixels.
     *
     * @param channel the channel, from 0
     * @param channels how many channels a pixel has
     * @param pixels how many pixels there are
     * @return the span
     * @throws IllegalArgumentException if a number is out of range
     */
    public static SampleSpan ofChannel(int channel, int channels, int pixels) {
        Checks.within("number of channels", channels, 1, Integer.MAX_VALUE, "");
        Checks.within("channel", channel, 0, channels - 1.0, "");
        return new SampleSpan(channel, pixels, channels);
    }

    /**
     * Tells whether an array has all elements of the span.
     *
     * @param length the length of the array
     * @return true if the last element lies in it, or there is none
     */
    public boolean fitsInto(int length) {
        return count == 0 || offset + (count - 1L) * stride < length;
    }

    /**
     * Returns the span in words.
     *
     * @return for example {@code 1000 samples from 1 by 3}
     */
    @Override
    public String toString() {
        return Figures.counted(count, "sample") + " from " + offset + " by " + stride;
    }
}
