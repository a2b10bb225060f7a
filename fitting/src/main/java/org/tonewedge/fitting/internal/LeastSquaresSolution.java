// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * What {@link LeastSquares} found: parameters, residuals, covariance and how the search went.
 *
 * <p>Standard errors and covariances are those of the linear model at the parameters, C = s² (J<sup>T</sup>
 * J)<sup>−1</sup> with s² = residual sum of squares / degrees of freedom; the unscaled ones leave s² out, for residuals
 * already divided by a known standard deviation. A parameter held at its bound has no variance of its own: its rows and
 * columns are 0, and the others are those of the model with the parameter fixed.
 */
public final class LeastSquaresSolution {

    private final double[] parameters;
    private final double[] residuals;
    private final boolean[] held;
    private final double[][] unscaled;
    private final double sumOfSquares;
    private final double condition;
    private final int iterations;
    private final int evaluations;
    private final double relativeOffset;
    private final StopReason stopReason;

    LeastSquaresSolution(
            double[] parameters, double[] residuals, LevenbergMarquardt search, boolean[] held, StopReason stopReason) {
        this.parameters = parameters;
        this.residuals = residuals;
        this.held = held;
        this.stopReason = stopReason;
        sumOfSquares = search.sumOfSquares();
        iterations = search.iterations();
        evaluations = search.evaluations();
        relativeOffset = search.relativeOffset();
        if (stopReason == StopReason.UNDEFINED_START) {
            unscaled = null;
            condition = Double.NaN;
        } else {
            Triangle free = Triangle.ofFree(search.triangle(), held);
            unscaled = free.covariance();
            condition = free.condition();
        }
    }

    /**
     * Returns the parameters.
     *
     * @return a copy
     */
    public double[] parameters() {
        return parameters.clone();
    }

    /**
     * Returns the residuals at the parameters.
     *
     * @return a copy
     */
    public double[] residuals() {
        return residuals.clone();
    }

    /**
     * Returns the residual sum of squares.
     *
     * @return the sum
     */
    public double residualSumOfSquares() {
        return sumOfSquares;
    }

    /**
     * Returns the residuals less the parameters that were free.
     *
     * @return the degrees of freedom
     */
    public int degreesOfFreedom() {
        int freedom = residuals.length;
        for (boolean fixed : held) {
            freedom -= fixed ? 0 : 1;
        }
        return freedom;
    }

    /**
     * Returns the residual standard deviation.
     *
     * @return the root of the residual sum of squares over the degrees of freedom; NaN if there are none
     */
    public double residualStandardDeviation() {
        int freedom = degreesOfFreedom();
        return freedom > 0 ? Math.sqrt(sumOfSquares / freedom) : Double.NaN;
    }

    /**
     * Returns (J<sup>T</sup> J)<sup>−1</sup>, the covariance for residuals of standard deviation 1.
     *
     * @return a copy, by rows; infinite where the model cannot tell parameters apart
     * @throws IllegalStateException if the search could not start
     */
    public double[][] unscaledCovariance() {
        if (unscaled == null) {
            throw new IllegalStateException(
                    "the model has no finite residuals at the start, so there is no covariance");
        }
        double[][] copy = new double[unscaled.length][];
        for (int i = 0; i < copy.length; i++) {
            copy[i] = unscaled[i].clone();
        }
        return copy;
    }

    /**
     * Returns the covariance scaled by the residual variance.
     *
     * @return a copy, by rows
     * @throws IllegalStateException if the search could not start
     */
    public double[][] covariance() {
        double variance = residualStandardDeviation() * residualStandardDeviation();
        double[][] covariance = unscaledCovariance();
        for (double[] row : covariance) {
            for (int j = 0; j < row.length; j++) {
                row[j] *= variance;
            }
        }
        return covariance;
    }

    /**
     * Returns the standard errors scaled by the residual standard deviation.
     *
     * @return one for each parameter; 0 for one held at its bound
     * @throws IllegalStateException if the search could not start
     */
    public double[] standardErrors() {
        double[][] covariance = covariance();
        double[] errors = new double[covariance.length];
        for (int i = 0; i < errors.length; i++) {
            errors[i] = Math.sqrt(covariance[i][i]);
        }
        return errors;
    }

    /**
     * Returns the condition number of the Jacobian with columns of unit length, which does not depend on units.
     *
     * @return 1 or more; about 10<sup>8</sup> and above the parameters cannot be told apart
     */
    public double conditionNumber() {
        return condition;
    }

    /**
     * Tells whether a parameter ended at its bound.
     *
     * @param parameter its index
     * @return true if it was held there
     */
    public boolean isAtBound(int parameter) {
        return held[parameter];
    }

    /**
     * Returns the number of iterations.
     *
     * @return the number of linear models made
     */
    public int iterations() {
        return iterations;
    }

    /**
     * Returns how often the residuals were computed, those for differences not counted.
     *
     * @return the number
     */
    public int evaluations() {
        return evaluations;
    }

    /**
     * Returns how far the parameters may be off, as a fraction of their standard errors.
     *
     * @return Bates and Watts's relative offset
     */
    public double relativeOffset() {
        return relativeOffset;
    }

    /**
     * Returns why the search ended.
     *
     * @return the reason
     */
    public StopReason stopReason() {
        return stopReason;
    }
}
