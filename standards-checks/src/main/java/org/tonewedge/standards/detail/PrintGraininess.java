// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Estimate;

/**
 * How grainy a print looks from a film: the fluctuation of print density that the eye makes of the film's grain at a
 * magnification and a viewing distance.
 *
 * <p>σ = γ √(∫∫ W(u, v) [M(f) A(f<sub>r</sub>)]<sup>2</sup> du dv), with the noise power W of the film, the modulation
 * transfer M of enlarger and paper in the plane of the film, the gradient γ of the paper at the tone looked at, and the
 * sensitivity A of the eye as {@link PrintSharpness} has it, at f<sub>r</sub> cycles per degree. It compares films and
 * enlargements; no threshold of what is seen was found in a source.
 *
 * <pre>{@code
 * Estimate grain = PrintGraininess.at(10, 400).determine(spectrum, enlarger, 2.5);
 * }</pre>
 *
 * <p>Compare films at equal density of the print, so at densities of the negatives that print alike. Noise power that a scan
 * shows includes that of the scanner and lacks what the scanner blurs, see {@link NoiseSpectrum#corrected NoiseSpectrum.corrected}.
 *
 * <p>Immutable and thread safe.
 *
 * @source noise behind a linear filter: convolution theorem; the eye: as {@link PrintSharpness}; their product as graininess:
 *     common practice, no source
 */
public final class PrintGraininess {

    private final PrintSharpness way;

    private PrintGraininess(PrintSharpness way) {
        this.way = way;
    }

    /**
     * Returns the way a print is made and seen.
     *
     * @param magnification lengths on the print over lengths on the film, above 0
     * @param viewingDistance from the eye to the print in millimetres, above 0
     * @return the way
     * @throws IllegalArgumentException if either is not above 0
     */
    public static PrintGraininess at(double magnification, double viewingDistance) {
        return new PrintGraininess(PrintSharpness.at(magnification, viewingDistance));
    }

    /**
     * Determines the graininess with a perfect enlarger.
     *
     * @param film the noise power of the film at the density looked at
     * @param paperGradient the gradient of the paper at the tone it prints to, above 0
     * @return the fluctuation of print density as the eye weighs it
     * @throws IllegalArgumentException if the gradient is not above 0
     */
    public Estimate determine(NoiseSpectrum film, double paperGradient) {
        Checks.positive("gradient of the paper", paperGradient);
        double perCycle = way.onFilm(1);
        return film.deviation(frequency -> paperGradient * PrintSharpness.sensitivity(frequency / perCycle));
    }

    /**
     * Determines the graininess.
     *
     * @param film the noise power of the film at the density looked at
     * @param enlarger the modulation transfer of enlarger and paper in the plane of the film; beyond its last frequency it
     *     counts as not passing, below its first as at its first
     * @param paperGradient the gradient of the paper at the tone it prints to, above 0
     * @return the fluctuation of print density as the eye weighs it; its uncertainty is that of the noise power alone
     * @throws IllegalArgumentException if the gradient is not above 0
     */
    public Estimate determine(NoiseSpectrum film, ModulationTransfer enlarger, double paperGradient) {
        Checks.positive("gradient of the paper", paperGradient);
        double perCycle = way.onFilm(1);
        return film.deviation(frequency -> {
            double passed = frequency > enlarger.highestFrequency()
                    ? 0
                    : enlarger.at(Math.max(frequency, enlarger.lowestFrequency()))
                            .value();
            return paperGradient * passed * PrintSharpness.sensitivity(frequency / perCycle);
        });
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the way of looking
     */
    @Override
    public String toString() {
        return "graininess, " + way;
    }
}
