// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A place in a pass over a tablet from which on each reading is that of another step, because steps were skipped or
 * read twice.
 *
 * <p>The instrument may be right, or its errors are a polynomial, of degree 0 to 3, of the densities in the gate. For
 * each place and each shift by one or two steps, the likelihood of the readings is compared with that of the steps in
 * order, each with its best scatter and with the polynomial that the Bayesian information criterion prefers. Twice the
 * logarithm of the ratio must be above {@value #EVIDENCE}. That limit was chosen by simulation: the rates
 * are in {@code ShiftedStepsSimulation} of the tests.
 *
 * <p>Readings that jump by another height than the steps do, as between two gains, are no shift; nor are readings that
 * scatter too much to belong to steps, or a pass whose first reading is not that of its own step.
 */
final class ShiftedSteps {

    private static final int MOST_SHIFT = 2;
    private static final int HIGHEST_DEGREE = 3;
    private static final int FEWEST_LEFT = 3;
    private static final int FEWEST_SHIFTED = 2;
    private static final double EVIDENCE = 20;

    /** The scatter is estimated as if so many more readings had been seen to scatter by the assumed noise. */
    private static final double ASSUMED_READINGS = 4;

    /** A jump of another height fits better at a level of 0.1 %: the quantile of χ² for one degree of freedom. */
    private static final double OTHER_HEIGHT = 10.828;

    /** Readings that scatter by more than this part of the spacing belong to no step. */
    private static final double MOST_SCATTER = 0.3;

    private final List<Place> places;

    private ShiftedSteps(List<Place> places) {
        this.places = places;
    }

    /**
     * A place.
     *
     * @param first the index of the first step whose reading is that of another
     * @param shift how many steps further on the readings from here on belong: negative if steps were read twice, 0 if
     *     an earlier shift is undone
     */
    record Place(int first, int shift) {}

    /** The places by rising step. */
    List<Place> places() {
        return places;
    }

    /** The index of the step to which the reading of a step belongs; it may be beyond the tablet. */
    int gate(int step) {
        int gate = step;
        for (Place place : places) {
            gate = step < place.first() ? gate : step + place.shift();
        }
        return gate;
    }

    /**
     * Looks for the place, if there is one.
     *
     * @param certified the densities of the steps
     * @param means the mean reading of each step in one pass; NaN if it was not read
     * @param noise a standard deviation that readings may have in any case
     * @return the place and shift with the strongest evidence
     */
    static Optional<ShiftedSteps> find(double[] certified, double[] means, double noise) {
        Optional<ShiftedSteps> found = Optional.empty();
        double strongest = EVIDENCE;
        for (int shift = -MOST_SHIFT; shift <= MOST_SHIFT; shift++) {
            for (int first = 1; shift != 0 && first < means.length; first++) {
                boolean possible = first + shift >= 0 && !Double.isNaN(means[first]);
                double evidence = possible ? evidence(certified, means, first, shift, noise) : 0;
                if (evidence > strongest) {
                    strongest = evidence;
                    found = Optional.of(new ShiftedSteps(List.of(new Place(first, shift))));
                }
            }
        }
        return found;
    }

    /**
     * Twice the logarithm of the likelihood ratio, or 0 if the readings are no shift. Readings that would be of steps
     * beyond the tablet are left out.
     */
    private static double evidence(double[] certified, double[] means, int first, int shift, double noise) {
        double[] inOrder = new double[means.length];
        double[] moved = new double[means.length];
        double[] readings = new double[means.length];
        int count = 0;
        int before = 0;
        for (int i = 0; i < means.length; i++) {
            int gate = i < first ? i : i + shift;
            if (!Double.isNaN(means[i]) && gate < certified.length) {
                inOrder[count] = certified[i];
                moved[count] = certified[gate];
                readings[count++] = means[i];
                before += i < first ? 1 : 0;
            }
        }
        int degrees = Math.min(HIGHEST_DEGREE, count - 1 - FEWEST_LEFT);
        if (degrees < 0 || before < 1 || count - before < FEWEST_SHIFTED) {
            return 0;
        }
        double[] read = Arrays.copyOf(readings, count);
        Reading plain = new Reading(Arrays.copyOf(inOrder, count), read, degrees, noise);
        Reading shifted = new Reading(Arrays.copyOf(moved, count), read, degrees, noise);
        double evidence = plain.criterion - shifted.criterion;
        double spacing = (certified[certified.length - 1] - certified[0]) / (certified.length - 1);
        return evidence > EVIDENCE && shifted.isOfSteps(before, spacing) ? evidence : 0;
    }

    /** Readings as those of some steps by an instrument whose errors are a polynomial of their densities. */
    private static final class Reading {

        private final double[] errors;
        private final double[][] polynomials;
        private final double weight;
        private final double assumed;
        private int degree = -1;
        private double[] left;
        private double criterion;

        /** The polynomial is that of the least Bayesian information criterion; degree -1 stands for no error. */
        Reading(double[] densities, double[] readings, int degrees, double noise) {
            int count = readings.length;
            weight = count - degrees - 1 + ASSUMED_READINGS;
            assumed = ASSUMED_READINGS * noise * noise;
            polynomials = orthogonal(densities, degrees);
            errors = new double[count];
            Arrays.setAll(errors, i -> readings[i] - densities[i]);
            left = errors;
            criterion = deviance(errors);
            double[] rest = errors;
            for (int d = 0; d <= degrees; d++) {
                rest = without(polynomials[d], rest);
                double next = deviance(rest) + (d + 1) * Math.log(count);
                if (next < criterion) {
                    criterion = next;
                    degree = d;
                    left = rest;
                }
            }
        }

        /** Minus twice the logarithm of the likelihood at the best scatter. */
        private double deviance(double[] residuals) {
            return weight * Math.log(product(residuals, residuals) + assumed);
        }

        boolean isOfSteps(int before, double spacing) {
            double[] jump = new double[left.length];
            Arrays.fill(jump, before, jump.length, 1);
            for (int d = 0; d <= degree; d++) {
                jump = without(polynomials[d], jump);
            }
            double scatter = Math.sqrt(product(left, left) / (left.length - degree - 1));
            return scatter < MOST_SCATTER * spacing
                    && Math.abs(errors[0] - left[0]) < spacing / 2
                    && deviance(left) - deviance(without(jump, left)) < OTHER_HEIGHT;
        }

        private static double[][] orthogonal(double[] densities, int degrees) {
            double[][] polynomials = new double[degrees + 1][densities.length];
            Arrays.fill(polynomials[0], 1);
            for (int d = 1; d <= degrees; d++) {
                for (int i = 0; i < densities.length; i++) {
                    polynomials[d][i] = polynomials[d - 1][i] * densities[i];
                }
                for (int e = 0; e < d; e++) {
                    polynomials[d] = without(polynomials[e], polynomials[d]);
                }
            }
            return polynomials;
        }

        /** What is left of values without their part along others. */
        private static double[] without(double[] others, double[] values) {
            double part = product(values, others) / product(others, others);
            double[] rest = new double[values.length];
            Arrays.setAll(rest, i -> values[i] - part * others[i]);
            return rest;
        }

        private static double product(double[] a, double[] b) {
            double sum = 0;
            for (int i = 0; i < a.length; i++) {
                sum += a[i] * b[i];
            }
            return sum;
        }
    }
}
