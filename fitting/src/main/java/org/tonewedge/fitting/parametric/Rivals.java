package org.tonewedge.fitting.parametric;

import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/**
 * The other curves that a strip's readings allow, by their weights, and what to know of those that could not be had.
 *
 * @param ownWeight the weight of the curve that was chosen
 * @param others the others
 * @param notes sentences
 */
record Rivals(double ownWeight, List<Rival> others, List<String> notes) {

    static final Rivals NONE = new Rivals(1, List.of(), List.of());

    /** Curves of less weight move no uncertainty that is read to two digits. */
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
     * The figure of the chosen curve with the uncertainty of all: u² = Σ w (u<sub>i</sub>² + (θ<sub>i</sub> − θ)²), its
     * degrees of freedom the mean of theirs. A rival that does not give the figure is left out.
     */
    Estimate among(Estimate own, ToDoubleFunction<CharacteristicCurve> figure) {
        double variance = ownWeight * own.standardUncertainty() * own.standardUncertainty();
        double freedom = ownWeight * own.degreesOfFreedom();
        double total = ownWeight;
        for (Rival rival : others) {
            try {
                Estimate other = rival.estimates().apply(figure);
                double distance = other.value() - own.value();
                variance += rival.weight()
                        * (other.standardUncertainty() * other.standardUncertainty() + distance * distance);
                freedom += rival.weight() * other.degreesOfFreedom();
                total += rival.weight();
            } catch (NotDeterminableException | IllegalArgumentException e) {
                // the rival does not reach the figure
            }
        }
        return total == 0 ? own : Estimate.of(own.value(), Math.sqrt(variance / total), freedom / total);
    }
}
