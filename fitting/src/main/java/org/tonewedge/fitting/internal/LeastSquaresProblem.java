// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * Residuals that depend on parameters: what {@link LeastSquares} makes small.
 *
 * <p>Residuals are model − observed, each divided by its standard deviation where the observations differ in it.
 * Parameters for which the model is not defined give residuals that are not finite; the engine then tries a shorter step.
 */
public interface LeastSquaresProblem {

    /**
     * Returns how many parameters there are.
     *
     * @return 1 or more
     */
    int parameterCount();

    /**
     * Returns how many residuals there are.
     *
     * @return as many as parameters, or more
     */
    int residualCount();

    /**
     * Writes the residuals.
     *
     * @param parameters where; not to be changed
     * @param residuals receives model − observed
     */
    void residuals(double[] parameters, double[] residuals);

    /**
     * Writes the derivatives of the residuals, if they are known. It is called right after
     * {@link #residuals(double[], double[])} with the same parameters, so what was computed there may be used again.
     *
     * @param parameters where; not to be changed
     * @param columns receives one array for each parameter: the derivative of every residual by it
     * @return false, the default, if the engine is to take differences instead
     */
    default boolean jacobian(double[] parameters, double[][] columns) {
        return false;
    }
}
