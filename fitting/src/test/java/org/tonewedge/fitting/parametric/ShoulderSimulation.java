// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.CoverageInterval;

/**
 * Why the density at which the shoulder starts is contained a little too seldom: the shares of its 95 % intervals that contain
 * the true one, from the narrowest quarter to the widest, on strips of the family with three readings of base plus fog.
 */
final class ShoulderSimulation {

    private ShoulderSimulation() {}

    private record Found(double width, boolean contains) {}

    private static double start(CharacteristicCurve curve) {
        return CurveAnatomy.of(curve)
                .shoulder()
                .orElseThrow(() -> new NotDeterminableException("no shoulder"))
                .thinEnd()
                .density()
                .value();
    }

    /**
     * Prints the shares.
     *
     * @param args the strips, 5,000 if not given
     */
    public static void main(String[] args) {
        int strips = args.length > 0 ? Integer.parseInt(args[0]) : 5_000;
        for (int steps : FitCoverage.STEPS) {
            for (double deviation : new double[] {0.005, 0.02}) {
                Random random = new Random(steps);
                List<Found> found = new ArrayList<>();
                for (int i = 0; i < strips; i++) {
                    CharacteristicCurve truth = FitCoverage.Truth.IN_FAMILY.draw(random);
                    FittedCurve fit = CurveFits.toeShoulder(FitCoverage.strip(truth, steps, 3, deviation, random));
                    try {
                        double start = start(truth);
                        CoverageInterval interval = fit.interval(ShoulderSimulation::start, 0.95);
                        found.add(new Found(interval.width(), interval.contains(start)));
                    } catch (NotDeterminableException e) {
                        // no shoulder
                    }
                }
                found.sort(Comparator.comparingDouble(Found::width));
                System.out.printf("%2d steps, error %.3f, by quarters:", steps, deviation);
                for (int quarter = 0; quarter < 4; quarter++) {
                    List<Found> part = found.subList(quarter * found.size() / 4, (quarter + 1) * found.size() / 4);
                    long contained = part.stream().filter(Found::contains).count();
                    System.out.printf(" %.1f", 100.0 * contained / part.size());
                }
                System.out.println();
            }
        }
    }
}
