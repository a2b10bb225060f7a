// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/** Checks a caller's model before it is fitted. */
final class ModelChecks {

    /** The step of a difference, as a part of the value. */
    private static final double STEP = 1e-5;
    /** How far a derivative may lie from a difference, as a part of the greatest of its kind. */
    private static final double NEAR = 1e-4;

    private ModelChecks() {}

    static double[] all(int size, double value) {
        double[] values = new double[size];
        Arrays.fill(values, value);
        return values;
    }

    /** The start, after a check of all that the model is asked for. */
    static double[] checkedStart(CurveModel model, double[] logExposures, double[] densities) {
        String name = Checks.notBlank("name of a model", model.name());
        List<String> parameters = List.copyOf(model.parameters());
        int size = parameters.size();
        if (size == 0 || new HashSet<>(parameters).size() != size) {
            throw refused(name, "needs parameters with different names, had " + parameters);
        }
        double[] start = model.start(logExposures.clone(), densities.clone()).clone();
        requireSize(name, "start", start, size);
        requireSize(name, "lower bounds", model.lowerBounds(), size);
        requireSize(name, "upper bounds", model.upperBounds(), size);
        for (int i = 0; i < size; i++) {
            if (!(start[i] >= model.lowerBounds()[i] && start[i] <= model.upperBounds()[i])) {
                throw refused(
                        name,
                        "starts with " + parameters.get(i) + " at " + start[i] + ", outside its bounds, "
                                + model.lowerBounds()[i] + " to " + model.upperBounds()[i]);
            }
        }
        requireFinite(name, "base plus fog at the start", model.basePlusFog(start.clone()));
        checkDerivatives(model, name, parameters, start, logExposures);
        return start;
    }

    private static void checkDerivatives(
            CurveModel model, String name, List<String> parameters, double[] start, double[] logExposures) {
        int size = parameters.size();
        double[][] given = new double[logExposures.length][size];
        double[][] found = new double[logExposures.length][size];
        for (int k = 0; k < logExposures.length; k++) {
            double x = logExposures[k];
            String where = " at log exposure " + x;
            requireFinite(name, "density" + where, model.density(x, start.clone()));
            model.derivatives(x, start.clone(), given[k]);
            for (int i = 0; i < size; i++) {
                requireFinite(name, "derivative by " + parameters.get(i) + where, given[k][i]);
                found[k][i] = difference(model, x, start, i);
            }
            double gradient = model.gradient(x, start.clone());
            requireFinite(name, "gradient" + where, gradient);
            double slope =
                    (model.density(x + STEP, start.clone()) - model.density(x - STEP, start.clone())) / (2 * STEP);
            if (Math.abs(gradient - slope) > NEAR * Math.max(1, Math.abs(slope))) {
                throw refused(
                        name,
                        "has the gradient " + gradient + where + ", but differences of its density give " + slope);
            }
        }
        for (int i = 0; i < size; i++) {
            double scale = 0;
            for (double[] row : found) {
                scale = Math.max(scale, Double.isNaN(row[i]) ? 0 : Math.abs(row[i]));
            }
            for (int k = 0; k < logExposures.length; k++) {
                if (Math.abs(given[k][i] - found[k][i]) > NEAR * Math.max(scale, 1e-6)) {
                    throw refused(
                            name,
                            "has the derivative " + given[k][i] + " by " + parameters.get(i) + " at log exposure "
                                    + logExposures[k] + ", but differences of its density give " + found[k][i]);
                }
            }
        }
    }

    /** A central difference; NaN where the model is not defined on both sides. */
    private static double difference(CurveModel model, double x, double[] start, int i) {
        double step = STEP * Math.max(Math.abs(start[i]), 0.1);
        double[] moved = start.clone();
        moved[i] = start[i] + step;
        double above = model.density(x, moved);
        moved[i] = start[i] - step;
        return (above - model.density(x, moved)) / (2 * step);
    }

    private static void requireSize(String name, String what, double[] values, int size) {
        if (values.length != size) {
            throw refused(
                    name,
                    "has " + Figures.counted(size, "parameter") + " but " + Figures.counted(values.length, "value")
                            + " of its " + what);
        }
    }

    private static void requireFinite(String name, String what, double value) {
        if (!Double.isFinite(value)) {
            throw refused(name, "gives " + value + " as " + what);
        }
    }

    private static IllegalArgumentException refused(String name, String fault) {
        return new IllegalArgumentException("model '" + Checks.shortened(name) + "' " + fault + ": correct the model");
    }
}
