// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.CubicPieces;
import org.tonewedge.core.internal.Figures;

/**
 * A piecewise cubic through given points that rises where they rise and falls where they fall, so it never overshoots a
 * reading. Its density and gradient are continuous.
 *
 * <p>It interpolates: noise in the readings enters the curve, and even more its gradient, which is an order less
 * accurate than the density. Beyond its first and last points it continues the end cubics; curves made by
 * {@link CharacteristicCurve#through CharacteristicCurve.through} never use that.
 *
 * <p>Immutable and thread safe.
 */
public final class MonotoneCubic implements CurveForm {

    /** An end slope of 0 is found as a turning point this near the end. */
    private static final double ROUNDING = 1e-9;

    private final double[] x;
    private final double[] y;
    private final CubicPieces pieces;

    private MonotoneCubic(double[] x, double[] y, double[] slopes) {
        this.x = x;
        this.y = y;
        pieces = new CubicPieces(x, y, slopes);
    }

    /**
     * Returns the cubic through points.
     *
     * @param x the positions, strictly rising, at least 2
     * @param y the values there
     * @param rule how the slopes at the points are chosen
     * @return the cubic
     * @throws IllegalArgumentException if there are fewer than 2 points, the arrays differ in length, a number is not
     *     finite, or the positions do not rise; the message names the point, counted from 1
     */
    public static MonotoneCubic through(double[] x, double[] y, MonotoneSlopes rule) {
        Objects.requireNonNull(rule, "rule");
        if (x.length < 2 || x.length != y.length) {
            throw new IllegalArgumentException("a monotone cubic needs as many values as positions and at least 2, had "
                    + x.length + " positions and " + y.length + " values");
        }
        if (!isPlain(x, y)) {
            requirePlain(x, y);
        }
        double[] slopes = rule == MonotoneSlopes.FRITSCH_CARLSON ? fritschCarlson(x, y) : fritschButland(x, y);
        return new MonotoneCubic(x.clone(), y.clone(), slopes);
    }

    /** Whether the positions rise and all numbers are finite: of rising ones only the first and the last can be infinite. */
    private static boolean isPlain(double[] x, double[] y) {
        boolean rises = true;
        double zero = 0 * y[0] + 0 * x[0] + 0 * x[x.length - 1];
        for (int i = 1; i < x.length; i++) {
            rises &= x[i] > x[i - 1];
            zero += 0 * y[i]; // NaN from here on if the value is not finite
        }
        return rises && zero == 0;
    }

    /** Names the first point that is not plain. */
    private static void requirePlain(double[] x, double[] y) {
        for (int i = 0; i < x.length; i++) {
            Checks.finite("position of point " + (i + 1), x[i]);
            Checks.finite("value of point " + (i + 1), y[i]);
            if (i > 0 && !(x[i] > x[i - 1])) {
                throw new IllegalArgumentException("position of point " + (i + 1)
                        + " must lie above that of the point before it, was " + x[i] + " after " + x[i - 1]);
            }
        }
    }

    private static double[] secants(double[] x, double[] y) {
        double[] secants = new double[x.length - 1];
        for (int i = 0; i < secants.length; i++) {
            secants[i] = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
        }
        return secants;
    }

    private static double[] fritschCarlson(double[] x, double[] y) {
        int last = x.length - 1;
        double[] m = new double[x.length];
        double secant = (y[1] - y[0]) / (x[1] - x[0]);
        m[0] = secant;
        for (int i = 0; i < last; i++) {
            double next = secant;
            if (i + 1 < last) {
                next = (y[i + 2] - y[i + 1]) / (x[i + 2] - x[i + 1]);
                m[i + 1] = secant * next > 0 ? 0.5 * (secant + next) : 0;
            } else {
                m[last] = secant;
            }
            // Of the paper's regions the circle: a later interval may only lower a slope, and then the slopes stay
            // inside the circle, but not always inside the whole region of monotone cubics.
            double squares = m[i] * m[i] + m[i + 1] * m[i + 1];
            if (squares > 9 * secant * secant) {
                double scale = 3 * Math.abs(secant) / Math.sqrt(squares);
                m[i] *= scale;
                m[i + 1] *= scale;
            }
            secant = next;
        }
        return m;
    }

    private static double[] fritschButland(double[] x, double[] y) {
        double[] s = secants(x, y);
        int last = s.length;
        double[] m = new double[x.length];
        if (last == 1) {
            Arrays.fill(m, s[0]);
            return m;
        }
        for (int i = 1; i < last; i++) {
            if (s[i - 1] * s[i] > 0) {
                double before = x[i] - x[i - 1];
                double after = x[i + 1] - x[i];
                double weightBefore = 2 * after + before;
                double weightAfter = after + 2 * before;
                m[i] = (weightBefore + weightAfter) / (weightBefore / s[i - 1] + weightAfter / s[i]);
            }
        }
        m[0] = endSlope(x[1] - x[0], x[2] - x[1], s[0], s[1]);
        m[last] = endSlope(x[last] - x[last - 1], x[last - 1] - x[last - 2], s[last - 1], s[last - 2]);
        return m;
    }

    /** The three-point slope at an end, set to 0 or to three secants where it would break the shape. */
    private static double endSlope(double nearest, double next, double secant, double nextSecant) {
        double slope = ((2 * nearest + next) * secant - nearest * nextSecant) / (nearest + next);
        if (slope * secant <= 0) {
            return 0;
        }
        return Math.signum(secant) != Math.signum(nextSecant) && Math.abs(slope) > 3 * Math.abs(secant)
                ? 3 * secant
                : slope;
    }

    @Override
    public double density(double logExposure) {
        return pieces.value(logExposure);
    }

    @Override
    public double gradient(double logExposure) {
        return pieces.slope(logExposure);
    }

    /**
     * Returns the points where the readings turn, or where a level stretch begins or ends. Beyond the first and last
     * points, it returns those where the end cubics turn.
     *
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the turning points strictly inside the range, rising
     */
    @Override
    public double[] turningPoints(double from, double to) {
        double[] turns = new double[x.length + 2]; // the inner points, and two turns of each end cubic
        int count = 0;
        int last = x.length - 1;
        for (double turn : stationary(0)) {
            if (turn <= x[0] + ROUNDING) {
                turns[count++] = Math.min(turn, x[0]);
            }
        }
        for (int i = 1; i < last; i++) {
            if (Math.signum(y[i] - y[i - 1]) != Math.signum(y[i + 1] - y[i])) {
                turns[count++] = x[i];
            }
        }
        for (double turn : stationary(last - 1)) {
            if (turn >= x[last] - ROUNDING) {
                turns[count++] = Math.max(turn, x[last]);
            }
        }
        int inside = 0;
        for (int i = 0; i < count; i++) {
            if (turns[i] > from && turns[i] < to) {
                turns[inside++] = turns[i];
            }
        }
        return Arrays.copyOf(turns, inside);
    }

    /** Where one cubic ends and the next begins, rising. */
    double[] joints() {
        return x.clone();
    }

    /** Where the cubic of interval i, continued, has gradient 0; rising. */
    private double[] stationary(int i) {
        // The gradient is a quadratic, known from its value at both ends of the interval and in the middle.
        double h = x[i + 1] - x[i];
        double start = gradient(x[i]);
        double middle = gradient(x[i] + 0.5 * h);
        double end = gradient(x[i + 1]);
        double square = 2 * (start - 2 * middle + end);
        double slope = end - start - square;
        if (square == 0) {
            return slope == 0 ? new double[0] : new double[] {x[i] - h * start / slope};
        }
        double discriminant = slope * slope - 4 * square * start;
        if (!(discriminant > 0)) {
            return new double[0];
        }
        double root = Math.sqrt(discriminant);
        double first = (-slope - root) / (2 * square);
        double second = (-slope + root) / (2 * square);
        return new double[] {x[i] + h * Math.min(first, second), x[i] + h * Math.max(first, second)};
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the number of readings and their range
     */
    @Override
    public String toString() {
        return "monotone cubic through " + x.length + " points from " + Figures.plain(x[0]) + " to "
                + Figures.plain(x[x.length - 1]);
    }
}
