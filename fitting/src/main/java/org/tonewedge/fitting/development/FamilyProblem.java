package org.tonewedge.fitting.development;

import java.util.List;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.LeastSquaresProblem;

/** All readings of all strips against one family of curves. */
final class FamilyProblem implements LeastSquaresProblem {

    /** The readings of a strip: those of base plus fog apart; z is the logarithm of its time over the central one. */
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

    private static void powers(double[][] columns, int row, int first, int degree, double z, double factor) {
        double power = factor;
        for (int j = 0; j <= degree; j++) {
            columns[first + j][row] = power;
            power *= z;
        }
    }
}
