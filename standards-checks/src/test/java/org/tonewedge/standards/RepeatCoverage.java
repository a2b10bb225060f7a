// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.film.Iso6;

/**
 * How often the interval of a speed point contains the true one when the repeatability is known from a few readings of
 * base plus fog only. Each strip has a repeatability of its own, between 0.001 and 0.004, that nobody is told. Run the
 * main method for the table in {@link ReadingUncertainty#of}; its argument is the number of strips.
 */
final class RepeatCoverage {

    private static final double LEAST_DEVIATION = 0.001;
    private static final double GREATEST_DEVIATION = 0.004;
    private static final int STEPS = 21;
    private static final CharacteristicCurve TRUTH = ClosedFormCurve.SOFTPLUS_TOE_SHOULDER.curve();
    private static final double TRUE_SPEED_POINT = speedPoint(TRUTH);

    private RepeatCoverage() {}

    /**
     * The shares of intervals that contain the true speed point.
     *
     * @param withT value ± t u
     * @param withNormal value ± 1.96 u
     * @param refused the share of strips whose few repeats lie so far apart that draws do not give the figure
     */
    record Coverage(double withT, double withNormal, double refused) {}

    static Coverage of(int basePlusFogReadings, int strips, int draws, long seed) {
        Random random = new Random(seed);
        int withT = 0;
        int withNormal = 0;
        int refused = 0;
        for (int i = 0; i < strips; i++) {
            double deviation =
                    LEAST_DEVIATION * Math.exp(random.nextDouble() * Math.log(GREATEST_DEVIATION / LEAST_DEVIATION));
            Strip strip = strip(basePlusFogReadings, deviation, random);
            Estimate estimate;
            try {
                estimate = ReadingUncertainty.of(Repeatability.fromRepeats())
                        .withDraws(draws)
                        .withSeed(i)
                        .estimate(strip, RepeatCoverage::speedPoint);
            } catch (NotDeterminableException e) {
                refused++;
                continue;
            }
            if (estimate.interval(0.95).contains(TRUE_SPEED_POINT)) {
                withT++;
            }
            if (Math.abs(estimate.value() - TRUE_SPEED_POINT) <= 1.96 * estimate.standardUncertainty()) {
                withNormal++;
            }
        }
        double given = strips - refused;
        return new Coverage(withT / given, withNormal / given, refused / (double) strips);
    }

    private static Strip strip(int basePlusFogReadings, double deviation, Random random) {
        double[] base = new double[basePlusFogReadings];
        for (int i = 0; i < base.length; i++) {
            base[i] = TRUTH.basePlusFog().value() + deviation * random.nextGaussian();
        }
        Strip.Builder builder = Strip.builder("simulated").basePlusFog(base);
        for (int i = 0; i < STEPS; i++) {
            double x = -3 + 0.15 * i;
            builder.reading(
                    LogExposure.ofLogLuxSeconds(x), Density.of(TRUTH.density(x) + deviation * random.nextGaussian()));
        }
        return builder.build();
    }

    private static double speedPoint(CharacteristicCurve curve) {
        return Iso6.withDefaults().contrast(curve).speedPoint().logExposure().value();
    }

    /**
     * Prints the table.
     *
     * @param args the number of strips
     */
    public static void main(String[] args) {
        int strips = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
        for (int readings : new int[] {2, 3, 5, 10}) {
            Coverage coverage = of(readings, strips, 200, readings);
            System.out.printf(
                    Locale.ROOT,
                    "%d readings of base plus fog: %.1f %% with t, %.1f %% with 1.96, %.2f %% refused%n",
                    readings,
                    100 * coverage.withT(),
                    100 * coverage.withNormal(),
                    100 * coverage.refused());
        }
    }
}
