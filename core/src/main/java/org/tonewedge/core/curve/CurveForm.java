package org.tonewedge.core.curve;

import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/**
 * The mathematical form of a curve: density and gradient as functions of log exposure, as plain numbers, such as a
 * monotone cubic or a toe–straight-line–shoulder model with its parameters.
 *
 * <p>A form knows no readings, no units and no limits; {@link CharacteristicCurve} adds the axis, the measured range and
 * base plus fog, and guards every question. Implementations are immutable and thread safe, and answer for any finite log
 * exposure in or near the range they were made for.
 */
public interface CurveForm {

    /**
     * Returns a form given by two functions, such as a formula from a paper.
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
     * Returns where the form stops rising and begins to fall or stay level, or the reverse. Between two neighbours the
     * density is monotone.
     *
     * <p>The default looks for changes of sign of the gradient on a grid of 1024 cells and narrows each down by
     * bisection, so it may miss a reversal narrower than a cell. A form that is monotone by nature returns an empty
     * array; one that knows its turning points returns them.
     *
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the turning points strictly inside the range, rising; empty for a monotone form
     */
    default double[] turningPoints(double from, double to) {
        return TurningPoints.of(this, from, to);
    }

    /**
     * Returns the straight line that belongs to the form by its formula, such as the line between toe and shoulder of a
     * toe–straight-line–shoulder model. The curve need not touch it anywhere.
     *
     * @return the line; nothing for a form that has none of its own, which is the default
     */
    default Optional<StraightLine> straightLine() {
        return Optional.empty();
    }

    /**
     * Writes the densities of many log exposures. Allocates nothing.
     *
     * @param logExposures the log exposures
     * @param densities receives one density for each; may be the same array
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
