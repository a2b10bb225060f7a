// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A place in a pass over a tablet from which on each reading is that of another step, because steps were skipped or
 * read twice; or two such places.
 *
 * <p>The instrument may be right, or its errors are a polynomial, of degree 0 to 3, of the densities in the gate. For
 * each place and each shift by one or two steps, the likelihood of the readings is compared with that of the steps in
 * order, each with its best scatter and with the polynomial that the Bayesian information criterion prefers. Twice the
 * logarithm of the ratio must be above {@value #EVIDENCE}; that of two places above {@value #EVIDENCE_OF_TWO}, and by
 * {@value #EVIDENCE} above that of one. These limits were chosen by simulation: the rates are in {@code
 * ShiftedStepsSimulation} of the tests.
 *
 * <p>It must also be likelier by {@value #EVIDENCE} than an instrument that gives one and the same reading from some step
 * on. Readings that jump by another height than the steps do, as between two gains, are no shift; nor are readings that
 * scatter too much to belong to steps, or a pass whose first reading is not that of its own step.
 */
final class ShiftedSteps {

    private static final int MOST_SHIFT = 2;
    private static final int HIGHEST_DEGREE = 3;
    private static final int FEWEST_LEFT = 3;
    private static final int FEWEST_SHIFTED = 2;
    private static final double EVIDENCE = 20;
    /** Two places can be chosen in more ways. */
    private static final double EVIDENCE_OF_TWO = 28;

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
     * Looks for the places, if there are any.
     *
     * @param certified the densities of the steps
     * @param means the mean reading of each step in one pass; NaN if it was not read
     * @param noise a standard deviation that readings may have in any case
     * @return the place with the strongest evidence, or two if theirs is clearly stronger
     */
    static Optional<ShiftedSteps> find(double[] certified, double[] means, double noise) {
        Pass pass = new Pass(certified, means, noise);
        Candidate one = pass.strongest(List.of(), new Candidate(List.of(), EVIDENCE));
        Candidate two = new Candidate(
                one.places,
                one.places.isEmpty() ? EVIDENCE_OF_TWO : Math.max(EVIDENCE_OF_TWO, one.evidence + EVIDENCE));
        for (Place first : pass.placesBehind(List.of())) {
            two = pass.strongest(List.of(first), two);
        }
        return two.places.isEmpty() ? Optional.empty() : Optional.of(new ShiftedSteps(two.places));
    }

    /** Places, and twice the logarithm of the likelihood ratio that they must exceed or have. */
    private record Candidate(List<Place> places, double evidence) {}

    /** One pass over the tablet. */
    private static final class Pass {

        private final double[] certified;
        private final double[] means;
        private final double noise;

        Pass(double[] certified, double[] means, double noise) {
            this.certified = certified;
            this.means = means;
            this.noise = noise;
        }

        private List<Place> placesBehind(List<Place> given) {
            int before = given.isEmpty() ? 0 : given.get(0).shift();
            int from = given.isEmpty() ? 1 : given.get(0).first() + FEWEST_SHIFTED;
            List<Place> places = new ArrayList<>();
            for (int shift = -MOST_SHIFT; shift <= MOST_SHIFT; shift++) {
                for (int first = from; shift != 0 && first < means.length; first++) {
                    if (first + before + shift >= 0 && !Double.isNaN(means[first])) {
                        places.add(new Place(first, before + shift));
                    }
                }
            }
            return places;
        }

        /** The given places with one more behind them, if their evidence exceeds that of a rival; otherwise the rival. */
        Candidate strongest(List<Place> given, Candidate rival) {
            Candidate strongest = rival;
            for (Place place : placesBehind(given)) {
                List<Place> places = new ArrayList<>(given);
                places.add(place);
                double evidence = evidence(places, strongest.evidence);
                if (evidence > strongest.evidence) {
                    strongest = new Candidate(List.copyOf(places), evidence);
                }
            }
            return strongest;
        }

        /**
         * Twice the logarithm of the likelihood ratio, or 0 if it does not exceed a limit or the readings are no shift.
         * Readings that would be of steps beyond the tablet are left out.
         */
        private double evidence(List<Place> places, double limit) {
            ShiftedSteps shifted = new ShiftedSteps(places);
            double[] inOrder = new double[means.length];
            double[] moved = new double[means.length];
            double[] readings = new double[means.length];
            int[] numbers = new int[places.size() + 1];
            int count = 0;
            for (int i = 0; i < means.length; i++) {
                int gate = shifted.gate(i);
                if (!Double.isNaN(means[i]) && gate < certified.length) {
                    inOrder[count] = certified[i];
                    moved[count] = certified[gate];
                    readings[count++] = means[i];
                    numbers[placesUpTo(i, places)]++;
                }
            }
            int degrees = Math.min(HIGHEST_DEGREE, count - 1 - FEWEST_LEFT);
            boolean few = Arrays.stream(numbers, 1, numbers.length).anyMatch(number -> number < FEWEST_SHIFTED);
            if (degrees < 0 || numbers[0] < 1 || few) {
                return 0;
            }
            double[] read = Arrays.copyOf(readings, count);
            Reading plain = new Reading(Arrays.copyOf(inOrder, count), read, degrees, noise);
            Reading right = new Reading(Arrays.copyOf(moved, count), read, degrees, noise);
            double evidence = plain.criterion - right.criterion;
            double spacing = (certified[certified.length - 1] - certified[0]) / (certified.length - 1);
            if (!(evidence > limit && right.isOfSteps(numbers, spacing))) {
                return 0;
            }
            return Math.min(
                    evidence, endingLevel(Arrays.copyOf(inOrder, count), read, degrees, right) - right.criterion);
        }

        /** The least criterion of an instrument that gives one and the same reading from some step on, as that of another. */
        private double endingLevel(double[] densities, double[] readings, int degrees, Reading rival) {
            int count = readings.length;
            double least = Double.POSITIVE_INFINITY;
            for (int rising = FEWEST_LEFT + 1; rising <= count - FEWEST_SHIFTED; rising++) {
                Reading below = new Reading(
                        Arrays.copyOf(densities, rising),
                        Arrays.copyOf(readings, rising),
                        Math.min(degrees, rising - 1 - FEWEST_LEFT),
                        noise);
                double[] level = Arrays.copyOfRange(readings, rising, count);
                double mean = Arrays.stream(level).average().orElseThrow();
                double[] left = Arrays.copyOf(below.left, count);
                for (int i = rising; i < count; i++) {
                    left[i] = readings[i] - mean;
                }
                least = Math.min(least, rival.deviance(left) + (below.degree + 3) * Math.log(count));
            }
            return least;
        }

        private static int placesUpTo(int step, List<Place> places) {
            int number = 0;
            while (number < places.size() && places.get(number).first() <= step) {
                number++;
            }
            return number;
        }
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

        /**
         * Whether readings belong to these steps.
         *
         * @param numbers how many lie before the first place and behind each
         * @param spacing the mean difference of two steps
         */
        boolean isOfSteps(int[] numbers, double spacing) {
            double scatter = Math.sqrt(product(left, left) / (left.length - degree - 1));
            boolean is = scatter < MOST_SCATTER * spacing && Math.abs(errors[0] - left[0]) < spacing / 2;
            int first = 0;
            for (int place = 1; is && place < numbers.length; place++) {
                first += numbers[place - 1];
                double[] jump = new double[left.length];
                Arrays.fill(jump, first, jump.length, 1);
                for (int d = 0; d <= degree; d++) {
                    jump = without(polynomials[d], jump);
                }
                is = deviance(left) - deviance(without(jump, left)) < OTHER_HEIGHT;
            }
            return is;
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
