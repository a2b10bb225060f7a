// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The parts of the engine, each against its definition. */
class LeastSquaresPartsTest {

    private static double[][] triangle(int n, Random random) {
        double[][] r = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = i; j < n; j++) {
                r[i][j] = random.nextGaussian();
            }
        }
        return r;
    }

    /** R<sup>T</sup> R δ + R<sup>T</sup> z. */
    private static double[] gradient(double[][] r, double[] z, double[] step) {
        int n = z.length;
        double[] gradient = new double[n];
        for (int i = 0; i < n; i++) {
            double row = z[i];
            for (int j = i; j < n; j++) {
                row += r[i][j] * step[j];
            }
            for (int j = i; j < n; j++) {
                gradient[j] += r[i][j] * row;
            }
        }
        return gradient;
    }

    private static double length(double[] scale, double[] step) {
        double sum = 0;
        for (int j = 0; j < step.length; j++) {
            sum += Math.pow(scale[j] * step[j], 2);
        }
        return Math.sqrt(sum);
    }

    /**
     * The condition of the least (Karush, Kuhn and Tucker): (R<sup>T</sup> R + λ D²) δ = −R<sup>T</sup> z, with λ = 0 for a step
     * within the radius, else λ above 0 and a length of the radius within a tenth. Where nothing depends on a parameter,
     * a column of zeros, the step may stay shorter.
     */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aStepIsTheLeastWithinItsRadius(boolean fromNormalEquations) {
        Random random = new Random(11);
        int damped = 0;
        for (int trial = 0; trial < 400; trial++) {
            int n = 1 + trial % 4;
            double[][] r = triangle(n, random);
            boolean singular = trial % 10 == 9 && n > 1;
            if (singular) {
                for (int i = 0; i < n; i++) {
                    r[i][1] = 0;
                }
            }
            double[] z = random.doubles(n, -1, 1).toArray();
            double[] scale = random.doubles(n, 0.5, 2).toArray();
            double radius = Math.exp(4 * random.nextDouble() - 3);
            double before = trial % 3 == 0 ? 0 : Math.exp(6 * random.nextDouble() - 3);
            double[] step = new double[n];
            double damping = new TrustRegionStep(n, fromNormalEquations).solve(r, z, scale, n, radius, before, step);
            double[] gradient = gradient(r, z, step);
            for (int j = 0; j < n; j++) {
                assertEquals(0, gradient[j] + damping * scale[j] * scale[j] * step[j], 1e-9, "trial " + trial);
            }
            double length = length(scale, step);
            if (damping == 0 || singular) {
                assertTrue(length <= 1.1 * radius, "trial " + trial);
            } else {
                damped++;
                assertEquals(radius, length, 0.1 * radius, "trial " + trial);
            }
        }
        assertTrue(damped > 200 && damped < 400, damped + " damped steps");
    }

    /** By hand: with R = (1 c; 0 s) of unit columns the singular values are √(1 ± c). */
    @Test
    void conditionIsThatOfUnitColumns() {
        double[][] r = {{10, 0.6}, {0, 0.8}};
        assertEquals(2, Triangle.ofFree(r, new boolean[2]).condition(), 1e-12);
        assertEquals(
                Double.POSITIVE_INFINITY,
                Triangle.ofFree(new double[][] {{1, 0}, {0, 0}}, new boolean[2]).condition());
    }

    /** By hand: R = (2 1 0; 0 1 1; 0 0 1), R<sup>T</sup> R = (4 2 0; 2 2 1; 0 1 2). */
    @Test
    void covarianceIsTheInverseOverTheFreeParameters() {
        double[][] r = {{2, 1, 0}, {0, 1, 1}, {0, 0, 1}};
        double[][] whole = Triangle.ofFree(r, new boolean[3]).covariance();
        assertRows(new double[][] {{0.75, -1, 0.5}, {-1, 2, -1}, {0.5, -1, 1}}, whole);
        // Without the first: the inverse of (2 1; 1 2).
        double[][] held = Triangle.ofFree(r, new boolean[] {true, false, false}).covariance();
        assertRows(new double[][] {{0, 0, 0}, {0, 2.0 / 3, -1.0 / 3}, {0, -1.0 / 3, 2.0 / 3}}, held);
        // Without the second: the inverse of (4 0; 0 2).
        held = Triangle.ofFree(r, new boolean[] {false, true, false}).covariance();
        assertRows(new double[][] {{0.25, 0, 0}, {0, 0, 0}, {0, 0, 0.5}}, held);
        assertArrayEquals(new double[] {2, 1, 0}, r[0], "the triangle itself stays as it is");
    }

    private static void assertRows(double[][] expected, double[][] rows) {
        for (int i = 0; i < expected.length; i++) {
            assertArrayEquals(expected[i], rows[i], 1e-10, "row " + i);
        }
    }

    /** By hand: 3 and 4 turn by the cosine 3/5 and the sine 4/5. */
    @Test
    void rowsAreRotated() {
        double[][] rows = {{9, 9, 9}, {0, 3, 5}, {0, 4, 10}};
        double[] right = {9, 1, 2};
        Givens.rotateRows(rows, right, 1, 2, 3);
        assertRows(new double[][] {{9, 9, 9}, {0, 5, 11}, {0, 0, 2}}, rows);
        assertArrayEquals(new double[] {9, 2.2, 0.4}, right, 1e-14);
    }

    /** R<sup>T</sup> R = J<sup>T</sup> J and R<sup>T</sup> z = J<sup>T</sup> r; a column of zeros stays one. */
    @Test
    void aJacobianIsReducedToItsTriangle() {
        double[][] columns = {{3, 0, 4, 1}, {1, -2, 2, 5}, {0, 0, 0, 0}};
        double[] residuals = {1, 2, -1, 3};
        LeastSquaresProblem problem = new LeastSquaresProblem() {
            @Override
            public int parameterCount() {
                return 3;
            }

            @Override
            public int residualCount() {
                return 4;
            }

            @Override
            public void residuals(double[] p, double[] r) {
                System.arraycopy(residuals, 0, r, 0, 4);
            }

            @Override
            public boolean jacobian(double[] p, double[][] into) {
                Arrays.setAll(into, j -> columns[j].clone());
                return true;
            }
        };
        HouseholderObjective objective = new HouseholderObjective(problem, new double[3], Bounds.none(3));
        assertEquals(15, objective.sumOfSquares(new double[3]));
        double[][] r = new double[3][3];
        double[] z = new double[3];
        objective.linearise(new double[3], r, z);
        double[][] squares = {{26, 16, 0}, {16, 34, 0}, {0, 0, 0}};
        double[] withResiduals = {2, 10, 0};
        for (int j = 0; j < 3; j++) {
            double rotated = 0;
            for (int i = 0; i <= j; i++) {
                rotated += r[i][j] * z[i];
            }
            assertEquals(withResiduals[j], rotated, 1e-12);
            for (int k = j; k < 3; k++) {
                double sum = 0;
                for (int i = 0; i <= j; i++) {
                    sum += r[i][j] * r[i][k];
                }
                assertEquals(squares[j][k], sum, 1e-12);
            }
        }
    }

    /** Five-point differences are exact for a polynomial of fourth degree, on either side of a bound too: p⁴ has 4 p³. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 1, -1})
    void differencesOfAFourthPowerAreExact(double side) {
        Bounds bounds = side == 0
                ? Bounds.none(2)
                : side > 0
                        ? Bounds.of(new double[] {-9, 2}, new double[] {9, 9})
                        : Bounds.of(new double[] {-9, -9}, new double[] {9, 2});
        double[][] columns = new double[2][1];
        NumericalJacobian.fill(fourthPowers(bounds), new double[] {3, 2}, new double[] {3, 2}, bounds, columns);
        assertEquals(4 * 27, columns[0][0], 1e-8);
        assertEquals(4 * 8, columns[1][0], 1e-8);
    }

    private static LeastSquaresProblem fourthPowers(Bounds bounds) {
        return new LeastSquaresProblem() {
            @Override
            public int parameterCount() {
                return 2;
            }

            @Override
            public int residualCount() {
                return 1;
            }

            @Override
            public void residuals(double[] p, double[] r) {
                assertTrue(bounds.allows(0, p[0]) && bounds.allows(1, p[1]), Arrays.toString(p));
                r[0] = Math.pow(p[0], 4) + Math.pow(p[1], 4);
            }
        };
    }

    /**
     * By hand: the line through (0, 1), (1, 3), (2, 4) is 7/6 + 1.5 x, off by 1/6, −1/3 and 1/6; their squares add up to
     * 1/6, with one degree of freedom. (J<sup>T</sup> J)<sup>−1</sup> = (5 −3; −3 3)/6.
     */
    @Test
    void aLineIsFittedWithItsStandardErrors() {
        double[] y = {1, 3, 4};
        LeastSquaresProblem line = new LeastSquaresProblem() {
            @Override
            public int parameterCount() {
                return 2;
            }

            @Override
            public int residualCount() {
                return 3;
            }

            @Override
            public void residuals(double[] p, double[] r) {
                Arrays.setAll(r, i -> p[0] + p[1] * i - y[i]);
            }
        };
        LeastSquaresSolution fit = LeastSquares.withDefaults().solve(line, 10, -10);
        assertArrayEquals(new double[] {7.0 / 6, 1.5}, fit.parameters(), 1e-9);
        assertArrayEquals(new double[] {1.0 / 6, -1.0 / 3, 1.0 / 6}, fit.residuals(), 1e-9);
        assertEquals(1.0 / 6, fit.residualSumOfSquares(), 1e-12);
        assertEquals(Math.sqrt(1.0 / 6), fit.residualStandardDeviation(), 1e-12);
        assertRows(new double[][] {{5.0 / 6, -0.5}, {-0.5, 0.5}}, fit.unscaledCovariance());
        assertRows(new double[][] {{5.0 / 36, -1.0 / 12}, {-1.0 / 12, 1.0 / 12}}, fit.covariance());
        assertArrayEquals(new double[] {Math.sqrt(5.0 / 36), Math.sqrt(1.0 / 12)}, fit.standardErrors(), 1e-9);
        // Columns (1 1 1)/√3 and (0 1 2)/√5 have the cosine 3/√15.
        double cosine = 3 / Math.sqrt(15);
        assertEquals(Math.sqrt((1 + cosine) / (1 - cosine)), fit.conditionNumber(), 1e-8);
        assertTrue(fit.relativeOffset() <= LeastSquares.DEFAULT_TOLERANCE);
        assertTrue(fit.evaluations() > fit.iterations() && fit.iterations() > 0);
    }
}
