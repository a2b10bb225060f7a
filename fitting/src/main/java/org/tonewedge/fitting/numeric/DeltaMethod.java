// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.numeric;

import java.util.function.ToDoubleFunction;

/**
 * The law of propagation of uncertainty: the variance of a figure that depends on correlated parameters.
 *
 * @source JCGM 100:2008, 5.2.2, equation (13) (from memory)
 */
public final class DeltaMethod {

    private DeltaMethod() {}

    /**
     * Returns the variance of a figure, g<sup>T</sup> C g.
     *
     * @param gradient g, the derivatives of the figure by the parameters
     * @param covariance C, the covariance of the parameters, by rows
     * @return the variance, never below 0
     */
    public static double variance(double[] gradient, double[][] covariance) {
        double sum = 0;
        for (int i = 0; i < gradient.length; i++) {
            for (int j = 0; j < gradient.length; j++) {
                sum += gradient[i] * covariance[i][j] * gradient[j];
            }
        }
        return Math.max(sum, 0);
    }

    /**
     * Returns the derivatives of a figure by central differences, one-sided where the figure is undefined on one side.
     *
     * @param figure the figure of parameters; NaN where it is undefined
     * @param value the figure of the parameters themselves
     * @param parameters the parameters, not changed
     * @param steps the step of each parameter; 0 for one that does not vary, whose derivative is given as 0
     * @return the derivatives; NaN where the figure is undefined on both sides
     */
    public static double[] gradient(
            ToDoubleFunction<double[]> figure, double value, double[] parameters, double[] steps) {
        double[] gradient = new double[parameters.length];
        for (int j = 0; j < gradient.length; j++) {
            if (steps[j] > 0) {
                double above = moved(figure, parameters, j, steps[j]);
                double below = moved(figure, parameters, j, -steps[j]);
                gradient[j] = Double.isNaN(above)
                        ? (value - below) / steps[j]
                        : Double.isNaN(below) ? (above - value) / steps[j] : (above - below) / (2 * steps[j]);
            }
        }
        return gradient;
    }

    private static double moved(ToDoubleFunction<double[]> figure, double[] parameters, int j, double step) {
        double[] moved = parameters.clone();
        moved[j] += step;
        return figure.applyAsDouble(moved);
    }
}
