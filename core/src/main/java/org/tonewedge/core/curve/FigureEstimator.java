// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.function.ToDoubleFunction;
import org.tonewedge.core.quantity.Estimate;

/**
 * How well a curve is known: gives any figure read off the curve, with the standard uncertainty that the errors of the curve
 * give it. The method {@code estimate} of a fit is one:
 *
 * <pre>{@code
 * PatchRendering.throughCurve(bracket, "metered", fit.curve(), fit::estimate, Repeatability.fromRepeats());
 * }</pre>
 *
 * <p>Implementations that belong to this library are immutable and thread safe.
 */
@FunctionalInterface
public interface FigureEstimator {

    /**
     * Returns a figure with its uncertainty.
     *
     * @param figure reads the figure off a curve; it is given curves that differ a little from the one at hand
     * @return the figure of the curve at hand and its standard uncertainty, in the unit of the figure
     * @throws NotDeterminableException if the curve does not give the figure, or its uncertainty is not known
     */
    Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure);
}
