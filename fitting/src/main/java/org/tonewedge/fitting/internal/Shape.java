// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.function.DoubleUnaryOperator;

/**
 * What a family of curves looks like: D(x) = offset + scale · φ(x; q), linear in offset and scale, with few shape
 * parameters q. Parameters that are positive by nature are given as their natural logarithms, so that a search can not
 * leave their range.
 *
 * <p>φ rises with x wherever it lies between its limits. Implementations are stateless.
 */
public interface Shape {

    /**
     * Returns the number of shape parameters.
     *
     * @return 0 or more
     */
    int size();

    /**
     * Returns φ.
     *
     * @param x the log exposure
     * @param q the shape parameters
     * @return φ(x; q)
     */
    double value(double x, double[] q);

    /**
     * Returns the derivative of φ by x.
     *
     * @param x the log exposure
     * @param q the shape parameters
     * @return dφ/dx
     */
    double slope(double x, double[] q);

    /**
     * Returns φ as a function of the log exposure alone.
     *
     * @param q the shape parameters, not to be changed afterwards
     * @return the same values as {@link #value}, faster for many exposures
     */
    default DoubleUnaryOperator at(double[] q) {
        return x -> value(x, q);
    }

    /**
     * Writes φ at many log exposures.
     *
     * @param x the log exposures
     * @param q the shape parameters
     * @param values receives the same values as {@link #at} gives; may be the same array
     */
    default void values(double[] x, double[] q, double[] values) {
        DoubleUnaryOperator at = at(q);
        for (int i = 0; i < x.length; i++) {
            values[i] = at.applyAsDouble(x[i]);
        }
    }

    /**
     * Returns the derivative of φ by x as a function of the log exposure alone.
     *
     * @param q the shape parameters, not to be changed afterwards
     * @return the same values as {@link #slope}, faster for many exposures
     */
    default DoubleUnaryOperator slopeAt(double[] q) {
        return x -> slope(x, q);
    }

    /**
     * Returns where φ has a value.
     *
     * @param value a value of φ
     * @param q the shape parameters
     * @return x; NaN if φ does not take the value
     */
    double inverse(double value, double[] q);

    /**
     * Writes φ and its derivatives by the shape parameters.
     *
     * @param x the log exposures
     * @param count how many of them
     * @param q the shape parameters
     * @param values receives φ
     * @param partials receives one array for each shape parameter
     */
    void fill(double[] x, int count, double[] q, double[] values, double[][] partials);

    /**
     * Writes the second derivatives of φ by the shape parameters, each summed over the readings times a factor.
     *
     * @param x the log exposures
     * @param count how many of them
     * @param q the shape parameters
     * @param partials what {@link #fill} wrote for them
     * @param factors one for each reading
     * @param sums receives the sums by rows, on and above the diagonal
     * @return false if the shape does not tell them; then nothing is written
     */
    default boolean sumSecondPartials(
            double[] x, int count, double[] q, double[][] partials, double[] factors, double[][] sums) {
        return false;
    }

    /**
     * Tells whether φ tends to 0 without exposure, so that the offset is base plus fog.
     *
     * @return false if φ falls without limit
     */
    default boolean reachesBase() {
        return true;
    }
}
