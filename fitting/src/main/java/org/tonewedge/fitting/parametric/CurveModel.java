// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.List;
import java.util.Objects;

/**
 * A parametric curve of your own, such as a formula from a paper: what {@link ModelFit} needs to fit it.
 *
 * <pre>{@code
 * final class Hyperbolic implements CurveModel {
 *     public String name() { return "hyperbolic tangent"; }
 *     public List<String> parameters() { return List.of("base plus fog", "range", "middle", "width"); }
 *     public double density(double x, double[] p) { return p[0] + 0.5 * p[1] * (1 + Math.tanh((x - p[2]) / p[3])); }
 *     public double gradient(double x, double[] p) { return p[1] * slope((x - p[2]) / p[3]) / p[3]; }
 *     public void derivatives(double x, double[] p, double[] derivatives) {
 *         double z = (x - p[2]) / p[3];
 *         derivatives[0] = 1;
 *         derivatives[1] = 0.5 * (1 + Math.tanh(z));
 *         derivatives[2] = -p[1] * slope(z) / p[3];
 *         derivatives[3] = z * derivatives[2];
 *     }
 *     public double[] start(double[] logExposures, double[] densities) {
 *         int last = densities.length - 1;
 *         return new double[] {densities[0], densities[last] - densities[0], logExposures[last / 2], 0.8};
 *     }
 *     private static double slope(double z) { return 0.5 / (Math.cosh(z) * Math.cosh(z)); }
 * }
 * }</pre>
 *
 * <p>{@link ModelFit} checks the model at its start before it searches: densities and derivatives must be finite, and the
 * derivatives must agree with differences of the density. It refuses one that does not, with the parameter and the log
 * exposure.
 *
 * <p>Implementations are stateless or immutable, and thread safe. They do not keep or change the arrays they are handed.
 */
public interface CurveModel {

    /**
     * Returns the name, for messages.
     *
     * @return for example {@code hyperbolic tangent}
     */
    String name();

    /**
     * Returns the names of the parameters, in their order.
     *
     * @return one name or more, all different
     */
    List<String> parameters();

    /**
     * Returns the density.
     *
     * @param logExposure log<sub>10</sub> H; {@link Double#NEGATIVE_INFINITY} for no exposure
     * @param parameters the values, in the order of {@link #parameters()}
     * @return the gross density; NaN where the model is not defined for the parameters
     */
    double density(double logExposure, double[] parameters);

    /**
     * Returns the gradient of the curve.
     *
     * @param logExposure log<sub>10</sub> H
     * @param parameters the values
     * @return the derivative of the density by log exposure
     */
    double gradient(double logExposure, double[] parameters);

    /**
     * Writes the derivatives of the density by the parameters.
     *
     * @param logExposure log<sub>10</sub> H
     * @param parameters the values
     * @param derivatives receives one derivative for each parameter
     */
    void derivatives(double logExposure, double[] parameters, double[] derivatives);

    /**
     * Returns base plus fog.
     *
     * @param parameters the values
     * @return the density without exposure, by default {@link #density density} at minus infinity
     */
    default double basePlusFog(double[] parameters) {
        Objects.requireNonNull(parameters, "parameters");
        return density(Double.NEGATIVE_INFINITY, parameters);
    }

    /**
     * Returns values to begin the search with, from the readings.
     *
     * @param logExposures the log exposures, rising
     * @param densities the gross density of each
     * @return the values, within the bounds
     */
    double[] start(double[] logExposures, double[] densities);

    /**
     * Returns the least values of the parameters.
     *
     * @return one for each, by default minus infinity
     */
    default double[] lowerBounds() {
        return ModelChecks.all(parameters().size(), Double.NEGATIVE_INFINITY);
    }

    /**
     * Returns the greatest values of the parameters.
     *
     * @return one for each, by default infinity
     */
    default double[] upperBounds() {
        return ModelChecks.all(parameters().size(), Double.POSITIVE_INFINITY);
    }
}
