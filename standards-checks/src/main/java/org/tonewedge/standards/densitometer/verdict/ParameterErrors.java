// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.tonewedge.fitting.numeric.Matrices;

/**
 * The errors of the parameters of a calibration by origin: what one standard uncertainty of each adds to every parameter.
 *
 * @param ofSteps those of the certified densities, in the order of the steps
 * @param others independent errors with the covariances that are left
 */
record ParameterErrors(List<double[]> ofSteps, List<double[]> others) {

    /**
     * Divides the covariances of parameters.
     *
     * @param covariances those for weights of 1 / variance, which all steps together cause
     * @param scale by how much the departures exceed what the uncertainties explain
     * @param influences by how much the parameters move where the reading of a step is one unit higher
     * @param certified by how much one standard uncertainty of a step's certified density moves its reading
     */
    static ParameterErrors of(double[][] covariances, double scale, double[][] influences, double[] certified) {
        int size = covariances.length;
        double[][] left = new double[size][size];
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                left[i][j] = scale * scale * covariances[i][j];
            }
        }
        List<double[]> ofSteps = new ArrayList<>();
        for (int step = 0; step < influences.length; step++) {
            double[] moved = new double[size];
            for (int i = 0; i < size; i++) {
                moved[i] = influences[step][i] * certified[step];
            }
            for (int i = 0; i < size; i++) {
                for (int j = 0; j < size; j++) {
                    left[i][j] -= moved[i] * moved[j];
                }
            }
            ofSteps.add(moved);
        }
        return new ParameterErrors(ofSteps, Arrays.asList(Matrices.independentErrors(left)));
    }
}
