// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** A sum of squares and its linear model, as the search of {@link LevenbergMarquardt} asks for them. */
interface Objective {

    /** The number of parameters searched. */
    int size();

    /** The number of residuals less all parameters, searched or eliminated. */
    int degreesOfFreedom();

    /** The sum of squared residuals; not finite where the model is not defined. */
    double sumOfSquares(double[] parameters);

    /**
     * The linear model at the parameters of the last call of {@link #sumOfSquares(double[])}: J = Q R, z = Q<sup>T</sup> r.
     *
     * @param triangle receives R by rows; below the diagonal nothing is read
     * @param projected receives z
     */
    void linearise(double[] parameters, double[][] triangle, double[] projected);

    /**
     * The quadratic model with the second derivatives of the residuals, where {@link #linearise} left off: R<sup>T</sup> R is
     * half the second derivatives of the sum of squares, R<sup>T</sup> z half its gradient.
     *
     * @param triangle receives R by rows; below the diagonal nothing is read
     * @param projected receives z
     * @return false if there is no such model near enough to the linear one to be trusted; the arrays are then worthless
     */
    default boolean bend(double[] parameters, double[][] triangle, double[] projected) {
        return false;
    }
}
