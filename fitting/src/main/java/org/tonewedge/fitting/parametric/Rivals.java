// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.List;
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
 * @param notes sentences
 */
record Rivals(double ownWeight, List<Rival> others, List<String> notes) {

    static final Rivals NONE = new Rivals(1, List.of(), List.of());

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
        return total == 0 ? own : Estimate.of(own.value(), Math.sqrt(variance / total), freedom / total);
    }

    private static double squared(double value) {
        return value * value;
    }
}
