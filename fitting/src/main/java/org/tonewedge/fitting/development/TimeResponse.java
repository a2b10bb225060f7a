// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.Arrays;
import org.tonewedge.core.curve.MonotoneCubic;
import org.tonewedge.core.curve.MonotoneSlopes;
import org.tonewedge.core.internal.Roots;

/** A figure as a parametric function of the time of development, to be fitted to strips. */
abstract class TimeResponse {

    /** The rates that are searched, in units of 1/longest time and 1/shortest time. */
    private static final double LEAST_RATE = 1e-3;

    private static final double MOST_RATE = 20;
    private static final int STARTS = 60;

    private TimeResponse() {}

    abstract int size();

    abstract double value(double[] p, double minutes);

    /** The value; at an end, the end value if rounding just leaves the range of an interpolation. */
    double inside(double[] p, double minutes) {
        return value(p, minutes);
    }

    /** The time at which a value is reached; NaN if it is never reached. */
    abstract double inverse(double[] p, double value);

    abstract double[] start(double[] minutes, double[] values);

    void limit(double[] minutes, double[] lower, double[] upper) {
        Arrays.fill(lower, 0, size(), Double.NEGATIVE_INFINITY);
        Arrays.fill(upper, 0, size(), Double.POSITIVE_INFINITY);
    }

    /** Writes the usual size of each parameter that may be 0. */
    void sizes(double[] minutes, double[] values, double[] sizes) {
        // The others are never 0.
    }

    static TimeResponse exponential() {
        return new Exponential();
    }

    static TimeResponse exponentialWithInduction() {
        return new WithInduction();
    }

    static TimeResponse logarithmic() {
        return new Polynomial(1);
    }

    static TimeResponse polynomial(int degree) {
        return new Polynomial(degree);
    }

    static TimeResponse interpolation(double[] minutes) {
        return new Interpolation(Arrays.stream(minutes).sorted().distinct().toArray());
    }

    private static double longest(double[] minutes) {
        return Arrays.stream(minutes).max().orElseThrow();
    }

    private static double shortest(double[] minutes) {
        return Arrays.stream(minutes).min().orElseThrow();
    }

    /** Ceiling and rate. */
    private static class Exponential extends TimeResponse {

        @Override
        int size() {
            return 2;
        }

        double induction(double[] p) {
            return 0;
        }

        @Override
        double value(double[] p, double minutes) {
            return -p[0] * Math.expm1(-p[1] * (minutes - induction(p)));
        }

        @Override
        double inverse(double[] p, double value) {
            return value < p[0] ? induction(p) - Math.log1p(-value / p[0]) / p[1] : Double.NaN;
        }

        @Override
        void limit(double[] minutes, double[] lower, double[] upper) {
            super.limit(minutes, lower, upper);
            lower[0] = 0;
            lower[1] = LEAST_RATE / longest(minutes);
            upper[1] = MOST_RATE / shortest(minutes);
        }

        @Override
        double[] start(double[] minutes, double[] values) {
            return best(minutes, values, 0);
        }

        /** The best of a grid of rates, with the ceiling of each by linear least squares. */
        double[] best(double[] minutes, double[] values, double induction) {
            double low = Math.log(10 * LEAST_RATE / longest(minutes));
            double high = Math.log(0.5 * MOST_RATE / shortest(minutes));
            double[] best = null;
            double least = Double.POSITIVE_INFINITY;
            for (int k = 0; k <= STARTS; k++) {
                double rate = Math.exp(low + (high - low) * k / STARTS);
                double cross = 0;
                double square = 0;
                double total = 0;
                for (int i = 0; i < minutes.length; i++) {
                    double unit = -Math.expm1(-rate * (minutes[i] - induction));
                    cross += unit * values[i];
                    square += unit * unit;
                    total += values[i] * values[i];
                }
                double sum = total - cross * cross / square;
                if (sum < least && cross > 0) {
                    least = sum;
                    best = new double[] {cross / square, rate, induction, sum};
                }
            }
            return best;
        }
    }

    /** Ceiling, rate and induction time. */
    private static final class WithInduction extends Exponential {

        @Override
        int size() {
            return 3;
        }

        @Override
        double induction(double[] p) {
            return p[2];
        }

        @Override
        void limit(double[] minutes, double[] lower, double[] upper) {
            super.limit(minutes, lower, upper);
            lower[2] = 0;
            upper[2] = longest(minutes);
        }

        @Override
        void sizes(double[] minutes, double[] values, double[] sizes) {
            sizes[2] = shortest(minutes);
        }

        @Override
        double[] start(double[] minutes, double[] values) {
            double[] best = best(minutes, values, 0);
            for (double part = 0.1; part < 0.95; part += 0.1) {
                double[] next = best(minutes, values, part * shortest(minutes));
                if (best == null || (next != null && next[3] < best[3])) {
                    best = next;
                }
            }
            return best;
        }
    }

    /** A polynomial in ln t. */
    private static final class Polynomial extends TimeResponse {

        private final int degree;

        Polynomial(int degree) {
            this.degree = degree;
        }

        @Override
        int size() {
            return degree + 1;
        }

        @Override
        double value(double[] p, double minutes) {
            double z = Math.log(minutes);
            double value = 0;
            for (int j = degree; j >= 0; j--) {
                value = value * z + p[j];
            }
            return value;
        }

        @Override
        void sizes(double[] minutes, double[] values, double[] sizes) {
            double greatest = Arrays.stream(values).map(Math::abs).max().orElseThrow();
            Arrays.fill(sizes, 0, size(), Math.max(greatest, Double.MIN_NORMAL));
        }

        @Override
        double inverse(double[] p, double value) {
            return degree == 1 && p[1] > 0 ? Math.exp((value - p[0]) / p[1]) : Double.NaN;
        }

        @Override
        double[] start(double[] minutes, double[] values) {
            double[] p = new double[size()];
            p[0] = Arrays.stream(values).average().orElseThrow();
            if (degree > 0) {
                // The slope is not to begin at 0, or a temperature law fitted along would have nothing to act on.
                double run = Math.log(longest(minutes) / shortest(minutes));
                double rise = Arrays.stream(values).max().orElseThrow()
                        - Arrays.stream(values).min().orElseThrow();
                p[1] = rise / run;
                p[0] -= p[1] * Arrays.stream(minutes).map(Math::log).average().orElseThrow();
            }
            return p;
        }
    }

    /** The values at the distinct times. */
    private static final class Interpolation extends TimeResponse {

        private final double[] minutes;
        private final double[] logMinutes;

        Interpolation(double[] minutes) {
            this.minutes = minutes;
            logMinutes = Arrays.stream(minutes).map(Math::log).toArray();
        }

        @Override
        int size() {
            return minutes.length;
        }

        private MonotoneCubic cubic(double[] p) {
            return MonotoneCubic.through(logMinutes, Arrays.copyOf(p, size()), MonotoneSlopes.FRITSCH_BUTLAND);
        }

        @Override
        double value(double[] p, double time) {
            return cubic(p).density(Math.log(time));
        }

        @Override
        double inside(double[] p, double time) {
            return value(p, Math.max(minutes[0], Math.min(minutes[size() - 1], time)));
        }

        @Override
        double inverse(double[] p, double value) {
            int last = size() - 1;
            if (!(value >= p[0] && value <= p[last])) {
                return Double.NaN;
            }
            MonotoneCubic cubic = cubic(p);
            double high = logMinutes[last];
            double tolerance = 1e-14 * Math.max(1, Math.abs(high));
            return Math.exp(Roots.boundary(at -> cubic.density(at) < value, logMinutes[0], high, tolerance));
        }

        @Override
        double[] start(double[] times, double[] values) {
            double[] p = new double[size()];
            for (int k = 0; k < p.length; k++) {
                double sum = 0;
                int count = 0;
                for (int i = 0; i < times.length; i++) {
                    if (times[i] == minutes[k]) {
                        sum += values[i];
                        count++;
                    }
                }
                p[k] = sum / count;
            }
            return p;
        }
    }
}
