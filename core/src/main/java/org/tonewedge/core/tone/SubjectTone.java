// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.List;
import java.util.stream.IntStream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * A tone of the subject, such as one two stops darker than the metered tone: the decimal logarithm of its luminance,
 * counted from that of the metered tone.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param logLuminance log<sub>10</sub> of the luminance divided by that of the metered tone, from −10 to 10
 * @units decimal log units
 */
public record SubjectTone(double logLuminance) implements Comparable<SubjectTone> {

    /** The tone that was metered. */
    public static final SubjectTone METERED = new SubjectTone(0);

    private static final double LIMIT = 10;

    /**
     * Checks the tone.
     *
     * @param logLuminance the logarithm of the ratio of luminances
     * @throws IllegalArgumentException if it is not from −10 to 10
     */
    public SubjectTone {
        logLuminance = Checks.within(
                "log luminance of a tone",
                logLuminance,
                -LIMIT,
                LIMIT,
                "give the decimal logarithm of the ratio to the metered tone");
    }

    /**
     * Returns a tone by its distance from the metered tone.
     *
     * @param stops doublings of luminance, negative for darker tones
     * @return the tone
     * @throws IllegalArgumentException if it is farther than 10 log units
     */
    public static SubjectTone ofStops(double stops) {
        return new SubjectTone(ExposureInterval.ofStops(stops).logUnits());
    }

    /**
     * Returns a tone by its luminance or reflectance.
     *
     * @param luminance the luminance of the tone, or its reflectance under the same light, above 0
     * @param meteredLuminance the luminance or reflectance of the metered tone, in the same unit, above 0
     * @return the tone
     * @throws IllegalArgumentException if either is not above 0 or they are more than 10 log units apart
     */
    public static SubjectTone ofLuminance(double luminance, double meteredLuminance) {
        return new SubjectTone(Math.log10(Checks.positive("luminance", luminance))
                - Math.log10(Checks.positive("luminance of the metered tone", meteredLuminance)));
    }

    /**
     * Returns tones at equal distances, for a graph.
     *
     * @param darkest the first
     * @param lightest the last
     * @param count how many, at least 2
     * @return the tones, from the first to the last
     * @throws IllegalArgumentException if there are fewer than 2
     */
    public static List<SubjectTone> between(SubjectTone darkest, SubjectTone lightest, int count) {
        Checks.within("number of tones", count, 2, Integer.MAX_VALUE, "");
        double step = (lightest.logLuminance - darkest.logLuminance) / (count - 1);
        return IntStream.range(0, count)
                .mapToObj(i -> i == count - 1 ? lightest : new SubjectTone(darkest.logLuminance + i * step))
                .toList();
    }

    /**
     * Returns the distance from the metered tone.
     *
     * @return doublings of luminance, negative for darker tones
     */
    public double stops() {
        return ExposureInterval.ofLogUnits(logLuminance).stops();
    }

    @Override
    public int compareTo(SubjectTone other) {
        return Double.compare(logLuminance, other.logLuminance);
    }

    /**
     * Returns the tone in words.
     *
     * @return for example {@code −2 stops from the metered tone}
     */
    @Override
    public String toString() {
        return Figures.stops(stops()) + " from the metered tone";
    }
}
