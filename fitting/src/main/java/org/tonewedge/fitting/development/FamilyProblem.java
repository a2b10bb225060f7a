// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.List;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.LeastSquaresProblem;

/** All readings of all strips against one family of curves. */
final class FamilyProblem implements LeastSquaresProblem {

    private static final double Z_STEP = 1e-4;

    /**
     * The least growth of ln contrast with ln t: near the ceiling, time hardly changes contrast, and scatter of
     * contrast says little about time. Chosen, no source.
     */
    private static final double LEAST_GROWTH = 0.3;

    /**
     * The readings of a strip, with those of base plus fog apart; z is the logarithm of its time divided by the central
     * time.
     */
    static final class StripReadings {

        private final double[] logExposures;
        private final double[] densities;
        private final double[] basePlusFog;
        private final double z;

        StripReadings(Strip strip, double z) {
            logExposures = strip.steps().stream()
                    .flatMapToDouble(step -> step.readings().stream()
                            .mapToDouble(reading -> step.exposure().value()))
                    .toArray();
            densities = strip.steps().stream()
                    .flatMapToDouble(step -> step.readings().stream().mapToDouble(Density::value))
                    .toArray();
            basePlusFog = strip.basePlusFogReadings().stream()
                    .mapToDouble(Density::value)
                    .toArray();
            this.z = z;
        }

        int size() {
            return densities.length + basePlusFog.length;
        }
    }

    private final FamilyLayout layout;
    private final List<StripReadings> strips;
    private final double centre;
    private final int readings;

    FamilyProblem(FamilyLayout layout, List<StripReadings> strips, double centre) {
        this.layout = layout;
        this.strips = strips;
        this.centre = centre;
        readings = strips.stream().mapToInt(StripReadings::size).sum();
    }

    @Override
    public int parameterCount() {
        return layout.size();
    }

    @Override
    public int residualCount() {
        return readings;
    }

    @Override
    public void residuals(double[] parameters, double[] residuals) {
        int row = 0;
        for (StripReadings strip : strips) {
            double base = layout.base(parameters, strip.z);
            double gradient = layout.gradient(parameters, strip.z, centre);
            double[] q = layout.shapeParameters(parameters, strip.z);
            for (int i = 0; i < strip.densities.length; i++) {
                residuals[row++] =
                        base + gradient * layout.shape().value(strip.logExposures[i], q) - strip.densities[i];
            }
            for (double reading : strip.basePlusFog) {
                residuals[row++] = base - reading;
            }
        }
    }

    @Override
    public boolean jacobian(double[] parameters, double[][] columns) {
        int row = 0;
        int[][] shapeColumns = layout.shapeColumns();
        for (StripReadings strip : strips) {
            int n = strip.densities.length;
            double gradient = layout.gradient(parameters, strip.z, centre);
            double[] values = new double[n];
            double[][] partials = new double[shapeColumns.length][n];
            layout.shape().fill(strip.logExposures, n, layout.shapeParameters(parameters, strip.z), values, partials);
            for (int i = 0; i < strip.size(); i++, row++) {
                for (double[] column : columns) {
                    column[row] = 0;
                }
                powers(columns, row, 0, layout.base(), strip.z, 1);
                if (i < n) {
                    layout.gradientPartials(parameters, strip.z, centre, values[i], columns, row);
                    for (int k = 0; k < shapeColumns.length; k++) {
                        powers(
                                columns,
                                row,
                                shapeColumns[k][0],
                                shapeColumns[k][1],
                                strip.z,
                                gradient * partials[k][i]);
                    }
                }
            }
        }
        return true;
    }

    /**
     * The derivatives of all densities with respect to the relative error of each strip's contrast, as caused by an
     * error of its rate: the gradient is wrong by that fraction, the rest of the curve as after the time that changes
     * the gradient by it.
     */
    double[][] byStrip(double[] p) {
        double[][] columns = new double[strips.size()][readings];
        int row = 0;
        for (int s = 0; s < columns.length; s++) {
            StripReadings strip = strips.get(s);
            double later = strip.z + Z_STEP;
            double earlier = strip.z - Z_STEP;
            double gradient = layout.gradient(p, strip.z, centre);
            double growth = (layout.gradient(p, later, centre) - layout.gradient(p, earlier, centre)) / gradient;
            double factor = 1 / Math.max(growth, 2 * Z_STEP * LEAST_GROWTH);
            double base = factor * (layout.base(p, later) - layout.base(p, earlier));
            double[] q = layout.shapeParameters(p, strip.z);
            double[] qLater = layout.shapeParameters(p, later);
            double[] qEarlier = layout.shapeParameters(p, earlier);
            for (double x : strip.logExposures) {
                double moved = layout.shape().value(x, qLater) - layout.shape().value(x, qEarlier);
                columns[s][row++] = base + gradient * (layout.shape().value(x, q) + factor * moved);
            }
            for (int i = 0; i < strip.basePlusFog.length; i++) {
                columns[s][row++] = base;
            }
        }
        return columns;
    }

    private static void powers(double[][] columns, int row, int first, int degree, double z, double factor) {
        double power = factor;
        for (int j = 0; j <= degree; j++) {
            columns[first + j][row] = power;
            power *= z;
        }
    }
}
