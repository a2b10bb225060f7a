package org.tonewedge.standards;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.strip.Strip;

/**
 * What the stated errors of strips, those of the tablet, of the exposure as a whole and of the densitometer's correction,
 * contribute to the uncertainty of a figure read off one strip or several.
 *
 * <p>Each source is moved by plus and minus one standard uncertainty in all strips that share it, and half the difference
 * is its contribution: u² = Σ ((f<sub>+</sub> − f<sub>−</sub>) / 2)². A tablet's error is the same in all films exposed
 * through it: it moves their speeds together, so that a film beside a reference suffers from it only where the two are
 * read at different steps.
 *
 * <p>Of 10,000 simulated strips behind a tablet whose steps have u = 0.01, with 0.03 for the exposure as a whole, the
 * interval ±1.96 u about the log exposure of the speed point includes the truth at the rate that
 * {@code SystematicUncertaintyTest.main} prints: 94.7 %.
 *
 * <p>The scatter of the readings is not in it ({@link ReadingUncertainty}); the two are independent and add in squares.
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
     * @param strips the strips that the figure is read off
     * @param figure reads the figure off strips in the same order
     * @return the contributions; none where the strips state no error
     * @throws org.tonewedge.core.curve.NotDeterminableException if the figure cannot be read with an error added
     */
    public static SystematicUncertainty of(List<Strip> strips, ToDoubleFunction<List<Strip>> figure) {
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
     * Returns what each source contributes.
     *
     * @return by the name of the source how the figure moves with one standard uncertainty of it, signed, in the unit of
     *     the figure
     */
    public Map<String, Double> contributions() {
        return contributions;
    }

    /**
     * Returns the standard uncertainty (k = 1) that all sources together give the figure.
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
