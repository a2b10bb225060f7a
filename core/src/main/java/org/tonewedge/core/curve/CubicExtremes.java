// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Jointed;

/**
 * The averaged gradient of cubics that are joined: (D(x + w/2) − D(x − w/2)) / w, or the gradient itself where the window w is 0.
 * Between places half a window from a joint it is one cubic (without a window a parabola), so it is greatest at such a place or
 * where its derivative, a parabola (without a window a line), is 0. Between two neighbouring places of both kinds it rises
 * or falls throughout.
 */
final class CubicExtremes {

    /** Gradients that differ by less, as a fraction, are alike: on a straight stretch the first place is the steepest. */
    private static final double ALIKE = 1e-12;

    private final double[] places;
    private final double[] gradients;

    private CubicExtremes(double[] places, double[] gradients) {
        this.places = places;
        this.gradients = gradients;
    }

    /** Where the cubics of a form join; empty if it is not known to be made of cubics. */
    static Optional<double[]> joints(CurveForm form) {
        if (form instanceof MonotoneCubic cubic) {
            return Optional.of(cubic.joints());
        }
        if (form instanceof ShiftedForm shifted) {
            return joints(shifted.original()).map(shifted::moved);
        }
        return form instanceof Jointed jointed ? Optional.of(jointed.joints()) : Optional.empty();
    }

    /**
     * Finds the extremes.
     *
     * @param form the form
     * @param joints its joints, rising
     * @param window the window
     * @param from the lower end of the range
     * @param to the upper end
     * @param averaged the averaged gradient
     */
    static CubicExtremes of(
            CurveForm form, double[] joints, double window, double from, double to, DoubleUnaryOperator averaged) {
        double[] ends = ends(joints, window, from, to);
        int pieces = ends.length - 1;
        // at the ends and in the middle of each piece; with a window the derivative, without the gradient
        double[] at = new double[2 * pieces + 1];
        for (int i = 0; i <= pieces; i++) {
            at[2 * i] = ends[i];
            if (i < pieces) {
                at[2 * i + 1] = 0.5 * (ends[i] + ends[i + 1]);
            }
        }
        double[] parabola = parabola(form, window, at);
        double[] places = new double[3 * pieces + 1];
        int count = 0;
        for (int i = 0; i < pieces; i++) {
            double start = ends[i];
            double width = ends[i + 1] - start;
            places[count++] = start;
            double c = parabola[2 * i];
            double a = 2 * (c - 2 * parabola[2 * i + 1] + parabola[2 * i + 2]);
            double b = parabola[2 * i + 2] - c - a;
            double[] roots = window == 0 ? new double[] {-b / (2 * a)} : roots(a, b, c);
            for (double root : roots) {
                if (root > 0 && root < 1) {
                    places[count++] = start + root * width;
                }
            }
        }
        places[count++] = to;
        places = Arrays.copyOf(places, count);
        return new CubicExtremes(places, Arrays.stream(places).map(averaged).toArray());
    }

    /** The ends of the range and the places between them that are half a window from a joint, rising. */
    private static double[] ends(double[] joints, double window, double from, double to) {
        double[] ends = new double[2 * joints.length + 2];
        int count = 0;
        ends[count++] = from;
        int before = 0;
        int after = 0;
        while (before < joints.length || after < joints.length) {
            double early = before < joints.length ? joints[before] - window / 2 : Double.POSITIVE_INFINITY;
            double late = after < joints.length ? joints[after] + window / 2 : Double.POSITIVE_INFINITY;
            double next = Math.min(early, late);
            before += early <= late ? 1 : 0;
            after += late <= early ? 1 : 0;
            if (next > ends[count - 1] && next < to) {
                ends[count++] = next;
            }
        }
        ends[count++] = to;
        return Arrays.copyOf(ends, count);
    }

    private static double[] parabola(CurveForm form, double window, double[] at) {
        double[] values = new double[at.length];
        if (window == 0) {
            form.gradients(at, values);
            return values;
        }
        double[] moved = new double[at.length];
        Arrays.setAll(moved, i -> at[i] - window / 2);
        form.gradients(moved, moved);
        Arrays.setAll(values, i -> at[i] + window / 2);
        form.gradients(values, values);
        for (int i = 0; i < values.length; i++) {
            values[i] -= moved[i];
        }
        return values;
    }

    /** The roots of a t² + b t + c, rising; without the loss of digits of the usual formula. */
    private static double[] roots(double a, double b, double c) {
        double discriminant = b * b - 4 * a * c;
        if (!(discriminant >= 0)) {
            return new double[0];
        }
        double sum = -0.5 * (b + Math.copySign(Math.sqrt(discriminant), b));
        double one = sum / a;
        double other = c / sum;
        return new double[] {Math.min(one, other), Math.max(one, other)};
    }

    /** The position of the greatest gradient. */
    double steepest() {
        int best = 0;
        for (int i = 1; i < places.length; i++) {
            if (gradients[i] - gradients[best] > ALIKE * Math.abs(gradients[best])) {
                best = i;
            }
        }
        return places[best];
    }

    /** The first place from a start, in one direction, whose gradient is below a level; negative if there is none. */
    int firstBelow(double level, double start, int direction) {
        int i = direction > 0 ? 0 : places.length - 1;
        while (i >= 0 && i < places.length) {
            if (direction * (places[i] - start) > 0 && gradients[i] < level) {
                return i;
            }
            i += direction;
        }
        return -1;
    }

    /** A place. */
    double place(int index) {
        return places[index];
    }

    /** The place before another, seen from a start: between both the gradient only falls, if that of the other is lower. */
    double placeBefore(int index, double start, int direction) {
        int before = index - direction;
        return before >= 0 && before < places.length && direction * (places[before] - start) > 0
                ? places[before]
                : start;
    }
}
