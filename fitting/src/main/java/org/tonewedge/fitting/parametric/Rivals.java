package org.tonewedge.fitting.parametric;

import java.util.List;
import java.util.Optional;
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
 * @param check a curve of no family, which the figures of this one are held against
 * @param notes sentences
 */
record Rivals(
        double ownWeight,
        List<Rival> others,
        Optional<Function<ToDoubleFunction<CharacteristicCurve>, Estimate>> check,
        List<String> notes) {

    static final Rivals NONE = new Rivals(1, List.of(), Optional.empty(), List.of());

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
     *
     * <p>Were the family right, the figure of a curve of no family would lie off it by u<sub>c</sub>² − u² on average of
     * squares (Hausman); what it lies farther off is the family's own error, and adds to u².
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
