// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.strip.Strip;

/**
 * What the stated errors of strips contribute to the uncertainty of a figure read off one or several strips: those of
 * the tablet, of the exposure as a whole and of the densitometer's correction.
 *
 * <p>Each source is changed by plus and minus one standard uncertainty in all strips that share it. Half the difference
 * is its contribution: u² = Σ ((f<sub>+</sub> − f<sub>−</sub>) / 2)². A tablet's error is the same in all films exposed
 * through it, and changes their speeds together. It therefore affects a comparison with the reference only if the two
 * films are read at different steps.
 *
 * <p>For 10,000 simulated strips exposed through a tablet with u = 0.01 for each step, and 0.03 for the exposure as a
 * whole, the interval ±1.96 u about the log exposure of the speed point contains the truth in 94.7 % of cases
 * ({@code SystematicUncertaintyTest.main}).
 *
 * <p>The scatter of the readings is not included; {@link ReadingUncertainty} gives it. The two are independent, so
 * their squares add.
 *
 * <p>Immutable and thread safe.
 *
 * @source JCGM 100:2008, 5.1.2 and 5.1.3 note 2 (contributions by varying the inputs), 5.2 (inputs in common)
 */
public final class SystematicUncertainty {

    private final Map<String, Double> contributions;

    private SystematicUncertainty(Map<String, Double> contributions) {
        this.contributions = Collections.unmodifiableMap(contributions);
    }

    /**
     * Determines the contributions to a figure.
     *
     * @param strips the strips from which the figure is read
     * @param figure reads the figure off strips given in the same order
     * @return the contributions; none if the strips state no errors
     * @throws org.tonewedge.core.curve.NotDeterminableException if the figure cannot be read with an error added
     */
    public static SystematicUncertainty of(List<Strip> strips, ToDoubleFunction<List<Strip>> figure) {
        Objects.requireNonNull(figure, "figure");
        Set<String> sources = new LinkedHashSet<>();
        strips.forEach(strip -> sources.addAll(strip.statedErrors()));
        Map<String, Double> contributions = new LinkedHashMap<>();
        for (String source : sources) {
            double above = figure.applyAsDouble(moved(strips, source, 1));
            double below = figure.applyAsDouble(moved(strips, source, -1));
            contributions.put(source, 0.5 * (above - below));
        }
        return new SystematicUncertainty(contributions);
    }

    private static List<Strip> moved(List<Strip> strips, String source, double standardUncertainties) {
        return strips.stream()
                .map(strip -> strip.withStatedError(source, standardUncertainties))
                .toList();
    }

    /**
     * Returns the uncertainty of which the contributions are known.
     *
     * @param bySource by the name of the source how the figure moves with one standard uncertainty of it, signed
     * @return the uncertainty
     */
    public static SystematicUncertainty ofContributions(Map<String, Double> bySource) {
        Objects.requireNonNull(bySource, "bySource");
        return new SystematicUncertainty(new LinkedHashMap<>(bySource));
    }

    /**
     * Returns the contribution of each source.
     *
     * @return for the name of each source, the change of the figure with one standard uncertainty of it, signed, in the
     *     unit of the figure
     */
    public Map<String, Double> contributions() {
        return contributions;
    }

    /**
     * Returns the standard uncertainty (k = 1) of the figure from all sources together.
     *
     * @return the square root of the sum of squared contributions; 0 if no error was stated
     */
    public double standardUncertainty() {
        return Math.sqrt(contributions.values().stream().mapToDouble(c -> c * c).sum());
    }

    /**
     * Returns the uncertainty in words.
     *
     * @return the standard uncertainty and the number of its sources
     */
    @Override
    public String toString() {
        return "u = " + standardUncertainty() + " from " + contributions.size() + " sources of error";
    }
}
