// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/** Readings as plain numbers by rising exposure, the unexposed ones last. The arrays are not to be changed. */
public final class Readings {

    private final double[] logExposures;
    private final double[] densities;
    private final double[] weights;

    /**
     * Keeps readings.
     *
     * @param logExposures the log exposures of the exposed readings, rising; equal ones are repeats
     * @param densities the densities of the exposed readings and after them those of the unexposed ones
     * @param weights 1/variance of each reading, up to a common factor
     */
    public Readings(double[] logExposures, double[] densities, double[] weights) {
        this.logExposures = logExposures;
        this.densities = densities;
        this.weights = weights;
    }

    /**
     * Returns the log exposures.
     *
     * @return those of the exposed readings
     */
    public double[] logExposures() {
        return logExposures;
    }

    /**
     * Returns the densities.
     *
     * @return those of all readings
     */
    public double[] densities() {
        return densities;
    }

    /**
     * Returns the weights.
     *
     * @return one for each reading
     */
    public double[] weights() {
        return weights;
    }

    /**
     * Returns how many readings there are.
     *
     * @return exposed and unexposed ones
     */
    public int size() {
        return densities.length;
    }

    /**
     * Returns how many readings are exposed.
     *
     * @return the number
     */
    public int exposed() {
        return logExposures.length;
    }

    /**
     * Returns the readings without the unexposed ones.
     *
     * @return the exposed readings; this if there are no others
     */
    public Readings exposedOnly() {
        return exposed() == size()
                ? this
                : new Readings(logExposures, Arrays.copyOf(densities, exposed()), Arrays.copyOf(weights, exposed()));
    }

    /**
     * Returns the readings without one of them.
     *
     * @param reading its index
     * @return one reading fewer
     */
    public Readings without(int reading) {
        return new Readings(
                reading < exposed() ? without(reading, logExposures) : logExposures,
                without(reading, densities),
                without(reading, weights));
    }

    private static double[] without(int index, double[] values) {
        double[] others = Arrays.copyOf(values, values.length - 1);
        System.arraycopy(values, index + 1, others, index, others.length - index);
        return others;
    }

    /**
     * Returns readings with other densities at the same exposures.
     *
     * @param others as many densities
     * @return the readings
     */
    public Readings withDensities(double[] others) {
        return new Readings(logExposures, others, weights);
    }

    /**
     * Returns how many different exposures there are, none at all counted as one.
     *
     * @return the number
     */
    public int levels() {
        int levels = exposed() < size() ? 1 : 0;
        for (int i = 0; i < logExposures.length; i++) {
            levels += i == 0 || logExposures[i] > logExposures[i - 1] ? 1 : 0;
        }
        return levels;
    }
}
