// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/**
 * The mathematical form of a curve: density and gradient as plain-number functions of log exposure. Examples are a
 * monotone cubic, and a toe–straight-line–shoulder model with its parameters.
 *
 * <p>A form knows nothing of readings, units or limits: {@link CharacteristicCurve} adds the axis, the measured range
 * and base plus fog, and checks every question. Implementations are immutable and thread safe, and answer for any
 * finite log exposure in or near the range they were made for.
 */
public interface CurveForm {

    /**
     * Returns a form given by two functions, such as a formula from a paper. Nothing checks that the second is the
     * derivative of the first: gamma, toe and shoulder come from it alone.
     *
     * @param density the gross density at a log exposure
     * @param gradient its derivative
     * @return the form, immutable and thread safe if the functions are pure
     */
    static CurveForm of(DoubleUnaryOperator density, DoubleUnaryOperator gradient) {
        return new FunctionForm(density, gradient);
    }

    /**
     * Returns the density.
     *
     * @param logExposure log<sub>10</sub> H on the axis of the curve
     * @return the gross density
     */
    double density(double logExposure);

    /**
     * Returns the gradient, the derivative of {@link #density(double)}.
     *
     * @param logExposure log<sub>10</sub> H on the axis of the curve
     * @return dD / dlog<sub>10</sub> H
     */
    double gradient(double logExposure);

    /**
     * Returns the points where the form changes between rising, falling and level. Between two neighbouring points the
     * density is monotone.
     *
     * <p>The default looks for sign changes of the gradient on a grid of 1,024 cells and narrows each down by
     * bisection, so it may miss a reversal narrower than a cell. A form that is always monotone returns an empty array;
     * a form that knows its turning points returns them.
     *
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the turning points strictly inside the range, rising; empty for a monotone form
     */
    default double[] turningPoints(double from, double to) {
        return TurningPoints.of(this, from, to);
    }

    /**
     * Returns the straight line that the formula of the form defines, such as the line between toe and shoulder of a
     * toe–straight-line–shoulder model. The curve need not touch it.
     *
     * @return the line; empty (the default) for a form without one
     */
    default Optional<StraightLine> straightLine() {
        return Optional.empty();
    }

    /**
     * Tells whether the formula of the form shows that the gradient, wherever it is above 0, rises to one greatest value and
     * falls from there, as that of a sigmoid does. The steepest place is then found with fewer looks.
     *
     * @return true if that is known; false (the default) if not
     */
    default boolean hasOneSteepestPlace() {
        return false;
    }

    /**
     * Writes the densities of many log exposures. Allocates nothing.
     *
     * @param logExposures the log exposures
     * @param densities receives one density for each; may be the same array as the input
     */
    default void densities(double[] logExposures, double[] densities) {
        for (int i = 0; i < logExposures.length; i++) {
            densities[i] = density(logExposures[i]);
        }
    }

    /**
     * Writes the gradients at many log exposures. Allocates nothing.
     *
     * @param logExposures the log exposures
     * @param gradients receives one gradient for each; may be the same array
     */
    default void gradients(double[] logExposures, double[] gradients) {
        for (int i = 0; i < logExposures.length; i++) {
            gradients[i] = gradient(logExposures[i]);
        }
    }
}
