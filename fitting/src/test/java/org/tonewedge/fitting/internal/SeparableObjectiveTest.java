// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The quadratic model of a search beside differences of the sum of squares itself. */
class SeparableObjectiveTest {

    private static final double STEP = 1e-3;
    private static final double BASE = 0.3;
    private static final FitSettings PLAIN = new FitSettings(Loss.SQUARES, OptionalDouble.empty(), false, BASE);

    private static ShapeProblem problem(ShapeKind kind, double[] truth) {
        Random random = new Random(7);
        double[] x = new double[21];
        double[] d = new double[23];
        double[] weights = new double[23];
        for (int i = 0; i < d.length; i++) {
            if (i < x.length) {
                x[i] = -3 + 0.15 * i;
                d[i] = kind.shape().value(x[i], truth);
            }
            d[i] = BASE + 0.7 * d[i] + 0.005 * random.nextGaussian();
            weights[i] = 1 + random.nextDouble();
        }
        Readings readings = new Readings(x, d, weights);
        return ShapeProblem.of(kind, kind.shape().reachesBase() ? readings : readings.exposedOnly(), PLAIN);
    }

    private static double sumOfSquares(SeparableObjective objective, double[] q, int k, double dk, int l, double dl) {
        double[] moved = q.clone();
        moved[k] += dk;
        moved[l] += dl;
        return objective.sumOfSquares(moved);
    }

    private static void assertModel(ShapeProblem problem, double... q) {
        int n = q.length;
        SeparableObjective objective =
                new SeparableObjective(n, problem.readings().size());
        objective.reset(problem);
        double[][] r = new double[n][n];
        double[] z = new double[n];
        objective.sumOfSquares(q);
        objective.linearise(q, new double[n][n], new double[n]);
        assertTrue(objective.bend(q, r, z), problem.kind().shape() + " tells its second derivatives");
        double[][] told = new double[n][n];
        double[] gradient = new double[n];
        for (int k = 0; k < n; k++) {
            for (int i = 0; i <= k; i++) {
                gradient[k] += r[i][k] * z[i];
                for (int l = k; l < n; l++) {
                    told[k][l] += r[i][k] * r[i][l];
                }
            }
        }
        for (int k = 0; k < n; k++) {
            double above = sumOfSquares(objective, q, k, STEP, k, 0);
            double below = sumOfSquares(objective, q, k, -STEP, k, 0);
            assertEquals(0.5 * (above - below) / (2 * STEP), gradient[k], 1e-5, "gradient by " + k);
            for (int l = k; l < n; l++) {
                double second = (sumOfSquares(objective, q, k, STEP, l, STEP)
                                - sumOfSquares(objective, q, k, STEP, l, -STEP)
                                - sumOfSquares(objective, q, k, -STEP, l, STEP)
                                + sumOfSquares(objective, q, k, -STEP, l, -STEP))
                        / (4 * STEP * STEP);
                double scale = Math.sqrt(told[k][k] * told[l][l]);
                assertEquals(0.5 * second, told[k][l], 1e-4 * scale, "second derivative by " + k + " and " + l);
            }
        }
    }

    @Test
    void secondDerivativesAreThoseOfTheSumOfSquares() {
        double[] whole = {-2.1, Math.log(0.2), 1.3, Math.log(0.25)};
        double[] bend = {-1.7, Math.log(0.3)};
        ShapeProblem toeShoulder = problem(ShapeKind.TOE_SHOULDER, whole);
        assertModel(toeShoulder, -2.08, Math.log(0.22), 1.29, Math.log(0.24));
        assertModel(problem(ShapeKind.TOE, bend), -1.68, Math.log(0.31));
        assertModel(problem(ShapeKind.SHOULDER, bend), -1.71, Math.log(0.28));
        assertModel(
                toeShoulder.penalised(SoftnessPenalty.of(ShapeKind.TOE_SHOULDER, 0.01)),
                -2.08,
                Math.log(0.22),
                1.29,
                Math.log(0.24));
        assertModel(toeShoulder.holdingOffset(), -2.08, Math.log(0.22), 1.29, Math.log(0.24));
    }

    /** Far from the minimum of a shape, and for a shape that does not tell them, the linear model is left as it is. */
    @Test
    void secondDerivativesAreNotTakenWhereTheyAreNotToBeTrusted() {
        double[] whole = {-2.1, Math.log(0.2), 1.3, Math.log(0.25)};
        SeparableObjective objective = new SeparableObjective(4, 23);
        objective.reset(problem(ShapeKind.TOE_SHOULDER, whole));
        double[] far = {-0.5, Math.log(0.01), 0.1, Math.log(2)};
        objective.sumOfSquares(far);
        objective.linearise(far, new double[4][4], new double[4]);
        assertEquals(false, objective.bend(far, new double[4][4], new double[4]));
        double[] logistic = {-1.5, Math.log(0.3)};
        SeparableObjective other = new SeparableObjective(2, 23);
        other.reset(problem(ShapeKind.LOGISTIC, logistic));
        other.sumOfSquares(logistic);
        other.linearise(logistic, new double[2][2], new double[2]);
        assertEquals(false, other.bend(logistic, new double[2][2], new double[2]), Arrays.toString(logistic));
    }
}
