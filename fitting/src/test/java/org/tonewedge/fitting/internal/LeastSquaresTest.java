// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.tonewedge.fitting.numeric.LinearFit;

class LeastSquaresTest {

    /**
     * Zones 0 to X of {@code CurveFitTest}: a logistic curve A + (B − A)/(1 + exp(−(x − m)/s)) without bounds. By R
     * 4.2.2 ({@code SSfpl}) and SciPy 1.17.1 ({@code scipy_fits.py} among the resources of {@code CurveFitTest}): A
     * −0.216663450, B 2.036945310, m 0.491146137, s 0.952193672, residual sum of squares 0.003532017333.
     */
    private static final double[] DENSITIES = {0.02, 0.11, 0.21, 0.34, 0.48, 0.62, 0.76, 0.97, 1.18, 1.33, 1.44};

    private static final double[] START = {0, 1.5, 0, 0.5};

    private static class Logistic implements LeastSquaresProblem {

        @Override
        public int parameterCount() {
            return 4;
        }

        @Override
        public int residualCount() {
            return DENSITIES.length;
        }

        @Override
        public void residuals(double[] p, double[] residuals) {
            for (int i = 0; i < residuals.length; i++) {
                residuals[i] = p[0] + (p[1] - p[0]) * Softplus.logistic(z(i, p)) - DENSITIES[i];
            }
        }

        static double z(int i, double[] p) {
            return ((i - 5) * Math.log10(2) - p[2]) / p[3];
        }
    }

    private static final class WithDerivatives extends Logistic {

        @Override
        public boolean jacobian(double[] p, double[][] columns) {
            for (int i = 0; i < DENSITIES.length; i++) {
                double value = Softplus.logistic(z(i, p));
                double slope = (p[1] - p[0]) * value * (1 - value) / p[3];
                columns[0][i] = 1 - value;
                columns[1][i] = value;
                columns[2][i] = -slope;
                columns[3][i] = -slope * z(i, p);
            }
            return true;
        }
    }

    @Test
    void findsTheUnboundedLogisticCurve() {
        for (LeastSquaresProblem problem : new LeastSquaresProblem[] {new Logistic(), new WithDerivatives()}) {
            LeastSquaresSolution solution = LeastSquares.withDefaults().solve(problem, START);
            assertTrue(solution.stopReason().isConverged());
            double[] p = solution.parameters();
            assertEquals(-0.216663450, p[0], 1e-6); // the two systems agree to 6 digits
            assertEquals(2.036945310, p[1], 2e-6);
            assertEquals(0.491146137, p[2], 1e-6);
            assertEquals(0.952193672, p[3], 1e-6);
            assertEquals(0.003532017333, solution.residualSumOfSquares(), 1e-12);
            assertEquals(7, solution.degreesOfFreedom());
        }
    }

    @Test
    void differencesAreAsGoodAsDerivatives() {
        double[] differences =
                LeastSquares.withDefaults().solve(new Logistic(), START).standardErrors();
        double[] derivatives =
                LeastSquares.withDefaults().solve(new WithDerivatives(), START).standardErrors();
        for (int i = 0; i < 4; i++) {
            assertEquals(1, differences[i] / derivatives[i], 1e-8);
        }
    }

    /** The same curve counted from its own lower end, so that the parameter of that end comes to all but 0. */
    @Test
    void differencesAreAsGoodForAParameterThatVanishes() {
        LeastSquaresProblem fromLowerEnd = new Logistic() {
            @Override
            public void residuals(double[] p, double[] residuals) {
                super.residuals(new double[] {p[0] - 0.216663450, p[1], p[2], p[3]}, residuals);
            }
        };
        LeastSquaresSolution solution = LeastSquares.withDefaults().solve(fromLowerEnd, 0.3, 1.5, 0, 0.5);
        assertTrue(solution.stopReason().isConverged());
        assertEquals(0, solution.parameters()[0], 1e-6);
        double[] derivatives =
                LeastSquares.withDefaults().solve(new WithDerivatives(), START).standardErrors();
        for (int i = 0; i < 4; i++) {
            assertEquals(1, solution.standardErrors()[i] / derivatives[i], 1e-7);
        }
    }

    /** SciPy 1.17.1 with A fixed at 0, by {@code scipy_fits.py}: B 1.696368682, m 0.3816546715, s 0.6517575003. */
    @Test
    void holdsParametersAtTheirBounds() {
        double none = Double.POSITIVE_INFINITY;
        LeastSquaresSolution solution = LeastSquares.withDefaults()
                .withBounds(Bounds.of(new double[] {0, -none, -none, 0.01}, new double[] {none, none, none, none}))
                .solve(new Logistic(), START);
        assertTrue(solution.stopReason().isConverged());
        assertTrue(solution.isAtBound(0));
        assertFalse(solution.isAtBound(1));
        double[] p = solution.parameters();
        assertEquals(0, p[0]);
        assertEquals(1.696368682, p[1], 1e-7);
        assertEquals(0.3816546715, p[2], 1e-7);
        assertEquals(0.6517575003, p[3], 1e-7);
        assertEquals(0, solution.standardErrors()[0]);
        assertEquals(0.091565354, solution.standardErrors()[1], 1e-7);
        assertEquals(8, solution.degreesOfFreedom());
    }

    @Test
    void saysWhyItStopped() {
        LeastSquaresSolution cut =
                LeastSquares.withDefaults().withMostIterations(1).solve(new Logistic(), START);
        assertEquals(StopReason.ITERATION_LIMIT, cut.stopReason());
        assertFalse(cut.stopReason().isConverged());
        LeastSquaresSolution undefined = LeastSquares.withDefaults().solve(new Logistic(), 0, 1.5, Double.NaN, 1);
        assertEquals(StopReason.UNDEFINED_START, undefined.stopReason());
        assertThrows(IllegalStateException.class, undefined::covariance);
    }

    /**
     * The definition by Bates and Watts, Technometrics 23 (1981), 179–183 (from memory): the residuals along the model, per
     * parameter, over those across it, per degree of freedom. A linear fit of the residuals to the derivatives parts them.
     */
    @Test
    void theRelativeOffsetIsThatOfItsDefinition() {
        for (int iterations = 1; iterations <= 3; iterations++) {
            LeastSquaresSolution cut =
                    LeastSquares.withDefaults().withMostIterations(iterations).solve(new WithDerivatives(), START);
            double[] residuals = cut.residuals();
            double[][] columns = new double[4][residuals.length];
            new WithDerivatives().jacobian(cut.parameters(), columns);
            double[][] rows = new double[residuals.length][4];
            double sum = 0;
            for (int i = 0; i < rows.length; i++) {
                for (int j = 0; j < 4; j++) {
                    rows[i][j] = columns[j][i];
                }
                sum += residuals[i] * residuals[i];
            }
            double[] equal = new double[rows.length];
            Arrays.fill(equal, 1);
            double across = LinearFit.of(rows, residuals, equal).weightedSquares();
            double expected = Math.sqrt((sum - across) / 4 / (across / 7));
            assertEquals(expected, cut.relativeOffset(), 1e-9 * expected);
        }
    }

    /** One search after another in the same workspace finds what it finds alone. */
    @Test
    void aWorkspaceRemembersNothing() {
        LeastSquaresProblem inOtherUnits = new Logistic() {
            @Override
            public void residuals(double[] p, double[] residuals) {
                super.residuals(new double[] {p[0] * 1000, p[1], p[2], p[3] / 1000}, residuals);
            }
        };
        double[] moved = {0, 1.5, 0, 500};
        LevenbergMarquardt used = new LevenbergMarquardt(4, false);
        found(used, inOtherUnits, moved);
        LevenbergMarquardt fresh = new LevenbergMarquardt(4, false);
        assertArrayEquals(found(fresh, new Logistic(), START), found(used, new Logistic(), START));
        assertEquals(fresh.evaluations(), used.evaluations());
    }

    private static double[] found(LevenbergMarquardt search, LeastSquaresProblem problem, double[] start) {
        Bounds none = Bounds.none(4);
        double[] p = start.clone();
        StopReason reason = search.minimise(
                new HouseholderObjective(problem, start, none),
                p,
                none,
                LeastSquares.DEFAULT_TOLERANCE,
                LeastSquares.DEFAULT_MOST_ITERATIONS);
        assertTrue(reason.isConverged());
        return p;
    }

    @Test
    void refusesWrongCounts() {
        LeastSquares engine = LeastSquares.withDefaults();
        assertThrows(IllegalArgumentException.class, () -> engine.solve(new Logistic(), 1, 2));
        assertThrows(IllegalArgumentException.class, () -> Bounds.of(new double[] {1}, new double[] {1}));
        assertThrows(
                IllegalArgumentException.class,
                () -> engine.withBounds(Bounds.none(3)).solve(new Logistic(), START));
    }

    @Test
    void conditionNumberDoesNotDependOnUnits() {
        LeastSquaresProblem inOtherUnits = new Logistic() {
            @Override
            public void residuals(double[] p, double[] residuals) {
                super.residuals(new double[] {p[0] * 1000, p[1], p[2], p[3] / 1000}, residuals);
            }
        };
        LeastSquaresSolution one = LeastSquares.withDefaults().solve(new Logistic(), START);
        LeastSquaresSolution other = LeastSquares.withDefaults().solve(inOtherUnits, 0, 1.5, 0, 500);
        assertEquals(1, one.conditionNumber() / other.conditionNumber(), 1e-6);
        assertEquals(1, other.parameters()[3] / 1000 / one.parameters()[3], 1e-8);
    }

    /** Powers of 2 change no digit, so that parameters and residuals in such units take the very same steps. */
    @Test
    void theSearchDoesNotDependOnUnits() {
        int[] units = {64, 1, 1024, 16};
        LeastSquaresProblem inOtherUnits = new LeastSquaresProblem() {
            private final LeastSquaresProblem own = new WithDerivatives();

            private double[] inOwnUnits(double[] p) {
                double[] q = p.clone();
                Arrays.setAll(q, j -> p[j] / units[j]);
                return q;
            }

            @Override
            public int parameterCount() {
                return own.parameterCount();
            }

            @Override
            public int residualCount() {
                return own.residualCount();
            }

            @Override
            public void residuals(double[] p, double[] residuals) {
                own.residuals(inOwnUnits(p), residuals);
                for (int i = 0; i < residuals.length; i++) {
                    residuals[i] *= 8;
                }
            }

            @Override
            public boolean jacobian(double[] p, double[][] columns) {
                own.jacobian(inOwnUnits(p), columns);
                for (int j = 0; j < columns.length; j++) {
                    for (int i = 0; i < columns[j].length; i++) {
                        columns[j][i] *= 8.0 / units[j];
                    }
                }
                return true;
            }
        };
        for (double[] start : new double[][] {START, {0, 1, 3, 0.1}, {1, 9, -2, 4}}) {
            double[] moved = start.clone();
            Arrays.setAll(moved, j -> start[j] * units[j]);
            LeastSquaresSolution one = LeastSquares.withDefaults().solve(new WithDerivatives(), start);
            LeastSquaresSolution other = LeastSquares.withDefaults().solve(inOtherUnits, moved);
            assertEquals(one.iterations(), other.iterations());
            assertEquals(one.evaluations(), other.evaluations());
            assertEquals(one.relativeOffset(), other.relativeOffset());
            for (int j = 0; j < 4; j++) {
                assertEquals(one.parameters()[j] * units[j], other.parameters()[j]);
            }
        }
    }

    /**
     * Linear problems in a box, of which the condition of the least (Karush, Kuhn and Tucker) tells the answer: no gradient by a
     * parameter between its bounds, and at a bound one that pushes outward.
     */
    @Test
    void theLeastInABoxIsFound() {
        Random random = new Random(3);
        int atBound = 0;
        for (int trial = 0; trial < 300; trial++) {
            int n = 2 + trial % 3;
            double[][] a = new double[n + 2][n];
            double[] b = random.doubles(n + 2, -3, 3).toArray();
            for (double[] row : a) {
                Arrays.setAll(row, j -> random.nextGaussian());
            }
            LeastSquaresProblem linear = new LeastSquaresProblem() {
                @Override
                public int parameterCount() {
                    return n;
                }

                @Override
                public int residualCount() {
                    return n + 2;
                }

                @Override
                public void residuals(double[] p, double[] residuals) {
                    for (int i = 0; i < residuals.length; i++) {
                        residuals[i] = -b[i];
                        for (int j = 0; j < n; j++) {
                            residuals[i] += a[i][j] * p[j];
                        }
                    }
                }
            };
            double[] lower = new double[n];
            double[] upper = new double[n];
            Arrays.fill(lower, -0.5);
            Arrays.fill(upper, 1);
            LeastSquaresSolution solution = LeastSquares.withDefaults()
                    .withBounds(Bounds.of(lower, upper))
                    .solve(linear, random.doubles(n, -1, 2).toArray());
            assertTrue(solution.stopReason().isConverged(), "trial " + trial + ": " + solution.stopReason());
            for (int j = 0; j < n; j++) {
                double gradient = 0;
                for (int i = 0; i < n + 2; i++) {
                    gradient += a[i][j] * solution.residuals()[i];
                }
                double p = solution.parameters()[j];
                if (p == -0.5) {
                    assertTrue(gradient > -1e-7, "trial " + trial);
                } else if (p == 1) {
                    assertTrue(gradient < 1e-7, "trial " + trial);
                } else {
                    assertEquals(0, gradient, 1e-6, "trial " + trial);
                }
                assertEquals(p == -0.5 || p == 1, solution.isAtBound(j), "trial " + trial);
                atBound += solution.isAtBound(j) ? 1 : 0;
            }
        }
        assertTrue(atBound > 100 && atBound < 800, atBound + " at bounds");
    }

    /**
     * Readings that lie on the curve: the sum of squares is rounding, and the parameters are those of the curve, however great
     * the unit of the residuals.
     */
    @Test
    void anExactFitIsFoundAndToldOf() {
        double[] truth = {0.1, 1.6, 0.3, 0.4};
        double[] exact = new double[DENSITIES.length];
        double[] unit = {1};
        LeastSquaresProblem problem = new Logistic() {
            @Override
            public void residuals(double[] p, double[] residuals) {
                super.residuals(p, residuals);
                for (int i = 0; i < residuals.length; i++) {
                    residuals[i] = unit[0] * (residuals[i] + DENSITIES[i] - exact[i]);
                }
            }
        };
        double[] off = new double[exact.length];
        new Logistic().residuals(truth, off);
        Arrays.setAll(exact, i -> DENSITIES[i] + off[i]);
        for (double[] start : new double[][] {START, {0.2, 1.4, 0.2, 0.6}}) {
            for (double each : new double[] {1, 1e-9, 1e9}) {
                unit[0] = each;
                LeastSquaresSolution solution = LeastSquares.withDefaults().solve(problem, start);
                assertTrue(solution.stopReason().isConverged(), solution.stopReason()::toString);
                assertArrayEquals(truth, solution.parameters(), 1e-9);
                assertTrue(solution.iterations() < 30, solution.iterations() + " iterations");
            }
        }
        assertThrows(
                IllegalArgumentException.class,
                () -> LeastSquares.withDefaults()
                        .solve(
                                new Logistic() {
                                    @Override
                                    public int residualCount() {
                                        return 3;
                                    }
                                },
                                START));
    }
}
