// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * One stage on the way from subject to print, such as a film's curve from log exposure to density, with its gradient.
 *
 * <p>{@link #then} joins stages: the output type of one is the input type of the next, and gradients multiply. All
 * quantities are logarithmic, so the gradient of the whole chain is the contrast of the reproduction. Joining is
 * associative.
 *
 * <p>Immutable; thread safe if the functions given are.
 *
 * @param <I> what goes in
 * @param <O> what comes out
 * @source the graph of four quadrants after L. A. Jones (1920 and later): from memory
 */
final class ToneStage<I, O> {

    private final String name;
    private final Function<I, O> curve;
    private final ToDoubleFunction<I> slope;

    private ToneStage(String name, Function<I, O> curve, ToDoubleFunction<I> slope) {
        this.name = name;
        this.curve = curve;
        this.slope = slope;
    }

    /**
     * Returns a stage.
     *
     * @param name what it is, in words
     * @param curve the output as a function of the input
     * @param slope the change of output per change of input
     * @param <I> what goes in
     * @param <O> what comes out
     * @return the stage
     * @throws IllegalArgumentException if the name is blank
     */
    static <I, O> ToneStage<I, O> of(String name, Function<I, O> curve, ToDoubleFunction<I> slope) {
        return new ToneStage<>(
                Checks.notBlank("name of a stage", name),
                Objects.requireNonNull(curve, "curve"),
                Objects.requireNonNull(slope, "slope"));
    }

    /**
     * Returns the stage of a film or a paper.
     *
     * @param material its characteristic curve
     * @return the stage from log exposure on the material to its density
     */
    static ToneStage<LogExposure, Density> of(CharacteristicCurve material) {
        return of(
                material.name(),
                material::densityAt,
                exposure -> material.gradientAt(exposure).value());
    }

    /**
     * Returns this stage followed by another.
     *
     * @param next the stage that takes this stage's output
     * @param <P> what comes out of it
     * @return the two as one
     */
    <P> ToneStage<I, P> then(ToneStage<O, P> next) {
        return new ToneStage<>(
                name + ", " + next.name,
                curve.andThen(next.curve),
                in -> slope.applyAsDouble(in) * next.slope.applyAsDouble(curve.apply(in)));
    }

    /**
     * Returns the name of the stage.
     *
     * @return the name in words; for joined stages, all names
     */
    String name() {
        return name;
    }

    /**
     * Returns the output.
     *
     * @param in what goes in
     * @return the result
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if the input leaves the measured range of a curve
     */
    O at(I in) {
        return curve.apply(in);
    }

    /**
     * Returns the gradient.
     *
     * @param in what goes in
     * @return the change of output per change of input at that point
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if the input leaves the measured range of a curve
     */
    Gradient gradientAt(I in) {
        return Gradient.of(slope.applyAsDouble(in));
    }

    /**
     * Returns the stage in words.
     *
     * @return its name
     */
    @Override
    public String toString() {
        return name;
    }
}
