// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.LeastSquares;
import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.parametric.CurveFamily;

/** The model of a family beside its differences, and the scatter of development beside its definition in dense matrices. */
class FamilyProblemTest {

    private static final double CENTRE = 8;
    private static final double[] MINUTES = {4, 6, 9, 14};

    private static FamilyProblem problem(FamilyLayout layout, double scatter, Random random) {
        List<FamilyProblem.StripReadings> strips = new ArrayList<>();
        for (double minutes : MINUTES) {
            Strip strip = SimulatedFilm.scattered("T" + minutes, minutes, scatter, 0.004, random);
            strips.add(new FamilyProblem.StripReadings(strip, Math.log(minutes / CENTRE)));
        }
        return new FamilyProblem(layout, strips, CENTRE);
    }

    /** Parameters near those of {@link SimulatedFilm}, in the order that the layout states; none of them 0. */
    private static double[] near(FamilyLayout layout) {
        List<Double> p = new ArrayList<>();
        addPolynomial(p, layout.base(), 0.20, 0.03, 0.004);
        p.add(0.685);
        p.add(Math.log(0.16));
        if (layout.induction() == 1) {
            p.add(0.3);
        }
        addPolynomial(p, layout.toe(), -2.1, -0.09, 0.01);
        addPolynomial(p, layout.softness(), Math.log(0.16), 0.02, 0);
        if (layout.hasShoulder()) {
            addPolynomial(p, layout.run(), 2.3, 0.05, 0);
            p.add(Math.log(0.25));
        }
        return p.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static void addPolynomial(List<Double> p, int degree, double... coefficients) {
        for (int j = 0; j <= degree; j++) {
            p.add(coefficients[j]);
        }
    }

    /** An induction time needs four times of development, a second degree three. */
    @Test
    void moreTimesAllowMoreParameters() {
        for (int times = 2; times <= 5; times++) {
            List<FamilyLayout> layouts = FamilyLayout.candidates(CurveFamily.TOE_SHOULDER, times);
            assertEquals(times > 3, layouts.stream().anyMatch(layout -> layout.induction() == 1));
            assertEquals(times > 2, layouts.stream().anyMatch(layout -> layout.base() == 2));
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = CurveFamily.class,
            names = {"TOE_SHOULDER", "TOE_STRAIGHT_LINE"})
    void derivativesAreThoseOfTheModel(CurveFamily family) {
        for (FamilyLayout layout : FamilyLayout.candidates(family, MINUTES.length)) {
            FamilyProblem problem = problem(layout, 0, new Random(1));
            double[] p = near(layout);
            assertEquals(p.length, layout.size());
            double[][] columns = new double[p.length][problem.residualCount()];
            assertTrue(problem.jacobian(p, columns));
            double step = 1e-5;
            double[] above = new double[problem.residualCount()];
            double[] below = new double[problem.residualCount()];
            for (int j = 0; j < p.length; j++) {
                double[] moved = p.clone();
                moved[j] = p[j] + step;
                problem.residuals(moved, above);
                moved[j] = p[j] - step;
                problem.residuals(moved, below);
                for (int i = 0; i < above.length; i++) {
                    assertEquals((above[i] - below[i]) / (2 * step), columns[j][i], 1e-7, layout + " by " + j);
                }
            }
        }
    }

    /**
     * A strip that came out as after another time: its readings move by so much for each relative change of its gradient. Where
     * the gradient hardly grows any more the time would have to change without limit; there it counts as growing by 0.3 for each
     * unit of ln t (own choice, no source).
     */
    @Test
    void aStripScattersAlongItsTimeOfDevelopment() {
        FamilyLayout layout =
                FamilyLayout.candidates(CurveFamily.TOE_SHOULDER, 4).get(4);
        double[] p = near(layout);
        double[][] byStrip = problem(layout, 0, new Random(1)).byStrip(p);
        int row = 0;
        for (int s = 0; s < MINUTES.length; s++) {
            double z = Math.log(MINUTES[s] / CENTRE);
            double step = 1e-4;
            Strip strip = SimulatedFilm.scattered("T", MINUTES[s], 0, 0.004, new Random(1));
            double[] above = new double[24];
            double[] below = new double[24];
            new FamilyProblem(layout, List.of(new FamilyProblem.StripReadings(strip, z + step)), CENTRE)
                    .residuals(p, above);
            new FamilyProblem(layout, List.of(new FamilyProblem.StripReadings(strip, z - step)), CENTRE)
                    .residuals(p, below);
            double growth =
                    Math.log(layout.gradient(p, z + step, CENTRE) / layout.gradient(p, z - step, CENTRE)) / (2 * step);
            assertEquals(s < 3, growth > 0.3, "growth " + growth);
            for (int i = 0; i < 24; i++, row++) {
                double byTime = (above[i] - below[i]) / (2 * step);
                if (s < 3) {
                    assertEquals(byTime / growth, byStrip[s][row], 1e-5);
                } else {
                    // The gradient itself still moves the whole reading; base, toe and shoulder by the time at 0.3.
                    double rise = rise(layout, p, z, strip, i);
                    assertEquals(rise + (byTime - growth * rise) / 0.3, byStrip[s][row], 1e-5);
                }
                for (int other = 0; other < MINUTES.length; other++) {
                    assertTrue(other == s || byStrip[other][row] == 0);
                }
            }
        }
    }

    private static double rise(FamilyLayout layout, double[] p, double z, Strip strip, int reading) {
        return reading < 21
                ? layout.form(p, z, CENTRE)
                                .density(strip.steps().get(reading).exposure().value())
                        - layout.base(p, z)
                : 0;
    }

    /**
     * y = model + H b + e: with M the projection across the model, E(r<sup>T</sup> r) = f σ² + t τ² and E(‖H<sup>T</sup> r‖²) = t σ²
     * + q τ², t and q being the traces of H<sup>T</sup> M H and of its square. Both are solved for σ² and τ² in dense matrices;
     * the criterion is AICc of the generalised least squares with V = I + τ²/σ² H H<sup>T</sup>, and ln det V.
     */
    @Test
    void scatterOfDevelopmentIsThatOfItsDefinition() {
        FamilyLayout layout =
                FamilyLayout.candidates(CurveFamily.TOE_SHOULDER, 4).get(0);
        FamilyProblem problem = problem(layout, 0.03, new Random(1));
        LeastSquaresSolution solution = LeastSquares.withDefaults().solve(problem, near(layout));
        assertTrue(solution.stopReason().isConverged());
        double[] p = solution.parameters();
        int n = problem.residualCount();
        double[][] columns = new double[p.length][n];
        problem.jacobian(p, columns);
        double[][] h = problem.byStrip(p);
        double[] r = solution.residuals();
        double[][] across = new double[h.length][];
        for (int s = 0; s < h.length; s++) {
            across[s] = across(columns, h[s]);
        }
        double t = 0;
        double q = 0;
        double projected = 0;
        for (int s = 0; s < h.length; s++) {
            t += dot(h[s], across[s]);
            projected += Math.pow(dot(h[s], r), 2);
            for (double[] other : across) {
                q += Math.pow(dot(h[s], other), 2);
            }
        }
        double f = n - p.length;
        double sum = dot(r, r);
        double ofDevelopment = (f * projected - t * sum) / (f * q - t * t);
        double ofReadings = (sum - t * ofDevelopment) / f;
        assertTrue(ofDevelopment > 0);

        StripScatter scatter = new StripScatter(problem, solution, h.length, 2);
        assertEquals(ofDevelopment, scatter.variance(), 1e-6 * ofDevelopment);
        assertEquals(ofReadings, scatter.readingVariance(), 1e-6 * ofReadings);
        assertEquals(2, scatter.degreesOfFreedom());
        double ratio = ofDevelopment / ofReadings;
        double[][] v = new double[n][n];
        double logDeterminant = 0;
        for (int i = 0; i < n; i++) {
            v[i][i] = 1;
            for (double[] each : h) {
                for (int k = 0; k < n; k++) {
                    v[i][k] += ratio * each[i] * each[k];
                }
            }
        }
        double[][] root = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int k = 0; k <= i; k++) {
                double rest = v[i][k];
                for (int l = 0; l < k; l++) {
                    rest -= root[i][l] * root[k][l];
                }
                root[i][k] = i == k ? Math.sqrt(rest) : rest / root[k][k];
            }
            logDeterminant += 2 * Math.log(root[i][i]);
        }
        double[][] whitened = new double[p.length][];
        Arrays.setAll(whitened, j -> forward(root, columns[j]));
        double[] left = across(whitened, forward(root, r));
        double parameters = p.length + 1;
        double aicc = n * Math.log(dot(left, left) / n)
                + 2 * parameters
                + 2 * parameters * (parameters + 1) / (n - parameters - 1);
        assertEquals(aicc + logDeterminant, scatter.criterion(), 1e-5);
        // How the parameters move with a unit of each strip's scatter: the covariance of (JᵀJ)⁻¹ Jᵀ H b.
        double[][] unit = new double[p.length][p.length];
        for (double[] each : h) {
            double[] moves = coefficients(columns, each);
            for (int k = 0; k < p.length; k++) {
                for (int l = 0; l < p.length; l++) {
                    unit[k][l] += moves[k] * moves[l];
                }
            }
        }
        for (int k = 0; k < p.length; k++) {
            for (int l = 0; l < p.length; l++) {
                double size = Math.sqrt(unit[k][k] * unit[l][l]);
                assertEquals(unit[k][l], scatter.unitCovariance()[k][l], 1e-6 * size);
            }
        }
        // χ² with 2 degrees of freedom exceeds 5.991 once in 20 times (any table).
        double limit = (2 * projected / 5.991465 - ofReadings * t) / q;
        assertTrue(scatter.exceeds(0.999 * limit) && !scatter.exceeds(1.001 * limit), "limit " + limit);
    }

    /** Without scatter the criterion is that of the readings alone. */
    @Test
    void withoutScatterTheCriterionIsThatOfTheReadings() {
        FamilyLayout layout =
                FamilyLayout.candidates(CurveFamily.TOE_SHOULDER, 4).get(1);
        FamilyProblem problem = problem(layout, 0, new Random(2));
        LeastSquaresSolution solution = LeastSquares.withDefaults().solve(problem, near(layout));
        // As many parameters of the gradient as strips leave nothing to tell scatter from.
        StripScatter scatter = new StripScatter(problem, solution, 4, 4);
        assertEquals(0, scatter.variance());
        assertEquals(0, scatter.degreesOfFreedom());
        int n = problem.residualCount();
        double parameters = solution.parameters().length + 1;
        double sum = solution.residualSumOfSquares();
        assertEquals(sum / (n - parameters + 1), scatter.readingVariance(), 1e-12);
        assertEquals(
                n * Math.log(sum / n) + 2 * parameters + 2 * parameters * (parameters + 1) / (n - parameters - 1),
                scatter.criterion(),
                1e-9);
        assertTrue(!scatter.exceeds(0));
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    /** What linear least squares leaves of a vector, by Gram and Schmidt's method, twice. */
    private static double[] across(double[][] columns, double[] vector) {
        List<double[]> directions = new ArrayList<>();
        for (double[] column : columns) {
            double[] rest = without(directions, without(directions, column));
            double length = Math.sqrt(dot(rest, rest));
            directions.add(Arrays.stream(rest).map(x -> x / length).toArray());
        }
        return without(directions, without(directions, vector));
    }

    private static double[] without(List<double[]> directions, double[] vector) {
        double[] rest = vector.clone();
        for (double[] direction : directions) {
            double along = dot(direction, rest);
            for (int i = 0; i < rest.length; i++) {
                rest[i] -= along * direction[i];
            }
        }
        return rest;
    }

    /** The coefficient of each column: what the others leave of it tells its own. */
    private static double[] coefficients(double[][] columns, double[] vector) {
        double[] found = new double[columns.length];
        for (int j = 0; j < columns.length; j++) {
            List<double[]> others = new ArrayList<>(Arrays.asList(columns));
            others.remove(j);
            double[] own = across(others.toArray(new double[0][]), columns[j]);
            found[j] = dot(own, vector) / dot(own, own);
        }
        return found;
    }

    private static double[] forward(double[][] root, double[] vector) {
        double[] solved = new double[vector.length];
        for (int i = 0; i < solved.length; i++) {
            double rest = vector[i];
            for (int k = 0; k < i; k++) {
                rest -= root[i][k] * solved[k];
            }
            solved[i] = rest / root[i][i];
        }
        return solved;
    }
}
