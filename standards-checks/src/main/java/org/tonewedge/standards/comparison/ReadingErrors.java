// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * The uncertainty that the repeatability of readings gives to what is read off a curve. Each step's mean, and base plus
 * fog, is changed by its standard deviation in both directions and the curve drawn again (JCGM 100:2008, 5.1.3, note
 * 2).
 */
final class ReadingErrors implements FigureEstimator {

    private final CharacteristicCurve curve;
    private final double degreesOfFreedom;

    /** For each reading, the curves with it moved up and down. */
    private final List<List<CharacteristicCurve>> moved = new ArrayList<>();

    ReadingErrors(
            Strip strip,
            Repeatability repeatability,
            CharacteristicCurve curve,
            Function<Strip, CharacteristicCurve> drawing) {
        this.curve = curve;
        degreesOfFreedom = repeatability.degreesOfFreedom();
        for (int i = -1; i < strip.steps().size(); i++) {
            int readings = i < 0
                    ? strip.basePlusFogReadings().size()
                    : strip.steps().get(i).readings().size();
            Density read = i < 0
                    ? strip.basePlusFog().orElse(curve.basePlusFog())
                    : strip.steps().get(i).density();
            double deviation = repeatability.standardDeviationAt(read) / Math.sqrt(readings);
            moved.add(
                    List.of(drawing.apply(changed(strip, i, deviation)), drawing.apply(changed(strip, i, -deviation))));
        }
    }

    /** The strip with one step moved, or base plus fog for an index of −1. */
    private static Strip changed(Strip strip, int index, double by) {
        Strip.Builder changed = Strip.builder(strip.id());
        strip.basePlusFogReadings().forEach(base -> changed.basePlusFog(base.value() + (index < 0 ? by : 0)));
        for (int i = 0; i < strip.steps().size(); i++) {
            ExposedStep step = strip.steps().get(i);
            for (Density density : step.readings()) {
                changed.reading(step.exposure(), Density.of(density.value() + (i == index ? by : 0)));
            }
        }
        return changed.build();
    }

    @Override
    public Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure) {
        double value = figure.applyAsDouble(curve);
        double variance = 0;
        for (List<CharacteristicCurve> pair : moved) {
            double change = change(figure, value, pair);
            variance += change * change;
        }
        return Estimate.of(value, Math.sqrt(variance), degreesOfFreedom);
    }

    /** Half the difference between both directions; one-sided if the other does not give the figure. */
    private static double change(
            ToDoubleFunction<CharacteristicCurve> figure, double value, List<CharacteristicCurve> pair) {
        double above;
        try {
            above = figure.applyAsDouble(pair.get(0));
        } catch (NotDeterminableException e) {
            return value - figure.applyAsDouble(pair.get(1));
        }
        try {
            return (above - figure.applyAsDouble(pair.get(1))) / 2;
        } catch (NotDeterminableException e) {
            return above - value;
        }
    }
}
