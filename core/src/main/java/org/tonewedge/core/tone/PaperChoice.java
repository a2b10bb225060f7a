// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.DensityDifference;

/**
 * The paper whose range fits a negative's density range best.
 *
 * <p>Prints are generally very satisfactory if the paper's log exposure range equals the effective density range of the
 * negative. That is the range between the densities of the darkest and lightest tones that matter, as the printer sees
 * them.
 *
 * @param negativeRange the density range of the negative
 * @param paper the paper that fits best; of two equally near, the one with the longer range
 * @source ISO 6846:1992, introduction, in the preview of the Japanese edition
 */
public record PaperChoice(DensityDifference negativeRange, PaperRange paper) {

    /**
     * Checks the range.
     *
     * @param negativeRange the density range of the negative
     * @param paper the paper
     * @throws IllegalArgumentException if the range is not above 0
     */
    public PaperChoice {
        Objects.requireNonNull(paper, "paper");
        Checks.positive("density range of a negative", negativeRange.value());
    }

    /**
     * Chooses the best paper from a list.
     *
     * @param negativeRange the effective density range of the negative, above 0
     * @param papers the papers at hand, one or more
     * @return the choice
     * @throws IllegalArgumentException if the range is not above 0 or there is no paper
     */
    public static PaperChoice among(DensityDifference negativeRange, List<PaperRange> papers) {
        return new PaperChoice(
                negativeRange,
                papers.stream()
                        .min(Comparator.<PaperRange>comparingDouble(paper -> Math.abs(excess(negativeRange, paper)))
                                .thenComparingDouble(
                                        paper -> -paper.logExposureRange().logUnits()))
                        .orElseThrow(() -> new IllegalArgumentException("there is no paper to choose from")));
    }

    private static double excess(DensityDifference negativeRange, PaperRange paper) {
        return negativeRange.value() - paper.logExposureRange().logUnits();
    }

    /**
     * Returns how much longer the range of the negative is than that of the paper.
     *
     * @return the density range of the negative minus the paper's log exposure range: positive if tones at the ends
     *     print to pure white or black, negative if the print does not use the whole range of the paper
     */
    public DensityDifference excess() {
        return DensityDifference.of(excess(negativeRange, paper));
    }

    /**
     * Returns the choice in words.
     *
     * @return for example {@code paper 'grade 2' (1.05) for a density range of 1.10, excess ΔD +0.05}
     */
    @Override
    public String toString() {
        return "paper '" + paper.label() + "' ("
                + Figures.plain(paper.logExposureRange().logUnits()) + ") for a density range of "
                + Figures.plain(negativeRange.value()) + ", excess " + excess();
    }
}
