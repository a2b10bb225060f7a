// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import java.util.Optional;
import org.tonewedge.core.internal.Jointed;

/**
 * The search in the averaged gradient of cubics that are joined: (D(x + w/2) − D(x − w/2)) / w, or the gradient itself where
 * the window w is 0. Between places half a window from a joint it is one cubic (without a window a parabola), so it is
 * greatest at such a place or where its derivative, a parabola (without a window a line), is 0. Between two neighbouring
 * places of both kinds it rises or falls throughout.
 */
final class CubicExtremes implements GradientSearch {

    /** Gradients that differ by less, as a fraction, are alike: on a straight stretch the first place is the steepest. */
    private static final double ALIKE = 1e-12;

    private final CurveForm form;
    private final double[] joints;
    private final double window;
    private final double[] places;
    private final double[] gradients;

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
     */
    CubicExtremes(CurveForm form, double[] joints, double window, double from, double to) {
        this.form = form;
        this.joints = joints;
        this.window = window;
        places = extremes(form, joints, window, from, to);
        gradients = Arrays.stream(places).map(this::gradient).toArray();
    }

    private static double[] extremes(CurveForm form, double[] joints, double window, double from, double to) {
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
        return Arrays.copyOf(places, count);
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

    @Override
    public GradientSearch ofPart(double otherWindow, double start, double end) {
        return new CubicExtremes(form, joints, otherWindow, start, end);
    }

    @Override
    public double gradient(double x) {
        return GradientSearch.averaged(form, window, x);
    }

    @Override
    public double steepest() {
        int best = 0;
        for (int i = 1; i < places.length; i++) {
            if (gradients[i] - gradients[best] > ALIKE * Math.abs(gradients[best])) {
                best = i;
            }
        }
        return places[best];
    }

    @Override
    public double fallsBelow(double level, double start, int direction) {
        return GradientSearch.firstFall(this, places, gradients, level, start, direction);
    }
}
