// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * How often toe, straight line and shoulder is told not to follow the readings of strips of the family and of others, from the
 * readings alone and with their repeatability stated: 0.01, with three readings of base plus fog.
 */
final class MisfitSimulation {

    private static final double DEVIATION = 0.01;

    private MisfitSimulation() {}

    /**
     * Prints the shares.
     *
     * @param args the strips of each row, 1,000 if not given
     */
    public static void main(String[] args) {
        int strips = args.length > 0 ? Integer.parseInt(args[0]) : 1_000;
        CurveFit stated = CurveFit.of(CurveFamily.TOE_SHOULDER).with(Repeatability.of(DEVIATION));
        for (FitCoverage.Truth truth : FitCoverage.Truth.values()) {
            for (int steps : FitCoverage.STEPS) {
                Random random = new Random(steps);
                int byNeighbours = 0;
                int byStated = 0;
                for (int i = 0; i < strips; i++) {
                    CharacteristicCurve curve = truth.draw(random);
                    Strip strip = FitCoverage.strip(curve, steps, 3, DEVIATION, random);
                    byNeighbours += CurveFits.toeShoulder(strip).lackOfFit().isRejected() ? 1 : 0;
                    byStated += stated.fit(strip).lackOfFit().isRejected() ? 1 : 0;
                }
                System.out.printf(
                        "%-10s %2d steps: told of %.1f %%, with stated repeatability of %.1f %%%n",
                        truth, steps, 100.0 * byNeighbours / strips, 100.0 * byStated / strips);
            }
        }
    }
}
