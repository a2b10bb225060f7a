// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.agreement;

import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.quantity.CoverageInterval;

/** Simulated comparisons of two instruments whose truth is known; {@link #main} prints the coverages of the Javadoc. */
final class AgreementSimulation {

    private static final double NOISE = 0.004;
    private static final double BIAS = 0.01;
    private static final double SLOPE = 0.98;
    private static final double Z = 1.959964;

    private AgreementSimulation() {}

    /** Shares of intervals with the truth: lower limit, upper limit, bias, Deming's slope, its difference at density 2. */
    static double[] coverages(int steps, int cases, Random random) {
        int[] hits = new int[5];
        for (int i = 0; i < cases; i++) {
            double[] first = new double[steps];
            double[] second = new double[steps];
            double[] sloped = new double[steps];
            for (int step = 0; step < steps; step++) {
                double truth = 0.05 + 3.0 * step / (steps - 1);
                first[step] = truth + NOISE * random.nextGaussian();
                second[step] = truth + BIAS + NOISE * random.nextGaussian();
                sloped[step] = BIAS + SLOPE * truth + NOISE * random.nextGaussian();
            }
            LimitsOfAgreement limits = LimitsOfAgreement.of(first, second);
            DemingRegression line = DemingRegression.of(first, sloped);
            double deviation = NOISE * Math.sqrt(2);
            hits[0] += contains(limits.lower().interval(0.95), BIAS - Z * deviation);
            hits[1] += contains(limits.upper().interval(0.95), BIAS + Z * deviation);
            hits[2] += contains(limits.bias().interval(0.95), BIAS);
            hits[3] += contains(line.slope().interval(0.95), SLOPE);
            hits[4] += contains(line.differenceAt(2).interval(0.95), BIAS + (SLOPE - 1) * 2);
        }
        double[] shares = new double[hits.length];
        for (int i = 0; i < hits.length; i++) {
            shares[i] = (double) hits[i] / cases;
        }
        return shares;
    }

    private static int contains(CoverageInterval interval, double truth) {
        return interval.lower() <= truth && truth <= interval.upper() ? 1 : 0;
    }

    public static void main(String[] args) {
        int cases = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
        for (int steps : new int[] {7, 11, 21}) {
            StringBuilder line = new StringBuilder(steps + " steps:");
            for (double share : coverages(steps, cases, new Random(steps))) {
                line.append(String.format(Locale.ROOT, " %.1f", 100 * share));
            }
            System.out.println(line);
        }
    }
}
