// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Locale;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.Strip;

/**
 * How often {@link StripFit} refuses the gamma of a family because the spline contradicts it, and how often the interval of the
 * family alone would then contain the truth. Run by hand; the results stand in {@link StripFit}.
 *
 * <pre>{@code
 * java … org.tonewedge.fitting.parametric.SplineReach 1500 IN_FAMILY
 * java … org.tonewedge.fitting.parametric.SplineReach 1500 TWO_LAYERS
 * }</pre>
 */
final class SplineReach {

    private int strips;
    private int contradicted;
    private int contained;

    /** Strips of 9, 13, 21 and 31 steps, with and without readings of base plus fog, so many of each. */
    static SplineReach of(FitCoverage.Truth truth, int strips) {
        SplineReach reach = new SplineReach();
        for (int base : new int[] {0, 3}) {
            for (int steps : FitCoverage.STEPS) {
                Random random = new Random(1000L * base + steps);
                for (int i = 0; i < strips; i++) {
                    CharacteristicCurve curve = truth.draw(random);
                    reach.add(curve, FitCoverage.strip(curve, steps, base, random));
                }
            }
        }
        return reach;
    }

    private void add(CharacteristicCurve truth, Strip strip) {
        ToDoubleFunction<CharacteristicCurve> gamma = FitCoverage.Figure.GAMMA::of;
        double exact;
        StripFit fit;
        FittedCurve family;
        try {
            exact = gamma.applyAsDouble(truth);
            fit = StripFit.of(strip);
            family = fit.family().orElseThrow(() -> new NotDeterminableException("drawn by a spline"));
            family.estimate(gamma);
        } catch (NotDeterminableException e) {
            return; // no gamma to ask for
        }
        strips++;
        try {
            fit.estimate(gamma);
        } catch (NotDeterminableException e) {
            contradicted++;
            contained += family.interval(gamma, 0.95).contains(exact) ? 1 : 0;
        }
    }

    /** The part of the strips whose family gives a gamma on which it was refused. */
    double contradicted() {
        return contradicted / (double) strips;
    }

    /** The part of the refused intervals that contain the truth. */
    double coverage() {
        return contained / (double) contradicted;
    }

    /**
     * Prints the figures.
     *
     * @param args the strips of each kind, and the kind of true curve
     */
    public static void main(String[] args) {
        SplineReach reach = of(FitCoverage.Truth.valueOf(args[1]), Integer.parseInt(args[0]));
        System.out.printf(
                Locale.ROOT,
                "%s: %d strips with a gamma, refused %.1f %%, of which the family covers %.0f %%%n",
                args[1],
                reach.strips,
                100 * reach.contradicted(),
                100 * reach.coverage());
    }
}
