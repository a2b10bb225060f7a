// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/** The rule of the class documentation, calculated here from columns of powers by Gram and Schmidt's method. */
class StepShiftTest {

    private static final int COEFFICIENTS = 6;

    private static List<ExposedStep> steps(double[] exposures, double[] densities) {
        List<ExposedStep> steps = new ArrayList<>();
        for (int i = 0; i < exposures.length; i++) {
            steps.add(new ExposedStep(LogExposure.ofLogLuxSeconds(exposures[i]), List.of(Density.of(densities[i]))));
        }
        return steps;
    }

    private static String found(double[] exposures, double[] densities, double noise) {
        return StepShift.find(steps(exposures, densities), noise)
                .map(shift -> text(shift.step(), shift.isSkip()))
                .orElse("none");
    }

    private static String text(int step, boolean skipped) {
        return (skipped ? "skipped before " : "read twice at ") + step;
    }

    /** The sum of squares about the polynomial, and that sum less the share of the worst reading. */
    private static double[] squares(double[] x, double[] densities) {
        int n = x.length;
        double[][] columns = new double[COEFFICIENTS][n];
        double[] residuals = densities.clone();
        double[] leverages = new double[n];
        for (int j = 0; j < COEFFICIENTS; j++) {
            for (int i = 0; i < n; i++) {
                columns[j][i] = Math.pow(2 * (x[i] - x[0]) / (x[n - 1] - x[0]) - 1, j);
            }
            for (int k = 0; k < j; k++) {
                subtract(dot(columns[j], columns[k]), columns[k], columns[j]);
            }
            double length = Math.sqrt(dot(columns[j], columns[j]));
            for (int i = 0; i < n; i++) {
                columns[j][i] /= length;
                leverages[i] += columns[j][i] * columns[j][i];
            }
            subtract(dot(residuals, columns[j]), columns[j], residuals);
        }
        double worst = 0;
        for (int i = 0; i < n; i++) {
            // Without a reading the sum of squares is less by r²/(1 − h): Cook and Weisberg, 1982, 2.2 (from memory).
            worst = Math.max(worst, residuals[i] * residuals[i] / (1 - leverages[i]));
        }
        double sum = dot(residuals, residuals);
        return new double[] {sum, sum - worst};
    }

    private static double dot(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    private static void subtract(double factor, double[] what, double[] from) {
        for (int i = 0; i < from.length; i++) {
            from[i] -= factor * what[i];
        }
    }

    /** The exposure of a step; beyond the last, one at the last gap. */
    private static double exposure(double[] x, int step) {
        int last = x.length - 1;
        return step <= last ? x[step] : x[last] + (x[last] - x[last - 1]);
    }

    private static String byTheRule(double[] x, double[] densities, double noise) {
        String found = "none";
        long steep = IntStream.range(1, x.length)
                .filter(i -> densities[i] > densities[i - 1] + 0.3)
                .count();
        if (steep > 2) {
            return found;
        }
        double strongest = 13;
        for (int place = 3; place <= x.length - 3; place++) {
            int from = Math.max(0, place - 10);
            int count = Math.min(x.length, place + 10) - from;
            double[][] squares = new double[3][];
            for (int move = -1; move <= 1; move++) {
                double[] moved = new double[count];
                double[] read = new double[count];
                for (int i = 0; i < count; i++) {
                    moved[i] = exposure(x, from + i + (from + i < place ? 0 : move));
                    read[i] = densities[from + i];
                }
                squares[move + 1] = squares(moved, read);
            }
            // Twice the logarithm of the likelihood ratio of Student's distribution with n + 6 readings.
            double assumed = 6 * noise * noise;
            int freedom = count - COEFFICIENTS;
            for (int move = -1; move <= 1; move += 2) {
                double[] better = squares[move + 1];
                double evidence = (freedom + 6) * Math.log((squares[1][0] + assumed) / (better[0] + assumed));
                boolean likeNoise = Math.sqrt(better[0] / freedom) < 2 * noise;
                if (evidence > strongest && better[0] < squares[1][1] && likeNoise) {
                    strongest = evidence;
                    found = text(place, move > 0);
                }
            }
        }
        return found;
    }

    /** Strips with faults, dust and none, on good and bad films, about as noisy as the rule expects: some are found, some not. */
    @Test
    void placesAreThoseOfTheRule() {
        Random random = new Random(23);
        StepShiftSimulation.Shape[] shapes = {
            StepShiftSimulation.Shape.FAMILY, StepShiftSimulation.Shape.TWO_LAYERS, StepShiftSimulation.Shape.UPSWEPT
        };
        StepShiftSimulation.Fault[] faults = StepShiftSimulation.Fault.values();
        int found = 0;
        int strips = 200;
        for (int i = 0; i < strips; i++) {
            int count = 9 + random.nextInt(17);
            double noise = 0.003 * Math.pow(5, random.nextDouble());
            StepShiftSimulation simulation = new StepShiftSimulation(count, 3.1 / count, noise);
            StepShiftSimulation.Fault fault = faults[i % faults.length];
            List<ExposedStep> steps = simulation
                    .read(shapes[i % shapes.length], fault, random)
                    .strip()
                    .steps();
            double[] x = steps.stream().mapToDouble(s -> s.exposure().value()).toArray();
            double[] densities =
                    steps.stream().mapToDouble(s -> s.density().value()).toArray();
            double stated = noise * (0.3 + 1.4 * random.nextDouble());
            String byTheRule = byTheRule(x, densities, stated);
            assertEquals(byTheRule, found(x, densities, stated), "strip " + i);
            found += byTheRule.equals("none") ? 0 : 1;
        }
        assertTrue(found > strips / 5 && found < strips * 4 / 5, found + " of " + strips + " places found");
    }

    /** Densities of a parabola, which the polynomial follows exactly, with the step before a place skipped. */
    private static double[] skipped(double[] x, int place) {
        double[] densities = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            double read = exposure(x, i < place ? i : i + 1) - x[0];
            densities[i] = 0.3 + 0.2 * read * read;
        }
        return densities;
    }

    private static double[] even(int count) {
        double[] x = new double[count];
        for (int i = 0; i < count; i++) {
            x[i] = -3 + 0.125 * i; // exact
        }
        return x;
    }

    /** Three steps on either side, and three more than the six coefficients: nine steps are enough. */
    @ParameterizedTest
    @CsvSource({"9, 3, true", "9, 6, true", "9, 2, false", "9, 7, false", "8, 4, false", "30, 3, true", "30, 27, true"})
    void nineStepsAreEnough(int count, int place, boolean isFound) {
        double[] x = even(count);
        String expected = isFound ? text(place, true) : "none";
        assertEquals(expected, found(x, skipped(x, place), 1e-6));
    }

    /** The greatest gap may be twice the least; a hair more, and "the next step" is no move by a known amount. */
    @ParameterizedTest
    @CsvSource({"0.125, true", "0.126, false", "-0.0625, true", "-0.063, false"})
    void noGapIsMoreThanTwiceAnother(double wider, boolean isFound) {
        double[] x = even(20);
        for (int i = 14; i < x.length; i++) {
            x[i] += wider;
        }
        assertEquals(isFound ? text(9, true) : "none", found(x, skipped(x, 9), 1e-4));
    }

    /** Two rises may be above 0.3, which is no such rise itself; these lie more than ten steps from the place. */
    @ParameterizedTest
    @CsvSource({"0.3, true", "0.301, false"})
    void twoRisesMayBeSteep(double third, boolean isFound) {
        double[] x = even(26);
        double[] densities = skipped(x, 13);
        densities[0] = 0;
        densities[1] = third;
        densities[24] = densities[23] + 0.4;
        densities[25] = densities[24] + 0.4;
        assertEquals(isFound ? text(13, true) : "none", found(x, densities, 1e-4));
    }
}
