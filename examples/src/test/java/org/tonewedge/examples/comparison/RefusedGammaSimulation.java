// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.StripFit;

/**
 * Whether gamma of strips of the demo is refused rightly: whether the true curve has a gamma over the exposures that were read,
 * and how often it is refused if each strip is exposed and read again with other errors.
 */
final class RefusedGammaSimulation {

    private RefusedGammaSimulation() {}

    static OptionalDouble gamma(CharacteristicCurve curve) {
        try {
            return OptionalDouble.of(requiredGamma(curve));
        } catch (NotDeterminableException e) {
            return OptionalDouble.empty();
        }
    }

    private static double requiredGamma(CharacteristicCurve curve) {
        return CurveAnatomy.of(curve).requireStraightLine().gamma().value();
    }

    /** Whether gamma of the fitted strip is refused. */
    static boolean isRefused(Strip strip) {
        try {
            StripFit.of(strip).estimate(RefusedGammaSimulation::requiredGamma);
            return false;
        } catch (NotDeterminableException e) {
            return true; // or cannot be fitted
        }
    }

    /**
     * Prints for each strip what its true curve does and what became of gamma.
     *
     * @param args how often each strip is exposed and read again, then the strips
     */
    public static void main(String[] args) {
        int cases = Integer.parseInt(args[0]);
        for (String id : List.of(args).subList(1, args.length)) {
            CharacteristicCurve truth = DemoStrips.truth(id);
            SplittableRandom seeds = new SplittableRandom(1);
            int refused = 0;
            for (int i = 0; i < cases; i++) {
                refused += isRefused(DemoStrips.again(id, seeds.nextLong())) ? 1 : 0;
            }
            System.out.printf("%s true gamma %s; refused %d of %d%n", id, told(truth), refused, cases);
        }
    }

    private static String told(CharacteristicCurve truth) {
        try {
            return Double.toString(requiredGamma(truth));
        } catch (NotDeterminableException e) {
            return "none: " + e.getMessage();
        }
    }
}
