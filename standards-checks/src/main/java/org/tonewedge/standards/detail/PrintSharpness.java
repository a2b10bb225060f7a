// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/**
 * How sharp a print from a film looks: the modulation that film, enlarger and paper transmit to the eye, weighted by
 * the sensitivity of the eye at each frequency, as a fraction of that of a perfect chain, such as 0.83.
 *
 * <p>Q = ∫ M(f) A(f) d ln f / ∫ A(f) d ln f, where M is the modulation transfer of the chain in the print and the
 * contrast sensitivity is A(f<sub>r</sub>) = 2.6 (0.0192 + 0.114 f<sub>r</sub>) exp(−(0.114
 * f<sub>r</sub>)<sup>1.1</sup>) at f<sub>r</sub> cycles per degree as
 * seen. The integrals run from {@value #LOWEST_FREQUENCY} to {@value #HIGHEST_FREQUENCY} cycles per degree.
 *
 * <pre>{@code
 * PrintSharpness.at(10, 400).determine(film.times(enlargerLens));
 * }</pre>
 *
 * <p>Immutable and thread safe.
 *
 * @source contrast sensitivity: Mannos and Sakrison 1974, as described in a thesis on image synthesis and evaluation (its peak
 *     of 1 near 8 cycles per degree checked), constants from memory; integral over the logarithm of frequency: from memory
 */
public final class PrintSharpness {

    /** The lowest frequency included, in cycles per degree. */
    public static final double LOWEST_FREQUENCY = 1;

    /** The highest frequency included, in cycles per degree. */
    public static final double HIGHEST_FREQUENCY = 60;

    private static final int STEPS = 400;

    private final double magnification;
    private final double viewingDistance;

    private PrintSharpness(double magnification, double viewingDistance) {
        this.magnification = magnification;
        this.viewingDistance = viewingDistance;
    }

    /**
     * Returns the conditions in which a print is made and seen.
     *
     * @param magnification lengths on the print divided by lengths on the film, above 0
     * @param viewingDistance the distance from the eye to the print, in millimetres, above 0
     * @return the way
     * @throws IllegalArgumentException if either is not above 0
     */
    public static PrintSharpness at(double magnification, double viewingDistance) {
        return new PrintSharpness(
                Checks.positive("magnification", magnification),
                Checks.positive("viewing distance in millimetres", viewingDistance));
    }

    /**
     * Returns the frequency on the film that corresponds to a frequency as seen.
     *
     * @param cyclesPerDegree the frequency seen
     * @return cycles per millimetre on the film
     */
    public double onFilm(double cyclesPerDegree) {
        return cyclesPerDegree * magnification / (viewingDistance * Math.toRadians(1));
    }

    /**
     * Returns the sensitivity of the eye to a frequency.
     *
     * @param cyclesPerDegree the frequency seen
     * @return the sensitivity, about 1 at most
     */
    public static double sensitivity(double cyclesPerDegree) {
        return 2.6 * (0.0192 + 0.114 * cyclesPerDegree) * Math.exp(-Math.pow(0.114 * cyclesPerDegree, 1.1));
    }

    /**
     * Determines the sharpness.
     *
     * @param chain the modulation transfer of film, lens and paper together, in the plane of the film
     * @return the sharpness, from 0 to about 1; its uncertainty is that of the chain alone
     * @throws IllegalArgumentException if the chain is not known from {@value #LOWEST_FREQUENCY} cycles per degree as seen;
     *     frequencies above the known range count as not transmitted
     */
    public Estimate determine(ModulationTransfer chain) {
        Checks.within(
                "lowest frequency of the chain in cycles per millimetre",
                chain.lowestFrequency(),
                0,
                onFilm(LOWEST_FREQUENCY),
                "the eye sees coarser detail than the chain is known for");
        double whole = 0;
        for (int i = 0; i < STEPS; i++) {
            whole += sensitivity(seen(i));
        }
        double all = whole;
        return chain.estimate(values -> {
            double sum = 0;
            for (int i = 0; i < STEPS; i++) {
                double onFilm = onFilm(seen(i));
                sum += onFilm > chain.highestFrequency() ? 0 : chain.valueAt(values, onFilm) * sensitivity(seen(i));
            }
            return sum / all;
        });
    }

    /** The middle of one of equal steps in the logarithm of frequency. */
    private static double seen(int step) {
        return LOWEST_FREQUENCY * Math.pow(HIGHEST_FREQUENCY / LOWEST_FREQUENCY, (step + 0.5) / STEPS);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof PrintSharpness that
                && Double.compare(magnification, that.magnification) == 0
                && Double.compare(viewingDistance, that.viewingDistance) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(magnification, viewingDistance);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return magnification and viewing distance
     */
    @Override
    public String toString() {
        return "print enlarged " + Figures.plain(magnification) + " times, seen from " + Figures.plain(viewingDistance)
                + " mm";
    }
}
