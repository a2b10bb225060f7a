// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/**
 * Simulated strips exposed for six times from 1 to 300 s, and how well {@link ReciprocityFit} finds their law. Run it by hand
 * for the figures in its documentation: the argument is the number of cases of each form.
 */
final class ReciprocitySimulation {

    static final double EXPONENT = 0.85;
    /** log H₀, log E₀ and a of the catenary. */
    static final double[] CATENARY = {-1.5, -1.8, 0.14};

    private static final double[] SECONDS = {1, 3, 10, 30, 100, 300};
    private static final double UNCERTAINTY = 0.02;

    private ReciprocitySimulation() {}

    static double schwarzschild(double seconds) {
        return -1.4 + (1 - EXPONENT) * Math.log10(seconds);
    }

    /** log H at a time on the catenary, by bisection: independent of the iteration that is checked. */
    static double catenary(double seconds) {
        double low = -5;
        double high = 5;
        for (int i = 0; i < 100; i++) {
            double h = 0.5 * (low + high);
            double x = CATENARY[2] * Math.log(10) * (h - Math.log10(seconds) - CATENARY[1]);
            if (h - CATENARY[0] - Math.log10(Math.cosh(x)) < 0) {
                low = h;
            } else {
                high = h;
            }
        }
        return 0.5 * (low + high);
    }

    /** The corrected time for a metered one: that at which H(t) / t is H(1) / metered, by bisection. */
    static double correctedOnCatenary(double metered) {
        double low = metered / 10;
        double high = metered * 1000;
        for (int i = 0; i < 100; i++) {
            double t = Math.sqrt(low * high);
            if (catenary(t) - Math.log10(t) > catenary(1) - Math.log10(metered)) {
                low = t;
            } else {
                high = t;
            }
        }
        return low;
    }

    static List<ReciprocityFit.TimedExposure> strips(boolean onCatenary, boolean stated, Random random) {
        List<ReciprocityFit.TimedExposure> strips = new ArrayList<>();
        for (double seconds : SECONDS) {
            double log = (onCatenary ? catenary(seconds) : schwarzschild(seconds))
                    + (random == null ? 0 : UNCERTAINTY * random.nextGaussian());
            strips.add(new ReciprocityFit.TimedExposure(
                    Duration.ofMillis(Math.round(seconds * 1000)), Estimate.of(log, stated ? UNCERTAINTY : 0)));
        }
        return strips;
    }

    /** Coverage and mean error relative to the truth of one figure. */
    static double[] run(int cases, int kind, Random random) {
        double truth = kind < 2 ? EXPONENT : correctedOnCatenary(60);
        int held = 0;
        int found = 0;
        double bias = 0;
        for (int i = 0; i < cases; i++) {
            Estimate estimate;
            try {
                estimate = kind < 2
                        ? ReciprocityFit.schwarzschild(strips(false, kind == 0, random))
                                .exponent()
                        : ReciprocityFit.catenary(strips(true, kind == 2, random))
                                .correctedSeconds(Duration.ofSeconds(60));
            } catch (NotDeterminableException e) {
                continue;
            }
            found++;
            held += estimate.interval(0.95).contains(truth) ? 1 : 0;
            bias += estimate.value() / truth - 1;
        }
        return new double[] {held / (double) found, bias / found, cases - found};
    }

    public static void main(String[] args) {
        int cases = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
        String[] kinds = {
            "exponent, u stated", "exponent, by scatter", "catenary at 60 s, u stated", "catenary, by scatter"
        };
        for (int kind = 0; kind < kinds.length; kind++) {
            double[] found = run(cases, kind, new Random(kind));
            System.out.printf(
                    Locale.ROOT,
                    "%s: coverage %.1f %%, bias %.2f %%, refused %.0f%n",
                    kinds[kind],
                    100 * found[0],
                    100 * found[1],
                    found[2]);
        }
    }
}
