// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/** Calibrates simulated instruments whose truth is known; {@link #main} prints the table of the Javadoc. */
final class CalibrationSimulation {

    static final double CERTIFICATE = 0.005;
    static final double NOISE = 0.003;
    static final int READINGS = 5;
    static final double[] DENSITIES = {0.3, 1.5, 3.0};

    private static final double Z = 1.959964;

    private CalibrationSimulation() {}

    /** For each density the mean u, then the share of 95 % intervals with the truth; last the share not determined. */
    static double[] coverages(CalibrationForm form, double[] steps, double leak, int cases, Random random) {
        double[] sums = new double[2 * DENSITIES.length + 1];
        int done = 0;
        for (int i = 0; i < cases; i++) {
            double slope = 0.97 + 0.06 * random.nextDouble();
            double offset = form.hasOffset() ? 0.01 * random.nextGaussian() : 0;
            List<CalibrationPoint> points = new ArrayList<>();
            for (double step : steps) {
                double truth = step == 0 ? 0 : step + CERTIFICATE * random.nextGaussian();
                double mean = read(truth, offset, slope, leak) + NOISE / Math.sqrt(READINGS) * random.nextGaussian();
                Estimate reading = Estimate.of(mean, NOISE / Math.sqrt(READINGS));
                points.add(
                        step == 0
                                ? CalibrationPoint.openGate(reading)
                                : new CalibrationPoint(Estimate.of(step, CERTIFICATE), reading));
            }
            try {
                DensitometerCalibration calibration = DensitometerCalibration.of(form, points);
                for (int d = 0; d < DENSITIES.length; d++) {
                    double read = read(DENSITIES[d], offset, slope, leak) + NOISE * random.nextGaussian();
                    Estimate corrected = corrected(calibration, read);
                    sums[2 * d] += corrected.standardUncertainty();
                    boolean within = Math.abs(corrected.value() - DENSITIES[d]) <= Z * corrected.standardUncertainty();
                    sums[2 * d + 1] += within ? 1 : 0;
                }
                done++;
            } catch (NotDeterminableException e) {
                sums[sums.length - 1]++;
            }
        }
        for (int d = 0; d < 2 * DENSITIES.length; d++) {
            sums[d] /= done;
        }
        sums[sums.length - 1] /= cases;
        return sums;
    }

    private static Estimate corrected(DensitometerCalibration calibration, double read) {
        double light = Math.pow(
                        10,
                        -(read - calibration.offset().value())
                                / calibration.slope().value())
                - calibration.leak().value();
        double density = -Math.log10(Math.max(light, 1e-5));
        return Estimate.of(density, calibration.uncertaintyAt(density, NOISE));
    }

    static double read(double density, double offset, double slope, double leak) {
        return offset - slope * Math.log10(Math.pow(10, -density) + leak);
    }

    public static void main(String[] args) {
        int cases = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
        Object[][] rows = {
            {CalibrationForm.SLOPE, new double[] {0, 1.5}},
            {CalibrationForm.SLOPE, new double[] {0, 3.0}},
            {CalibrationForm.SLOPE_AND_LEAK, new double[] {0, 1.5, 3.0}},
            {CalibrationForm.OFFSET_SLOPE_AND_LEAK, new double[] {0, 1.5, 3.0}},
            {CalibrationForm.OFFSET_AND_SLOPE, new double[] {0, 0.6, 1.2, 1.8, 2.4, 3.0}},
            {CalibrationForm.OFFSET_SLOPE_AND_LEAK, new double[] {0, 0.6, 1.2, 1.8, 2.4, 3.0}},
            {CalibrationForm.OFFSET_SLOPE_AND_LEAK, new double[] {0, .3, .6, .9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0}},
        };
        for (Object[] row : rows) {
            CalibrationForm form = (CalibrationForm) row[0];
            double[] steps = (double[]) row[1];
            double[] plain = coverages(form, steps, 0, cases, new Random(1));
            double[] leaking = coverages(form, steps, 2e-4, cases, new Random(2));
            System.out.printf(
                    Locale.ROOT,
                    " * %-22s %2d  %.4f %.4f %.4f  %3.0f %3.0f %3.0f  %3.0f %3.0f %3.0f   (%.4f %.4f)%n",
                    form,
                    steps.length,
                    plain[0],
                    plain[2],
                    plain[4],
                    100 * plain[1],
                    100 * plain[3],
                    100 * plain[5],
                    100 * leaking[1],
                    100 * leaking[3],
                    100 * leaking[5],
                    plain[6],
                    leaking[6]);
        }
    }
}
