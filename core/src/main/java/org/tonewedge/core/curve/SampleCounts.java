// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.List;
import org.tonewedge.core.internal.Figures;

/**
 * How many samples a conversion met, and how many of them had no result of their own.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param total all samples
 * @param below those below the range that has results; of scan codes that rise with transmittance these are the densest
 * @param above those above it; of such codes the thinnest
 * @param notNumbers those that were NaN, or codes without a value between codes that have one
 */
public record SampleCounts(long total, long below, long above, long notNumbers) {

    /**
     * Returns the samples that had no result of their own.
     *
     * @return below, above and not numbers together
     */
    public long outside() {
        return below + above + notNumbers;
    }

    /**
     * Returns the counts of several parts together.
     *
     * @param parts the counts of each part
     * @return their sum
     */
    public static SampleCounts sum(List<SampleCounts> parts) {
        long[] sums = new long[4];
        for (SampleCounts part : parts) {
            sums[0] += part.total;
            sums[1] += part.below;
            sums[2] += part.above;
            sums[3] += part.notNumbers;
        }
        return new SampleCounts(sums[0], sums[1], sums[2], sums[3]);
    }

    /**
     * Returns the counts in words.
     *
     * @return for example {@code 24000000 samples, 312 below, 0 above, 0 not numbers}
     */
    @Override
    public String toString() {
        return Figures.counted(total, "sample") + ", " + below + " below, " + above + " above, " + notNumbers
                + " not numbers";
    }
}
