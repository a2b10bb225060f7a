// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/**
 * The other curves that a strip's readings allow, with their weights and notes on those that could not be fitted.
 *
 * @param ownWeight the weight of the curve that was chosen
 * @param others the others
 * @param check a curve of no family, which the figures of this one are held against
 * @param notes sentences
 */
record Rivals(
        double ownWeight,
        List<Rival> others,
        Optional<Function<ToDoubleFunction<CharacteristicCurve>, Estimate>> check,
        List<String> notes) {

    static final Rivals NONE = new Rivals(1, List.of(), Optional.empty(), List.of());

    /** Curves of less weight do not change an uncertainty in its first two digits. */
    private static final double LEAST_WEIGHT = 0.005;

    /**
     * Another curve.
     *
     * @param weight its weight
     * @param estimates reads figures off it
     */
    record Rival(double weight, Function<ToDoubleFunction<CharacteristicCurve>, Estimate> estimates) {}

    Rivals {
        others = others.stream().filter(rival -> rival.weight() >= LEAST_WEIGHT).toList();
        notes = List.copyOf(notes);
    }

    /**
     * The figure of the chosen curve with the uncertainty of all curves: u² = Σ w (u<sub>i</sub>² + (θ<sub>i</sub> −
     * θ)²); its degrees of freedom are the mean of theirs. A curve that does not give the figure is left out.
     *
     * <p>If the family is right, the mean squared distance to the figure of a curve of no family is u<sub>c</sub>² − u²
     * (Hausman). A larger distance is the family's own error, and adds to u².
     *
     * @source J. A. Hausman, Specification tests in econometrics, Econometrica 46 (1978), 1251–1271 (from memory)
     */
    Estimate among(Estimate own, ToDoubleFunction<CharacteristicCurve> figure) {
        double variance = ownWeight * squared(own.standardUncertainty());
        double freedom = ownWeight * own.degreesOfFreedom();
        double total = ownWeight;
        for (Rival rival : others) {
            try {
                Estimate other = rival.estimates().apply(figure);
                double distance = other.value() - own.value();
                variance += rival.weight() * (squared(other.standardUncertainty()) + squared(distance));
                freedom += rival.weight() * other.degreesOfFreedom();
                total += rival.weight();
            } catch (NotDeterminableException | IllegalArgumentException e) {
                // the rival does not reach the figure
            }
        }
        Estimate mixed = total == 0 ? own : Estimate.of(own.value(), Math.sqrt(variance / total), freedom / total);
        double excess = excess(own, figure);
        return excess == 0
                ? mixed
                : Estimate.of(
                        own.value(),
                        Math.sqrt(squared(mixed.standardUncertainty()) + excess),
                        mixed.degreesOfFreedom());
    }

    private double excess(Estimate own, ToDoubleFunction<CharacteristicCurve> figure) {
        if (check.isEmpty()) {
            return 0;
        }
        try {
            Estimate free = check.get().apply(figure);
            double explained = Math.max(0, squared(free.standardUncertainty()) - squared(own.standardUncertainty()));
            return Math.max(0, squared(free.value() - own.value()) - explained);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return 0; // the check does not reach the figure
        }
    }

    private static double squared(double value) {
        return value * value;
    }
}
