// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.List;
import java.util.Optional;

/**
 * A place where a step was skipped or read twice: the densities on one side of it fit those on the other side only if
 * they are moved by one step.
 *
 * <p>At each gap between two steps, a polynomial of degree 5 in log exposure is fitted by least squares to at most ten
 * densities on either side: as they are, with the later ones moved to the next exposure, and with them moved to the one
 * before. The move is believed if the logarithm of the likelihood ratio, twice, is above {@value #EVIDENCE}. Residuals
 * have Student's distribution there, as if six more readings had been seen to scatter by the stated noise. The moved fit
 * must also be better than the plain one without its worst reading, which would be dust, and its residuals must look like
 * noise.
 *
 * <p>Degree, width and threshold were chosen by simulation; {@link StripCheck} has its results.
 */
final class StepShift {

    private static final int DEGREE = 5;
    private static final int REACH = 10;

    /** At least this many steps on either side, and at least this many more in all than the polynomial has coefficients. */
    private static final int FEWEST = 3;

    private static final double EVIDENCE = 13;
    private static final double ASSUMED_READINGS = 6;

    /** Residuals of the better fit above this multiple of the noise are no noise: the polynomial is too stiff. */
    private static final double MOST_NOISE = 2;

    /** Greatest ratio of two gaps between steps: beyond it, "the next step" is no move by a known amount. */
    private static final double MOST_UNEQUAL = 2;

    /** Where more than two rises from step to step exceed this, steps are too far apart for a polynomial. */
    private static final double STEEPEST = 0.3;

    private static final int FREE_RISES = 2;

    private final int step;
    private final boolean skipped;

    private StepShift(int step, boolean skipped) {
        this.step = step;
        this.skipped = skipped;
    }

    /** The index of the first step after the place. */
    int step() {
        return step;
    }

    /** Whether a step was skipped; otherwise one was read twice. */
    boolean isSkip() {
        return skipped;
    }

    /**
     * Looks for the place, if there is one.
     *
     * @param steps the steps by rising exposure
     * @param noise the standard deviation that readings may have
     * @return the place with the strongest evidence
     */
    static Optional<StepShift> find(List<ExposedStep> steps, double noise) {
        int count = steps.size();
        double[] x = steps.stream().mapToDouble(step -> step.exposure().value()).toArray();
        double[] densities =
                steps.stream().mapToDouble(step -> step.density().value()).toArray();
        if (count < DEGREE + 1 + FEWEST || !equallySpaced(x) || isCoarse(densities)) {
            return Optional.empty();
        }
        Optional<StepShift> found = Optional.empty();
        double strongest = EVIDENCE;
        for (int k = FEWEST; k <= count - FEWEST; k++) {
            int from = Math.max(0, k - REACH);
            int to = Math.min(count, k + REACH);
            int freedom = to - from - DEGREE - 1;
            double assumed = ASSUMED_READINGS * noise * noise;
            Fit plain = Fit.of(x, densities, from, to, k, 0);
            double readings = freedom + ASSUMED_READINGS;
            if (readings * Math.log1p(plain.squares / assumed) <= strongest) {
                continue;
            }
            for (int move = -1; move <= 1; move += 2) {
                double squares = Fit.of(x, densities, from, to, k, move).squares;
                double evidence = readings * Math.log((plain.squares + assumed) / (squares + assumed));
                if (evidence > strongest
                        && squares < plain.squaresWithoutWorst
                        && squares < freedom * MOST_NOISE * MOST_NOISE * noise * noise) {
                    strongest = evidence;
                    found = Optional.of(new StepShift(k, move > 0));
                }
            }
        }
        return found;
    }

    private static boolean isCoarse(double[] densities) {
        int steep = 0;
        for (int i = 1; i < densities.length; i++) {
            if (densities[i] - densities[i - 1] > STEEPEST) {
                steep++;
            }
        }
        return steep > FREE_RISES;
    }

    private static boolean equallySpaced(double[] x) {
        double least = Double.POSITIVE_INFINITY;
        double greatest = 0;
        for (int i = 1; i < x.length; i++) {
            least = Math.min(least, x[i] - x[i - 1]);
            greatest = Math.max(greatest, x[i] - x[i - 1]);
        }
        return greatest <= MOST_UNEQUAL * least;
    }

    /** A polynomial through densities by least squares. */
    private static final class Fit {

        private final double squares;
        private final double squaresWithoutWorst;

        private Fit(double squares, double squaresWithoutWorst) {
            this.squares = squares;
            this.squaresWithoutWorst = squaresWithoutWorst;
        }

        /**
         * Fits the densities {@code from} to {@code to}, those from step {@code k} on at exposures {@code move} steps on,
         * by polynomials orthogonal over these exposures (Forsythe, Journal of the SIAM 5, 1957).
         */
        static Fit of(double[] x, double[] densities, int from, int to, int k, int move) {
            int count = to - from;
            double[] z = new double[count];
            double[] residuals = new double[count];
            double[] polynomial = new double[count];
            double[] before = new double[count];
            double[] leverage = new double[count];
            for (int i = 0; i < count; i++) {
                int step = from + i;
                z[i] = step < k ? x[step] : moved(x, step, move);
                residuals[i] = densities[step];
                polynomial[i] = 1;
            }
            double normBefore = 1;
            for (int degree = 0; degree <= DEGREE; degree++) {
                double norm = 0;
                double product = 0;
                double centre = 0;
                for (int i = 0; i < count; i++) {
                    double square = polynomial[i] * polynomial[i];
                    norm += square;
                    centre += z[i] * square;
                    product += residuals[i] * polynomial[i];
                }
                double next = degree == 0 ? 0 : norm / normBefore;
                for (int i = 0; i < count; i++) {
                    double p = polynomial[i];
                    residuals[i] -= product / norm * p;
                    leverage[i] += p * p / norm;
                    polynomial[i] = (z[i] - centre / norm) * p - next * before[i];
                    before[i] = p;
                }
                normBefore = norm;
            }
            double squares = 0;
            double worst = 0;
            for (int i = 0; i < count; i++) {
                double square = residuals[i] * residuals[i];
                squares += square;
                worst = Math.max(worst, square / (1 - leverage[i]));
            }
            return new Fit(squares, squares - worst);
        }

        private static double moved(double[] x, int step, int move) {
            int last = x.length - 1;
            return step + move > last ? 2 * x[last] - x[last - 1] : x[step + move];
        }
    }
}
