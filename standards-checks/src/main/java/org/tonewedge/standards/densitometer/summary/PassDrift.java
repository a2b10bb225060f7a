// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;

/**
 * How readings change during the first pass while a step stays in the gate, by the order of the readings alone: A
 * e<sup>−k/m</sup> at reading k, as while a lamp warms up, or A k, each step about its own mean. The slope of the
 * densitometer changes no reading while a step stays in the gate; a drift does.
 *
 * <p>The number of readings m is the likeliest of 2, 3.1, 4.9 … 180; the straight line is kept unless such a curve is clearly
 * likelier. Each step has the weight of the scatter of its neighbourhood. The drift is significant if A
 * exceeds its expanded uncertainty for 99.99 %, a limit of the project's own. At least three steps must have two readings
 * or more.
 *
 * <p>Immutable and thread safe.
 */
public final class PassDrift {

    private static final double COVERAGE = 0.9999;
    private static final int FEWEST_STEPS = 3;

    private final double decay;
    private final double amplitude;
    private final boolean significant;
    private final double[] atSteps;
    private final Estimate perReading;
    private final long readings;

    private PassDrift(
            double decay, double amplitude, boolean significant, double[] atSteps, Estimate perReading, long readings) {
        this.decay = decay;
        this.amplitude = amplitude;
        this.significant = significant;
        this.atSteps = atSteps;
        this.perReading = perReading;
        this.readings = readings;
    }

    /** Adds up readings of the first pass; its size depends on the tablet alone. */
    static final class Counter {

        private static final int SHAPES = 12;
        private static final double SHORTEST = 2;
        private static final double RATIO = 1.568;
        /** How much likelier a curve must be than the straight line: chi-squared of one degree of freedom, 0.1 %. */
        private static final double CLEARLY = 10.8;

        private static final int PASSES = 4;
        private static final int NEAR = 3;
        private static final long NEAR_DEGREES = 12;
        private static final double LEAST_VARIANCE = 1e-12;

        private final double[][][] sums;
        private final double[] errors;
        private final double[] squares;
        private final long[] counts;
        private long order;

        Counter(int steps) {
            sums = new double[SHAPES][3][steps];
            errors = new double[steps];
            squares = new double[steps];
            counts = new long[steps];
        }

        private static double decay(int shape) {
            return shape == SHAPES - 1 ? Double.POSITIVE_INFINITY : SHORTEST * Math.pow(RATIO, shape);
        }

        void add(int step, double error) {
            if (Double.isFinite(error)) {
                counts[step]++;
                errors[step] += error;
                squares[step] += error * error;
                for (int shape = 0; shape < SHAPES; shape++) {
                    double value = shape == SHAPES - 1 ? order : Math.exp(-order / decay(shape));
                    sums[shape][0][step] += value;
                    sums[shape][1][step] += value * value;
                    sums[shape][2][step] += value * error;
                }
            }
            order++;
        }

        /** The drift of the likeliest shape; null if too few steps have two readings. */
        PassDrift drift(double resolution) {
            int[] repeated =
                    IntStream.range(0, counts.length).filter(i -> counts[i] > 1).toArray();
            long degrees = Arrays.stream(repeated).mapToLong(i -> counts[i] - 1).sum() - 2;
            if (repeated.length < FEWEST_STEPS || degrees < 1) {
                return null;
            }
            PassDrift best = null;
            double least = Double.POSITIVE_INFINITY;
            Estimate straight = Estimate.of(0, 0);
            for (int shape = SHAPES - 1; shape >= 0; shape--) {
                Optional<Weighted> fit = fit(shape, repeated, resolution);
                if (fit.isPresent()) {
                    straight = shape == SHAPES - 1 ? fit.get().amplitude() : straight;
                    double misfit = fit.get().misfit() - (shape == SHAPES - 1 ? CLEARLY : 0);
                    if (misfit < least) {
                        least = misfit;
                        best = made(shape, fit.get().amplitude(), Math.min(degrees, NEAR_DEGREES), straight);
                    }
                }
            }
            return best;
        }

        /** An amplitude, and twice the negative logarithm of its likelihood. */
        private record Weighted(Estimate amplitude, double misfit) {}

        /** Dense steps scatter more: each step has the weight of the scatter of its neighbourhood. */
        private Optional<Weighted> fit(int shape, int[] repeated, double resolution) {
            int steps = repeated.length;
            double[] own = new double[steps];
            double[] near = new double[steps];
            Arrays.fill(near, 1);
            Estimate amplitude = Estimate.of(0, 0);
            for (int pass = 0; pass < PASSES; pass++) {
                double spread = 0;
                double product = 0;
                for (int i = 0; i < steps; i++) {
                    spread += spread(shape, repeated[i]) / near[i];
                    product += product(shape, repeated[i]) / near[i];
                }
                if (!(spread > 0)) {
                    return Optional.empty();
                }
                amplitude = Estimate.of(product / spread, 1 / Math.sqrt(spread));
                for (int i = 0; i < steps; i++) {
                    int at = repeated[i];
                    own[i] = squares[at]
                            - errors[at] * errors[at] / counts[at]
                            - 2 * amplitude.value() * product(shape, at)
                            + amplitude.value() * amplitude.value() * spread(shape, at);
                }
                for (int i = 0; i < steps; i++) {
                    double sum = 0;
                    double degrees = 0;
                    for (int j = Math.max(0, i - NEAR); j <= Math.min(steps - 1, i + NEAR); j++) {
                        sum += Math.max(0, own[j]);
                        degrees += counts[repeated[j]] - 1;
                    }
                    near[i] = Math.max(sum / degrees, Math.max(resolution * resolution / 12, LEAST_VARIANCE));
                }
            }
            double misfit = 0;
            for (int i = 0; i < steps; i++) {
                misfit += (counts[repeated[i]] - 1) * Math.log(near[i]);
            }
            return Optional.of(new Weighted(amplitude, misfit));
        }

        private double spread(int shape, int step) {
            return sums[shape][1][step] - sums[shape][0][step] * sums[shape][0][step] / counts[step];
        }

        private double product(int shape, int step) {
            return sums[shape][2][step] - sums[shape][0][step] * errors[step] / counts[step];
        }

        private PassDrift made(int shape, Estimate amplitude, long degrees, Estimate straight) {
            double[] at = new double[counts.length];
            for (int i = 0; i < at.length; i++) {
                at[i] = amplitude.value() * sums[shape][0][i] / counts[i];
            }
            return new PassDrift(
                    decay(shape),
                    amplitude.value(),
                    Math.abs(amplitude.value())
                            > StudentT.coverageFactor(COVERAGE, (double) degrees) * amplitude.standardUncertainty(),
                    at,
                    straight,
                    order);
        }
    }

    /**
     * Returns the straight drift, whatever the best shape.
     *
     * @return the change from one reading to the next, with its standard uncertainty by the scatter and the resolution
     * @units density per reading
     */
    public Estimate perReading() {
        return perReading;
    }

    /**
     * Returns the number of readings of the first pass.
     *
     * @return the number of readings
     */
    public long readings() {
        return readings;
    }

    /**
     * Tells whether there is a drift.
     *
     * @return true if it exceeds its expanded uncertainty for 99.99 %
     */
    public boolean isSignificant() {
        return significant;
    }

    /**
     * Tells whether the drift dies away.
     *
     * @return false if it goes on in a straight line
     */
    public boolean isDyingAway() {
        return Double.isFinite(decay);
    }

    /**
     * Returns what the drift adds to the mean of a step in the first pass: to what is read at its end if it dies away,
     * otherwise to what was read at its beginning.
     *
     * @param step the number of the step, from 1
     * @return the drift, or empty if the step was not read in the first pass
     * @units density
     * @throws IndexOutOfBoundsException if the tablet has no such step
     */
    public OptionalDouble atStep(int step) {
        double at = atSteps[step - 1];
        return Double.isNaN(at) ? OptionalDouble.empty() : OptionalDouble.of(at);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the size of the drift and how it goes on
     */
    @Override
    public String toString() {
        return isDyingAway()
                ? "a drift of " + Figures.signed(amplitude) + " that falls to a third in about " + Math.round(decay)
                        + " readings"
                : "a drift of " + String.format(Locale.ROOT, "%+.2e", amplitude) + " per reading";
    }
}
