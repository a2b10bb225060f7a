// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;

/**
 * The times that give one contrast at several temperatures.
 *
 * <p>Immutable and thread safe.
 */
public final class TimeTemperatureTable {

    private final double contrast;
    private final List<PredictedTime> times;

    TimeTemperatureTable(double contrast, List<PredictedTime> times) {
        this.contrast = contrast;
        this.times = List.copyOf(times);
    }

    /**
     * Returns the contrast that all times give.
     *
     * @return the contrast
     */
    public double contrast() {
        return contrast;
    }

    /**
     * Returns the times, each with its temperature.
     *
     * @return the times by rising temperature, at least one
     */
    public List<PredictedTime> times() {
        return times;
    }

    /**
     * Returns what to bear in mind.
     *
     * @return the cautions, the most pressing first
     */
    public List<Caution> cautions() {
        Duration shortest = times.stream()
                .map(PredictedTime::time)
                .min(Comparator.naturalOrder())
                .orElseThrow();
        return Caution.of(shortest, times.stream().map(PredictedTime::scope).reduce(Scope.TESTED, Scope::and));
    }

    /**
     * Returns the table with its cautions.
     *
     * @return one line for each temperature, then one for each caution
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("times for contrast " + Figures.plain(contrast) + "\n");
        for (PredictedTime time : times) {
            text.append(DevelopmentTimes.inWords(time.temperature().orElseThrow()))
                    .append("  ")
                    .append(DevelopmentTimes.inWords(time.time()))
                    .append(time.isExtrapolated() ? "  extrapolated" : "")
                    .append('\n');
        }
        return text.append(Caution.words(cautions())).toString();
    }
}
